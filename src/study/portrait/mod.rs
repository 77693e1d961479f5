//! A unit in a house over outdoor temperature, as charts show it: what it can do against what is asked, and how the
//! year's hours and heat fall.
//!
//! Everything here is read off the functions that judge units, state by state, so that a chart and a verdict cannot
//! disagree.

mod cooling;
mod heating;
mod room;

pub use cooling::CoolingPortrait;
pub use heating::{HeatAt, HeatingPortrait};
pub use room::{CoilAt, RoomPortrait, RoomState};

use crate::quantity::{Celsius, Hours, Kilowatts};

/// What a unit can do at one outdoor temperature; `None` where nothing is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BandAt {
    /// Outdoor temperature.
    pub outdoor: Celsius,
    /// The least it can deliver without cycling.
    pub minimum: Option<Kilowatts>,
    /// The most it can deliver.
    pub maximum: Option<Kilowatts>,
}

/// The hours of one kelvin of outdoor temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoursAt {
    /// The middle of the bin, a whole number of degrees.
    pub outdoor: Celsius,
    /// Hours a year.
    pub hours: Hours,
    /// Those of them in which the unit cycles; zero where that is not known.
    pub cycling: Hours,
}

/// Colder and hotter than this no chart reaches \[°C\].
const FARTHEST: f64 = 100.0;

/// The outdoor temperatures at which a band is drawn: each whole degree between two ends, the ends, and the `knots`
/// between them at which lines bend. Coldest first.
fn sampled(from: Celsius, to: Celsius, knots: impl IntoIterator<Item = Celsius>) -> Vec<Celsius> {
    let (from, to) = (from.0.max(-FARTHEST), to.0.min(FARTHEST));
    let mut places: Vec<f64> = knots
        .into_iter()
        .map(|knot| knot.0)
        .filter(|knot| (from..=to).contains(knot))
        .chain([from, to])
        .collect();
    let mut whole = from.ceil();
    while whole < to {
        places.push(whole);
        whole += 1.0;
    }
    places.sort_by(f64::total_cmp);
    places.dedup();
    places.into_iter().map(Celsius).collect()
}

/// Whole degrees, halves up, as climates are grouped.
fn degree(outdoor: Celsius) -> Celsius {
    Celsius((outdoor.0 + 0.5).floor())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_band_is_drawn_at_whole_degrees_and_where_lines_bend() {
        let places = sampled(Celsius(-2.5), Celsius(1.0), [Celsius(-8.3), Celsius(0.4)]);
        assert_eq!(
            places,
            [-2.5, -2.0, -1.0, 0.0, 0.4, 1.0].map(Celsius).to_vec()
        );
        assert_eq!(sampled(Celsius(3.0), Celsius(3.0), []), [Celsius(3.0)]);
        assert!(sampled(Celsius(-1e300), Celsius(1e300), []).len() < 300);
    }
}
