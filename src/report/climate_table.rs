//! A climate as a table of hours by temperature with bars, and the list of climates.

use std::collections::BTreeMap;

use super::table::{Column, PlainTable, paragraph};
use crate::climate::{Climate, bin_hours, cooling_degree_days, heating_degree_days, mean_outdoor};
use crate::quantity::{Celsius, UnitSystem, fixed};

/// The widest bar \[characters\].
const WIDEST_BAR: u16 = 48;

/// The climates, one a line.
#[must_use]
pub fn climate_list(climates: &[Climate], units: UnitSystem, width: u16) -> String {
    if climates.is_empty() {
        return "No climates yet; `overwinter climate import` takes a weather file in.\n"
            .to_owned();
    }
    let coldest = format!("coldest {}", units.temperature_unit());
    let mean = format!("mean {}", units.temperature_unit());
    let mut table = PlainTable::new(
        width,
        &[
            ("climate", Column::Words),
            ("name", Column::Words),
            ("hours", Column::Numbers),
            (&coldest, Column::Numbers),
            (&mean, Column::Numbers),
            ("humidity", Column::Words),
        ],
    );
    for climate in climates {
        let temperature =
            |t: Option<Celsius>| t.map_or_else(|| "-".to_owned(), |t| units.bare_temperature(t));
        table.row([
            climate.key.clone(),
            climate.name.clone(),
            fixed(climate.hours().0, 0),
            temperature(climate.states.first().map(|state| state.outdoor)),
            temperature(mean_outdoor(&climate.states)),
            if climate.has_humidity() { "yes" } else { "no" }.to_owned(),
        ]);
    }
    table.text()
}

/// One climate: where it is from, its design temperatures, its degree days where days are kept, and its bins of 1 K with a bar for each.
#[must_use]
pub fn climate_table(climate: &Climate, units: UnitSystem, width: u16) -> String {
    let mut text = paragraph(
        &format!("{} ({})", climate.name, climate.key),
        width,
        "",
        "  ",
    );
    text += &paragraph(&format!("Source: {}", climate.source), width, "", "  ");
    let mut facts = vec![format!("{} hours", fixed(climate.hours().0, 0))];
    facts.extend(climate.elevation.map(|height| match units {
        UnitSystem::Si => format!("{} m above sea level", fixed(height.0, 0)),
        UnitSystem::Ip => format!("{} ft above sea level", fixed(height.0 / 0.3048, 0)),
    }));
    facts.extend(
        mean_outdoor(&climate.states).map(|mean| format!("mean {}", units.temperature(mean))),
    );
    facts.push(if climate.hourly.is_empty() {
        "no degree days: the days are not kept, only their hours by temperature".to_owned()
    } else {
        degree_days(climate, units)
    });
    text += &paragraph(&facts.join(", "), width, "", "  ");
    text += &design(climate, units, width);
    for note in &climate.notes {
        text += &paragraph(note, width, "- ", "  ");
    }
    text.push('\n');
    text += &bins(climate, units, width);
    text
}

/// Degree days from daily means, to the bases in use in each unit system.
fn degree_days(climate: &Climate, units: UnitSystem) -> String {
    let (heating, cooling, scale, unit) = match units {
        UnitSystem::Si => (Celsius(18.0), Celsius(10.0), 1.0, "K d"),
        UnitSystem::Ip => (Celsius((65.0 - 32.0) / 1.8), Celsius(10.0), 1.8, "°F d"),
    };
    format!(
        "{} {unit} of heating below {}, {} {unit} of cooling above {} (daily means)",
        fixed(heating_degree_days(&climate.hourly, heating) * scale, 0),
        units.temperature(heating),
        fixed(cooling_degree_days(&climate.hourly, cooling) * scale, 0),
        units.temperature(cooling),
    )
}

fn design(climate: &Climate, units: UnitSystem, width: u16) -> String {
    let design = &climate.design;
    let given = [
        ("heating 99.6 %", design.heating_99_6),
        ("99 %", design.heating_99),
        ("cooling 0.4 %", design.cooling_0_4),
        ("1 %", design.cooling_1),
        ("2 %", design.cooling_2),
    ];
    let given: Vec<String> = given
        .into_iter()
        .filter_map(|(name, temperature)| {
            Some(format!("{name} {}", units.temperature(temperature?)))
        })
        .collect();
    if given.is_empty() {
        return String::new();
    }
    paragraph(
        &format!("Design temperatures: {}", given.join(", ")),
        width,
        "",
        "  ",
    )
}

fn bins(climate: &Climate, units: UnitSystem, width: u16) -> String {
    let bins = bin_hours(&climate.states);
    let most = bins.iter().map(|(_, hours)| hours.0).fold(0.0, f64::max);
    let widest = f64::from(width.saturating_sub(24).clamp(10, WIDEST_BAR));
    let mut table = PlainTable::new(
        width,
        &[
            (units.temperature_unit(), Column::Numbers),
            ("hours", Column::Numbers),
            ("", Column::Words),
        ],
    );
    for (centre, hours) in bins {
        table.row([
            units.bare_temperature(centre),
            fixed(hours.0, 0),
            bar(hours.0 / most * widest),
        ]);
    }
    table.text()
}

/// A bar so many characters long, to an eighth.
fn bar(length: f64) -> String {
    const EIGHTHS: [&str; 8] = ["", "▏", "▎", "▍", "▌", "▋", "▊", "▉"];
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a bar is a line long at most"
    )]
    let eighths = (length.max(0.0) * 8.0).round() as usize;
    // An hour is never drawn as nothing.
    let eighths = eighths.max(1);
    format!("{}{}", "█".repeat(eighths / 8), EIGHTHS[eighths % 8])
}

/// A climate as a machine reads it.
#[derive(Debug, serde::Serialize)]
pub struct ClimateAnswer {
    climate: String,
    name: String,
    source: String,
    elevation_m: Option<f64>,
    hours: f64,
    mean_outdoor_db_c: Option<f64>,
    design_c: BTreeMap<&'static str, Option<f64>>,
    notes: Vec<String>,
    states: Vec<StateAnswer>,
}

#[derive(Debug, serde::Serialize)]
struct StateAnswer {
    hours: f64,
    outdoor_db_c: f64,
    humidity_ratio: Option<f64>,
}

impl ClimateAnswer {
    /// The climate, full precision.
    #[must_use]
    pub fn of(climate: &Climate) -> Self {
        let design = &climate.design;
        let design_c = [
            ("heating_99_6", design.heating_99_6),
            ("heating_99", design.heating_99),
            ("cooling_0_4", design.cooling_0_4),
            ("cooling_1", design.cooling_1),
            ("cooling_2", design.cooling_2),
        ];
        Self {
            climate: climate.key.clone(),
            name: climate.name.clone(),
            source: climate.source.clone(),
            elevation_m: climate.elevation.map(|height| height.0),
            hours: climate.hours().0,
            mean_outdoor_db_c: mean_outdoor(&climate.states).map(|mean| mean.0),
            design_c: design_c
                .into_iter()
                .map(|(name, t)| (name, t.map(|t| t.0)))
                .collect(),
            notes: climate.notes.clone(),
            states: climate
                .states
                .iter()
                .map(|state| StateAnswer {
                    hours: state.hours.0,
                    outdoor_db_c: state.outdoor.0,
                    humidity_ratio: state.humidity_ratio.map(|w| w.0),
                })
                .collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::read_climate_csv;

    fn climate() -> Climate {
        let table = "# name: Our valley\n# source: invented\n# elevation_m: 200\noutdoor_db_c,hours\n-5,4380\n5,2190\n6,2190\n";
        read_climate_csv("valley.csv", table.as_bytes(), "valley").unwrap()
    }

    #[test]
    fn the_longest_bar_is_the_most_frequent_temperature() {
        let text = climate_table(&climate(), UnitSystem::Si, 60);
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(lines[0], "Our valley (valley)");
        // By hand: half at -5 °C, a quarter each at 5 and 6 °C.
        let unwrapped = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(
            unwrapped.contains("8760 hours, 200 m above sea level, mean 0.2 °C"),
            "{text}"
        );
        let bar_of = |start: &str| {
            let line = lines
                .iter()
                .find(|line| line.trim_start().starts_with(start))
                .unwrap();
            line.chars().filter(|letter| *letter == '█').count()
        };
        // By hand: 60 columns leave 36 for the longest bar; half the hours have half of it.
        assert_eq!((bar_of("-5.0"), bar_of("5.0"), bar_of("6.0")), (36, 18, 18));
        assert!(lines.iter().all(|line| line.chars().count() <= 60));
    }

    #[test]
    fn the_list_says_what_a_climate_can_judge() {
        let text = climate_list(&[climate()], UnitSystem::Ip, 80);
        let line = text.lines().last().unwrap();
        let words: Vec<&str> = line.split_whitespace().collect();
        assert_eq!(
            words,
            ["valley", "Our", "valley", "8760", "23.0", "32.5", "no"]
        );
        assert!(climate_list(&[], UnitSystem::Si, 80).starts_with("No climates yet"));
    }
}
