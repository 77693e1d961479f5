//! Costs as a JSON document and as a sheet, in full precision.

use serde::Serialize;

use super::{CostView, foot};
use crate::economics::{Payback, System};
use crate::house::Figure;
use crate::report::sheet::Sheet;
use crate::study::{InsteadOf, SystemCost, UnitCost};

/// The document.
#[derive(Debug, Serialize)]
pub struct CostAnswer {
    house: String,
    climate: String,
    currency: Option<String>,
    factors: Vec<FactorAnswer>,
    units: Vec<UnitAnswer>,
    /// Units whose season is not known.
    without_season: Vec<String>,
    /// Why nothing is priced.
    no_cost: Option<String>,
}

/// A price or factor of the house.
#[derive(Debug, Serialize)]
pub(in crate::report) struct FactorAnswer {
    name: String,
    value: f64,
    source: Option<String>,
    year: Option<i32>,
}

impl FactorAnswer {
    /// Every price and factor; a tariff's prices are numbered.
    pub(in crate::report) fn all(energy: Option<&crate::house::Energy>) -> Vec<Self> {
        let Some(energy) = energy else {
            return Vec::new();
        };
        let answer = |name: String, figure: &Figure| Self {
            name,
            value: figure.value,
            source: figure.source.clone(),
            year: figure.year,
        };
        let mut all: Vec<Self> = energy
            .figures()
            .into_iter()
            .map(|(name, figure)| answer(name.to_owned(), figure))
            .collect();
        let tariffs = [
            ("electricity_tariff", &energy.electricity_tariff),
            ("fuel_tariff", &energy.fuel_tariff),
        ];
        for (name, tariff) in tariffs {
            let prices = tariff
                .as_ref()
                .map_or_else(Vec::new, crate::house::Tariff::prices);
            for (place, price) in (1..).zip(prices) {
                all.push(answer(format!("{name}.{place}"), price));
            }
        }
        all
    }
}

#[derive(Debug, Serialize)]
struct UnitAnswer {
    unit: String,
    verdict: &'static str,
    standby_is_published: bool,
    systems: Vec<SystemAnswer>,
    instead_of: Vec<InsteadOfAnswer>,
}

#[derive(Debug, Serialize)]
struct SystemAnswer {
    system: &'static str,
    electricity_kwh: f64,
    fuel_kwh: Option<f64>,
    cost: Option<f64>,
    fixed_charges: Option<f64>,
    emissions_kg: Option<f64>,
    source_energy_kwh: Option<f64>,
    not_given: Vec<&'static str>,
    investment: Option<f64>,
    lifetime_cost: Option<f64>,
    lifetime_annuity: Option<f64>,
}

#[derive(Debug, Serialize)]
struct InsteadOfAnswer {
    chosen: &'static str,
    other: &'static str,
    net_present_value: f64,
    /// `null`: not within the service life.
    payback_years: Option<f64>,
    discounted_payback_years: Option<f64>,
}

/// A stable name of a way of heating.
fn code(system: System) -> &'static str {
    match system {
        System::HeatPumpWithResistance => "heat_pump_with_resistance",
        System::HeatPumpWithFuel => "heat_pump_with_fuel",
        System::ElectricResistance => "electric_resistance",
        System::FuelFurnace => "fuel_furnace",
    }
}

fn years(payback: Payback) -> Option<f64> {
    match payback {
        Payback::AtOnce => Some(0.0),
        Payback::Years(years) => Some(years),
        Payback::Never => None,
    }
}

impl SystemAnswer {
    fn of(system: &SystemCost) -> Self {
        let year = &system.annual;
        let lifetime = system.lifetime;
        Self {
            system: code(year.system),
            electricity_kwh: year.electricity.0,
            fuel_kwh: year.fuel.map(|fuel| fuel.0),
            cost: year.cost.map(|cost| cost.total().0),
            fixed_charges: year
                .cost
                .map(|cost| (cost.electricity.fixed + cost.fuel.fixed).0),
            emissions_kg: year.emissions.map(|emissions| emissions.0),
            source_energy_kwh: year.source_energy.map(|energy| energy.0),
            not_given: year.not_given.clone(),
            investment: lifetime.and_then(|life| life.investment).map(|paid| paid.0),
            lifetime_cost: lifetime.and_then(|life| life.cost).map(|cost| cost.0),
            lifetime_annuity: lifetime.and_then(|life| life.annuity).map(|cost| cost.0),
        }
    }
}

impl InsteadOfAnswer {
    fn of(compared: &InsteadOf) -> Self {
        Self {
            chosen: code(compared.chosen),
            other: code(compared.other),
            net_present_value: compared.net_present_value.0,
            payback_years: years(compared.payback),
            discounted_payback_years: years(compared.discounted_payback),
        }
    }
}

impl CostAnswer {
    /// The document.
    #[must_use]
    pub fn of(view: &CostView<'_>, units: &[UnitCost]) -> Self {
        let energy = view.house.energy.as_ref();
        Self {
            house: view.house.name.clone(),
            climate: view.climate.to_owned(),
            currency: energy.and_then(|energy| energy.currency.clone()),
            factors: FactorAnswer::all(energy),
            units: units
                .iter()
                .map(|unit| UnitAnswer {
                    unit: unit.key.clone(),
                    verdict: unit.verdict,
                    standby_is_published: unit.standby_is_published,
                    systems: unit.systems.iter().map(SystemAnswer::of).collect(),
                    instead_of: unit.instead_of.iter().map(InsteadOfAnswer::of).collect(),
                })
                .collect(),
            without_season: view.without_season.to_vec(),
            no_cost: view.no_cost.map(str::to_owned),
        }
    }
}

#[derive(Serialize)]
struct SheetRow<'a> {
    unit: &'a str,
    verdict: &'static str,
    #[serde(flatten)]
    system: SystemAnswer,
}

/// The costs as a sheet, a row for each unit and way of heating.
#[must_use]
pub fn cost_sheet(view: &CostView<'_>, units: &[UnitCost]) -> Sheet {
    let rows: Vec<SheetRow<'_>> = units
        .iter()
        .flat_map(|unit| {
            unit.systems.iter().map(|system| SheetRow {
                unit: &unit.key,
                verdict: unit.verdict,
                system: SystemAnswer::of(system),
            })
        })
        .collect();
    let mut notes = vec![
        format!("House: {}", view.house.name),
        format!("Climate: {}", view.climate),
        format!("Money: {}", view.currency()),
    ];
    notes.extend(foot(view, units));
    Sheet {
        notes,
        ..Sheet::of_rows("cost", &rows)
    }
}
