//! What a kilowatt-hour of heat costs over outdoor temperature, by each way of making it, and where the order changes.

use super::Units;
use super::axes::{Axes, Axis, Flag, Side};
use super::canvas::{Canvas, Caption, Frame, LineStyle};
use super::path::{Point, runs};
use super::scale::Span;
use super::theme::{BACKUP, INK, OTHER, PUMP, PUMP_TEXT};
use super::ticks::{Ticks, brief, written};

/// One way of making heat; `None` where its cost is not known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CostLine {
    /// Its name, written at the line.
    pub name: String,
    /// Outdoor temperature and cost of a unit of heat, coldest first.
    pub points: Vec<(f64, Option<f64>)>,
}

/// Everything on the chart. The vertical axis need not be money: emissions or source energy look the same.
#[derive(Clone, Debug, PartialEq)]
pub struct CostPerHeat {
    /// Title and subtitle.
    pub caption: Caption,
    /// Units of the temperatures.
    pub units: Units,
    /// The vertical axis with its unit, such as `cost of heat, $/kWh`.
    pub cost_title: String,
    /// The heat pump.
    pub heat_pump: CostLine,
    /// What it is compared with, at most three: a furnace, resistance heat.
    pub others: Vec<CostLine>,
    /// Outdoor temperature and cost at which the heat pump and its rival change places.
    pub switch_over: Option<(f64, f64)>,
    /// The outdoor design temperature.
    pub design_outdoor: Option<f64>,
}

const STYLES: [LineStyle; 3] = [
    LineStyle {
        colour: OTHER,
        width: 2.25,
        dashes: "9 4",
    },
    LineStyle {
        colour: BACKUP,
        width: 2.25,
        dashes: "3 3",
    },
    LineStyle {
        colour: INK,
        width: 2.0,
        dashes: "9 3 2 3",
    },
];

/// Draws the chart.
#[must_use]
pub fn cost_per_heat(data: &CostPerHeat, frame: &Frame) -> String {
    let mut canvas = Canvas::begin(frame, &data.caption);
    let all = || {
        data.others
            .iter()
            .chain([&data.heat_pump])
            .flat_map(|line| &line.points)
    };
    let x = Axis {
        span: Span::of(all().map(|p| p.0).chain(data.design_outdoor)),
        title: &format!("outdoor temperature, {}", data.units.temperature),
    };
    let highest = Span::of(all().filter_map(|p| p.1).chain([0.0])).high();
    let y = Axis {
        span: Ticks::rounded_out(Span::new(0.0, highest), 6),
        title: &data.cost_title,
    };
    let temperature = data.units.temperature;
    let design = |x: f64| Flag {
        x,
        text: format!("design {} {temperature}", brief(x)),
    };
    let flags: Vec<Flag> = data.design_outdoor.map(design).into_iter().collect();
    let axes = Axes::lay_out(&mut canvas, (&x, &y), Side::Left, &flags, |_, _| ());
    let pieces =
        |line: &CostLine| -> Vec<Vec<Point>> { runs(&line.points, |&(t, cost)| axes.at(t, cost)) };

    let others: Vec<_> = data
        .others
        .iter()
        .zip(STYLES)
        .map(|(line, style)| (line, pieces(line), style))
        .collect();
    for (_, pieces, style) in &others {
        canvas.lines(pieces, *style);
    }
    let pump = pieces(&data.heat_pump);
    canvas.lines(
        &pump,
        LineStyle {
            colour: PUMP,
            width: 2.75,
            dashes: "",
        },
    );
    if let Some((t, cost)) = data.switch_over
        && let Some(at) = axes.at(t, Some(cost))
    {
        canvas.mark(
            at,
            &format!("switch-over {} {temperature}", written(t, 1)),
            axes.plot,
        );
    }
    canvas.name_line(&pump, &data.heat_pump.name, PUMP_TEXT, 0.7, axes.plot);
    for (line, pieces, style) in &others {
        canvas.name_line(pieces, &line.name, style.colour, 0.85, axes.plot);
    }
    canvas.finish(&description(data))
}

fn description(data: &CostPerHeat) -> String {
    let temperature = data.units.temperature;
    let mut text = format!(
        "{} over outdoor temperature in {temperature}.",
        data.cost_title
    );
    for line in [&data.heat_pump].into_iter().chain(&data.others) {
        let known = || line.points.iter().filter_map(|&(t, cost)| Some((t, cost?)));
        if let (Some(first), Some(last)) = (known().next(), known().next_back()) {
            let end =
                |p: (f64, f64)| format!("{} at {} {temperature}", written(p.1, 3), brief(p.0));
            text += &format!(" {}: {} to {}.", line.name, end(first), end(last));
        }
    }
    match data.switch_over {
        Some((t, _)) => text += &format!(" The order changes at {} {temperature}.", written(t, 1)),
        None => text += " The order does not change.",
    }
    text
}
