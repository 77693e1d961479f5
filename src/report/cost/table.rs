//! Costs for people at a terminal.

use super::{CostView, foot, payback_words, short_name};
use crate::economics::Annual;
use crate::quantity::{Money, fixed};
use crate::report::clean_text;
use crate::report::table::{Column, PlainTable, paragraph};
use crate::study::UnitCost;

const NOT_GIVEN: &str = "not given";

/// The costs as text: a block for each unit, the year and, where it was asked for, the life.
#[must_use]
pub fn cost_table(view: &CostView<'_>, units: &[UnitCost]) -> String {
    let mut text = paragraph(&view.house.name, view.width, "", "");
    let what = format!("A year by each way of heating. Climate: {}.", view.climate);
    text += &paragraph(&what, view.width, "", "");
    for unit in units {
        text += &format!("\n{} ({})\n", clean_text(&unit.key, 60), unit.verdict);
        text += &years(view, unit);
        if view.prospect.is_some() {
            text.push('\n');
            text += &lives(view, unit);
            text += &comparisons(view, unit);
        }
    }
    text.push('\n');
    for line in foot(view, units) {
        text += &paragraph(&line, view.width, "", "  ");
    }
    text
}

fn years(view: &CostView<'_>, unit: &UnitCost) -> String {
    let cost = format!("{} a year", view.currency());
    let mut table = PlainTable::new(
        view.width,
        &[
            ("way of heating", Column::Words),
            ("kWh with standby", Column::Numbers),
            ("fuel kWh", Column::Numbers),
            (&cost, Column::Numbers),
            ("kg CO2e", Column::Numbers),
            ("source kWh", Column::Numbers),
        ],
    );
    for system in &unit.systems {
        let year: &Annual = &system.annual;
        let given = |value: Option<f64>| {
            value.map_or_else(|| NOT_GIVEN.to_owned(), |value| fixed(value, 0))
        };
        table.row([
            short_name(year.system).to_owned(),
            fixed(year.electricity.0, 0),
            given(year.fuel.map(|fuel| fuel.0)),
            given(year.cost.map(|cost| cost.total().0)),
            given(year.emissions.map(|emissions| emissions.0)),
            given(year.source_energy.map(|energy| energy.0)),
        ]);
    }
    table.text()
}

fn lives(view: &CostView<'_>, unit: &UnitCost) -> String {
    let currency = view.currency();
    let heads = [
        format!("paid at first {currency}"),
        format!("over its life {currency}"),
        format!("the same as a year {currency}"),
    ];
    let mut columns = vec![("way of heating", Column::Words)];
    columns.extend(heads.iter().map(|head| (head.as_str(), Column::Numbers)));
    let mut table = PlainTable::new(view.width, &columns);
    let given = |value: Option<Money>| {
        value.map_or_else(|| NOT_GIVEN.to_owned(), |value| fixed(value.0, 0))
    };
    for system in &unit.systems {
        if let Some(lifetime) = &system.lifetime {
            table.row([
                short_name(system.annual.system).to_owned(),
                given(lifetime.investment),
                given(lifetime.cost),
                given(lifetime.annuity),
            ]);
        }
    }
    table.text()
}

fn comparisons(view: &CostView<'_>, unit: &UnitCost) -> String {
    if unit.instead_of.is_empty() {
        return String::new();
    }
    let value = format!("net present value {}", view.currency());
    let mut table = PlainTable::new(
        view.width,
        &[
            ("chosen", Column::Words),
            ("instead of", Column::Words),
            (&value, Column::Numbers),
            ("payback", Column::Numbers),
            ("discounted", Column::Numbers),
        ],
    );
    for compared in &unit.instead_of {
        let value = compared.net_present_value.0;
        let sign = if value > 0.0 { "+" } else { "" };
        table.row([
            short_name(compared.chosen).to_owned(),
            short_name(compared.other).to_owned(),
            format!("{sign}{}", fixed(value, 0)),
            payback_words(compared.payback),
            payback_words(compared.discounted_payback),
        ]);
    }
    format!("\n{}", table.text())
}
