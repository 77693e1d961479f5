//! The balance point: where falling capacity meets rising load.

use super::{HeatPerformance, HeatingCurves};
use crate::equipment::Curve;
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
    let mut knots = curve.knots();
    knots.extend(runs_dry(curve));
    knots.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut warmer = start;
    let inner = knots.into_iter().filter(|&knot| knot < start && knot > end);
    for colder in inner.chain([end]) {
        if spare(colder) < 0.0 {
            let (short, over) = (spare(colder), spare(warmer));
            let crossing = colder + (warmer - colder) * (short / (short - over));
            return BalancePoint::At(crossing);
        }
        warmer = colder;
    }
    match unit.operates_to {
        Some(limit) if limit >= coldest => BalancePoint::AtOperatingLimit(limit),
        _ => BalancePoint::BelowColdestPoint(coldest),
    }
}

/// Where the mild continuation of a capacity that falls as it gets warmer is trimmed at zero: one more knot.
fn runs_dry(curve: &Curve<HeatPerformance>) -> Option<Celsius> {
    let [.., (t_inner, inner), (t_last, last)] = curve.points() else {
        return None;
    };
    let fall = inner.capacity - last.capacity;
    (fall > Kilowatts::ZERO)
        .then(|| *t_last + (*t_last - *t_inner) * (last.capacity / fall))
        .filter(|&dry| curve.knots().last().is_some_and(|&end| dry < end))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::equipment::Speed;
    use crate::equipment::testing::unit;

    /// 8 kW at -20 °C, nothing at 20 °C: `Q = 4 - 0.2 T` kW.
    const LOAD: HeatingLoadLine = HeatingLoadLine {
        design_outdoor: Celsius(-20.0),
        design_load: Kilowatts(8.0),
        zero_load_outdoor: Celsius(20.0),
    };

    /// Of a unit with these capacities \[kW\] over outdoor temperature \[°C\].
    fn of(capacities: &[(f64, f64)], limit: Option<f64>) -> BalancePoint {
        let points: Vec<_> = capacities.iter().map(|&(t, kw)| (t, kw, 3.0)).collect();
        let mut unit = unit("by-hand").heats(Speed::Maximum, &points);
        unit.model.operates_to = limit.map(Celsius);
        balance_point(&LOAD, &HeatingCurves::of(&unit, Celsius(21.0)).unwrap())
    }

    fn assert_at(found: BalancePoint, expected: f64) {
        let BalancePoint::At(temperature) = found else {
            panic!("{found:?} instead of a crossing at {expected} °C");
        };
        assert!(
            (temperature.0 - expected).abs() < 1e-12,
            "{found:?} instead of {expected}"
        );
    }

    // By hand: C = 8 + 0.2 T between the points, so C = Q where 0.4 T = -4.
    #[test]
    fn capacity_and_load_cross_between_two_points() {
        assert_at(of(&[(10.0, 10.0), (-20.0, 4.0)], None), -10.0);
    }

    // By hand: Q(-22) = 8.4 < 9 kW, so the load is carried down to the limit.
    #[test]
    fn a_unit_that_carries_the_load_to_its_operating_limit_balances_there() {
        let found = of(&[(10.0, 9.0), (-25.0, 9.0)], Some(-22.0));
        assert_eq!(found, BalancePoint::AtOperatingLimit(Celsius(-22.0)));
        assert_eq!(found.temperature(), Some(Celsius(-22.0)));
    }

    #[test]
    fn a_crossing_above_the_operating_limit_comes_first() {
        assert_at(of(&[(10.0, 10.0), (-20.0, 4.0)], Some(-15.0)), -10.0);
        let limit_first = of(&[(10.0, 10.0), (-20.0, 4.0)], Some(-5.0));
        assert_eq!(limit_first, BalancePoint::AtOperatingLimit(Celsius(-5.0)));
    }

    // By hand: Q(-15) = 7 < 9 kW; what happens below -15 °C nobody published.
    #[test]
    fn a_load_carried_to_the_coldest_point_balances_somewhere_below_it() {
        let found = of(&[(10.0, 9.0), (-15.0, 9.0)], None);
        assert_eq!(found, BalancePoint::BelowColdestPoint(Celsius(-15.0)));
        assert_eq!(found.temperature(), None);
        let declared_colder = of(&[(10.0, 9.0), (-15.0, 9.0)], Some(-25.0));
        assert_eq!(declared_colder, found);
    }

    // By hand: Q(-20) = 8 kW, and so is the capacity.
    #[test]
    fn a_load_only_just_carried_at_the_coldest_point_is_carried() {
        let found = of(&[(10.0, 9.0), (-20.0, 8.0)], None);
        assert_eq!(found, BalancePoint::BelowColdestPoint(Celsius(-20.0)));
    }

    #[test]
    fn points_outside_the_heating_season_prove_nothing() {
        assert_eq!(of(&[(25.0, 9.0)], None), BalancePoint::Unproven);
    }

    // By hand: C = 3 + 0.1 T is continued to 10 °C; 3 + 0.1 T = 4 - 0.2 T at 10/3 °C.
    #[test]
    fn the_crossing_may_lie_on_the_mild_continuation() {
        assert_at(of(&[(-10.0, 2.0), (0.0, 3.0)], None), 10.0 / 3.0);
    }

    // By hand: C = 1.2 + 0.02 T ends at 1.4 kW at 10 °C and is held; 1.4 = 4 - 0.2 T at 13 °C.
    #[test]
    fn the_crossing_may_lie_where_the_continuation_is_held() {
        assert_at(of(&[(-10.0, 1.0), (0.0, 1.2)], None), 13.0);
    }

    // By hand: at 0 °C capacity and load are both 4 kW, and colder there is capacity to spare again.
    #[test]
    fn a_line_that_only_touches_the_load_is_no_balance_point() {
        let touching = [(10.0, 5.0), (0.0, 4.0), (-10.0, 7.0), (-20.0, 9.0)];
        assert_eq!(
            of(&touching, None),
            BalancePoint::BelowColdestPoint(Celsius(-20.0))
        );
    }

    // By hand: C = 8 - 0.4 (T - 0) falls to 2 kW at 15 °C where Q = 1; between 0 and -10 °C it falls from 8 to 4, Q rises
    // from 4 to 6: C = 8 + 0.4 T = 4 - 0.2 T at -20/3 °C.
    #[test]
    fn the_first_crossing_counts_however_the_capacity_rises_and_falls() {
        let bent = [(15.0, 2.0), (0.0, 8.0), (-10.0, 4.0), (-20.0, 9.0)];
        assert_at(of(&bent, None), -20.0 / 3.0);
    }

    // By hand: the continuation 3 - 0.5 (T - 12) reaches nothing at 18 °C, so that from 20 °C to 18 °C the house has a load
    // and the unit no capacity, although it has both at its mildest point.
    #[test]
    fn a_continuation_that_runs_dry_leaves_the_house_short_from_the_start() {
        assert_at(of(&[(12.0, 3.0), (4.0, 7.0)], None), 20.0);
    }
}
