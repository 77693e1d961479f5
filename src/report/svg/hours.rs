//! Hours of the year as bars at the foot of a chart, behind its lines.

use super::axes::Axes;
use super::canvas::Canvas;
use super::theme::{HOURS, Hatch};
use super::ticks::written;

/// The hours of one bin of outdoor temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BinHours {
    /// Where the bin begins.
    pub from: f64,
    /// Where the bin ends.
    pub to: f64,
    /// Its hours in the year.
    pub hours: f64,
    /// Those of them in which the unit cycles; zero where that is not shown.
    pub cycling_hours: f64,
}

/// The tallest bar takes this share of the plot's height.
const TALLEST: f64 = 0.30;

/// Draws the bars, cycling hours hatched at the foot of each.
pub(super) fn draw_hours(canvas: &mut Canvas, axes: &Axes, bins: &[BinHours]) {
    let most = most_hours(bins);
    let height = |hours: f64| {
        let share = if most > 0.0 && hours.is_finite() {
            (hours / most).clamp(0.0, 1.0)
        } else {
            0.0
        };
        share * TALLEST * (axes.plot.bottom - axes.plot.top)
    };
    let (mut steady, mut cycling) = (Vec::new(), Vec::new());
    for bin in bins
        .iter()
        .filter(|bin| bin.from.is_finite() && bin.to.is_finite())
    {
        let (strip, bottom) = (axes.strip(bin.from, bin.to), axes.plot.bottom);
        let foot = bottom - height(bin.cycling_hours.min(bin.hours));
        steady.push(strip.as_bar(bottom - height(bin.hours), foot));
        cycling.push(strip.as_bar(foot, bottom));
    }
    canvas.rects(&steady, HOURS);
    let hatch = canvas.hatch(Hatch::Cycling);
    canvas.rects(&cycling, &hatch);
}

fn most_hours(bins: &[BinHours]) -> f64 {
    bins.iter()
        .map(|bin| bin.hours)
        .filter(|hours| hours.is_finite())
        .fold(0.0, f64::max)
}

/// What the legend says about the bars; `None` where there are none.
pub(super) fn hours_legend(bins: &[BinHours]) -> Option<String> {
    let most = most_hours(bins);
    (most > 0.0).then(|| format!("hours a year in each bin, tallest {} h", written(most, 0)))
}
