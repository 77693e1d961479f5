//! A unit's cooling curves, with the coil behind each point.

use super::coil::{AirEnteringCoil, Coil, InconsistentSensibleHeatRatio, bypass_factor};
use crate::equipment::{
    Continued, Curve, Interpolate, Mode, Point, ScaledLike, SevereSide, Speed, SpeedCurves,
    SpeedsAt, Turndown, Unit,
};
use crate::heating::DEFAULT_DEGRADATION;
use crate::psychrometrics::STANDARD_PRESSURE;
use crate::quantity::{Celsius, Kilowatts, LitresPerSecond};

/// Dry bulb of the air entering the coil at the standard rating condition (80 °F).
pub const RATING_DRY_BULB: Celsius = Celsius(26.7);
/// Wet bulb of the air entering the coil at the standard rating condition (67 °F).
pub const RATING_WET_BULB: Celsius = Celsius(19.4);
/// Airflow per total capacity where none is published \[L/s per kW\]: about 400 cfm per ton, common practice.
pub const DEFAULT_AIRFLOW_PER_KILOWATT: f64 = 54.0;
/// Sensible heat ratio where none is published: the middle of 0.70 to 0.80, common practice.
pub const DEFAULT_SENSIBLE_HEAT_RATIO: f64 = 0.75;

/// Cooling at one speed and temperature, with the coil's character.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoilPerformance {
    /// Total capacity.
    pub capacity: Kilowatts,
    /// Electric input.
    pub power: Kilowatts,
    /// Indoor airflow.
    pub airflow: LitresPerSecond,
    /// Bypass factor; `None` where the published sensible heat ratio is inconsistent.
    pub bypass_factor: Option<f64>,
}

impl CoilPerformance {
    /// The coil that does this, where its sensible heat ratio is consistent.
    #[must_use]
    pub fn coil(&self) -> Option<Coil> {
        self.bypass_factor
            .map(|bypass| Coil::new(self.capacity, self.power, self.airflow, bypass))
    }
}

impl Interpolate for CoilPerformance {
    fn toward(self, other: Self, fraction: f64) -> Self {
        Self {
            capacity: self.capacity + (other.capacity - self.capacity) * fraction,
            power: self.power + (other.power - self.power) * fraction,
            airflow: self.airflow + (other.airflow - self.airflow) * fraction,
            bypass_factor: self
                .bypass_factor
                .zip(other.bypass_factor)
                .map(|(a, b)| a + (b - a) * fraction),
        }
    }

    /// Capacity not below zero, power not below half of the last point's; airflow stays above zero and the bypass factor
    /// below 1, without which there is no coil. **Our rule.**
    fn credible(continued: Continued<Self>) -> Self {
        let Continued { value, last } = continued;
        Self {
            capacity: value.capacity.max(Kilowatts::ZERO),
            power: value.power.max(last.power * 0.5),
            airflow: if value.airflow > LitresPerSecond::ZERO {
                value.airflow
            } else {
                last.airflow
            },
            bypass_factor: value.bypass_factor.map(|bypass| bypass.min(0.99)),
        }
    }
}

impl ScaledLike for CoilPerformance {
    fn scaled_like(at_end: Self, maximum_at_end: Self, maximum: Self) -> Self {
        if maximum_at_end.capacity <= Kilowatts::ZERO {
            return maximum;
        }
        Self {
            capacity: maximum.capacity * (at_end.capacity / maximum_at_end.capacity),
            power: maximum.power * (at_end.power / maximum_at_end.power),
            airflow: at_end.airflow,
            bypass_factor: at_end.bypass_factor,
        }
    }

    fn capacity_kw(&self) -> f64 {
        self.capacity.0
    }
}

/// A unit's cooling side, ready to be asked.
#[derive(Clone, Debug, PartialEq)]
pub struct CoolingCurves {
    /// Curves by speed for each wet bulb of the entering air at which points are published, driest first.
    /// Nearly always one.
    sheets: Vec<(Celsius, SpeedCurves<CoilPerformance>)>,
    /// Cyclic degradation coefficient.
    pub degradation: f64,
    /// The first published sensible heat ratio that no coil can have, with its point.
    pub inconsistent: Option<(Point, InconsistentSensibleHeatRatio)>,
    /// Whether a sensible heat ratio was taken as 0.75 for want of a published one.
    pub assumed_sensible_heat_ratio: bool,
}

impl CoolingCurves {
    /// The cooling curves of a unit; `None` where it has no cooling point.
    #[must_use]
    pub fn of(unit: &Unit) -> Option<Self> {
        let points: Vec<&Point> = unit
            .points
            .iter()
            .filter(|point| point.mode == Mode::Cooling)
            .collect();
        let mut inconsistent = None;
        let mut read: Vec<PointOnSheet> = points
            .iter()
            .map(|point| {
                let (performance, problem) = with_coil(point);
                if let Some(problem) = problem {
                    inconsistent.get_or_insert((**point, problem));
                }
                PointOnSheet {
                    speed: point.speed,
                    outdoor: point.outdoor,
                    wet_bulb: point.indoor_wet_bulb.unwrap_or(RATING_WET_BULB),
                    performance,
                }
            })
            .collect();
        leave_spoiled_speeds_without_coil(&mut read);
        let sheets = wet_bulbs_varied(&read)
            .into_iter()
            .filter_map(|wet_bulb| {
                let curve =
                    |speed| Curve::through(SevereSide::Hot, at_wet_bulb(&read, speed, wet_bulb));
                let speeds = SpeedCurves::resolve(
                    curve(Speed::Minimum),
                    curve(Speed::Rated),
                    curve(Speed::Maximum),
                )?;
                Some((wet_bulb, speeds))
            })
            .collect::<Vec<_>>();
        (!sheets.is_empty()).then(|| Self {
            sheets,
            degradation: unit
                .model
                .degradation_cooling
                .unwrap_or(DEFAULT_DEGRADATION),
            inconsistent,
            assumed_sensible_heat_ratio: points
                .iter()
                .any(|point| point.sensible_heat_ratio.is_none()),
        })
    }

    /// What is known of the turndown.
    #[must_use]
    pub fn turndown(&self) -> Turndown {
        self.sheets[0].1.turndown()
    }

    /// Whether a curve that takes part has a point whose sensible heat ratio no coil can have.
    #[must_use]
    pub fn inconsistent_in_use(&self) -> bool {
        let spoiled = |curve: &Curve<CoilPerformance>| {
            curve
                .points()
                .iter()
                .any(|(_, performance)| performance.bypass_factor.is_none())
        };
        self.sheets.iter().any(|(_, speeds)| {
            let rated = speeds
                .rated()
                .filter(|_| speeds.turndown() == Turndown::Known);
            spoiled(speeds.maximum())
                || speeds.minimum().is_some_and(spoiled)
                || rated.is_some_and(spoiled)
        })
    }

    /// The curves by speed, for the published wet bulb nearest to the rating condition.
    #[must_use]
    pub fn rating_speeds(&self) -> &SpeedCurves<CoilPerformance> {
        let distance = |wet_bulb: Celsius| (wet_bulb - RATING_WET_BULB).0.abs();
        let nearest = self
            .sheets
            .iter()
            .min_by(|a, b| distance(a.0).total_cmp(&distance(b.0)));
        &nearest.unwrap_or(&self.sheets[0]).1
    }

    /// Whether capacity is published over several wet bulbs of the room.
    #[must_use]
    pub fn varies_with_wet_bulb(&self) -> bool {
        self.sheets.len() > 1
    }

    /// The speeds at an outdoor temperature for each published wet bulb; `None` where nothing is published.
    #[must_use]
    pub fn at(&self, outdoor: Celsius) -> Option<SpeedsByWetBulb> {
        let (_, first) = self.sheets.first()?;
        let base = first.at(outdoor)?;
        let others = self.sheets[1..]
            .iter()
            .map(|(wet_bulb, speeds)| Some((*wet_bulb, speeds.at(outdoor)?)))
            .collect::<Option<Vec<_>>>()?;
        Some(SpeedsByWetBulb {
            base_wet_bulb: self.sheets[0].0,
            base,
            others,
        })
    }
}

/// The speeds at one outdoor temperature, for one or several wet bulbs of the room.
#[derive(Clone, Debug, PartialEq)]
pub struct SpeedsByWetBulb {
    base_wet_bulb: Celsius,
    /// The speeds at the driest wet bulb, which is nearly always the only one.
    base: SpeedsAt<CoilPerformance>,
    others: Vec<(Celsius, SpeedsAt<CoilPerformance>)>,
}

impl SpeedsByWetBulb {
    /// Whether the room's wet bulb matters.
    #[must_use]
    pub fn varies(&self) -> bool {
        !self.others.is_empty()
    }

    /// The speeds, where the room's wet bulb does not matter; else those at the driest published one.
    #[must_use]
    pub fn base(&self) -> SpeedsAt<CoilPerformance> {
        self.base
    }

    /// The speeds at a wet bulb of the room: linear between published ones, held outside.
    #[must_use]
    pub fn at(&self, wet_bulb: Celsius) -> SpeedsAt<CoilPerformance> {
        let mut lower = (self.base_wet_bulb, self.base);
        for &upper in &self.others {
            if wet_bulb <= upper.0 {
                let fraction = ((wet_bulb - lower.0) / (upper.0 - lower.0)).max(0.0);
                return SpeedsAt {
                    minimum: lower.1.minimum.toward(upper.1.minimum, fraction),
                    rated: lower
                        .1
                        .rated
                        .zip(upper.1.rated)
                        .map(|(a, b)| a.toward(b, fraction)),
                    maximum: lower.1.maximum.toward(upper.1.maximum, fraction),
                };
            }
            lower = upper;
        }
        lower.1
    }
}

struct PointOnSheet {
    speed: Speed,
    outdoor: Celsius,
    wet_bulb: Celsius,
    performance: CoilPerformance,
}

/// Takes the coil from every point of a speed that has an inconsistent one: a coil that cannot be true at one outdoor
/// temperature is not believed at another. **Our rule.**
fn leave_spoiled_speeds_without_coil(points: &mut [PointOnSheet]) {
    for &speed in Speed::ALL {
        let of_speed = |point: &&mut PointOnSheet| point.speed == speed;
        if points
            .iter_mut()
            .filter(of_speed)
            .any(|point| point.performance.bypass_factor.is_none())
        {
            for point in points.iter_mut().filter(of_speed) {
                point.performance.bypass_factor = None;
            }
        }
    }
}

/// Why no coil can have a point's published sensible heat ratio at its capacity and airflow; `None` where one can, or
/// where no ratio is published.
#[must_use]
pub fn inconsistency(point: &Point) -> Option<InconsistentSensibleHeatRatio> {
    point.sensible_heat_ratio?;
    with_coil(point).1
}

/// What is known of the coil at a published point, with the defaults where something is not published.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RatedCoil {
    /// Air that enters it.
    pub entering: AirEnteringCoil,
    /// Indoor airflow.
    pub airflow: LitresPerSecond,
    /// Sensible share of the total capacity.
    pub sensible_heat_ratio: f64,
}

impl RatedCoil {
    /// The coil's rating at a published cooling point.
    #[must_use]
    pub fn at(point: &Point) -> Self {
        Self {
            entering: AirEnteringCoil {
                dry_bulb: point.indoor_dry_bulb.unwrap_or(RATING_DRY_BULB),
                wet_bulb: point.indoor_wet_bulb.unwrap_or(RATING_WET_BULB),
                pressure: STANDARD_PRESSURE,
            },
            airflow: point.airflow.unwrap_or(LitresPerSecond(
                DEFAULT_AIRFLOW_PER_KILOWATT * point.capacity.0,
            )),
            sensible_heat_ratio: point
                .sensible_heat_ratio
                .unwrap_or(DEFAULT_SENSIBLE_HEAT_RATIO),
        }
    }
}

/// A point with the coil behind it, or why there can be none.
fn with_coil(point: &Point) -> (CoilPerformance, Option<InconsistentSensibleHeatRatio>) {
    let RatedCoil {
        entering,
        airflow,
        sensible_heat_ratio,
    } = RatedCoil::at(point);
    let bypass = bypass_factor(entering, point.capacity, airflow, sensible_heat_ratio);
    let performance = CoilPerformance {
        capacity: point.capacity,
        power: point.power,
        airflow,
        bypass_factor: bypass.as_ref().ok().copied(),
    };
    (performance, bypass.err())
}

/// The wet bulbs over which some outdoor temperature is published more than once; the first one where none is.
fn wet_bulbs_varied(points: &[PointOnSheet]) -> Vec<Celsius> {
    let repeated = |point: &&PointOnSheet| {
        points.iter().any(|other| {
            other.speed == point.speed
                && other.outdoor == point.outdoor
                && other.wet_bulb != point.wet_bulb
        })
    };
    let mut found: Vec<f64> = points
        .iter()
        .filter(repeated)
        .map(|point| point.wet_bulb.0)
        .collect();
    if found.is_empty() {
        found.extend(points.first().map(|point| point.wet_bulb.0));
    }
    found.sort_by(f64::total_cmp);
    found.dedup();
    found.into_iter().map(Celsius).collect()
}

/// The points of one speed over outdoor temperature, each at a wet bulb: linear between published ones, held outside.
fn at_wet_bulb(
    points: &[PointOnSheet],
    speed: Speed,
    wet_bulb: Celsius,
) -> Vec<(Celsius, CoilPerformance)> {
    let mut found: Vec<&PointOnSheet> =
        points.iter().filter(|point| point.speed == speed).collect();
    found.sort_by(|a, b| {
        a.outdoor
            .0
            .total_cmp(&b.outdoor.0)
            .then(a.wet_bulb.0.total_cmp(&b.wet_bulb.0))
    });
    found
        .chunk_by(|a, b| a.outdoor == b.outdoor)
        .map(|same| {
            let after = same.partition_point(|point| point.wet_bulb < wet_bulb);
            let performance = match (after.checked_sub(1).map(|at| same[at]), same.get(after)) {
                (Some(drier), Some(wetter)) => {
                    let fraction = (wet_bulb - drier.wet_bulb) / (wetter.wet_bulb - drier.wet_bulb);
                    drier.performance.toward(wetter.performance, fraction)
                }
                (Some(only), None) => only.performance,
                (None, _) => same[0].performance,
            };
            (same[0].outdoor, performance)
        })
        .collect()
}
