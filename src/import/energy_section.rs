//! Reads the prices and factors of a house file's `[energy]`, each with its source and year.

use super::tariff_section::{TABLES, tariff};
use super::toml_reader::{Section, TomlReader};
use crate::house::{Energy, Figure};
use crate::quantity::Dimension;

const KEYS: &[&str] = &[
    "currency",
    "electricity_price",
    "electricity_monthly_charge",
    "fuel_price",
    "fuel_monthly_charge",
    "fuel_efficiency",
    "electricity_emissions_g",
    "fuel_emissions_g",
    "electricity_source_factor",
    "fuel_source_factor",
];

/// Reads `[energy]`; what cannot be read is noted and left out.
///
/// A key with `_source` behind it says where its number comes from, one with `_year` for which year it stands. A tariff is
/// given in tables of its own.
pub(super) fn energy(reader: &mut TomlReader<'_>, section: &Section<'_>) -> Energy {
    let is_note = |key: &str| {
        let noted = key
            .strip_suffix("_source")
            .or_else(|| key.strip_suffix("_year"));
        TABLES.contains(&key) || noted.is_some_and(|key| KEYS.contains(&key))
    };
    reader.only_known(section, KEYS, is_note);
    let currency = reader.optional_text(section, "currency", "a currency code such as \"CAD\"");
    let electricity_tariff = tariff(reader, section, ("electricity_tier", "electricity_period"));
    let fuel_tariff = tariff(reader, section, ("fuel_tier", "fuel_period"));
    let charge: Rule = (|x| x >= 0.0, "a charge per month that is not negative");
    let grams: Rule = (|x| x >= 0.0, "grams per kWh, not negative");
    let factor: Rule = (|x| x > 0.0, "source energy per kWh, above 0");
    let mut number =
        |key: &str, rule: Rule| figure(reader, section, key, Dimension::Number, rule, None);
    Energy {
        currency: currency.map(|placed| placed.value),
        electricity_price: number("electricity_price", PRICE),
        electricity_monthly_charge: number("electricity_monthly_charge", charge),
        electricity_tariff,
        fuel_price: number("fuel_price", PRICE),
        fuel_monthly_charge: number("fuel_monthly_charge", charge),
        fuel_tariff,
        electricity_emissions_g: number("electricity_emissions_g", grams),
        fuel_emissions_g: number("fuel_emissions_g", grams),
        electricity_source_factor: number("electricity_source_factor", factor),
        fuel_source_factor: number("fuel_source_factor", factor),
        fuel_efficiency: figure(
            reader,
            section,
            "fuel_efficiency",
            Dimension::Fraction,
            // By the gross calorific value; a condensing furnace stated by the net value may pass 1.
            (
                |x| x > 0.0 && x <= 1.2,
                "an efficiency above 0 and at most 1.2",
            ),
            Some("95 % is written 0.95 or \"95 %\""),
        ),
    }
}

/// What a number must keep to, and how that is said.
pub(super) type Rule = (fn(f64) -> bool, &'static str);

/// A price of energy.
pub(super) const PRICE: Rule = (|x| x >= 0.0, "a price per kWh that is not negative");

/// A number with the source and the year that stand beside it.
pub(super) fn figure(
    reader: &mut TomlReader<'_>,
    section: &Section<'_>,
    key: &str,
    dimension: Dimension,
    (holds, expected): Rule,
    hint: Option<&str>,
) -> Option<Figure> {
    let source = reader.optional_text(
        section,
        &format!("{key}_source"),
        "where the number comes from, in quotes",
    );
    let year = reader.optional_quantity(section, &format!("{key}_year"), Dimension::Number);
    let year = year.filter(|year| {
        let is_year = year.value.fract() == 0.0 && (1900.0..=2200.0).contains(&year.value);
        reader.demand(year, is_year, "a year")
    });
    let placed = reader.optional_quantity(section, key, dimension)?;
    if !reader.demand_with_hint(
        &placed,
        holds(placed.value),
        expected,
        hint.map(str::to_owned),
    ) {
        return None;
    }
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a whole number from 1900 to 2200"
    )]
    let year = year.map(|year| year.value as i32);
    Some(Figure {
        value: placed.value,
        source: source.map(|source| source.value),
        year,
    })
}
