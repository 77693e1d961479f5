//! A unit's summer for people: by outdoor temperature, the hours without a call apart, and two indoor temperatures compared.

use super::foot::sources_and_cautions;
use super::humidity_answer::{HUMIDITY_NOTES, HumidityView, fan_name};
use super::table::{Column, PlainTable, paragraph};
use crate::cooling::{HumiditySeason, Known};
use crate::quantity::{Hours, KilogramsPerHour, KilowattHours, Kilowatts, UnitSystem, fixed};
use crate::study::{Summer, SummerRow};

/// How the columns are to be read.
const LEGEND: &str = "SHR to hold: the house's sensible share with the room at the limit; an SHR given above it leaves the room \
    above the limit. The unit cycles below its minimum, runs between its speeds, or flat out; water on average of the row's \
    hours.";

/// The summer as text.
#[must_use]
pub fn humidity_table(view: &HumidityView<'_>) -> String {
    let mut text = head(view);
    text += "\nWITH A CALL FOR COOLING, by outdoor temperature\n";
    text += &with_call(view);
    text += &sums(view);
    text += &without_call(view);
    text += &compared(view);
    text.push('\n');
    for caveat in view.caveats {
        // The notes below say it of every unit.
        if caveat.code() != "dehumidifier_heat_not_counted" {
            let sentence = format!("Caveat: {}.", caveat.text(view.units));
            text += &paragraph(&sentence, view.width, "", "  ");
        }
    }
    for note in HUMIDITY_NOTES {
        text += &paragraph(note, view.width, "", "  ");
    }
    text + &sources_and_cautions(view.sources, view.width)
}

fn head(view: &HumidityView<'_>) -> String {
    let (house, units) = (view.house, view.units);
    let mut text = paragraph(
        &format!("{}: {}", house.name, view.unit),
        view.width,
        "",
        "",
    );
    let mut kept = format!(
        "Room kept at {} dry bulb; limit {:.0} % relative humidity; fan {}",
        units.temperature(view.summer.indoor),
        house.indoor.humidity_limit * 100.0,
        fan_name(house),
    );
    if let Some(cooling) = &house.cooling {
        kept += &format!(
            ". Gains {} sensible at {}, nothing up to {}",
            units.power(cooling.load.design_sensible),
            units.temperature(cooling.load.design_outdoor),
            units.temperature(cooling.load.zero_load_outdoor),
        );
    }
    if let Some(moisture) = house
        .moisture
        .filter(|moisture| moisture.dehumidifier > KilogramsPerHour::ZERO)
    {
        kept += &format!(
            ". A dehumidifier of {} is planned",
            units.water_per_day(moisture.dehumidifier)
        );
    }
    kept += &format!(". Climate: {}.", view.climate);
    text += &paragraph(&kept, view.width, "", "");
    text
}

fn with_call(view: &HumidityView<'_>) -> String {
    let units = view.units;
    let power = units.power_unit();
    let heads = [
        format!("{} out", units.temperature_unit()),
        "hours".to_owned(),
        format!("sens. {power}"),
        format!("latent {power}"),
        "SHR to hold".to_owned(),
        "SHR given".to_owned(),
        "run %".to_owned(),
        "how it runs".to_owned(),
        "RH % mean".to_owned(),
        "RH % peak".to_owned(),
        units.water_per_day_unit().to_owned(),
    ];
    let columns: Vec<(&str, Column)> = heads
        .iter()
        .map(|head| {
            let words = head == "how it runs";
            let column = if words {
                Column::Words
            } else {
                Column::Numbers
            };
            (head.as_str(), column)
        })
        .collect();
    let mut table = PlainTable::new(view.width, &columns);
    for row in &view.summer.rows {
        let outdoor = match units {
            UnitSystem::Si => fixed(row.outdoor.0, 0),
            UnitSystem::Ip => units.bare_temperature(row.outdoor),
        };
        table.row(cells(view, row, outdoor));
    }
    if view.summer.rows.len() > 1 {
        table.row(cells(view, &view.summer.all, "all".to_owned()));
    }
    table.text()
}

fn cells(view: &HumidityView<'_>, row: &SummerRow, outdoor: String) -> Vec<String> {
    let (summer, units) = (view.summer, view.units);
    let proven = row.proven_hours() > Hours::ZERO;
    let coil = proven && summer.coil_is_known();
    let turns = proven && summer.turndown_is_known();
    let humid = proven && summer.humidity_is_known();
    let mean_power = |energy: KilowattHours| {
        row.mean(energy.0)
            .map(|kilowatts| units.bare_power(Kilowatts(kilowatts)))
    };
    let percent = |share: Option<f64>| share.map(|share| fixed(share * 100.0, 0));
    let shown = |known: bool, text: Option<String>| {
        text.filter(|_| known).unwrap_or_else(|| "?".to_owned())
    };
    let litres = row
        .mean(row.supplemental.0)
        .map(|flow| units.bare_water_per_day(KilogramsPerHour(flow)));
    vec![
        outdoor,
        fixed(row.hours.0, 0),
        shown(coil, mean_power(row.sensible_load())),
        shown(humid, mean_power(row.latent_load)),
        shown(
            humid,
            row.required_sensible_heat_ratio()
                .map(|ratio| fixed(ratio, 2)),
        ),
        shown(
            humid,
            row.delivered_sensible_heat_ratio()
                .map(|ratio| fixed(ratio, 2)),
        ),
        shown(turns, percent(row.run_fraction())),
        shown(turns || !proven, Some(how_it_runs(row))),
        shown(humid, percent(row.mean_relative_humidity())),
        shown(humid, percent(row.peak_relative_humidity)),
        shown(humid, litres),
    ]
}

/// How the unit runs in most of a row's hours, with their share where it is not all of them.
fn how_it_runs(row: &SummerRow) -> String {
    let ways = [
        (row.flat_hours, "flat"),
        (row.modulating_hours, "between"),
        (row.cycling_hours, "cycles"),
        (row.unproven_hours, "unproven"),
    ];
    let mut most = ways[0];
    for way in ways {
        if way.0 > most.0 {
            most = way;
        }
    }
    let share = most.0 / row.hours;
    if share > 0.995 || most.0 == row.unproven_hours {
        most.1.to_owned()
    } else {
        format!("{} {:.0} %", most.1, share * 100.0)
    }
}

fn sums(view: &HumidityView<'_>) -> String {
    let (units, summer) = (view.units, view.summer);
    let season = &summer.season;
    let Some(known) = season.known else {
        return paragraph(
            "A published sensible heat ratio is impossible at its capacity and airflow: nothing more can be said of this \
             summer.",
            view.width,
            "",
            "",
        );
    };
    let mut text = format!(
        "The season: {} sensible heat removed with {} of electricity",
        energy(known.sensible),
        energy(known.electricity)
    );
    if known.shortfall.0 >= 0.5 {
        text += &format!(
            "; {} of the sensible load left unmet",
            energy(known.shortfall)
        );
    }
    if let Some(cycling) = known.cycling_hours {
        text += &format!("; cycling in {}", of_hours(cycling, season.cooling_hours));
    }
    if let Some(humidity) = known.humidity {
        let without = humidity.supplemental.0 - summer.all.supplemental.0;
        text += &format!(
            "; {} above the limit. The unit removes {} of water. To hold the limit as well takes {} a year, {} of it while \
             there is no call, and {} at most",
            of_hours(humidity.humid_hours, season.cooling_hours),
            units.water_per_year(humidity.removed.0),
            units.water_per_year(humidity.supplemental.0),
            units.water_per_year(without),
            units.water_per_day(humidity.supplemental_peak),
        );
    }
    text.push('.');
    let mut text = paragraph(&text, view.width, "", "");
    if summer.humidity_is_known() {
        text += &paragraph(LEGEND, view.width, "", "");
    }
    text
}

fn energy(energy: KilowattHours) -> String {
    fixed(energy.0, 0) + " kWh"
}

fn of_hours(part: Hours, all: Hours) -> String {
    let share = if all > Hours::ZERO { part / all } else { 0.0 };
    format!(
        "{} of {} h ({:.0} %)",
        fixed(part.0, 0),
        fixed(all.0, 0),
        share * 100.0
    )
}

fn without_call(view: &HumidityView<'_>) -> String {
    let (units, rows) = (view.units, &view.summer.without_call);
    if rows.is_empty() {
        return String::new();
    }
    let mut text = "\nWITHOUT A CALL: no cooling unit removes anything here\n".to_owned();
    let heads = [
        format!("{} out", units.temperature_unit()),
        "hours".to_owned(),
        "above the limit".to_owned(),
        format!("mean {}", units.water_per_day_unit()),
        format!("peak {}", units.water_per_day_unit()),
        units.water_per_year_unit().to_owned() + " a year",
    ];
    let columns: Vec<(&str, Column)> = heads
        .iter()
        .map(|head| (head.as_str(), Column::Numbers))
        .collect();
    let mut table = PlainTable::new(view.width, &columns);
    for row in rows {
        let outdoor = match units {
            UnitSystem::Si => fixed(row.outdoor.0, 0),
            UnitSystem::Ip => units.bare_temperature(row.outdoor),
        };
        table.row([
            outdoor,
            fixed(row.hours.0, 0),
            fixed(row.humid_hours.0, 0) + " h",
            units.bare_water_per_day(KilogramsPerHour(row.supplemental.0 / row.hours.0)),
            units.bare_water_per_day(row.supplemental_peak),
            units.bare_water_per_year(row.supplemental.0),
        ]);
    }
    text += &table.text();
    text
}

fn compared(view: &HumidityView<'_>) -> String {
    let (units, compared) = (view.units, view.compared);
    let mut text = "\nDRY-BULB CONTROL at other indoor temperatures, the load kept\n".to_owned();
    let heads = [
        format!("{} room", units.temperature_unit()),
        "RH mean".to_owned(),
        "RH peak".to_owned(),
        "humid hours".to_owned(),
        "cycling hours".to_owned(),
        "kWh".to_owned(),
        units.water_per_year_unit().to_owned() + " to remove",
    ];
    let columns: Vec<(&str, Column)> = heads
        .iter()
        .map(|head| (head.as_str(), Column::Numbers))
        .collect();
    let mut table = PlainTable::new(view.width, &columns);
    for summer in compared {
        let known = summer.season.known;
        let all = summer.season.cooling_hours;
        let unknown = || "?".to_owned();
        let hours = |hours: Hours| {
            let share = if all > Hours::ZERO { hours / all } else { 0.0 };
            format!("{} ({:.0} %)", fixed(hours.0, 0), share * 100.0)
        };
        let humid = |word: &dyn Fn(HumiditySeason) -> Option<String>| {
            known
                .and_then(|known| known.humidity)
                .and_then(word)
                .unwrap_or_else(unknown)
        };
        let percent = |share: f64| fixed(share * 100.0, 1) + " %";
        table.row([
            units.bare_temperature(summer.indoor),
            humid(&|_| summer.all.mean_relative_humidity().map(percent)),
            humid(&|humidity| humidity.peak_relative_humidity.map(percent)),
            humid(&|humidity| Some(hours(humidity.humid_hours))),
            known
                .and_then(|known: Known| known.cycling_hours)
                .map_or_else(unknown, hours),
            known.map_or_else(unknown, |known| fixed(known.electricity.0, 0)),
            humid(&|humidity| Some(units.bare_water_per_year(humidity.supplemental.0))),
        ]);
    }
    text += &table.text();
    if let [first, .., last] = compared {
        text += &verdict(view, first, last);
    }
    text
}

/// What the colder of two rooms comes to, in a sentence.
fn verdict(view: &HumidityView<'_>, first: &Summer, last: &Summer) -> String {
    let (colder, warmer) = if first.indoor <= last.indoor {
        (first, last)
    } else {
        (last, first)
    };
    let humidity = |summer: &Summer| {
        Some((
            summer.all.mean_relative_humidity()?,
            summer.season.known?.humidity?,
        ))
    };
    let Some(((cold_mean, cold), (warm_mean, warm))) = humidity(colder).zip(humidity(warmer))
    else {
        return String::new();
    };
    let units = view.units;
    let more = |by: f64, unit: &str| {
        if by >= 0.0 {
            format!("{}{unit} more", fixed(by, 0))
        } else {
            format!("{}{unit} fewer", fixed(-by, 0))
        }
    };
    let points = (cold_mean - warm_mean) * 100.0;
    let clammier = if points >= 0.05 {
        "and clammier"
    } else {
        "but not clammier"
    };
    let sentence = format!(
        "Colder {clammier}: at {} instead of {} the mean humidity is {} points {}, with {} above the limit, and to hold it takes \
         {} a year instead of {}.",
        units.temperature(colder.indoor),
        units.temperature(warmer.indoor),
        fixed(points.abs(), 1),
        if points >= 0.0 { "higher" } else { "lower" },
        more((cold.humid_hours - warm.humid_hours).0, " h"),
        units.water_per_year(cold.supplemental.0),
        units.water_per_year(warm.supplemental.0),
    );
    paragraph(&sentence, view.width, "", "")
}
