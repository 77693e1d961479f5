//! What a kWh of heat costs (or emits, or takes) over outdoor temperature, as SVG and in a terminal.

use super::SwitchoverView;
use super::table::shown_temperature;
use crate::economics::{Measure, SwitchOver};
use crate::quantity::{Cop, fixed};
use crate::report::clean_text;
use crate::report::svg::{Caption, CostLine, CostPerHeat, Frame, Units, cost_per_heat};
use crate::report::terminal::{Glyphs, TextMark, TextPlot, TextSeries, plot_text};
use crate::study::{MeasureSwitchOver, UnitSwitchOver};

/// The lines of a chart.
struct Lines<'a> {
    by: &'a MeasureSwitchOver,
    heat_pump: Vec<(f64, Option<f64>)>,
    furnace: Vec<(f64, f64)>,
    resistance: Vec<(f64, f64)>,
    /// Where the furnace takes over, and what heat costs there.
    mark: Option<(f64, f64)>,
}

fn lines<'a>(view: &SwitchoverView<'_>, unit: &'a UnitSwitchOver) -> Option<Lines<'a>> {
    let by = unit.by(view.charted_of(unit)?)?;
    let factors = by.factors?;
    let x = |celsius: f64| shown_temperature(view.units, celsius);
    let heat_pump = unit
        .cops
        .iter()
        .map(|&(outdoor, cop)| (x(outdoor.0), cop.map(|cop| factors.heat_by_heat_pump(cop))))
        .collect();
    let level = |value: f64| -> Vec<(f64, f64)> {
        unit.cops
            .iter()
            .map(|&(outdoor, _)| (x(outdoor.0), value))
            .collect()
    };
    let mark = match by.switch_over {
        Some(SwitchOver::At(at)) => Some((x(at.0), factors.heat_by_fuel())),
        _ => None,
    };
    Some(Lines {
        by,
        heat_pump,
        furnace: level(factors.heat_by_fuel()),
        resistance: level(factors.heat_by_heat_pump(Cop(1.0))),
        mark,
    })
}

/// `cost of heat, CAD/kWh`
fn title(view: &SwitchoverView<'_>, measure: Measure) -> String {
    let unit = view.per_heat(measure);
    match measure {
        Measure::Cost => format!("cost of heat, {unit}"),
        Measure::Emissions => format!("emissions of heat, {unit}"),
        Measure::SourceEnergy => format!("source energy of heat, {unit}"),
    }
}

/// The chart as an SVG file of its own; `None` where its measure is not known.
#[must_use]
pub fn switchover_svg(view: &SwitchoverView<'_>, unit: &UnitSwitchOver) -> Option<String> {
    let lines = lines(view, unit)?;
    let known = |points: &[(f64, f64)]| points.iter().map(|&(t, cost)| (t, Some(cost))).collect();
    let design = view.house.heating.load.design_outdoor.0;
    let data = CostPerHeat {
        caption: Caption {
            title: format!("What a kWh of heat comes to: {}", clean_text(&unit.key, 60)),
            subtitle: clean_text(&format!("{}, {}", view.house.name, view.climate), 120),
        },
        units: Units {
            temperature: view.units.temperature_unit(),
            ..Units::METRIC
        },
        cost_title: title(view, lines.by.measure),
        heat_pump: CostLine {
            name: "heat pump".to_owned(),
            points: lines.heat_pump,
        },
        others: vec![
            CostLine {
                name: "furnace".to_owned(),
                points: known(&lines.furnace),
            },
            CostLine {
                name: "electric resistance".to_owned(),
                points: known(&lines.resistance),
            },
        ],
        switch_over: lines.mark,
        design_outdoor: Some(shown_temperature(view.units, design)),
    };
    Some(cost_per_heat(
        &data,
        &Frame::wide("cost-per-heat").standalone(),
    ))
}

/// The chart for a terminal; `None` where its measure is not known.
#[must_use]
pub fn switchover_plot(view: &SwitchoverView<'_>, unit: &UnitSwitchOver) -> Option<String> {
    let lines = lines(view, unit)?;
    let unit_of = view.units.temperature_unit();
    let gaps = |points: &[(f64, Option<f64>)]| {
        points
            .iter()
            .map(|&(t, cost)| (t, cost.unwrap_or(f64::NAN)))
            .collect()
    };
    let series = |name: &str, points: Vec<(f64, f64)>| TextSeries {
        name: name.to_owned(),
        points,
    };
    let plot = TextPlot {
        title: format!(
            "{}: break-even COP {}",
            clean_text(&unit.key, 40),
            fixed(lines.by.break_even.map_or(f64::NAN, |cop| cop.0), 2)
        ),
        x_title: format!("outdoor temperature, {unit_of}"),
        y_title: title(view, lines.by.measure),
        series: vec![
            series("heat pump", gaps(&lines.heat_pump)),
            series("furnace", lines.furnace),
            series("resistance", lines.resistance),
        ],
        mark: lines.mark.map(|(x, y)| TextMark {
            name: format!("switch-over {} {unit_of}", fixed(x, 1)),
            x,
            y,
        }),
        columns: usize::from(view.width),
        rows: 12,
        glyphs: Glyphs::Unicode,
    };
    Some(plot_text(&plot))
}
