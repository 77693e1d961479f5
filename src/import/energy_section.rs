//! Reads the prices and factors of a house file's `[energy]`.

use super::toml_reader::{Section, TomlReader};
use crate::house::Energy;
use crate::quantity::Dimension;

const KEYS: &[&str] = &[
    "currency",
    "electricity_price",
    "fuel_price",
    "fuel_efficiency",
    "electricity_emissions_g",
    "fuel_emissions_g",
    "electricity_source_factor",
    "fuel_source_factor",
];

/// Reads `[energy]`; what cannot be read is noted and left out.
///
/// A key that ends in `_source` or `_year` says where a number comes from; any such note is let pass.
pub(super) fn energy(reader: &mut TomlReader<'_>, section: &Section<'_>) -> Energy {
    let is_note = |key: &str| key.ends_with("_source") || key.ends_with("_year");
    reader.only_known(section, KEYS, is_note);
    let notes: Vec<String> = section
        .entries()
        .map(|(key, _)| key.to_owned())
        .filter(|key| is_note(key))
        .collect();
    for key in notes {
        if key.ends_with("_source") {
            reader.optional_text(section, &key, "where the number comes from, in quotes");
        } else if let Some(year) = reader.optional_quantity(section, &key, Dimension::Number) {
            reader.demand(&year, (1900.0..=2200.0).contains(&year.value), "a year");
        }
    }
    reader.optional_text(section, "currency", "a currency code such as \"CAD\"");
    let mut number = |key: &str, holds: fn(f64) -> bool, expected: &str| {
        let placed = reader.optional_quantity(section, key, Dimension::Number)?;
        reader
            .demand(&placed, holds(placed.value), expected)
            .then_some(placed.value)
    };
    let price = "a price per kWh that is not negative";
    let grams = "grams per kWh, not negative";
    let factor = "source energy per kWh, above 0";
    Energy {
        electricity_price: number("electricity_price", |x| x >= 0.0, price),
        fuel_price: number("fuel_price", |x| x >= 0.0, price),
        electricity_emissions_g: number("electricity_emissions_g", |x| x >= 0.0, grams),
        fuel_emissions_g: number("fuel_emissions_g", |x| x >= 0.0, grams),
        electricity_source_factor: number("electricity_source_factor", |x| x > 0.0, factor),
        fuel_source_factor: number("fuel_source_factor", |x| x > 0.0, factor),
        fuel_efficiency: efficiency(reader, section),
    }
}

/// Efficiency by the gross calorific value; a condensing furnace stated by the net value may pass 1.
fn efficiency(reader: &mut TomlReader<'_>, section: &Section<'_>) -> Option<f64> {
    let placed = reader.optional_quantity(section, "fuel_efficiency", Dimension::Fraction)?;
    let hint = Some("95 % is written 0.95 or \"95 %\"".to_owned());
    let holds = placed.value > 0.0 && placed.value <= 1.2;
    reader
        .demand_with_hint(
            &placed,
            holds,
            "an efficiency above 0 and at most 1.2",
            hint,
        )
        .then_some(placed.value)
}
