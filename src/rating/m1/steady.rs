//! Steady capacity and power at a test point, and straight lines over outdoor temperature through such points.

use crate::quantity::Kilowatts;

/// Btu/h in a kilowatt: 3600 s · 1000 W / 1055.055 852 62 J (international table Btu).
const BTU_H_PER_KW: f64 = 3_600_000.0 / 1_055.055_852_62;

/// Steady operation at one temperature and speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steady {
    /// Capacity \[Btu/h\].
    pub capacity_btu_h: f64,
    /// Electric input \[W\].
    pub power_w: f64,
}

impl Steady {
    /// From the appendix's units: Btu/h and W.
    #[must_use]
    pub fn new(capacity_btu_h: f64, power_w: f64) -> Self {
        Self {
            capacity_btu_h,
            power_w,
        }
    }

    /// From a catalog's units.
    #[must_use]
    pub fn from_kilowatts(capacity: Kilowatts, power: Kilowatts) -> Self {
        Self {
            capacity_btu_h: capacity.0 * BTU_H_PER_KW,
            power_w: power.0 * 1000.0,
        }
    }

    /// Capacity per power \[Btu/Wh\].
    #[must_use]
    pub fn efficiency_btu_per_wh(self) -> f64 {
        self.capacity_btu_h / self.power_w
    }

    /// Capacity and power each times a factor.
    pub(super) fn scaled(self, capacity_factor: f64, power_factor: f64) -> Self {
        Self {
            capacity_btu_h: self.capacity_btu_h * capacity_factor,
            power_w: self.power_w * power_factor,
        }
    }

    /// The value `share` of the way from here to `other`, capacity and power each by their own share.
    pub(super) fn toward(self, other: Self, capacity_share: f64, power_share: f64) -> Self {
        Self {
            capacity_btu_h: self.capacity_btu_h
                + (other.capacity_btu_h - self.capacity_btu_h) * capacity_share,
            power_w: self.power_w + (other.power_w - self.power_w) * power_share,
        }
    }
}

/// A straight line over outdoor temperature.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line {
    anchor_f: f64,
    anchor: Steady,
    slope_per_f: Steady,
}

impl Line {
    /// Through two test points at different temperatures.
    pub(super) fn through((cold_f, cold): (f64, Steady), (warm_f, warm): (f64, Steady)) -> Self {
        let span = warm_f - cold_f;
        let slope_per_f = Steady {
            capacity_btu_h: (warm.capacity_btu_h - cold.capacity_btu_h) / span,
            power_w: (warm.power_w - cold.power_w) / span,
        };
        Self {
            anchor_f: cold_f,
            anchor: cold,
            slope_per_f,
        }
    }

    /// A parallel through another point.
    pub(super) fn parallel_through(self, anchor_f: f64, anchor: Steady) -> Self {
        Self {
            anchor_f,
            anchor,
            ..self
        }
    }

    /// A line through a point whose slope lies between this line's and another's.
    pub(super) fn blended_through(
        self,
        other: Self,
        (capacity, power): (f64, f64),
        at_f: f64,
        anchor: Steady,
    ) -> Self {
        Self {
            anchor_f: at_f,
            anchor,
            slope_per_f: self.slope_per_f.toward(other.slope_per_f, capacity, power),
        }
    }

    /// The line's value.
    pub(super) fn at(self, outdoor_f: f64) -> Steady {
        let distance = outdoor_f - self.anchor_f;
        Steady {
            capacity_btu_h: self.anchor.capacity_btu_h + self.slope_per_f.capacity_btu_h * distance,
            power_w: self.anchor.power_w + self.slope_per_f.power_w * distance,
        }
    }
}
