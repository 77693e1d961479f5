//! One hour of heating: who delivers what, and what it takes.

use super::{HeatPerformance, HeatingAt};
use crate::equipment::SpeedsAt;
use crate::quantity::Kilowatts;

/// How the unit runs in an hour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Running {
    /// Below its minimum: on and off.
    Cycling,
    /// Between its speeds.
    Modulating,
    /// At its maximum.
    Flat,
    /// Standing still below its operating limit.
    LockedOut,
    /// Nothing is published here; no credit is given.
    Unproven,
}

/// One hour of heating.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatingHour {
    /// How the unit runs.
    pub running: Running,
    /// Heat that the house needs.
    pub load: Kilowatts,
    /// Heat that the heat pump delivers.
    pub delivered: Kilowatts,
    /// Electric input of the heat pump.
    pub input: Kilowatts,
    /// Heat left to the backup.
    pub backup: Kilowatts,
    /// Whether the load is above what the unit can deliver, a lock-out included.
    pub below_balance: bool,
}

/// Loss by cycling: input while cycling is `X · P / PLF` with `PLF = 1 - CD (1 - X)`.
///
/// - `degradation`  cyclic degradation coefficient CD, 0 to below 1
/// - `run_fraction`  X, 0 to 1
///
/// # Source
/// 10 CFR 430 Subpart B Appendix M1.
#[must_use]
pub fn part_load_factor(degradation: f64, run_fraction: f64) -> f64 {
    1.0 - degradation * (1.0 - run_fraction)
}

/// One hour at a load: at maximum, between speeds with COP linear in capacity, or cycling at the minimum.
///
/// - `load`  above zero: an hour without a load is no hour of heating
///
/// # Source
/// COP linear in capacity between neighbouring speeds and the cycling loss: 10 CFR 430 Subpart B Appendix M1.
#[must_use]
pub fn heating_hour(load: Kilowatts, at: &HeatingAt, degradation: f64) -> HeatingHour {
    let standing = |running| HeatingHour {
        running,
        load,
        delivered: Kilowatts::ZERO,
        input: Kilowatts::ZERO,
        backup: load,
        below_balance: running == Running::LockedOut && load > Kilowatts::ZERO,
    };
    let speeds = match at {
        HeatingAt::Unproven => return standing(Running::Unproven),
        HeatingAt::LockedOut => return standing(Running::LockedOut),
        HeatingAt::Runs(speeds) => speeds,
    };
    let (minimum, maximum) = (speeds.minimum, speeds.maximum);
    let (running, delivered, input) = if load >= maximum.capacity {
        (Running::Flat, maximum.capacity, maximum.power)
    } else if load >= minimum.capacity {
        (Running::Modulating, load, load / cop_between(speeds, load))
    } else {
        let run_fraction = load / minimum.capacity;
        let input = minimum.power * (run_fraction / part_load_factor(degradation, run_fraction));
        (Running::Cycling, load, input)
    };
    HeatingHour {
        running,
        load,
        delivered,
        input,
        backup: load - delivered,
        below_balance: load > maximum.capacity,
    }
}

/// The speeds between whose capacities a capacity lies, slower first.
#[must_use]
pub fn neighbouring_speeds(
    speeds: &SpeedsAt<HeatPerformance>,
    capacity: Kilowatts,
) -> [HeatPerformance; 2] {
    match speeds.rated {
        Some(rated) if capacity < rated.capacity => [speeds.minimum, rated],
        Some(rated) => [rated, speeds.maximum],
        None => [speeds.minimum, speeds.maximum],
    }
}

/// COP at a capacity between minimum and maximum, linear in capacity between the neighbouring speeds.
fn cop_between(speeds: &SpeedsAt<HeatPerformance>, capacity: Kilowatts) -> f64 {
    let [slower, faster] = neighbouring_speeds(speeds, capacity);
    let fraction = (capacity - slower.capacity) / (faster.capacity - slower.capacity);
    slower.cop() + (faster.cop() - slower.cop()) * fraction
}

#[cfg(test)]
mod tests {
    use super::*;

    fn performance(capacity: f64, cop: f64) -> HeatPerformance {
        HeatPerformance {
            capacity: Kilowatts(capacity),
            power: Kilowatts(capacity / cop),
        }
    }

    fn runs(rated: Option<HeatPerformance>) -> HeatingAt {
        HeatingAt::Runs(SpeedsAt {
            minimum: performance(2.0, 4.0),
            rated,
            maximum: performance(8.0, 2.0),
        })
    }

    // By hand: halfway between 2 kW at COP 4 and 8 kW at COP 2 lies COP 3, so 5 kW take 5/3 kW.
    #[test]
    fn between_two_speeds_the_cop_is_linear_in_capacity() {
        let hour = heating_hour(Kilowatts(5.0), &runs(None), 0.25);
        assert_eq!(hour.running, Running::Modulating);
        assert!((hour.input.0 - 5.0 / 3.0).abs() < 1e-12);
        let with_rated = heating_hour(Kilowatts(4.0), &runs(Some(performance(6.0, 3.6))), 0.25);
        assert!((with_rated.input.0 - 4.0 / 3.8).abs() < 1e-12);
        let above_rated = heating_hour(Kilowatts(7.0), &runs(Some(performance(6.0, 3.6))), 0.25);
        assert!((above_rated.input.0 - 7.0 / 2.8).abs() < 1e-12);
    }

    // By hand: X = 0.5, PLF = 1 - 0.25 * 0.5 = 0.875, input = 0.5 * 0.5 kW / 0.875.
    #[test]
    fn below_the_minimum_the_unit_cycles_and_pays_for_it() {
        let hour = heating_hour(Kilowatts(1.0), &runs(None), 0.25);
        assert_eq!(hour.running, Running::Cycling);
        assert!((hour.input.0 - 0.25 / 0.875).abs() < 1e-12);
        assert_eq!(hour.backup, Kilowatts::ZERO);
    }

    #[test]
    fn above_the_maximum_the_rest_is_left_to_the_backup() {
        let hour = heating_hour(Kilowatts(10.0), &runs(None), 0.25);
        assert_eq!(
            (hour.delivered, hour.backup, hour.below_balance),
            (Kilowatts(8.0), Kilowatts(2.0), true)
        );
        let exactly = heating_hour(Kilowatts(8.0), &runs(None), 0.25);
        assert_eq!(
            (exactly.running, exactly.backup, exactly.below_balance),
            (Running::Flat, Kilowatts::ZERO, false)
        );
    }

    #[test]
    fn standing_still_is_below_balance_only_where_it_is_proven() {
        let locked = heating_hour(Kilowatts(3.0), &HeatingAt::LockedOut, 0.25);
        assert!(locked.below_balance && locked.backup == Kilowatts(3.0));
        let unproven = heating_hour(Kilowatts(3.0), &HeatingAt::Unproven, 0.25);
        assert!(!unproven.below_balance && unproven.backup == Kilowatts(3.0));
    }
}
