//! The pictures of an explanation: in the terminal, and as drawings for a page.

use super::ExplainView;
use crate::quantity::fixed;
use crate::report::svg::{
    BandPoint, Caption, CoolingTurndown, Frame, LoadAndCapacity, Units, cooling_turndown,
    load_and_capacity,
};
use crate::report::terminal::{
    Glyphs, TextBar, TextBars, TextMark, TextPlot, TextSeries, bars_text, plot_text,
};
use crate::study::explain::{Line, Mark, Picture, Shows};

/// How large a picture of text may be.
#[derive(Clone, Copy, Debug)]
pub struct TextSize {
    /// Characters that fit a line.
    pub columns: usize,
    /// Rows of the plotting area, where it has one.
    pub rows: usize,
}

impl TextSize {
    /// As wide as this, and of the usual height.
    #[must_use]
    pub fn wide(columns: usize) -> Self {
        Self { columns, rows: 14 }
    }
}

/// A picture as lines of text.
#[must_use]
pub fn text_picture(picture: &Picture, size: TextSize, glyphs: Glyphs) -> String {
    let TextSize { columns, rows } = size;
    match picture {
        Picture::Lines {
            title,
            axis,
            lines,
            mark,
            ..
        } => plot_text(&TextPlot {
            title: title.clone(),
            x_title: "outdoor temperature, °C".to_owned(),
            y_title: (*axis).to_owned(),
            series: lines
                .iter()
                .map(|line| TextSeries {
                    name: line.name.clone(),
                    points: line.points.clone(),
                })
                .collect(),
            mark: mark.as_ref().map(|mark| TextMark {
                name: mark_words(mark),
                x: mark.x,
                y: mark.y,
            }),
            columns,
            rows,
            glyphs,
        }),
        Picture::Hours { title, bars } => bars_text(&TextBars {
            title: title.clone(),
            bars: bars
                .iter()
                .map(|bar| TextBar {
                    label: format!("{} °C", fixed(bar.outdoor, 0)),
                    value: Some(bar.hours),
                    shaded: bar.cycling,
                    text: format!("{} h", fixed(bar.hours, 0)),
                })
                .collect(),
            columns,
            glyphs,
        }),
    }
}

fn mark_words(mark: &Mark) -> String {
    format!("{} {} °C", mark.name, fixed(mark.x, 1))
}

/// A picture as a drawing for a page, where there is one; `id` is unique on the page.
pub(super) fn drawing(picture: &Picture, view: &ExplainView<'_>, id: &str) -> Option<String> {
    let Picture::Lines {
        shows,
        title,
        lines,
        mark,
        ..
    } = picture
    else {
        return None;
    };
    let caption = Caption {
        title: title.clone(),
        subtitle: view.title(),
    };
    let named = |name: &str| {
        lines
            .iter()
            .find(|line| line.name == name)
            .map(|line| line.points.as_slice())
    };
    let load = named("load")?.to_vec();
    let band = band(lines);
    let place = mark.as_ref().map(|mark| (mark.x, mark.y));
    match shows {
        Shows::Heating => {
            let data = LoadAndCapacity {
                caption,
                units: Units::METRIC,
                load,
                capacity: band,
                hours: Vec::new(),
                balance_point: place,
                design_outdoor: Some(view.house.heating.load.design_outdoor.0),
                unproven: Vec::new(),
            };
            Some(Frame::pair(id, |frame| load_and_capacity(&data, frame)))
        }
        Shows::Cooling => {
            let data = CoolingTurndown {
                caption,
                units: Units::METRIC,
                load,
                sensible: band,
                hours: Vec::new(),
                design_outdoor: view
                    .house
                    .cooling
                    .map(|cooling| cooling.load.design_outdoor.0),
                cycles_below: place,
                unproven: Vec::new(),
            };
            Some(Frame::pair(id, |frame| cooling_turndown(&data, frame)))
        }
        Shows::Cop => None,
    }
}

/// The band from minimum to maximum.
fn band(lines: &[Line]) -> Vec<BandPoint> {
    let named = |name: &str| lines.iter().find(|line| line.name == name);
    let Some(maximum) = named("maximum") else {
        return Vec::new();
    };
    let minimum = named("minimum");
    let known = |value: f64| Some(value).filter(|value| value.is_finite());
    maximum
        .points
        .iter()
        .enumerate()
        .map(|(index, &(outdoor, value))| BandPoint {
            outdoor,
            maximum: known(value),
            minimum: minimum
                .and_then(|line| line.points.get(index))
                .and_then(|&(_, value)| known(value)),
        })
        .collect()
}
