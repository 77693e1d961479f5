//! A unit's heating curves, and what it can do at an outdoor temperature.

use super::DEFAULT_DEGRADATION;
use crate::equipment::{
    Continued, Curve, Interpolate, Mode, Point, ScaledLike, SevereSide, Speed, SpeedCurves,
    SpeedsAt, Unit,
};
use crate::quantity::{Celsius, Kilowatts};

/// Dry bulb of the air entering the indoor coil where a point does not state it: 70 °F, the rating condition of
/// Appendix M1. Only used to order several indoor conditions at one outdoor temperature.
const RATING_INDOOR: Celsius = Celsius(21.1);

/// Heating capacity and electric input at one speed and temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatPerformance {
    /// Heat delivered.
    pub capacity: Kilowatts,
    /// Electric input.
    pub power: Kilowatts,
}

impl HeatPerformance {
    /// Heat delivered per electricity used.
    #[must_use]
    pub fn cop(self) -> f64 {
        self.capacity / self.power
    }
}

impl Interpolate for HeatPerformance {
    fn toward(self, other: Self, fraction: f64) -> Self {
        Self {
            capacity: self.capacity + (other.capacity - self.capacity) * fraction,
            power: self.power + (other.power - self.power) * fraction,
        }
    }

    /// Capacity not below zero, power not below half of the last point's. **Our rule.**
    fn credible(continued: Continued<Self>) -> Self {
        Self {
            capacity: continued.value.capacity.max(Kilowatts::ZERO),
            power: continued.value.power.max(continued.last.power * 0.5),
        }
    }
}

impl ScaledLike for HeatPerformance {
    fn scaled_like(at_end: Self, maximum_at_end: Self, maximum: Self) -> Self {
        if maximum_at_end.capacity <= Kilowatts::ZERO {
            return maximum;
        }
        Self {
            capacity: maximum.capacity * (at_end.capacity / maximum_at_end.capacity),
            power: maximum.power * (at_end.power / maximum_at_end.power),
        }
    }

    fn capacity_kw(&self) -> f64 {
        self.capacity.0
    }
}

/// A unit's heating side, ready to be asked.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatingCurves {
    /// Curves by speed.
    pub speeds: SpeedCurves<HeatPerformance>,
    /// Coldest outdoor temperature at which it is declared to run.
    pub operates_to: Option<Celsius>,
    /// Coldest outdoor temperature of any published heating point, at whatever speed.
    pub coldest_point: Celsius,
    /// Cyclic degradation coefficient.
    pub degradation: f64,
}

/// What the unit can do at an outdoor temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HeatingAt {
    /// Nothing is published for a temperature this cold.
    Unproven,
    /// Below the operating limit: it stands still, and that is proven.
    LockedOut,
    /// It runs, between these speeds.
    Runs(SpeedsAt<HeatPerformance>),
}

impl HeatingAt {
    /// What is known of a unit without any heating point: below its operating limit it stands still, and that is proven.
    #[must_use]
    pub fn without_points(operates_to: Option<Celsius>, outdoor: Celsius) -> Self {
        match operates_to {
            Some(limit) if outdoor < limit => Self::LockedOut,
            _ => Self::Unproven,
        }
    }

    /// Largest heat output here: zero where locked out, `None` where unproven.
    #[must_use]
    pub fn maximum_capacity(&self) -> Option<Kilowatts> {
        match self {
            Self::Unproven => None,
            Self::LockedOut => Some(Kilowatts::ZERO),
            Self::Runs(speeds) => Some(speeds.maximum.capacity),
        }
    }
}

impl HeatingCurves {
    /// The heating curves of a unit in a house kept at `indoor`; `None` where it has no heating point.
    ///
    /// Where points at several indoor temperatures are published for one outdoor temperature, the value at `indoor` is
    /// interpolated between them and held outside their range.
    #[must_use]
    pub fn of(unit: &Unit, indoor: Celsius) -> Option<Self> {
        let points = || {
            unit.points
                .iter()
                .filter(|point| point.mode == Mode::Heating)
        };
        let curve = |speed| Curve::through(SevereSide::Cold, at_indoor(points(), speed, indoor));
        let speeds = SpeedCurves::resolve(
            curve(Speed::Minimum),
            curve(Speed::Rated),
            curve(Speed::Maximum),
        )?;
        let coldest_point = points().map(|point| point.outdoor).reduce(Celsius::min)?;
        Some(Self {
            speeds,
            operates_to: unit.model.operates_to,
            coldest_point,
            degradation: unit
                .model
                .degradation_heating
                .unwrap_or(DEFAULT_DEGRADATION),
        })
    }

    /// What the unit can do at an outdoor temperature.
    #[must_use]
    pub fn at(&self, outdoor: Celsius) -> HeatingAt {
        if self.operates_to.is_some_and(|limit| outdoor < limit) {
            return HeatingAt::LockedOut;
        }
        self.speeds
            .at(outdoor)
            .map_or(HeatingAt::Unproven, HeatingAt::Runs)
    }
}

/// The points of one speed over outdoor temperature, each at the house's indoor temperature.
fn at_indoor<'a>(
    points: impl Iterator<Item = &'a Point>,
    speed: Speed,
    indoor: Celsius,
) -> Vec<(Celsius, HeatPerformance)> {
    let mut found: Vec<(Celsius, Celsius, HeatPerformance)> = points
        .filter(|point| point.speed == speed)
        .map(|point| {
            let performance = HeatPerformance {
                capacity: point.capacity,
                power: point.power,
            };
            (
                point.outdoor,
                point.indoor_dry_bulb.unwrap_or(RATING_INDOOR),
                performance,
            )
        })
        .collect();
    found.sort_by(|a, b| a.0.0.total_cmp(&b.0.0).then(a.1.0.total_cmp(&b.1.0)));
    found
        .chunk_by(|a, b| a.0 == b.0)
        .map(|same_outdoor| {
            let after = same_outdoor.partition_point(|entry| entry.1 < indoor);
            let performance = match (
                after.checked_sub(1).map(|at| &same_outdoor[at]),
                same_outdoor.get(after),
            ) {
                (Some(cooler), Some(warmer)) => cooler
                    .2
                    .toward(warmer.2, (indoor - cooler.1) / (warmer.1 - cooler.1)),
                (Some(only), None) | (None, Some(only)) => only.2,
                (None, None) => same_outdoor[0].2,
            };
            (same_outdoor[0].0, performance)
        })
        .collect()
}
