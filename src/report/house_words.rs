//! A house read back in plain sentences, so that its designer can hear whether the file says what was meant.

use crate::house::{
    ClimateReference, Cooling, Energy, Fan, Figure, Heating, House, Moisture, Tariff,
};
use crate::quantity::{Metres, UnitSystem, fixed};

/// The house in words.
///
/// - returns one paragraph for each subject: heating, cooling, moisture, place, energy; each begins with its name
#[must_use]
pub fn house_words(house: &House, units: UnitSystem) -> Vec<String> {
    vec![
        heating(house, &house.heating, units),
        house.cooling.as_ref().map_or_else(
            || "Cooling: the file has no section [cooling], so cooling is not judged.".to_owned(),
            |cooling| self::cooling(house, cooling, units),
        ),
        house.moisture.as_ref().map_or_else(
            || "Moisture: the file has no section [moisture], so humidity is not judged.".to_owned(),
            |moisture| self::moisture(house, moisture, units),
        ),
        place(house, units),
        house.energy.as_ref().map_or_else(
            || "Energy: the file has no section [energy], so no money, emissions or source energy are computed.".to_owned(),
            energy,
        ),
    ]
}

fn heating(house: &House, heating: &Heating, units: UnitSystem) -> String {
    let load = &heating.load;
    let mut words = format!(
        "Heating: the rooms are kept at {}. The house loses {} at {} outdoors, and from {} up it needs no heat.",
        units.temperature(house.indoor.heating),
        units.power(load.design_load),
        units.temperature(load.design_outdoor),
        units.temperature(load.zero_load_outdoor),
    );
    if heating.reserve > 0.0 {
        words += &format!(
            " A reserve of {} is wanted above that load: {} in all.",
            percent(heating.reserve),
            units.power(load.design_load * (1.0 + heating.reserve)),
        );
    }
    match heating.must_run_to {
        Some(temperature) => {
            words += &format!(
                " The unit must still run at {}, where the load line reads {}.",
                units.temperature(temperature),
                units.power(load.at(temperature)),
            );
        }
        None => words += " No colder temperature is named at which the unit must still run.",
    }
    words
}

fn cooling(house: &House, cooling: &Cooling, units: UnitSystem) -> String {
    let load = &cooling.load;
    let fan = match cooling.fan {
        Fan::Auto => "stops with the compressor",
        Fan::Continuous => "runs on while the compressor rests",
    };
    let mut words = format!(
        "Cooling: the rooms are kept at {}. The house gains {} of sensible heat at {} outdoors, and up to {} it needs \
         no cooling. The indoor fan {fan}.",
        units.temperature(house.indoor.cooling),
        units.power(load.design_sensible),
        units.temperature(load.design_outdoor),
        units.temperature(load.zero_load_outdoor),
    );
    if house.free_band().is_some_and(|band| band.0 < 0.0) {
        words += &format!(
            " Between {} and {} it calls for heating and cooling alike; check the two zero-load temperatures.",
            units.temperature(load.zero_load_outdoor),
            units.temperature(house.heating.load.zero_load_outdoor),
        );
    }
    words
}

fn moisture(house: &House, moisture: &Moisture, units: UnitSystem) -> String {
    let (held_back, why) = if moisture.latent_recovery > 0.0 {
        (percent(moisture.latent_recovery), "")
    } else {
        let why = " (latent_recovery is 0, or not given)";
        ("none".to_owned(), why)
    };
    let mut words = format!(
        "Moisture: people and what they do give off {}. Outdoor air leaks in at {} and comes through the ventilator at \
         {}, which holds back {held_back} of the moisture difference{why}. Indoors {} relative humidity is not to be passed.",
        units.water_per_day(moisture.people_and_activities),
        units.airflow(moisture.infiltration),
        units.airflow(moisture.ventilation),
        percent(house.indoor.humidity_limit),
    );
    if moisture.dehumidifier.0 > 0.0 {
        words += &format!(
            " A dehumidifier of {} is planned",
            units.water_per_day(moisture.dehumidifier)
        );
        if let Some(litres) = moisture.dehumidifier_litres_per_kwh {
            words += &format!(", which removes {litres} L per kWh");
        }
        words.push('.');
    }
    words
}

fn place(house: &House, units: UnitSystem) -> String {
    let climate = match &house.climate {
        Some(ClimateReference::Catalog(key)) => {
            format!("Its weather is the catalog's climate `{key}`.")
        }
        Some(ClimateReference::File(file)) => format!("Its weather is in the file `{file}`."),
        None => {
            "No climate is named, so only design conditions are judged, and no season.".to_owned()
        }
    };
    let altitude = house.altitude.map_or_else(
        || "altitude not given: sea level is assumed".to_owned(),
        |altitude| format!("{} above sea level", height(altitude, units)),
    );
    format!("Place: {altitude}. {climate}")
}

fn height(height: Metres, units: UnitSystem) -> String {
    match units {
        UnitSystem::Si => format!("{} m", fixed(height.0, 0)),
        UnitSystem::Ip => format!("{} ft", fixed(height.0 / 0.3048, 0)),
    }
}

fn energy(energy: &Energy) -> String {
    let currency = energy
        .currency
        .as_deref()
        .map_or_else(String::new, |currency| format!(" {currency}"));
    let mut figures: Vec<String> = energy
        .figures()
        .into_iter()
        .map(|(name, figure)| figure_words(name, figure, &currency))
        .collect();
    let tariffs = [
        ("electricity", &energy.electricity_tariff),
        ("fuel", &energy.fuel_tariff),
    ];
    for (name, tariff) in tariffs {
        if let Some(tariff) = tariff {
            let words = tariff_words(tariff, &currency);
            figures.push(format!("{name} is billed by {words}"));
        }
    }
    if figures.is_empty() {
        return "Energy: no figures are given, so no money, emissions or source energy are computed.".to_owned();
    }
    let backup = match energy.fuel_backup_efficiency() {
        Some(efficiency) => format!(
            "Backup heat comes from the fuel at {} efficiency.",
            percent(efficiency)
        ),
        None => "Backup heat is electric resistance.".to_owned(),
    };
    format!("Energy: {}. {backup}", figures.join("; "))
}

/// A tariff in words: its kind and how far its prices reach.
fn tariff_words(tariff: &Tariff, currency: &str) -> String {
    let prices: Vec<f64> = tariff.prices().iter().map(|price| price.value).collect();
    let least = prices.iter().copied().fold(f64::INFINITY, f64::min);
    let most = prices.iter().copied().fold(0.0, f64::max);
    format!(
        "a {}, from {least} to {most}{currency} per kWh",
        tariff.kind()
    )
}

fn figure_words(name: &str, figure: &Figure, currency: &str) -> String {
    let value = figure.value;
    let words = match name {
        "electricity_price" => format!("electricity costs {value}{currency} per kWh"),
        "electricity_monthly_charge" => format!("its account {value}{currency} a month"),
        "fuel_price" => format!("fuel costs {value}{currency} per kWh"),
        "fuel_monthly_charge" => format!("its account {value}{currency} a month"),
        "fuel_efficiency" => format!("the furnace turns {} of it into heat", percent(value)),
        "electricity_emissions_g" => {
            format!("a kWh of electricity emits {value} g of CO2-equivalent")
        }
        "fuel_emissions_g" => format!("a kWh of fuel emits {value} g of CO2-equivalent"),
        "electricity_source_factor" => {
            format!("a kWh of electricity takes {value} kWh of source energy")
        }
        "fuel_source_factor" => format!("a kWh of fuel takes {value} kWh of source energy"),
        other => format!("{} is {value}", other.replace('_', " ")),
    };
    let year = figure.year.map(|year| year.to_string());
    let origin: Vec<String> = figure.source.clone().into_iter().chain(year).collect();
    if origin.is_empty() {
        format!("{words} (source not stated)")
    } else {
        format!("{words} ({})", origin.join(", "))
    }
}

/// A share as a percentage with at most one decimal.
fn percent(share: f64) -> String {
    let text = fixed(share * 100.0, 1);
    format!("{} %", text.strip_suffix(".0").unwrap_or(&text))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::{HOUSE_TEMPLATE, read_house};

    fn template() -> House {
        read_house("new.toml", HOUSE_TEMPLATE).unwrap()
    }

    #[test]
    fn a_house_reads_back_in_si_units() {
        let mut house = template();
        house.heating.must_run_to = Some(crate::quantity::Celsius(-25.0));
        house.heating.reserve = 0.1;
        let words = house_words(&house, UnitSystem::Si);
        // By hand: 9.2 kW over 33 K gives 11.15 kW at 40 K; a tenth above 9.2 kW is 10.12 kW.
        assert_eq!(
            words[0],
            "Heating: the rooms are kept at 21.0 °C. The house loses 9.20 kW at -18.0 °C outdoors, and from 15.0 °C up \
             it needs no heat. A reserve of 10 % is wanted above that load: 10.12 kW in all. The unit must still run at \
             -25.0 °C, where the load line reads 11.15 kW."
        );
        assert_eq!(
            words[1],
            "Cooling: the rooms are kept at 24.0 °C. The house gains 5.10 kW of sensible heat at 32.0 °C outdoors, and \
             up to 19.0 °C it needs no cooling. The indoor fan runs on while the compressor rests."
        );
        assert_eq!(
            words[2],
            "Moisture: people and what they do give off 10.0 L/d. Outdoor air leaks in at 12 L/s and comes through the \
             ventilator at 35 L/s, which holds back 50 % of the moisture difference. Indoors 60 % relative humidity is \
             not to be passed."
        );
        assert_eq!(
            words[3],
            "Place: 200 m above sea level. No climate is named, so only design conditions are judged, and no season."
        );
        assert_eq!(
            words[4],
            "Energy: no figures are given, so no money, emissions or source energy are computed."
        );
    }

    #[test]
    fn the_same_house_reads_back_in_inch_pound_units() {
        let words = house_words(&template(), UnitSystem::Ip);
        assert!(words[0].starts_with(
            "Heating: the rooms are kept at 69.8 °F. The house loses 31.4 kBtu/h at -0.4 °F outdoors, and from 59.0 °F up"
        ));
        assert!(words[3].starts_with("Place: 656 ft above sea level."));
    }

    #[test]
    fn what_is_left_out_is_said_and_what_is_odd_is_pointed_at() {
        let mut house = template();
        house.cooling.as_mut().unwrap().load.zero_load_outdoor = crate::quantity::Celsius(13.0);
        let odd = "Between 13.0 °C and 15.0 °C it calls for heating and cooling alike; check the two zero-load temperatures.";
        assert!(house_words(&house, UnitSystem::Si)[1].ends_with(odd));
        house.cooling = None;
        house.moisture = None;
        house.altitude = None;
        house.climate = Some(ClimateReference::Catalog("pittsburgh".into()));
        house.energy = Some(Energy {
            currency: Some("CAD".into()),
            electricity_price: Some(Figure::from_source(0.14, "a bill", 2026)),
            fuel_price: Some(0.035.into()),
            fuel_efficiency: Some(0.95.into()),
            ..Energy::default()
        });
        let words = house_words(&house, UnitSystem::Si);
        assert_eq!(
            words[1],
            "Cooling: the file has no section [cooling], so cooling is not judged."
        );
        assert_eq!(
            words[2],
            "Moisture: the file has no section [moisture], so humidity is not judged."
        );
        assert_eq!(
            words[3],
            "Place: altitude not given: sea level is assumed. Its weather is the catalog's climate `pittsburgh`."
        );
        assert_eq!(
            words[4],
            "Energy: electricity costs 0.14 CAD per kWh (a bill, 2026); fuel costs 0.035 CAD per kWh (source not \
             stated); the furnace turns 95 % of it into heat (source not stated). Backup heat comes from the fuel at 95 \
             % efficiency."
        );
    }
}
