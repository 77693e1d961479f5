//! Several units side by side: a panel of bars for each measure, the best marked, what is missing said.

use super::canvas::{Canvas, Caption, Frame, LABEL, LineStyle, SMALL};
use super::element::Element;
use super::labels::Rect;
use super::measure::{fitted, text_width};
use super::scale::{Scale, Span};
use super::theme::{BACKUP, GRID, HOURS, INK, MUTED, PAPER, PUMP};
use super::ticks::written;

/// Which end of a measure is the better one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Better {
    /// More is better.
    Higher,
    /// Less is better.
    Lower,
    /// Neither; no unit is marked.
    Neither,
}

/// One measure of all units.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    /// What is measured, in a few words.
    pub name: String,
    /// The unit, empty for a plain number.
    pub unit: String,
    /// One value per unit of the comparison, in its order; `None` where it is not known.
    pub values: Vec<Option<f64>>,
    /// Decimals that are written.
    pub decimals: usize,
    /// Which end is better.
    pub better: Better,
    /// A limit to draw through the bars.
    pub limit: Option<f64>,
}

/// Everything on the chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// Title and subtitle.
    pub caption: Caption,
    /// Names of the units.
    pub units: Vec<String>,
    /// The measures, most important first.
    pub measures: Vec<Measure>,
}

const ROW: f64 = 24.0;

/// Draws the chart: two panels beside each other, or one where it is narrow.
#[must_use]
pub fn comparison(data: &Comparison, frame: &Frame) -> String {
    let mut canvas = Canvas::begin(frame, &data.caption);
    let columns = if frame.is_narrow() || data.measures.len() < 2 {
        1
    } else {
        2
    };
    let gutter = 32.0;
    let width = (frame.width() - 8.0 - gutter * (columns as f64 - 1.0)) / columns as f64;
    for row in data.measures.chunks(columns) {
        let top = canvas.y;
        for (column, measure) in row.iter().enumerate() {
            let left = 4.0 + column as f64 * (width + gutter);
            panel(&mut canvas, &data.units, measure, (left, top), width);
        }
        canvas.y = top + 30.0 + data.units.len() as f64 * ROW + 22.0;
    }
    canvas.finish(&description(data))
}

/// One measure: its name, and a row per unit with name, bar and value.
fn panel(
    canvas: &mut Canvas,
    units: &[String],
    measure: &Measure,
    (left, top): (f64, f64),
    width: f64,
) {
    let unit = if measure.unit.is_empty() {
        String::new()
    } else {
        format!(", {}", measure.unit)
    };
    let limit = measure.limit.filter(|limit| limit.is_finite());
    let sense = match measure.better {
        Better::Higher => "at least",
        Better::Lower => "at most",
        Better::Neither => "limit",
    };
    let note = limit.map_or(String::new(), |limit| {
        format!("{sense} {}", written(limit, measure.decimals))
    });
    let heading = fitted(
        &format!("{}{unit}", measure.name),
        LABEL,
        width - text_width(&note, SMALL) - 16.0,
    );
    let text = Element::new("text").numbers([("x", left), ("y", top + 16.0), ("font-size", LABEL)]);
    canvas.put(
        text.with("font-weight", "600")
            .with("fill", INK)
            .text(heading),
    );
    let note_at = Element::new("text")
        .numbers([("x", left + width), ("y", top + 16.0)])
        .with("text-anchor", "end");
    if !note.is_empty() {
        canvas.put(note_at.with("fill", BACKUP).text(note));
    }
    canvas.lines(
        &[vec![(left, top + 24.0), (left + width, top + 24.0)]],
        LineStyle {
            colour: GRID,
            width: 1.0,
            dashes: "",
        },
    );

    let known = || {
        measure
            .values
            .iter()
            .flatten()
            .copied()
            .filter(|value| value.is_finite())
    };
    let best = match measure.better {
        Better::Higher => known().reduce(f64::max),
        Better::Lower => known().reduce(f64::min),
        Better::Neither => None,
    };
    let values: Vec<String> = (0..units.len())
        .map(|index| value_text(measure, index))
        .collect();
    let name_width = units
        .iter()
        .map(|name| text_width(&fitted(name, SMALL, width * 0.42), SMALL))
        .fold(0.0, f64::max)
        + 10.0;
    let value_width = values
        .iter()
        .map(|text| text_width(text, SMALL))
        .fold(0.0, f64::max)
        * 1.08
        + 8.0;
    let span = Span::of(known().chain(limit).chain([0.0]));
    let bars = Scale::new(
        span,
        left + name_width,
        (left + width - value_width).max(left + name_width),
    );
    let zero = bars.inside(0.0);
    // Values are written last and edged with paper, so that the line of the limit does not cross them.
    let mut texts = Element::new("g").with("fill", INK).with("stroke", PAPER);
    texts = texts
        .number("stroke-width", 4.0)
        .with("paint-order", "stroke");
    for (index, name) in units.iter().enumerate() {
        let middle = top + 30.0 + (index as f64 + 0.5) * ROW;
        let value = measure
            .values
            .get(index)
            .copied()
            .flatten()
            .filter(|value| value.is_finite());
        let is_best = value.is_some() && value == best;
        canvas.text(
            (left, middle + 4.3),
            &fitted(name, SMALL, width * 0.42),
            if is_best { INK } else { MUTED },
        );
        let mut end = zero;
        if let Some(value) = value {
            let place = bars.inside(value);
            end = place.max(zero);
            let area = Rect {
                left: place.min(zero),
                right: end,
                top: middle - 6.5,
                bottom: middle + 6.5,
            };
            canvas.rect(area, if is_best { PUMP } else { HOURS });
        }
        let mut start = end + 6.0;
        if let Some(line) = limit.map(|limit| bars.inside(limit))
            && line > end - 2.0
            && line < start + text_width(&values[index], SMALL) + 2.0
        {
            start = line + 6.0;
        }
        let text = Element::new("text").numbers([("x", start), ("y", middle + 4.3)]);
        let text = match value {
            None => text.with("fill", MUTED).with("font-style", "italic"),
            Some(_) if is_best => text.with("font-weight", "700"),
            Some(_) => text,
        };
        texts.push(text.text(values[index].as_str()));
    }
    if let Some(limit) = limit {
        let (x, foot) = (bars.inside(limit), top + 30.0 + units.len() as f64 * ROW);
        canvas.lines(
            &[vec![(x, top + 26.0), (x, foot)]],
            LineStyle {
                colour: BACKUP,
                width: 1.5,
                dashes: "4 3",
            },
        );
    }
    canvas.put(texts);
}

fn value_text(measure: &Measure, index: usize) -> String {
    let value = measure
        .values
        .get(index)
        .copied()
        .flatten()
        .filter(|value| value.is_finite());
    value.map_or("not known".to_owned(), |value| {
        written(value, measure.decimals)
    })
}

fn description(data: &Comparison) -> String {
    let mut text = format!("Comparison of {} units.", data.units.len());
    for measure in &data.measures {
        let rows: Vec<String> = data
            .units
            .iter()
            .enumerate()
            .map(|(index, unit)| {
                format!(
                    "{} {}",
                    fitted(unit, SMALL, 240.0),
                    value_text(measure, index)
                )
            })
            .collect();
        let unit = if measure.unit.is_empty() {
            String::new()
        } else {
            format!(" in {}", measure.unit)
        };
        text += &format!(" {}{unit}: {}.", measure.name, rows.join(", "));
    }
    text
}
