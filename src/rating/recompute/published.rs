//! Finding the points that a rating procedure needs among those that a unit publishes.

use std::fmt;

use crate::equipment::{FanBasis, FrostBasis, Mode, Point, Speed, Unit};
use crate::quantity::Celsius;

/// Outdoor temperatures this close are one: room for 8.3 °C as 47 °F, and none to mix 2 °C with 35 °F (1.67 °C).
const OUTDOOR_MATCH_K: f64 = 0.15;

/// Indoor temperatures this close are one: both procedures' rating conditions lie within it of each other.
const INDOOR_MATCH_K: f64 = 0.5;

/// Heating points in this range were measured with frost; a frost-free figure is of no use to a rating there.
const FROSTING: std::ops::RangeInclusive<f64> = -7.5..=5.5;

/// A point that a procedure needs and the unit does not publish.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MissingPoint {
    /// Heating or cooling.
    pub mode: Mode,
    /// Speed.
    pub speed: Speed,
    /// Outdoor dry bulb.
    pub outdoor: Celsius,
}

impl fmt::Display for MissingPoint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{} at {:.1} °C, {} speed",
            self.mode.name(),
            self.outdoor.0,
            self.speed.name()
        )
    }
}

/// Indoor air of a rating condition.
#[derive(Clone, Copy)]
pub(super) struct IndoorCondition {
    pub(super) dry_bulb: Celsius,
    /// Of interest in cooling only.
    pub(super) wet_bulb: Option<Celsius>,
}

/// Looks up points and remembers which were not there.
pub(super) struct Lookup<'a> {
    unit: &'a Unit,
    indoor: fn(Mode) -> IndoorCondition,
    pub(super) missing: Vec<MissingPoint>,
}

impl<'a> Lookup<'a> {
    pub(super) fn new(unit: &'a Unit, indoor: fn(Mode) -> IndoorCondition) -> Self {
        Self {
            unit,
            indoor,
            missing: Vec::new(),
        }
    }

    /// The point at a mode, speed and outdoor temperature; noted as missing where there is none.
    pub(super) fn need(&mut self, mode: Mode, speed: Speed, outdoor: Celsius) -> Option<&'a Point> {
        let found = self.find(mode, speed, outdoor);
        if found.is_none() {
            self.missing.push(MissingPoint {
                mode,
                speed,
                outdoor,
            });
        }
        found
    }

    /// The same for a point that may be absent.
    pub(super) fn find(&self, mode: Mode, speed: Speed, outdoor: Celsius) -> Option<&'a Point> {
        self.usable(mode, speed)
            .find(|point| (point.outdoor - outdoor).0.abs() <= OUTDOOR_MATCH_K)
    }

    /// Every point of a mode and speed at the rating's indoor condition, with fan and frost counted as a rating counts
    /// them. What is not stated is taken to be as in a rating.
    pub(super) fn usable(
        &self,
        mode: Mode,
        speed: Speed,
    ) -> impl Iterator<Item = &'a Point> + use<'a> {
        let indoor = (self.indoor)(mode);
        self.unit.points.iter().filter(move |point| {
            let close = |found: Option<Celsius>, wanted: Celsius| {
                found.is_none_or(|found| (found - wanted).0.abs() <= INDOOR_MATCH_K)
            };
            let frost_free = point.frost_basis == Some(FrostBasis::FrostFree);
            point.mode == mode
                && point.speed == speed
                && close(point.indoor_dry_bulb, indoor.dry_bulb)
                && indoor
                    .wet_bulb
                    .is_none_or(|wanted| close(point.indoor_wet_bulb, wanted))
                && point.fan_basis != Some(FanBasis::Gross)
                && !(mode == Mode::Heating && frost_free && FROSTING.contains(&point.outdoor.0))
        })
    }

    /// The speeds at which a mode has usable points, slowest first.
    pub(super) fn speeds(&self, mode: Mode) -> Vec<Speed> {
        Speed::ALL
            .iter()
            .copied()
            .filter(|&speed| self.usable(mode, speed).next().is_some())
            .collect()
    }
}
