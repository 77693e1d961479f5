//! What a heat pump delivers and takes at the house's own load, ready for the comparison with a furnace.

use crate::heating::{HeatingAt, HeatingCurves, HeatingHour, Running, heating_hour};
use crate::house::HeatingLoadLine;
use crate::quantity::{Celsius, Cop, Kilowatts};

/// What the heat pump does at an outdoor temperature while it is the one to run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatPumpHeat {
    /// Heat that it delivers, at most the house's load.
    pub heat: Kilowatts,
    /// Electricity that it takes.
    pub electricity: Kilowatts,
}

impl HeatPumpHeat {
    /// COP at the house's load; `None` where nothing is delivered.
    #[must_use]
    pub fn cop(self) -> Option<Cop> {
        (self.heat > Kilowatts::ZERO).then(|| Cop(self.heat / self.electricity))
    }

    /// The heat pump's part of an hour of heating; `None`: locked out or unproven.
    #[must_use]
    pub fn in_hour(hour: &HeatingHour) -> Option<Self> {
        match hour.running {
            Running::LockedOut | Running::Unproven => None,
            Running::Cycling | Running::Modulating | Running::Flat => Some(Self {
                heat: hour.delivered,
                electricity: hour.input,
            }),
        }
    }

    /// A unit's at an outdoor temperature and the house's load there; `None`: locked out or unproven.
    #[must_use]
    pub fn of_unit(unit: &HeatingCurves, load: &HeatingLoadLine, outdoor: Celsius) -> Option<Self> {
        Self::in_hour(&heating_hour(
            load.at(outdoor),
            &unit.at(outdoor),
            unit.degradation,
        ))
    }
}

/// Where [`HeatPumpHeat::of_unit`] bends or jumps: the points of the unit's curves, its operating limit, and where the load
/// meets the capacity of a speed. Coldest first.
#[must_use]
pub fn heat_pump_knots(unit: &HeatingCurves, load: &HeatingLoadLine) -> Vec<Celsius> {
    let speeds = &unit.speeds;
    let curves = [Some(speeds.maximum()), speeds.rated(), speeds.minimum()];
    let mut knots: Vec<Celsius> = curves
        .into_iter()
        .flatten()
        .flat_map(|curve| curve.knots())
        .collect();
    knots.extend(unit.operates_to);
    knots.push(load.zero_load_outdoor);
    knots.sort_by(|left, right| left.0.total_cmp(&right.0));
    knots.dedup();
    let meetings: Vec<Celsius> = knots
        .windows(2)
        .flat_map(|pair| meetings(unit, load, (pair[0], pair[1])))
        .collect();
    knots.extend(meetings);
    knots.sort_by(|left, right| left.0.total_cmp(&right.0));
    knots
}

/// Where the load meets the capacities of the speeds within a stretch in which all of them are straight.
fn meetings(
    unit: &HeatingCurves,
    load: &HeatingLoadLine,
    (from, to): (Celsius, Celsius),
) -> Vec<Celsius> {
    // Two inner temperatures give each straight line; at the stretch's ends a curve may jump.
    let inner = |share: f64| from + (to - from) * share;
    let spare = |outdoor: Celsius| -> Option<[Option<f64>; 3]> {
        let HeatingAt::Runs(at) = unit.at(outdoor) else {
            return None;
        };
        let over_load = |capacity: Kilowatts| (capacity - load.at(outdoor)).0;
        let rated = at.rated.map(|rated| over_load(rated.capacity));
        Some([
            Some(over_load(at.minimum.capacity)),
            rated,
            Some(over_load(at.maximum.capacity)),
        ])
    };
    let (Some(left), Some(right)) = (spare(inner(0.25)), spare(inner(0.75))) else {
        return Vec::new();
    };
    let meeting = |(left, right): (Option<f64>, Option<f64>)| {
        let (left, right) = (left?, right?);
        let share = 0.25 + 0.5 * left / (left - right);
        (share > 0.0 && share < 1.0).then(|| inner(share))
    };
    left.into_iter().zip(right).filter_map(meeting).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::equipment::{Curve, SevereSide, SpeedCurves};
    use crate::heating::HeatPerformance;

    fn unit() -> HeatingCurves {
        let curve = |points: [(f64, f64, f64); 2]| {
            let point = |(at, capacity, cop): (f64, f64, f64)| {
                let power = Kilowatts(capacity / cop);
                (
                    Celsius(at),
                    HeatPerformance {
                        capacity: Kilowatts(capacity),
                        power,
                    },
                )
            };
            Curve::through(SevereSide::Cold, points.map(point).to_vec())
        };
        let minimum = curve([(-20.0, 2.0, 2.5), (10.0, 2.0, 5.0)]);
        let maximum = curve([(-20.0, 6.0, 1.8), (10.0, 9.0, 3.5)]);
        HeatingCurves {
            speeds: SpeedCurves::resolve(minimum, None, maximum).unwrap(),
            operates_to: Some(Celsius(-20.0)),
            coldest_point: Celsius(-20.0),
            degradation: 0.25,
        }
    }

    fn load() -> HeatingLoadLine {
        HeatingLoadLine {
            design_outdoor: Celsius(-18.0),
            design_load: Kilowatts(9.9),
            zero_load_outdoor: Celsius(15.0),
        }
    }

    // By hand: the load is 0.3 (15 - T). It meets 2 kW at T = 15 - 20/3, and 8 + 0.1 T at T = -8.75.
    #[test]
    fn the_knots_hold_where_the_load_meets_each_speed() {
        let knots = heat_pump_knots(&unit(), &load());
        for expected in [-20.0, -8.75, 15.0 - 20.0 / 3.0, 10.0, 15.0, 20.0] {
            assert!(
                knots.iter().any(|knot| (knot.0 - expected).abs() < 1e-9),
                "{expected} in {knots:?}"
            );
        }
    }

    #[test]
    fn below_the_limit_there_is_no_heat_pump_and_above_the_maximum_it_gives_what_it_can() {
        assert_eq!(
            HeatPumpHeat::of_unit(&unit(), &load(), Celsius(-20.1)),
            None
        );
        let short = HeatPumpHeat::of_unit(&unit(), &load(), Celsius(-20.0)).unwrap();
        assert!((short.heat.0 - 6.0).abs() < 1e-12);
        assert!((short.cop().unwrap().0 - 1.8).abs() < 1e-12);
    }
}
