//! The house's load line against the unit's capacity band over outdoor temperature: where the balance point lies.

use super::Units;
use super::axes::Axes;
use super::band::{BandPoint, LoadAndBand};
use super::canvas::{Canvas, Caption, Frame, Swatch};
use super::element::Element;
use super::hours::BinHours;
use super::path::{Point, closed_path, runs};
use super::theme::{Hatch, INK, PUMP_TEXT};
use super::ticks::{brief, written};

/// Everything on the chart. Temperatures and heat flows in the units named by `units`.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadAndCapacity {
    /// Title and subtitle.
    pub caption: Caption,
    /// Units of the numbers below.
    pub units: Units,
    /// The load line: outdoor temperature and load, coldest first.
    pub load: Vec<(f64, f64)>,
    /// The capacity band, coldest first.
    pub capacity: Vec<BandPoint>,
    /// Hours a year by bin, drawn behind.
    pub hours: Vec<BinHours>,
    /// Outdoor temperature and load at the balance point, where there is one.
    pub balance_point: Option<(f64, f64)>,
    /// The outdoor design temperature.
    pub design_outdoor: Option<f64>,
    /// Ranges of outdoor temperature for which nobody published a capacity.
    pub unproven: Vec<(f64, f64)>,
}

/// Draws the chart.
#[must_use]
pub fn load_and_capacity(data: &LoadAndCapacity, frame: &Frame) -> String {
    let mut canvas = Canvas::begin(frame, &data.caption);
    let shared = LoadAndBand {
        units: data.units,
        y_title: &format!("heat, {}", data.units.power),
        load: &data.load,
        band: &data.capacity,
        hours: &data.hours,
        design_outdoor: data.design_outdoor,
        unproven: &data.unproven,
    };
    let short = (
        Swatch::Hatch(Hatch::Short),
        "load above the maximum: backup heat",
    );
    let axes = shared.lay_out(
        &mut canvas,
        Some(short).filter(|_| is_short_somewhere(data)),
        None,
    );
    draw_short(&mut canvas, &axes, data);
    let lines = shared.draw(&mut canvas, &axes);
    let temperature = data.units.temperature;
    if let Some((t, q)) = data.balance_point
        && let Some(at) = axes.at(t, Some(q))
    {
        canvas.mark(
            at,
            &format!("balance point {} {temperature}", written(t, 1)),
            axes.plot,
        );
    }
    canvas.name_line(&lines.load, "load of the house", INK, 0.6, axes.plot);
    canvas.name_line(
        &lines.maximum,
        "maximum capacity",
        PUMP_TEXT,
        0.85,
        axes.plot,
    );
    canvas.name_line(
        &lines.minimum,
        "minimum capacity",
        PUMP_TEXT,
        0.85,
        axes.plot,
    );
    canvas.finish(&description(data, &shared))
}

/// Whether some point of the band lies below the load line, as far as the points handed in can show.
fn is_short_somewhere(data: &LoadAndCapacity) -> bool {
    let load_at = |t: f64| {
        let pair = data
            .load
            .windows(2)
            .find(|pair| (pair[0].0..=pair[1].0).contains(&t))?;
        let share = (t - pair[0].0) / (pair[1].0 - pair[0].0);
        Some(pair[0].1 + (pair[1].1 - pair[0].1) * if share.is_finite() { share } else { 0.0 })
    };
    let is_short = |p: &BandPoint| Some(p.maximum? < load_at(p.outdoor)? - 1e-9);
    data.capacity
        .iter()
        .any(|point| is_short(point).unwrap_or(false))
}

/// Hatches what lies under the load line and above the maximum: the area under the load, clipped to the area over the band.
fn draw_short(canvas: &mut Canvas, axes: &Axes, data: &LoadAndCapacity) {
    if !is_short_somewhere(data) {
        return;
    }
    let (top, bottom) = (axes.plot.top, axes.plot.bottom);
    let id = canvas.id("above");
    let mut clip = Element::new("clipPath").with("id", id.as_str());
    for piece in runs(&data.capacity, |p| axes.at(p.outdoor, p.maximum)) {
        clip.push(Element::new("path").with("d", closed_path(&closed_to(&piece, top))));
    }
    let hatch = canvas.hatch(Hatch::Short);
    let mut clipped = Element::new("g").with("clip-path", format!("url(#{id})"));
    for piece in runs(&data.load, |&(t, q)| axes.at(t, Some(q))) {
        let under = closed_path(&closed_to(&piece, bottom));
        clipped.push(
            Element::new("path")
                .with("d", under)
                .with("fill", hatch.as_str())
                .with("fill-opacity", "0.75"),
        );
    }
    canvas.put(clip);
    canvas.put(clipped);
}

/// A line with its two ends led to a level, so that it encloses the area between.
fn closed_to(line: &[Point], level: f64) -> Vec<Point> {
    let ends = line
        .last()
        .map(|end| (end.0, level))
        .into_iter()
        .chain(line.first().map(|start| (start.0, level)));
    line.iter().copied().chain(ends).collect()
}

fn description(data: &LoadAndCapacity, shared: &LoadAndBand) -> String {
    let (temperature, power) = (data.units.temperature, data.units.power);
    let mut text = format!("Heat in {power} over outdoor temperature in {temperature}.");
    if let (Some(first), Some(last)) = (data.load.first(), data.load.last()) {
        let end = |p: &(f64, f64)| {
            format!(
                "{} {power} at {} {temperature}",
                written(p.1, 1),
                brief(p.0)
            )
        };
        text += &format!(
            " The load of the house goes from {} to {}.",
            end(first),
            end(last)
        );
    }
    // Where none is given, none is marked; whether there is one is for whoever shows the chart to say.
    if let Some((t, q)) = data.balance_point {
        text += &format!(
            " Balance point at {} {temperature}, {} {power}.",
            written(t, 1),
            written(q, 1)
        );
    }
    text + &shared.described()
}
