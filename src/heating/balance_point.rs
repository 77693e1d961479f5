//! The balance point: where falling capacity meets rising load.

use super::HeatingCurves;
use crate::house::HeatingLoadLine;
use crate::quantity::{Celsius, Kilowatts};

/// Where the unit stops carrying the house, going colder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BalancePoint {
    /// Capacity and load cross here; below, the unit falls short.
    At(Celsius),
    /// The load is carried down to the operating limit, where the unit stops.
    AtOperatingLimit(Celsius),
    /// The load is carried down to the coldest published point; beyond it nothing is known.
    BelowColdestPoint(Celsius),
    /// Nothing is published for the house's heating season.
    Unproven,
}

impl BalancePoint {
    /// The temperature, where there is one.
    #[must_use]
    pub fn temperature(self) -> Option<Celsius> {
        match self {
            Self::At(temperature) | Self::AtOperatingLimit(temperature) => Some(temperature),
            Self::BelowColdestPoint(_) | Self::Unproven => None,
        }
    }
}

/// The balance point: going colder from the zero-load temperature, the first temperature at which the largest capacity
/// equals the load and below which it is smaller.
///
/// Exact on the piecewise-linear curves: both lines are straight between neighbouring knots, so the crossing is solved
/// within one such stretch.
#[must_use]
pub fn balance_point(load: &HeatingLoadLine, unit: &HeatingCurves) -> BalancePoint {
    let curve = unit.speeds.maximum();
    let start = load.zero_load_outdoor;
    let coldest = curve.severe_end();
    if unit.operates_to.is_some_and(|limit| limit >= start) {
        return BalancePoint::AtOperatingLimit(start);
    }
    if coldest > start {
        return BalancePoint::Unproven;
    }
    let end = unit.operates_to.map_or(coldest, |limit| limit.max(coldest));
    let spare = |outdoor: Celsius| {
        let capacity = curve
            .at(outdoor)
            .map_or(Kilowatts::ZERO, |performance| performance.capacity);
        (capacity - load.at(outdoor)).0
    };
    let mut warmer = start;
    let inner = curve
        .knots()
        .into_iter()
        .rev()
        .filter(|&knot| knot < start && knot > end);
    for colder in inner.chain([end]) {
        if spare(colder) < 0.0 {
            return BalancePoint::At(crossing(&spare, colder, warmer));
        }
        warmer = colder;
    }
    match unit.operates_to {
        Some(limit) if limit >= coldest => BalancePoint::AtOperatingLimit(limit),
        _ => BalancePoint::BelowColdestPoint(coldest),
    }
}

/// The zero of `spare` between a colder temperature where it is negative and a warmer one where it is not.
fn crossing(spare: &impl Fn(Celsius) -> f64, colder: Celsius, warmer: Celsius) -> Celsius {
    let (short, over) = (spare(colder), spare(warmer));
    let straight = colder + (warmer - colder) * (short / (short - over));
    if spare(straight).abs() < 1e-9 {
        return straight;
    }
    // Only where the mild continuation was trimmed within this stretch, so that it is not straight.
    let (mut low, mut high) = (colder.0, warmer.0);
    for _ in 0..100 {
        let middle = f64::midpoint(low, high);
        if spare(Celsius(middle)) < 0.0 {
            low = middle
        } else {
            high = middle
        }
    }
    Celsius(high)
}
