//! A load line against a band from least to most over outdoor temperature: what the heating and the cooling chart share.

use super::Units;
use super::axes::{Axes, Axis, Flag, Side};
use super::canvas::{Canvas, LineStyle, Swatch};
use super::hours::{BinHours, draw_hours, hours_legend};
use super::path::{Point, runs};
use super::scale::Span;
use super::theme::{HOURS, Hatch, INK, PUMP};
use super::ticks::{Ticks, brief, written};

/// What a unit can do at one outdoor temperature; `None` where nothing is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BandPoint {
    /// Outdoor temperature.
    pub outdoor: f64,
    /// The least it can deliver without cycling.
    pub minimum: Option<f64>,
    /// The most it can deliver.
    pub maximum: Option<f64>,
}

/// The shared part of the two charts.
pub(super) struct LoadAndBand<'a> {
    pub units: Units,
    pub y_title: &'a str,
    pub load: &'a [(f64, f64)],
    pub band: &'a [BandPoint],
    pub hours: &'a [BinHours],
    pub design_outdoor: Option<f64>,
    pub unproven: &'a [(f64, f64)],
}

/// The three lines, in pieces.
pub(super) struct Lines {
    pub load: Vec<Vec<Point>>,
    pub maximum: Vec<Vec<Point>>,
    pub minimum: Vec<Vec<Point>>,
}

impl LoadAndBand<'_> {
    /// Draws legend, axes, hours and unproven ranges; `first` and `last` are legend entries around the shared ones.
    pub fn lay_out(
        &self,
        canvas: &mut Canvas,
        first: Option<(Swatch, &str)>,
        last: Option<(Swatch, &str)>,
    ) -> Axes {
        let hours = hours_legend(self.hours);
        let hours = hours.as_deref().map(|text| (Swatch::Fill(HOURS), text));
        let unproven = (
            Swatch::Hatch(Hatch::Unproven),
            "unproven: no published capacity",
        );
        let unproven = Some(unproven).filter(|_| !self.unproven.is_empty());
        canvas.legend(
            &[first, unproven, hours, last]
                .into_iter()
                .flatten()
                .collect::<Vec<_>>(),
        );

        let temperature = self.units.temperature;
        let outdoor = self
            .load
            .iter()
            .map(|p| p.0)
            .chain(self.band.iter().map(|p| p.outdoor));
        let bins = self.hours.iter().flat_map(|bin| [bin.from, bin.to]);
        let x = Axis {
            span: Span::of(outdoor.chain(bins).chain(self.design_outdoor)),
            title: &format!("outdoor temperature, {temperature}"),
        };
        let capacities = self
            .band
            .iter()
            .flat_map(|p| [p.minimum, p.maximum])
            .flatten();
        let highest = Span::of(self.load.iter().map(|p| p.1).chain(capacities).chain([0.0])).high();
        let y = Axis {
            span: Ticks::rounded_out(Span::new(0.0, highest), 6),
            title: self.y_title,
        };
        let flag = |x: f64| Flag {
            x,
            text: format!("design {} {temperature}", brief(x)),
        };
        let flags: Vec<Flag> = self.design_outdoor.map(flag).into_iter().collect();
        Axes::lay_out(canvas, (&x, &y), Side::Left, &flags, |canvas, axes| {
            draw_hours(canvas, axes, self.hours);
            let strips: Vec<_> = self
                .unproven
                .iter()
                .map(|&(from, to)| axes.strip(from, to))
                .collect();
            let unproven = canvas.hatch(Hatch::Unproven);
            canvas.rects(&strips, &unproven);
        })
    }

    /// Draws the band and the three lines.
    pub fn draw(&self, canvas: &mut Canvas, axes: &Axes) -> Lines {
        let both = |p: &BandPoint| {
            p.minimum
                .zip(p.maximum)
                .filter(|(low, high)| low.is_finite() && high.is_finite())
        };
        for piece in self.band.split(|point| both(point).is_none()) {
            let upper = piece.iter().filter_map(|p| axes.at(p.outdoor, p.maximum));
            let lower = piece
                .iter()
                .rev()
                .filter_map(|p| axes.at(p.outdoor, p.minimum));
            canvas.area(&upper.chain(lower).collect::<Vec<Point>>(), PUMP, 0.2);
        }
        let lines = Lines {
            load: runs(self.load, |&(t, q)| axes.at(t, Some(q))),
            maximum: runs(self.band, |p| axes.at(p.outdoor, p.maximum)),
            minimum: runs(self.band, |p| axes.at(p.outdoor, p.minimum)),
        };
        canvas.lines(
            &lines.maximum,
            LineStyle {
                colour: PUMP,
                width: 2.5,
                dashes: "",
            },
        );
        canvas.lines(
            &lines.minimum,
            LineStyle {
                colour: PUMP,
                width: 2.0,
                dashes: "7 4",
            },
        );
        canvas.lines(
            &lines.load,
            LineStyle {
                colour: INK,
                width: 2.75,
                dashes: "",
            },
        );
        lines
    }

    /// The coldest and the warmest point of the band and the unproven ranges, in words.
    pub fn described(&self) -> String {
        let (temperature, power) = (self.units.temperature, self.units.power);
        let mut text = String::new();
        let is_known = |p: &&BandPoint| p.minimum.is_some() || p.maximum.is_some();
        let known = || self.band.iter().filter(is_known);
        let ends = known().next().into_iter().chain(known().skip(1).last());
        for point in ends {
            let value = |v: Option<f64>| {
                v.map_or("not known".to_owned(), |v| {
                    format!("{} {power}", written(v, 1))
                })
            };
            let (low, high) = (value(point.minimum), value(point.maximum));
            let outdoor = brief(point.outdoor);
            text +=
                &format!(" At {outdoor} {temperature} the minimum is {low}, the maximum {high}.");
        }
        if let Some(t) = self.design_outdoor {
            text += &format!(" The design temperature is {} {temperature}.", brief(t));
        }
        for (from, to) in self.unproven {
            text += &format!(
                " No published capacity from {} to {} {temperature}.",
                brief(*from),
                brief(*to)
            );
        }
        text
    }
}
