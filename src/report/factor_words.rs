//! Prices and factors with their source and year, as they stand beneath every table that uses them.

use crate::house::{Energy, Figure, Tariff};

/// Every price and factor that the house gives, one line each.
#[must_use]
pub fn factor_words(energy: &Energy) -> Vec<String> {
    let currency = energy.currency.as_deref().unwrap_or("money");
    let mut lines: Vec<String> = energy
        .figures()
        .into_iter()
        .map(|(name, figure)| {
            let words = what(name);
            let unit = unit(name, currency);
            format!("{words}: {}{unit}, {}", figure.value, source(figure))
        })
        .collect();
    let tariffs = [
        ("electricity", &energy.electricity_tariff),
        ("fuel", &energy.fuel_tariff),
    ];
    for (name, tariff) in tariffs {
        if let Some(tariff) = tariff {
            lines.push(format!("{name}: {}", tariff_words(tariff, currency)));
        }
    }
    lines
}

/// A name of a house file in words.
#[must_use]
pub fn what(name: &str) -> String {
    match name {
        "electricity_price" => "price of electricity",
        "electricity_monthly_charge" => "electricity account, a month",
        "fuel_price" => "price of fuel",
        "fuel_monthly_charge" => "fuel account, a month",
        "fuel_efficiency" => "efficiency of the furnace",
        "electricity_emissions_g" => "emissions of electricity",
        "fuel_emissions_g" => "emissions of fuel",
        "electricity_source_factor" => "source energy of electricity",
        "fuel_source_factor" => "source energy of fuel",
        other => return other.replace('_', " "),
    }
    .to_owned()
}

fn unit(name: &str, currency: &str) -> String {
    if name.ends_with("_price") {
        format!(" {currency}/kWh")
    } else if name.ends_with("_charge") {
        format!(" {currency}")
    } else if name.ends_with("_emissions_g") {
        " g CO2e/kWh".to_owned()
    } else if name.ends_with("_source_factor") {
        " kWh/kWh".to_owned()
    } else {
        String::new()
    }
}

fn source(figure: &Figure) -> String {
    let year = figure
        .year
        .map_or_else(|| "year not stated".to_owned(), |year| year.to_string());
    match &figure.source {
        Some(source) => format!("{source}, {year}"),
        None => format!("source not stated, {year}"),
    }
}

fn tariff_words(tariff: &Tariff, currency: &str) -> String {
    let prices: Vec<String> = tariff
        .prices()
        .into_iter()
        .map(|price| format!("{} {currency}/kWh ({})", price.value, source(price)))
        .collect();
    format!("{}, {}", tariff.kind(), prices.join("; "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_factor_stands_with_its_source_and_year() {
        let energy = Energy {
            currency: Some("CAD".into()),
            electricity_price: Some(Figure::from_source(0.16, "invented", 2026)),
            fuel_emissions_g: Some(177.0.into()),
            ..Energy::default()
        };
        assert_eq!(
            factor_words(&energy),
            [
                "price of electricity: 0.16 CAD/kWh, invented, 2026",
                "emissions of fuel: 177 g CO2e/kWh, source not stated, year not stated",
            ]
        );
    }
}
