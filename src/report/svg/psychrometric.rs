//! Indoor humidity on a psychrometric chart: hours as the area of circles, the comfort limit, the coil.

use super::axes::{Axes, Axis, Side};
use super::canvas::{Canvas, Caption, Frame, LineStyle, SMALL, Swatch};
use super::element::Element;
use super::labels::Rect;
use super::measure::text_width;
use super::path::{Point, runs};
use super::scale::Span;
use super::theme::{BACKUP, HOURS, INK, MUTED, OTHER, PUMP};
use super::ticks::written;

/// A line of moist-air states with its name: dry bulb and humidity ratio, coolest first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NamedLine {
    /// What is written at the line, such as `60 %`.
    pub name: String,
    /// Dry bulb and humidity ratio.
    pub points: Vec<(f64, f64)>,
}

/// An indoor state and how long it lasts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IndoorState {
    /// Dry bulb.
    pub dry_bulb: f64,
    /// Humidity ratio.
    pub humidity_ratio: f64,
    /// Hours a year.
    pub hours: f64,
    /// Whether the state is more humid than the limit.
    pub is_humid: bool,
}

/// The coil in a humid hour: the air that enters it and its apparatus dew point, each dry bulb and humidity ratio.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coil {
    /// The entering air.
    pub entering: (f64, f64),
    /// The apparatus dew point, on the saturation curve.
    pub apparatus_dew_point: (f64, f64),
}

/// Everything on the chart. Temperatures in `temperature_unit`, humidity ratios in `humidity_ratio_unit`.
#[derive(Clone, Debug, PartialEq)]
pub struct Psychrometric {
    /// Title and subtitle.
    pub caption: Caption,
    /// Such as `°C`.
    pub temperature_unit: &'static str,
    /// Such as `g/kg`.
    pub humidity_ratio_unit: &'static str,
    /// The range of dry bulb that is shown, low to high.
    pub dry_bulb: (f64, f64),
    /// The highest humidity ratio that is shown; the axis begins at zero.
    pub highest_humidity_ratio: f64,
    /// The saturation curve: dry bulb and humidity ratio, coolest first.
    pub saturation: Vec<(f64, f64)>,
    /// Lines of equal relative humidity.
    pub relative_humidity: Vec<NamedLine>,
    /// The comfort limit.
    pub limit: Option<NamedLine>,
    /// Indoor states through the year.
    pub states: Vec<IndoorState>,
    /// The coil, where it is to be shown.
    pub coil: Option<Coil>,
}

/// Draws the chart.
#[must_use]
pub fn psychrometric(data: &Psychrometric, frame: &Frame) -> String {
    let mut canvas = Canvas::begin(frame, &data.caption);
    let hours = |state: &IndoorState| {
        if state.hours.is_finite() {
            state.hours.max(0.0)
        } else {
            0.0
        }
    };
    let most = data.states.iter().map(hours).fold(0.0, f64::max);
    let largest = format!("hours at an indoor state, largest {} h", written(most, 0));
    let mut entries = Vec::new();
    if most > 0.0 {
        entries.push((Swatch::Circle(PUMP), largest.as_str()));
        if data.states.iter().any(|state| state.is_humid) {
            entries.push((Swatch::Circle(BACKUP), "above the limit"));
        }
    }
    canvas.legend(&entries);
    let x = Axis {
        span: Span::new(data.dry_bulb.0, data.dry_bulb.1),
        title: &format!("dry bulb, {}", data.temperature_unit),
    };
    let y = Axis {
        span: Span::new(0.0, data.highest_humidity_ratio),
        title: &format!("humidity ratio, {}", data.humidity_ratio_unit),
    };
    let mut curves: Vec<(Vec<Vec<Point>>, String)> = Vec::new();
    let axes = Axes::lay_out(&mut canvas, (&x, &y), Side::Right, &[], |canvas, axes| {
        for line in &data.relative_humidity {
            let pieces = shown(axes, &line.points);
            canvas.lines(
                &pieces,
                LineStyle {
                    colour: HOURS,
                    width: 1.5,
                    dashes: "",
                },
            );
            curves.push((pieces, line.name.clone()));
        }
    });
    let saturation = shown(&axes, &data.saturation);
    canvas.lines(
        &saturation,
        LineStyle {
            colour: INK,
            width: 2.0,
            dashes: "",
        },
    );
    curves.push((saturation, "100 %".to_owned()));
    let limit = data
        .limit
        .as_ref()
        .map(|line| (shown(&axes, &line.points), line.name.clone()));
    if let Some((pieces, _)) = &limit {
        canvas.lines(
            pieces,
            LineStyle {
                colour: BACKUP,
                width: 2.25,
                dashes: "8 4",
            },
        );
    }
    draw_states(&mut canvas, &axes, data, most);
    if let Some(coil) = &data.coil {
        draw_coil(&mut canvas, &axes, coil, data.temperature_unit);
    }
    for (pieces, name) in &curves {
        name_end(&mut canvas, &axes, pieces, name);
    }
    if let Some((pieces, name)) = &limit {
        canvas.name_line(pieces, name, BACKUP, 0.85, axes.plot);
    }
    canvas.finish(&description(data))
}

/// The part of a line within the plot; where it leaves through the top, it ends exactly there.
fn shown(axes: &Axes, points: &[(f64, f64)]) -> Vec<Vec<Point>> {
    let (x, y) = (axes.x.span(), axes.y.span());
    let is_in = |p: &(f64, f64)| x.holds(p.0) && y.holds(p.1);
    let mut kept: Vec<Option<(f64, f64)>> = Vec::new();
    for (index, point) in points.iter().enumerate() {
        kept.push(is_in(point).then_some(*point));
        if let Some(next) = points.get(index + 1)
            && is_in(point) != is_in(next)
            && let Some(crossing) = crossing(*point, *next, (x, y))
        {
            kept.push(Some(crossing));
        }
    }
    runs(&kept, |point| {
        point.map(|(t, w)| (axes.x.at(t), axes.y.at(w)))
    })
}

/// Where the straight piece from one point to another passes the edge of the shown range.
fn crossing(a: (f64, f64), b: (f64, f64), (x, y): (Span, Span)) -> Option<(f64, f64)> {
    let shares = [
        (x.low() - a.0) / (b.0 - a.0),
        (x.high() - a.0) / (b.0 - a.0),
        (y.low() - a.1) / (b.1 - a.1),
        (y.high() - a.1) / (b.1 - a.1),
    ];
    let on = |share: f64| (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share);
    let slack = |span: Span| (span.high() - span.low()) * 1e-9;
    let touches = |(t, w): (f64, f64)| {
        let (dx, dy) = (slack(x), slack(y));
        (x.low() - dx..=x.high() + dx).contains(&t) && (y.low() - dy..=y.high() + dy).contains(&w)
    };
    shares
        .into_iter()
        .filter(|share| (0.0..=1.0).contains(share))
        .map(on)
        .find(|&point| touches(point))
}

fn draw_states(canvas: &mut Canvas, axes: &Axes, data: &Psychrometric, most: f64) {
    let largest = if canvas.frame.is_narrow() { 13.0 } else { 18.0 };
    let mut states: Vec<&IndoorState> = data
        .states
        .iter()
        .filter(|state| state.hours > 0.0)
        .collect();
    states.sort_by(|a, b| b.hours.total_cmp(&a.hours));
    for state in states {
        let Some((x, y)) = axes.at(state.dry_bulb, Some(state.humidity_ratio)) else {
            continue;
        };
        let radius = (largest * (state.hours / most).sqrt()).max(1.5);
        let colour = if state.is_humid { BACKUP } else { PUMP };
        let circle = Element::new("circle").numbers([("cx", x), ("cy", y), ("r", radius)]);
        let filled = circle
            .with("fill", colour)
            .with("fill-opacity", "0.35")
            .with("stroke", colour);
        canvas.put(if state.is_humid {
            filled.number("stroke-width", 1.8)
        } else {
            filled
        });
        canvas
            .obstacles
            .add_box(Rect::around((x, y), (radius * 2.0, radius * 2.0)));
    }
}

fn draw_coil(canvas: &mut Canvas, axes: &Axes, coil: &Coil, unit: &str) {
    let ends = [coil.entering, coil.apparatus_dew_point].map(|(t, w)| axes.at(t, Some(w)));
    if let [Some(entering), Some(dew_point)] = ends {
        canvas.lines(
            &[vec![entering, dew_point]],
            LineStyle {
                colour: OTHER,
                width: 1.75,
                dashes: "1 4",
            },
        );
        let name = format!(
            "apparatus dew point {} {unit}",
            written(coil.apparatus_dew_point.0, 1)
        );
        canvas.mark(dew_point, &name, axes.plot);
    }
}

/// Writes the name of a curve of relative humidity at its upper end, where there is still room beside it.
fn name_end(canvas: &mut Canvas, axes: &Axes, pieces: &[Vec<Point>], name: &str) {
    let Some(&(x, y)) = pieces
        .iter()
        .flat_map(|piece| piece.last())
        .max_by(|a, b| a.0.total_cmp(&b.0))
    else {
        return;
    };
    let name = super::measure::fitted(name, SMALL, 60.0);
    let width = text_width(&name, SMALL);
    let is_at_top = y < axes.plot.top + 6.0;
    let middle = if is_at_top {
        (x - width / 2.0 - 12.0, y + 9.0)
    } else {
        (x - width / 2.0 - 2.0, y - 9.0)
    };
    let place = Rect::around(middle, (width, 14.0));
    canvas.obstacles.add_box(place);
    canvas.label(place, &name, MUTED);
}

fn description(data: &Psychrometric) -> String {
    let mut text = format!(
        "Psychrometric chart: humidity ratio in {} over dry bulb in {}.",
        data.humidity_ratio_unit, data.temperature_unit
    );
    if let Some(limit) = &data.limit {
        text += &format!(" The comfort limit is drawn: {}.", limit.name);
    }
    let place = |t: f64, w: f64| {
        format!(
            "{} {}, {} {}",
            written(t, 1),
            data.temperature_unit,
            written(w, 1),
            data.humidity_ratio_unit
        )
    };
    let longest = data
        .states
        .iter()
        .filter(|s| s.hours.is_finite())
        .max_by(|a, b| a.hours.total_cmp(&b.hours));
    if let Some(state) = longest {
        let place = place(state.dry_bulb, state.humidity_ratio);
        text += &format!(
            " The longest indoor state, {} hours, is {place}.",
            written(state.hours, 0)
        );
    }
    if let Some(coil) = &data.coil {
        let (t, w) = coil.apparatus_dew_point;
        text += &format!(" The coil's apparatus dew point is {}.", place(t, w));
    }
    text
}
