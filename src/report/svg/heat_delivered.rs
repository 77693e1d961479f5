//! Heat delivered in each temperature bin, stacked: by the heat pump steadily, while it cycles, and by backup.

use super::Units;
use super::axes::{Axes, Axis, Flag, Side};
use super::canvas::{Canvas, Caption, Frame, Swatch};
use super::scale::Span;
use super::theme::{BACKUP, Hatch, PUMP};
use super::ticks::{Ticks, brief, written};

/// The heat of one bin of outdoor temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatBin {
    /// Where the bin begins.
    pub from: f64,
    /// Where the bin ends.
    pub to: f64,
    /// Heat by the heat pump between its minimum and its maximum.
    pub steady: f64,
    /// Heat by the heat pump while it cycles below its minimum.
    pub cycling: f64,
    /// Heat by backup.
    pub backup: f64,
}

/// Everything on the chart. Temperatures and energies in the units named by `units`.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatDelivered {
    /// Title and subtitle.
    pub caption: Caption,
    /// Units of the numbers below.
    pub units: Units,
    /// The bins, coldest first.
    pub bins: Vec<HeatBin>,
    /// The balance point, where there is one.
    pub balance_point: Option<f64>,
    /// The outdoor design temperature.
    pub design_outdoor: Option<f64>,
}

/// Draws the chart.
#[must_use]
pub fn heat_delivered(data: &HeatDelivered, frame: &Frame) -> String {
    let mut canvas = Canvas::begin(frame, &data.caption);
    canvas.legend(&[
        (Swatch::Fill(BACKUP), "backup"),
        (Swatch::Fill(PUMP), "heat pump, steadily"),
        (Swatch::Hatch(Hatch::Cycling), "heat pump, cycling"),
    ]);
    let parts = |bin: &HeatBin| {
        [bin.cycling, bin.steady, bin.backup]
            .map(|heat| if heat.is_finite() { heat.max(0.0) } else { 0.0 })
    };
    let marks = data.balance_point.into_iter().chain(data.design_outdoor);
    let x = Axis {
        span: Span::of(
            data.bins
                .iter()
                .flat_map(|bin| [bin.from, bin.to])
                .chain(marks),
        ),
        title: &format!("outdoor temperature, {}", data.units.temperature),
    };
    let tallest = data
        .bins
        .iter()
        .map(|bin| parts(bin).iter().sum())
        .fold(0.0, f64::max);
    let y = Axis {
        span: Ticks::rounded_out(Span::new(0.0, if tallest > 0.0 { tallest } else { 1.0 }), 6),
        title: &format!("heat a year in each bin, {}", data.units.energy),
    };
    let temperature = data.units.temperature;
    let mut flags = Vec::new();
    if let Some(x) = data.design_outdoor {
        flags.push(Flag {
            x,
            text: format!("design {} {temperature}", brief(x)),
        });
    }
    if let Some(x) = data.balance_point {
        flags.push(Flag {
            x,
            text: format!("balance point {} {temperature}", written(x, 1)),
        });
    }
    let hatch = canvas.hatch(Hatch::Cycling);
    Axes::lay_out(&mut canvas, (&x, &y), Side::Left, &flags, |canvas, axes| {
        let mut bars = [Vec::new(), Vec::new(), Vec::new()];
        for bin in data
            .bins
            .iter()
            .filter(|bin| bin.from.is_finite() && bin.to.is_finite())
        {
            let strip = axes.strip(bin.from, bin.to);
            let mut below = 0.0;
            for (heat, bars) in parts(bin).into_iter().zip(&mut bars) {
                bars.push(strip.as_bar(axes.y.at(below + heat), axes.y.at(below)));
                below += heat;
            }
        }
        for (bars, fill) in bars.iter().zip([hatch.as_str(), PUMP, BACKUP]) {
            canvas.rects(bars, fill);
        }
    });
    canvas.finish(&description(data))
}

fn description(data: &HeatDelivered) -> String {
    let (temperature, energy) = (data.units.temperature, data.units.energy);
    let mut text =
        format!("Heat a year in {energy} for each bin of outdoor temperature in {temperature}:");
    for bin in data
        .bins
        .iter()
        .filter(|bin| bin.steady + bin.cycling + bin.backup > 0.0)
    {
        let [steady, cycling, backup] =
            [bin.steady, bin.cycling, bin.backup].map(|heat| written(heat, 0));
        let (from, to) = (brief(bin.from), brief(bin.to));
        text += &format!(" {from} to {to}: steadily {steady}, cycling {cycling}, backup {backup};");
    }
    if data.bins.is_empty() {
        text += " no bins.";
    }
    text.trim_end_matches([';', ':']).to_owned()
}
