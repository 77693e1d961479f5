//! Lays out the plotting area with its two axes, grid, unit titles and labelled vertical marks.

use super::canvas::{Canvas, LineStyle, SMALL};
use super::element::Element;
use super::labels::{Rect, flag_places};
use super::measure::{fitted, text_width};
use super::path::{Point, open_path};
use super::scale::{Scale, Span};
use super::theme::{GRID, INK, MUTED};
use super::ticks::Ticks;

/// What an axis covers and measures.
pub(super) struct Axis<'a> {
    pub span: Span,
    pub title: &'a str,
}

/// A vertical mark through the plot with a name over it.
pub(super) struct Flag {
    pub x: f64,
    pub text: String,
}

/// The plotting area and the two scales into it.
pub(super) struct Axes {
    pub plot: Rect,
    pub x: Scale,
    pub y: Scale,
}

/// Whether the vertical axis stands left or right.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Left,
    Right,
}

const ROW: f64 = 18.0;

impl Axes {
    /// Draws grid, what lies `behind` everything else, axes and flags below what the canvas holds, and leaves the
    /// canvas below them.
    pub fn lay_out(
        canvas: &mut Canvas,
        (x, y): (&Axis, &Axis),
        side: Side,
        flags: &[Flag],
        behind: impl FnOnce(&mut Canvas, &Self),
    ) -> Self {
        let height = if canvas.frame.is_narrow() {
            230.0
        } else {
            300.0
        };
        let narrow = canvas.frame.is_narrow();
        let y_ticks = Ticks::within(y.span, if narrow { 4 } else { 6 });
        let y_labels = y_ticks.labels();
        let room = y_labels
            .iter()
            .map(|label| text_width(label, SMALL))
            .fold(0.0, f64::max)
            + 14.0;
        let width = canvas.frame.width();
        let (left, right) = match side {
            Side::Left => (room, width - if narrow { 12.0 } else { 20.0 }),
            Side::Right => (16.0, width - room),
        };
        let title = fitted(y.title, SMALL, width * 0.6);
        let title_width = text_width(&title, SMALL);
        let title_start = if side == Side::Left {
            4.0
        } else {
            width - 4.0 - title_width
        };
        let x_scale = Scale::new(x.span, left, right);

        let names: Vec<String> = flags
            .iter()
            .map(|flag| fitted(&flag.text, SMALL, (right - left) * 0.8))
            .collect();
        let middles: Vec<(f64, f64)> = flags
            .iter()
            .zip(&names)
            .map(|(flag, name)| (x_scale.inside(flag.x), text_width(name, SMALL)))
            .collect();
        // The title of the vertical axis shares the lowest row, or stands over all flags if one of them would cross it.
        let title_place = (title_start, title_start + title_width);
        let is_crossed = middles
            .iter()
            .any(|&(x, _)| x > title_place.0 - 6.0 && x < title_place.1 + 6.0);
        let places = flag_places(
            &middles,
            4.0,
            width - 4.0,
            Some(title_place).filter(|_| !is_crossed),
        );
        let rows =
            places.iter().map(|place| place.row + 1).max().unwrap_or(1) + usize::from(is_crossed);
        let title_row = if is_crossed { rows - 1 } else { 0 };
        let top = canvas.y + rows as f64 * ROW + 6.0;
        let plot = Rect {
            left,
            top,
            right,
            bottom: top + height,
        };
        let axes = Self {
            plot,
            x: x_scale,
            y: Scale::new(y.span, plot.bottom, plot.top),
        };

        canvas.text(
            (title_start, top - 10.0 - title_row as f64 * ROW),
            &title,
            MUTED,
        );
        axes.horizontal_grid(canvas, &y_ticks, &y_labels, side);
        behind(canvas, &axes);
        axes.bottom(canvas, x, narrow);
        for (((flag, name), place), (middle, _)) in
            flags.iter().zip(&names).zip(&places).zip(&middles)
        {
            let baseline = top - 10.0 - place.row as f64 * ROW;
            if x.span.holds(flag.x) {
                let is_over_it =
                    place.start < *middle && *middle < place.start + text_width(name, SMALL);
                let from = baseline + if is_over_it { 4.0 } else { -10.0 };
                let line = [(*middle, from), (*middle, plot.bottom)];
                canvas.lines(
                    &[line.to_vec()],
                    LineStyle {
                        colour: INK,
                        width: 1.1,
                        dashes: "2 3",
                    },
                );
            }
            canvas.text((place.start, baseline), name, INK);
        }
        canvas.y = plot.bottom + 46.0;
        axes
    }

    /// Where a pair of values lies; `None` where either is missing or lies outside the horizontal axis.
    pub fn at(&self, x: f64, y: Option<f64>) -> Option<Point> {
        let y = y.filter(|y| y.is_finite())?;
        self.x
            .span()
            .holds(x)
            .then(|| (self.x.at(x), self.y.inside(y)))
    }

    /// The part of the plot between two values on the horizontal axis, full height.
    pub fn strip(&self, from: f64, to: f64) -> Rect {
        Rect {
            left: self.x.inside(from.min(to)),
            right: self.x.inside(from.max(to)),
            ..self.plot
        }
    }

    fn horizontal_grid(&self, canvas: &mut Canvas, ticks: &Ticks, labels: &[String], side: Side) {
        let mut grid = String::new();
        for (value, label) in ticks.values.iter().zip(labels) {
            let y = self.y.at(*value);
            grid.push_str(&open_path(&[(self.plot.left, y), (self.plot.right, y)]));
            let (x, anchor) = match side {
                Side::Left => (self.plot.left - 8.0, "end"),
                Side::Right => (self.plot.right + 8.0, "start"),
            };
            let text = Element::new("text")
                .numbers([("x", x), ("y", y + 4.2)])
                .with("text-anchor", anchor);
            canvas.put(text.text(label.as_str()));
        }
        canvas.put(Element::new("path").with("d", grid).with("stroke", GRID));
    }

    fn bottom(&self, canvas: &mut Canvas, axis: &Axis, narrow: bool) {
        let y = self.plot.bottom;
        let ticks = Ticks::within(axis.span, if narrow { 5 } else { 10 });
        let mut line = open_path(&[(self.plot.left, y), (self.plot.right, y)]);
        for (value, label) in ticks.values.iter().zip(ticks.labels()) {
            let x = self.x.at(*value);
            line.push_str(&open_path(&[(x, y), (x, y + 5.0)]));
            let text = Element::new("text")
                .numbers([("x", x), ("y", y + 19.0)])
                .with("text-anchor", "middle");
            canvas.put(text.text(label));
        }
        canvas.put(Element::new("path").with("d", line).with("stroke", MUTED));
        let title = fitted(axis.title, SMALL, canvas.frame.width() - 8.0);
        let middle = f64::midpoint(self.plot.left, self.plot.right);
        let text = Element::new("text")
            .numbers([("x", middle), ("y", y + 38.0)])
            .with("text-anchor", "middle");
        canvas.put(text.text(title));
    }
}
