//! The climates that come with the program: typical years in the public domain, stored as monthly states.

use super::climate_csv::read_climate_csv;
use super::problem::{Problem, Problems, quoted};
use crate::climate::{Climate, DesignTemperatures};
use crate::quantity::{Celsius, Metres};

const INDEX: &str = include_str!("../../catalog/climates/climates.csv");

/// The states of each climate that the index names.
const STATES: &[(&str, &str)] = &[
    (
        "chicago-ohare",
        include_str!("../../catalog/climates/chicago-ohare.csv"),
    ),
    (
        "pittsburgh",
        include_str!("../../catalog/climates/pittsburgh.csv"),
    ),
];

/// One row of the index.
#[derive(serde::Deserialize)]
struct Row {
    climate: String,
    name: String,
    elevation_m: f64,
    heating_99_6_c: Option<f64>,
    heating_99_c: Option<f64>,
    cooling_0_4_c: Option<f64>,
    cooling_1_c: Option<f64>,
    cooling_2_c: Option<f64>,
    source: String,
    design_source: String,
    year: u16,
    licence: String,
}

/// Every built-in climate, in the order of the index.
///
/// # Errors
/// A damaged built-in file; a test reads them all.
pub fn built_in_climates() -> Result<Vec<Climate>, Problems> {
    const FILE: &str = "built-in climates.csv";
    let mut reader = csv::Reader::from_reader(INDEX.as_bytes());
    reader
        .deserialize::<Row>()
        .map(|row| {
            let row =
                row.map_err(|error| Problem::new(FILE, error.to_string(), "a row of the index"))?;
            let states = STATES
                .iter()
                .find(|(key, _)| *key == row.climate)
                .map(|(_, states)| states);
            let states = states.ok_or_else(|| {
                Problem::new(FILE, quoted(&row.climate), "a climate that is built in")
            })?;
            let climate = read_climate_csv(
                &format!("built-in {}.csv", row.climate),
                states.as_bytes(),
                &row.climate,
            )?;
            Ok(described(climate, row))
        })
        .collect()
}

fn described(climate: Climate, row: Row) -> Climate {
    let degrees = |number: Option<f64>| number.map(Celsius);
    let mut notes = climate.notes;
    notes.push(format!("design temperatures: {}", row.design_source));
    Climate {
        name: row.name,
        source: format!("{} ({}), {}", row.source, row.year, row.licence),
        elevation: Some(Metres(row.elevation_m)),
        design: DesignTemperatures {
            heating_99_6: degrees(row.heating_99_6_c),
            heating_99: degrees(row.heating_99_c),
            cooling_0_4: degrees(row.cooling_0_4_c),
            cooling_1: degrees(row.cooling_1_c),
            cooling_2: degrees(row.cooling_2_c),
        },
        notes,
        ..climate
    }
}
