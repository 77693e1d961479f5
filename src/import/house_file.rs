//! Reads a house from its TOML file: every quantity in SI or inch-pound units, every problem at its line.

use super::energy_section::energy;
use super::problem::Problems;
use super::toml_reader::{Placed, Section, TomlReader};
use crate::house::{
    ClimateReference, Cooling, CoolingLoadLine, Fan, Heating, HeatingLoadLine, House, Indoor,
    Moisture,
};
use crate::quantity::{Celsius, Dimension, KilogramsPerHour, Kilowatts, LitresPerSecond, Metres};

const SECTIONS: &[&str] = &[
    "name", "indoor", "heating", "cooling", "moisture", "site", "energy",
];

/// Reads a house.
///
/// - `file`  what the user calls the file, for messages
/// - `text`  its content
///
/// # Errors
/// Every problem found, in the order of the lines: text that is no TOML, names that are not known, values that are missing,
/// in another unit, or impossible.
pub fn read_house(file: &str, text: &str) -> Result<House, Problems> {
    let mut reader = TomlReader::new(file, text);
    let document = reader.parse();
    let root = TomlReader::root(&document);
    reader.only_known(&root, SECTIONS, |_| false);
    let name = reader.text(&root, "name", "the house's name, in quotes");
    let indoor = reader
        .section(&root, "indoor")
        .and_then(|section| indoor(&mut reader, &section));
    let heating = reader
        .section(&root, "heating")
        .and_then(|section| heating(&mut reader, &section, indoor));
    let cooling = reader
        .optional_section(&root, "cooling")
        .map(|section| cooling(&mut reader, &section));
    let moisture = reader
        .optional_section(&root, "moisture")
        .map(|section| moisture(&mut reader, &section));
    let site = reader
        .optional_section(&root, "site")
        .map(|section| site(&mut reader, &section));
    let energy = reader
        .optional_section(&root, "energy")
        .map(|section| energy(&mut reader, &section));
    let house = || {
        let (altitude, climate) = transposed(site)?.unwrap_or_default();
        Some(House {
            name: name?.value,
            indoor: indoor?,
            heating: heating?,
            // A section that is there must be whole: an unreadable one fails the house, a missing one does not.
            cooling: transposed(cooling)?,
            moisture: transposed(moisture)?,
            altitude,
            climate,
            energy,
        })
    };
    let house = house();
    reader.finish(house)
}

fn transposed<T>(section: Option<Option<T>>) -> Option<Option<T>> {
    match section {
        None => Some(None),
        Some(None) => None,
        Some(Some(value)) => Some(Some(value)),
    }
}

/// An outdoor temperature within what Earth has seen (-89 to 57 °C; World Meteorological Organization, from memory).
fn outdoor(reader: &mut TomlReader<'_>, section: &Section<'_>, key: &str) -> Option<Placed<f64>> {
    let placed = reader.quantity(section, key, Dimension::Temperature)?;
    within_weather(reader, placed)
}

fn within_weather(reader: &mut TomlReader<'_>, placed: Placed<f64>) -> Option<Placed<f64>> {
    let hint = Some("a number without a unit is in °C; write \"0 °F\" for Fahrenheit".to_owned());
    let holds = (-90.0..=60.0).contains(&placed.value);
    reader
        .demand_with_hint(
            &placed,
            holds,
            "an outdoor temperature from -90 to 60 °C",
            hint,
        )
        .then_some(placed)
}

fn indoor(reader: &mut TomlReader<'_>, section: &Section<'_>) -> Option<Indoor> {
    reader.only_known(section, &["heating", "cooling", "humidity_limit"], |_| {
        false
    });
    let mut set_point = |key| {
        let placed = reader.quantity(section, key, Dimension::Temperature)?;
        let hint =
            Some("a number without a unit is in °C; write \"70 °F\" for Fahrenheit".to_owned());
        let holds = (5.0..=40.0).contains(&placed.value);
        let fine = reader.demand_with_hint(
            &placed,
            holds,
            "an indoor temperature from 5 to 40 °C",
            hint,
        );
        fine.then_some(Celsius(placed.value))
    };
    let heating = set_point("heating");
    let cooling = set_point("cooling");
    let limit = reader.optional_quantity(section, "humidity_limit", Dimension::Fraction);
    let fine = limit.as_ref().is_none_or(|limit| {
        let hint = Some("60 % relative humidity is written 0.60 or \"60 %\"".to_owned());
        let holds = limit.value > 0.0 && limit.value <= 1.0;
        let expected = "a relative humidity above 0 and at most 1";
        reader.demand_with_hint(limit, holds, expected, hint)
    });
    Some(Indoor {
        heating: heating?,
        cooling: cooling?,
        humidity_limit: fine
            .then(|| limit.map_or(Indoor::DEFAULT_HUMIDITY_LIMIT, |limit| limit.value))?,
    })
}

/// A load at design conditions, above zero.
fn load(reader: &mut TomlReader<'_>, section: &Section<'_>, key: &str) -> Option<Kilowatts> {
    let placed = reader.quantity(section, key, Dimension::Power)?;
    reader
        .demand(&placed, placed.value > 0.0, "a load above 0 kW")
        .then_some(Kilowatts(placed.value))
}

fn heating(
    reader: &mut TomlReader<'_>,
    section: &Section<'_>,
    indoor: Option<Indoor>,
) -> Option<Heating> {
    reader.only_known(
        section,
        &[
            "design_outdoor",
            "design_load",
            "zero_load_outdoor",
            "must_run_to",
            "reserve",
        ],
        |_| false,
    );
    let design = outdoor(reader, section, "design_outdoor");
    let design_load = load(reader, section, "design_load");
    let zero = outdoor(reader, section, "zero_load_outdoor");
    let must_run_to = reader
        .optional_quantity(section, "must_run_to", Dimension::Temperature)
        .and_then(|placed| within_weather(reader, placed));
    let reserve = reader.optional_quantity(section, "reserve", Dimension::Fraction);
    if let Some(reserve) = &reserve {
        let hint = Some("a tenth above the design load is written 0.10 or \"10 %\"".to_owned());
        reader.demand_with_hint(
            reserve,
            (0.0..=2.0).contains(&reserve.value),
            "a share of the design load from 0 to 2",
            hint,
        );
    }
    if let (Some(design), Some(zero)) = (&design, &zero) {
        let expected = format!(
            "a temperature colder than zero_load_outdoor ({})",
            reader.written(zero)
        );
        reader.demand(design, design.value < zero.value, &expected);
    }
    if let (Some(zero), Some(indoor)) = (&zero, indoor) {
        let expected = format!(
            "a temperature no warmer than the house is heated to ({} °C)",
            indoor.heating.0
        );
        reader.demand(zero, zero.value <= indoor.heating.0, &expected);
    }
    if let (Some(design), Some(must)) = (&design, &must_run_to) {
        let expected = format!(
            "a temperature no warmer than design_outdoor ({})",
            reader.written(design)
        );
        reader.demand(must, must.value <= design.value, &expected);
    }
    Some(Heating {
        load: HeatingLoadLine {
            design_outdoor: Celsius(design?.value),
            design_load: design_load?,
            zero_load_outdoor: Celsius(zero?.value),
        },
        must_run_to: must_run_to.map(|placed| Celsius(placed.value)),
        reserve: reserve.map_or(0.0, |placed| placed.value),
    })
}

fn cooling(reader: &mut TomlReader<'_>, section: &Section<'_>) -> Option<Cooling> {
    reader.only_known(
        section,
        &[
            "design_outdoor",
            "design_sensible",
            "zero_load_outdoor",
            "fan",
        ],
        |_| false,
    );
    let design = outdoor(reader, section, "design_outdoor");
    let design_sensible = load(reader, section, "design_sensible");
    let zero = outdoor(reader, section, "zero_load_outdoor");
    let expected = "\"auto\" or \"continuous\"";
    let mut fan = Fan::default();
    if let Some(word) = reader.optional_text(section, "fan", expected) {
        match word.value.as_str() {
            "auto" => fan = Fan::Auto,
            "continuous" => fan = Fan::Continuous,
            _ => {
                reader.demand(&word, false, expected);
            }
        }
    }
    if let (Some(design), Some(zero)) = (&design, &zero) {
        let expected = format!(
            "a temperature warmer than zero_load_outdoor ({})",
            reader.written(zero)
        );
        reader.demand(design, design.value > zero.value, &expected);
    }
    Some(Cooling {
        load: CoolingLoadLine {
            design_outdoor: Celsius(design?.value),
            design_sensible: design_sensible?,
            zero_load_outdoor: Celsius(zero?.value),
        },
        fan,
    })
}

fn moisture(reader: &mut TomlReader<'_>, section: &Section<'_>) -> Option<Moisture> {
    reader.only_known(
        section,
        &[
            "people_and_activities",
            "infiltration",
            "ventilation",
            "latent_recovery",
            "dehumidifier",
            "dehumidifier_l_per_kwh",
        ],
        |_| false,
    );
    let mut flow = |key, dimension, required: bool| {
        let placed = if required {
            reader.quantity(section, key, dimension)?
        } else {
            reader.optional_quantity(section, key, dimension)?
        };
        reader
            .demand(&placed, placed.value >= 0.0, "a flow that is not negative")
            .then_some(placed.value)
    };
    let people = flow("people_and_activities", Dimension::WaterFlow, true);
    let infiltration = flow("infiltration", Dimension::AirFlow, true);
    let ventilation = flow("ventilation", Dimension::AirFlow, true);
    let dehumidifier = flow("dehumidifier", Dimension::WaterFlow, false);
    // A ventilator holds moisture back only where that is said of it.
    let mut recovery = Some(0.0);
    if section.has("latent_recovery") {
        let given = reader.quantity(section, "latent_recovery", Dimension::Fraction);
        if let Some(given) = &given {
            let hint = Some("a ventilator without moisture recovery has 0".to_owned());
            reader.demand_with_hint(
                given,
                (0.0..=1.0).contains(&given.value),
                "a share from 0 to 1",
                hint,
            );
        }
        recovery = given.map(|given| given.value);
    }
    let yield_per_kwh =
        reader.optional_quantity(section, "dehumidifier_l_per_kwh", Dimension::Number);
    if let Some(litres) = &yield_per_kwh {
        reader.demand(litres, litres.value > 0.0, "litres per kWh, above 0");
    }
    Some(Moisture {
        people_and_activities: KilogramsPerHour(people?),
        infiltration: LitresPerSecond(infiltration?),
        ventilation: LitresPerSecond(ventilation?),
        latent_recovery: recovery?,
        dehumidifier: KilogramsPerHour(dehumidifier.unwrap_or(0.0)),
        dehumidifier_litres_per_kwh: yield_per_kwh.map(|placed| placed.value),
    })
}

fn site(
    reader: &mut TomlReader<'_>,
    section: &Section<'_>,
) -> Option<(Option<Metres>, Option<ClimateReference>)> {
    reader.only_known(section, &["altitude", "climate", "climate_file"], |_| false);
    let altitude = reader.optional_quantity(section, "altitude", Dimension::Length);
    if let Some(altitude) = &altitude {
        reader.demand(
            altitude,
            (-500.0..=6000.0).contains(&altitude.value),
            "a height above sea level from -500 to 6000 m",
        );
    }
    let key = reader.optional_text(
        section,
        "climate",
        "the name of a climate in the catalog, in quotes",
    );
    let file = reader.optional_text(
        section,
        "climate_file",
        "the name of a weather file, in quotes",
    );
    let climate = match (key, file) {
        (Some(_), Some(file)) => {
            let hint = Some("leave one of the two out".to_owned());
            reader.demand_with_hint(
                &file,
                false,
                "either `climate` or `climate_file`, not both",
                hint,
            );
            return None;
        }
        (Some(key), None) => Some(ClimateReference::Catalog(key.value)),
        (None, Some(file)) => Some(ClimateReference::File(file.value)),
        (None, None) => None,
    };
    Some((altitude.map(|altitude| Metres(altitude.value)), climate))
}
