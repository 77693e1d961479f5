//! Switch-over temperatures for people at a terminal.

use super::{SwitchoverView, foot, furnace_below, switchover_plot};
use crate::economics::Measure;
use crate::quantity::{UnitSystem, fixed};
use crate::report::clean_text;
use crate::report::table::{Column, PlainTable, paragraph};
use crate::study::{UnitSwitchOver, UnitSwitchOverYear};

/// The answer as text: a block for each unit, and a plot for the first.
#[must_use]
pub fn switchover_table(view: &SwitchoverView<'_>, units: &[UnitSwitchOver]) -> String {
    let mut text = paragraph(&view.house.name, view.width, "", "");
    let mut what = format!(
        "Below which outdoor temperature a furnace takes over. Climate: {}.",
        view.climate
    );
    if let Some(ratio) = price_ratio(view) {
        what += &format!(
            " A kWh of electricity costs {} times a kWh of fuel.",
            fixed(ratio, 2)
        );
    }
    text += &paragraph(&what, view.width, "", "");
    for (place, unit) in units.iter().enumerate() {
        text += &format!("\n{} ({})\n", clean_text(&unit.key, 60), unit.verdict);
        text += &measures(view, unit);
        text += &changes(view, unit);
        if !unit.ratios.is_empty() {
            text.push('\n');
            text += &ratios(view, unit);
        }
        if place == 0
            && let Some(plot) = switchover_plot(view, unit)
        {
            text.push('\n');
            text += &plot;
        }
    }
    text.push('\n');
    for line in foot(view) {
        text += &paragraph(&line, view.width, "", "  ");
    }
    text
}

/// What a kWh of electricity costs by what a kWh of fuel does.
fn price_ratio(view: &SwitchoverView<'_>) -> Option<f64> {
    let energy = view.house.energy.as_ref()?;
    let electricity = Measure::Cost.electricity(energy)?.value;
    let fuel = Measure::Cost.fuel(energy)?.value;
    (fuel > 0.0).then(|| electricity / fuel)
}

fn measures(view: &SwitchoverView<'_>, unit: &UnitSwitchOver) -> String {
    let below = format!("furnace below {}", view.units.temperature_unit());
    let cost = format!("{} a year", view.currency());
    let mut table = PlainTable::new(
        view.width,
        &[
            ("run for least", Column::Words),
            ("break-even COP", Column::Numbers),
            (&below, Column::Numbers),
            ("heat pump h", Column::Numbers),
            ("furnace alone h", Column::Numbers),
            (&cost, Column::Numbers),
            ("kg CO2e", Column::Numbers),
            ("source kWh", Column::Numbers),
        ],
    );
    let result = |year: Option<&UnitSwitchOverYear>| {
        let number = |value: Option<f64>| {
            value.map_or_else(|| "not given".to_owned(), |value| fixed(value, 0))
        };
        let carries = year.map_or([None; 3], |year| year.carries);
        [
            number(year.map(|year| year.energy.heat_pump_hours.0)),
            number(year.map(|year| year.energy.furnace_hours.0)),
            number(carries[0]),
            number(carries[1].map(|grams| grams / 1000.0)),
            number(carries[2]),
        ]
    };
    for by in &unit.measures {
        let break_even = by
            .break_even
            .map_or_else(|| "not given".to_owned(), |cop| fixed(cop.0, 2));
        let mut row = vec![
            by.measure.name().to_owned(),
            break_even,
            furnace_below(by.switch_over, view.units),
        ];
        row.extend(result(by.year.as_ref()));
        table.row(row);
    }
    let others = [
        ("heat pump first", &unit.heat_pump_first),
        ("furnace alone", &unit.furnace_alone),
    ];
    for (name, year) in others {
        let mut row = vec![name.to_owned(), "–".to_owned(), "–".to_owned()];
        row.extend(result(Some(year)));
        table.row(row);
    }
    table.text()
}

/// Where the order changes more than once, so that a single switch-over temperature does not say all.
fn changes(view: &SwitchoverView<'_>, unit: &UnitSwitchOver) -> String {
    let mut text = String::new();
    for by in unit.measures.iter().filter(|by| by.crossings.len() > 1) {
        let places: Vec<String> = by
            .crossings
            .iter()
            .map(|crossing| view.units.bare_temperature(crossing.at))
            .collect();
        let words = format!(
            "By {} the order changes at {} {}; one switch-over is set, the one with the least in the year.",
            by.measure.name(),
            places.join(", "),
            view.units.temperature_unit()
        );
        text += &paragraph(&words, view.width, "  ", "  ");
    }
    text
}

fn ratios(view: &SwitchoverView<'_>, unit: &UnitSwitchOver) -> String {
    let below = format!("furnace below {}", view.units.temperature_unit());
    let mut table = PlainTable::new(
        view.width,
        &[
            ("electricity : fuel", Column::Numbers),
            ("break-even COP", Column::Numbers),
            (&below, Column::Numbers),
            ("heat pump h", Column::Numbers),
            ("furnace alone h", Column::Numbers),
            ("heat by heat pump", Column::Numbers),
        ],
    );
    for row in &unit.ratios {
        let share = share_carried(row.year.heat_pump.0, row.year.load.0);
        table.row([
            format!("{} : 1", row.ratio),
            fixed(row.break_even.0, 2),
            furnace_below(Some(row.switch_over), view.units),
            fixed(row.year.heat_pump_hours.0, 0),
            fixed(row.year.furnace_hours.0, 0),
            share,
        ]);
    }
    table.text()
}

fn share_carried(part: f64, whole: f64) -> String {
    if whole > 0.0 {
        format!("{} %", fixed(part / whole * 100.0, 0))
    } else {
        "–".to_owned()
    }
}

/// Temperatures as the chart shows them.
pub(super) fn shown_temperature(units: UnitSystem, celsius: f64) -> f64 {
    match units {
        UnitSystem::Si => celsius,
        UnitSystem::Ip => celsius * 1.8 + 32.0,
    }
}
