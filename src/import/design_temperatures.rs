//! The table of design temperatures that comes with the program.

use super::problem::{Problem, Problems, quoted};
use crate::climate::{DesignPlace, DesignStatus, DesignTemperatures};
use crate::quantity::Celsius;

const TABLE: &str = include_str!("../../catalog/design_temperatures.csv");

/// One row of the table.
#[derive(serde::Deserialize)]
struct Row {
    place: String,
    heating_99_6_c: Option<f64>,
    heating_99_c: Option<f64>,
    cooling_0_4_c: Option<f64>,
    cooling_1_c: Option<f64>,
    cooling_2_c: Option<f64>,
    january_2_5_percent_c: Option<f64>,
    january_1_percent_c: Option<f64>,
    july_2_5_percent_db_c: Option<f64>,
    july_2_5_percent_wb_c: Option<f64>,
    heating_degree_days_18: Option<f64>,
    source: String,
    status: String,
}

/// Every place in the table, in its order. One city may stand in several rows, from several sources.
///
/// # Errors
/// A damaged table; a test reads it.
pub fn design_temperatures() -> Result<Vec<DesignPlace>, Problems> {
    const FILE: &str = "built-in design_temperatures.csv";
    let degrees = |number: Option<f64>| number.map(Celsius);
    let mut reader = csv::Reader::from_reader(TABLE.as_bytes());
    reader
        .deserialize::<Row>()
        .map(|row| {
            let row =
                row.map_err(|error| Problem::new(FILE, error.to_string(), "a row of the table"))?;
            let status = match row.status.as_str() {
                "read" => DesignStatus::Read,
                "memory" => DesignStatus::Memory,
                other => return Err(Problem::new(FILE, quoted(other), "read or memory").into()),
            };
            Ok(DesignPlace {
                place: row.place,
                annual: DesignTemperatures {
                    heating_99_6: degrees(row.heating_99_6_c),
                    heating_99: degrees(row.heating_99_c),
                    cooling_0_4: degrees(row.cooling_0_4_c),
                    cooling_1: degrees(row.cooling_1_c),
                    cooling_2: degrees(row.cooling_2_c),
                },
                january_2_5: degrees(row.january_2_5_percent_c),
                january_1: degrees(row.january_1_percent_c),
                july_2_5: degrees(row.july_2_5_percent_db_c),
                july_2_5_wet_bulb: degrees(row.july_2_5_percent_wb_c),
                heating_degree_days_18: row.heating_degree_days_18,
                source: row.source,
                status,
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_from_memory_are_marked_as_such() {
        let places = design_temperatures().unwrap();
        let named = |name: &str| {
            places
                .iter()
                .filter(|place| place.answers_to(name))
                .collect::<Vec<_>>()
        };
        assert_eq!(named("saskatoon")[0].status, DesignStatus::Memory);
        let [toronto, city_hall] = named("toronto")[..] else {
            panic!("two rows for Toronto")
        };
        assert_eq!(
            (toronto.status, toronto.annual.heating_99_6),
            (DesignStatus::Read, Some(Celsius(-18.0)))
        );
        assert_eq!(
            (city_hall.status, city_hall.january_2_5),
            (DesignStatus::Memory, Some(Celsius(-18.0)))
        );
    }
}
