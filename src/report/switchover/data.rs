//! Switch-over temperatures as a JSON document and as a sheet, in full precision.

use serde::Serialize;

use super::{SwitchoverView, foot};
use crate::economics::{DualFuelYear, Measure, SwitchOver};
use crate::report::cost::FactorAnswer;
use crate::report::sheet::Sheet;
use crate::study::{UnitSwitchOver, UnitSwitchOverYear};

/// The document.
#[derive(Debug, Serialize)]
pub struct SwitchoverAnswer {
    house: String,
    climate: String,
    currency: Option<String>,
    factors: Vec<FactorAnswer>,
    units: Vec<UnitAnswer>,
    /// Units of which nothing is published for heating.
    left_out: Vec<String>,
}

#[derive(Debug, Serialize)]
struct UnitAnswer {
    unit: String,
    verdict: &'static str,
    measures: Vec<RowAnswer>,
    ratios: Vec<RatioAnswer>,
    heat: Vec<HeatAnswer>,
}

/// One way of running the two.
#[derive(Debug, Serialize)]
struct RowAnswer {
    /// `cost`, `emissions` or `source_energy`, for which it is least; or `heat_pump_first`, `furnace_alone`.
    run_for: &'static str,
    /// A kWh of electricity over a kWh of fuel by the measure, or as it was asked for.
    electricity_to_fuel: Option<f64>,
    break_even_cop: Option<f64>,
    /// `at`, `never` or `always`; `null`: not known.
    furnace_takes_over: Option<&'static str>,
    furnace_below_c: Option<f64>,
    crossings_c: Vec<f64>,
    #[serde(flatten)]
    energy: Option<EnergyAnswer>,
    cost: Option<f64>,
    emissions_kg: Option<f64>,
    source_energy_kwh: Option<f64>,
}

#[derive(Clone, Copy, Debug, Serialize)]
struct EnergyAnswer {
    load_kwh: f64,
    heat_pump_kwh: f64,
    electricity_kwh: f64,
    furnace_kwh: f64,
    heat_pump_hours: f64,
    furnace_hours: f64,
}

impl EnergyAnswer {
    fn of(year: &DualFuelYear) -> Self {
        Self {
            load_kwh: year.load.0,
            heat_pump_kwh: year.heat_pump.0,
            electricity_kwh: year.electricity.0,
            furnace_kwh: year.furnace.0,
            heat_pump_hours: year.heat_pump_hours.0,
            furnace_hours: year.furnace_hours.0,
        }
    }
}

#[derive(Debug, Serialize)]
struct RatioAnswer {
    electricity_to_fuel: f64,
    break_even_cop: f64,
    furnace_takes_over: &'static str,
    furnace_below_c: Option<f64>,
    #[serde(flatten)]
    energy: EnergyAnswer,
}

/// A kWh of heat by the heat pump at an outdoor temperature.
#[derive(Debug, Serialize)]
struct HeatAnswer {
    outdoor_c: f64,
    cop: Option<f64>,
}

fn takes_over(switch_over: SwitchOver) -> (&'static str, Option<f64>) {
    match switch_over {
        SwitchOver::Always => ("never", None),
        SwitchOver::Never => ("always", None),
        SwitchOver::At(at) => ("at", Some(at.0)),
    }
}

fn code(measure: Measure) -> &'static str {
    match measure {
        Measure::Cost => "cost",
        Measure::Emissions => "emissions",
        Measure::SourceEnergy => "source_energy",
    }
}

fn row(
    run_for: &'static str,
    switch_over: Option<SwitchOver>,
    year: Option<&UnitSwitchOverYear>,
) -> RowAnswer {
    let answer = switch_over.map(takes_over);
    let carries = year.map_or([None; 3], |year| year.carries);
    RowAnswer {
        run_for,
        electricity_to_fuel: None,
        break_even_cop: None,
        furnace_takes_over: answer.map(|(word, _)| word),
        furnace_below_c: answer.and_then(|(_, at)| at),
        crossings_c: Vec::new(),
        energy: year.map(|year| EnergyAnswer::of(&year.energy)),
        cost: carries[0],
        emissions_kg: carries[1].map(|grams| grams / 1000.0),
        source_energy_kwh: carries[2],
    }
}

fn rows(unit: &UnitSwitchOver) -> Vec<RowAnswer> {
    let mut rows: Vec<RowAnswer> = unit
        .measures
        .iter()
        .map(|by| RowAnswer {
            electricity_to_fuel: by
                .factors
                .filter(|factors| factors.fuel > 0.0)
                .map(|factors| factors.electricity / factors.fuel),
            break_even_cop: by.break_even.map(|cop| cop.0),
            crossings_c: by.crossings.iter().map(|crossing| crossing.at.0).collect(),
            ..row(code(by.measure), by.switch_over, by.year.as_ref())
        })
        .collect();
    let first = Some(&unit.heat_pump_first);
    rows.push(row("heat_pump_first", Some(SwitchOver::Always), first));
    let alone = Some(&unit.furnace_alone);
    rows.push(row("furnace_alone", Some(SwitchOver::Never), alone));
    rows
}

impl SwitchoverAnswer {
    /// The document.
    #[must_use]
    pub fn of(view: &SwitchoverView<'_>, units: &[UnitSwitchOver]) -> Self {
        let energy = view.house.energy.as_ref();
        Self {
            house: view.house.name.clone(),
            climate: view.climate.to_owned(),
            currency: energy.and_then(|energy| energy.currency.clone()),
            factors: FactorAnswer::all(energy),
            units: units.iter().map(UnitAnswer::of).collect(),
            left_out: view.left_out.to_vec(),
        }
    }
}

impl UnitAnswer {
    fn of(unit: &UnitSwitchOver) -> Self {
        let ratio = |row: &crate::study::RatioSwitchOver| {
            let (word, at) = takes_over(row.switch_over);
            RatioAnswer {
                electricity_to_fuel: row.ratio,
                break_even_cop: row.break_even.0,
                furnace_takes_over: word,
                furnace_below_c: at,
                energy: EnergyAnswer::of(&row.year),
            }
        };
        Self {
            unit: unit.key.clone(),
            verdict: unit.verdict,
            measures: rows(unit),
            ratios: unit.ratios.iter().map(ratio).collect(),
            heat: unit
                .cops
                .iter()
                .map(|&(outdoor, cop)| HeatAnswer {
                    outdoor_c: outdoor.0,
                    cop: cop.map(|cop| cop.0),
                })
                .collect(),
        }
    }
}

#[derive(Serialize)]
struct SheetRow<'a> {
    unit: &'a str,
    verdict: &'static str,
    #[serde(flatten)]
    row: RowAnswer,
}

/// The answer as a sheet, a row for each unit and way of running; ratios that were asked for follow as rows of their own.
#[must_use]
pub fn switchover_sheet(view: &SwitchoverView<'_>, units: &[UnitSwitchOver]) -> Sheet {
    let mut sheet_rows = Vec::new();
    for unit in units {
        sheet_rows.extend(rows(unit).into_iter().map(|row| SheetRow {
            unit: &unit.key,
            verdict: unit.verdict,
            row,
        }));
        for asked in &unit.ratios {
            let (word, at) = takes_over(asked.switch_over);
            sheet_rows.push(SheetRow {
                unit: &unit.key,
                verdict: unit.verdict,
                row: RowAnswer {
                    run_for: "price_ratio",
                    electricity_to_fuel: Some(asked.ratio),
                    break_even_cop: Some(asked.break_even.0),
                    furnace_takes_over: Some(word),
                    furnace_below_c: at,
                    crossings_c: Vec::new(),
                    energy: Some(EnergyAnswer::of(&asked.year)),
                    cost: None,
                    emissions_kg: None,
                    source_energy_kwh: None,
                },
            });
        }
    }
    let mut notes = vec![
        format!("House: {}", view.house.name),
        format!("Climate: {}", view.climate),
        format!("Money: {}", view.currency()),
    ];
    notes.extend(foot(view));
    Sheet {
        notes,
        ..Sheet::of_rows("switch-over", &sheet_rows)
    }
}
