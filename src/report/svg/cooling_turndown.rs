//! The sensible cooling load against what the unit can do sensibly, least to most: where it must cycle.

use super::Units;
use super::band::{BandPoint, LoadAndBand};
use super::canvas::{Canvas, Caption, Frame, Swatch};
use super::hours::BinHours;
use super::theme::{Hatch, INK, PUMP_TEXT};
use super::ticks::{brief, written};

/// Everything on the chart. Temperatures and heat flows in the units named by `units`.
#[derive(Clone, Debug, PartialEq)]
pub struct CoolingTurndown {
    /// Title and subtitle.
    pub caption: Caption,
    /// Units of the numbers below.
    pub units: Units,
    /// The sensible load line: outdoor temperature and load, coolest first.
    pub load: Vec<(f64, f64)>,
    /// The sensible capacity band, coolest first.
    pub sensible: Vec<BandPoint>,
    /// Hours a year by bin with those in which the unit cycles, drawn behind.
    pub hours: Vec<BinHours>,
    /// The outdoor design temperature for cooling.
    pub design_outdoor: Option<f64>,
    /// Outdoor temperature and load below which the unit cycles, where there is such a place.
    pub cycles_below: Option<(f64, f64)>,
    /// Ranges of outdoor temperature for which nobody published a capacity.
    pub unproven: Vec<(f64, f64)>,
}

/// Draws the chart.
#[must_use]
pub fn cooling_turndown(data: &CoolingTurndown, frame: &Frame) -> String {
    let mut canvas = Canvas::begin(frame, &data.caption);
    let shared = LoadAndBand {
        units: data.units,
        y_title: &format!("sensible cooling, {}", data.units.power),
        load: &data.load,
        band: &data.sensible,
        hours: &data.hours,
        design_outdoor: data.design_outdoor,
        unproven: &data.unproven,
    };
    let cycles = data.hours.iter().any(|bin| bin.cycling_hours > 0.0);
    let cycling = (Swatch::Hatch(Hatch::Cycling), "of these, hours cycling");
    let axes = shared.lay_out(&mut canvas, None, Some(cycling).filter(|_| cycles));
    let lines = shared.draw(&mut canvas, &axes);
    let temperature = data.units.temperature;
    if let Some((t, q)) = data.cycles_below
        && let Some(at) = axes.at(t, Some(q))
    {
        canvas.mark(
            at,
            &format!("cycles below {} {temperature}", written(t, 1)),
            axes.plot,
        );
    }
    canvas.name_line(&lines.maximum, "maximum", PUMP_TEXT, 0.2, axes.plot);
    canvas.name_line(&lines.minimum, "minimum", PUMP_TEXT, 0.2, axes.plot);
    canvas.name_line(&lines.load, "sensible load", INK, 0.85, axes.plot);
    canvas.finish(&description(data, &shared))
}

fn description(data: &CoolingTurndown, shared: &LoadAndBand) -> String {
    let (temperature, power) = (data.units.temperature, data.units.power);
    let mut text =
        format!("Sensible cooling in {power} over outdoor temperature in {temperature}.");
    if let Some((t, q)) = data.load.last() {
        text += &format!(
            " The load reaches {} {power} at {} {temperature}.",
            written(*q, 1),
            brief(*t)
        );
    }
    if let Some((t, q)) = data.cycles_below {
        let (t, q) = (written(t, 1), written(q, 1));
        text += &format!(" Below {t} {temperature}, a load of {q} {power}, the unit cycles.");
    }
    text + &shared.described()
}
