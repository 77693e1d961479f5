//! The price ratio swept: where the answer between heat pump and furnace flips, as table, JSON and CSV.

use serde::Serialize;

use super::clean_text;
use super::factor_words::factor_words;
use super::foot::sources_and_cautions;
use super::sheet::Sheet;
use super::switchover::furnace_below;
use super::table::{Column, PlainTable, paragraph};
use crate::economics::SwitchOver;
use crate::house::House;
use crate::quantity::{UnitSystem, fixed};
use crate::study::{PriceRatioRow, PriceRatioSweep};

/// What the sweep is of.
#[derive(Clone, Copy, Debug)]
pub struct PriceRatioView<'a> {
    /// The house.
    pub house: &'a House,
    /// The unit's key.
    pub unit: &'a str,
    /// Whether the program chose it, as the best accepted one.
    pub chosen: bool,
    /// The climate's key.
    pub climate: &'a str,
    /// Units shown to people.
    pub units: UnitSystem,
    /// Characters that fit a line.
    pub width: u16,
    /// Titles of the sources behind the units shown.
    pub sources: &'a [String],
}

/// The document.
#[derive(Debug, Serialize)]
pub struct PriceRatioAnswer {
    house: String,
    climate: String,
    unit: String,
    fuel_efficiency: f64,
    rows: Vec<RowAnswer>,
    flip_with_resistance_backup: Option<f64>,
    flip_with_fuel_backup: Option<f64>,
    flips: Vec<FlipAnswer>,
    own_ratios: Vec<OwnAnswer>,
}

#[derive(Debug, Serialize)]
struct RowAnswer {
    electricity_to_fuel: f64,
    break_even_cop: f64,
    heat_pump_fuel_kwh: f64,
    furnace_fuel_kwh: f64,
    ahead: &'static str,
    /// `at`, `never` or `always`.
    furnace_takes_over: &'static str,
    furnace_below_c: Option<f64>,
}

#[derive(Debug, Serialize)]
struct FlipAnswer {
    outdoor_c: f64,
    electricity_to_fuel: Option<f64>,
}

#[derive(Debug, Serialize)]
struct OwnAnswer {
    by: &'static str,
    electricity_to_fuel: f64,
}

impl RowAnswer {
    fn of(row: &PriceRatioRow) -> Self {
        let (furnace_takes_over, furnace_below_c) = match row.switch_over {
            SwitchOver::Always => ("never", None),
            SwitchOver::Never => ("always", None),
            SwitchOver::At(at) => ("at", Some(at.0)),
        };
        Self {
            electricity_to_fuel: row.year.ratio,
            break_even_cop: row.year.break_even.0,
            heat_pump_fuel_kwh: row.year.heat_pump,
            furnace_fuel_kwh: row.year.furnace,
            ahead: ahead(row),
            furnace_takes_over,
            furnace_below_c,
        }
    }
}

fn ahead(row: &PriceRatioRow) -> &'static str {
    if row.year.heat_pump_ahead() {
        "heat pump"
    } else {
        "furnace"
    }
}

impl PriceRatioAnswer {
    /// The document.
    #[must_use]
    pub fn of(view: &PriceRatioView<'_>, sweep: &PriceRatioSweep) -> Self {
        Self {
            house: view.house.name.clone(),
            climate: view.climate.to_owned(),
            unit: view.unit.to_owned(),
            fuel_efficiency: sweep.efficiency,
            rows: sweep.rows.iter().map(RowAnswer::of).collect(),
            flip_with_resistance_backup: sweep.flip_with_resistance,
            flip_with_fuel_backup: sweep.flip_with_fuel,
            flips: sweep
                .flips
                .iter()
                .map(|&(outdoor, ratio)| FlipAnswer {
                    outdoor_c: outdoor.0,
                    electricity_to_fuel: ratio,
                })
                .collect(),
            own_ratios: sweep
                .own
                .iter()
                .map(|&(measure, ratio)| OwnAnswer {
                    by: measure.name(),
                    electricity_to_fuel: ratio,
                })
                .collect(),
        }
    }
}

/// The rows as CSV.
#[must_use]
pub fn price_ratio_csv(sweep: &PriceRatioSweep) -> String {
    let rows: Vec<RowAnswer> = sweep.rows.iter().map(RowAnswer::of).collect();
    Sheet::of_rows("price ratio", &rows).csv()
}

/// The sweep for people.
#[must_use]
pub fn price_ratio_table(view: &PriceRatioView<'_>, sweep: &PriceRatioSweep) -> String {
    let mut text = paragraph(&view.house.name, view.width, "", "");
    let chosen = if view.chosen {
        ", the best accepted unit"
    } else {
        ""
    };
    let what = format!(
        "{}{chosen}, against a furnace of {} % efficiency, by what a kWh of electricity costs over a kWh of fuel. Climate: {}.",
        clean_text(view.unit, 60),
        fixed(sweep.efficiency * 100.0, 0),
        view.climate
    );
    text += &paragraph(&what, view.width, "", "");
    if !sweep.own.is_empty() {
        let own: Vec<String> = sweep
            .own
            .iter()
            .map(|&(measure, ratio)| format!("{} : 1 by {}", fixed(ratio, 2), measure.name()))
            .collect();
        let words = format!("Here the ratio is {}.", own.join(", "));
        text += &paragraph(&words, view.width, "", "");
    }
    text.push('\n');
    let below = format!("dual fuel: furnace below {}", view.units.temperature_unit());
    let mut table = PlainTable::new(
        view.width,
        &[
            ("electricity : fuel", Column::Numbers),
            ("break-even COP", Column::Numbers),
            ("heat pump's year", Column::Numbers),
            ("furnace's year", Column::Numbers),
            ("ahead in the year", Column::Words),
            (&below, Column::Numbers),
        ],
    );
    for row in &sweep.rows {
        table.row([
            format!("{} : 1", row.year.ratio),
            fixed(row.year.break_even.0, 2),
            fixed(row.year.heat_pump, 0),
            fixed(row.year.furnace, 0),
            ahead(row).to_owned(),
            furnace_below(Some(row.switch_over), view.units),
        ]);
    }
    text += &table.text();
    text.push('\n');
    for line in flips(view, sweep) {
        text += &paragraph(&line, view.width, "", "  ");
    }
    text.push('\n');
    for line in foot(view, sweep) {
        text += &paragraph(&line, view.width, "", "  ");
    }
    text + &sources_and_cautions(view.sources, view.width)
}

fn flips(view: &PriceRatioView<'_>, sweep: &PriceRatioSweep) -> Vec<String> {
    let flip = |ratio: Option<f64>| {
        ratio.map_or_else(
            || "at no ratio".to_owned(),
            |ratio| format!("at {} : 1", fixed(ratio, 2)),
        )
    };
    let mut lines = vec![
        format!(
            "The year's answer flips {}: below it the heat pump with resistance backup, and no fuel account, is ahead.",
            flip(sweep.flip_with_resistance)
        ),
        format!(
            "With the furnace kept as backup it flips {}.",
            flip(sweep.flip_with_fuel)
        ),
    ];
    let by_temperature: Vec<String> = sweep
        .flips
        .iter()
        .map(|&(outdoor, ratio)| {
            let ratio = ratio.map_or_else(|| "no heat pump".to_owned(), |ratio| fixed(ratio, 2));
            format!("{} {ratio}", view.units.temperature(outdoor))
        })
        .collect();
    if !by_temperature.is_empty() {
        lines.push(format!(
            "Ratio up to which the heat pump is ahead at an outdoor temperature: {}.",
            by_temperature.join("; ")
        ));
    }
    lines
}

fn foot(view: &PriceRatioView<'_>, sweep: &PriceRatioSweep) -> Vec<String> {
    let charge = match sweep.charge_kwh {
        Some(charge) => format!(
            "the furnace's side pays the fuel account's charge, {} kWh of fuel a month",
            fixed(charge, 0)
        ),
        None => "no charge of a fuel account is counted, as it or the price of fuel is not given"
            .to_owned(),
    };
    let mut foot = vec![format!(
        "Years in kWh of fuel: heating and standby, backup by electric resistance; {charge}. Cooling is the same on both sides. \
         The same ratio of emission or source-energy factors gives the same break-even COP and switch-over."
    )];
    if let Some(energy) = &view.house.energy {
        foot.extend(factor_words(energy));
    }
    foot
}
