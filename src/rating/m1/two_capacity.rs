//! A unit with a low and a full capacity.

use super::single_speed::full_at;
use super::steady::Line;
use super::{CoolingSystem, HeatingSystem, Operation, Steady, frosted_at_35_f};

/// Heating tests of a two-capacity unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoCapacityHeating {
    /// Low capacity, 62 °F.
    pub h01: Steady,
    /// Low capacity, 47 °F.
    pub h11: Steady,
    /// Low capacity, 35 °F, frost included; `None`: the frost default.
    pub h21: Option<Steady>,
    /// Low capacity, 17 °F.
    pub h31: Steady,
    /// Full capacity, 47 °F.
    pub h12: Steady,
    /// Full capacity, 35 °F, frost included; `None`: the frost default.
    pub h22: Option<Steady>,
    /// Full capacity, 17 °F.
    pub h32: Steady,
    /// Full capacity, 5 °F; `None`: the line from 47 through 17 °F is continued.
    pub h42: Option<Steady>,
    /// Degradation coefficient at low capacity.
    pub degradation: f64,
}

impl TwoCapacityHeating {
    /// Steady operation at low capacity: through 47 and 62 °F from 40 °F up, through 17 and 35 °F below that, and on the
    /// line through 17 and 47 °F in the cold.
    ///
    /// # Source
    /// 10 CFR 430 Subpart B Appendix M1, section 4.2.3.
    #[must_use]
    pub fn low_at(&self, outdoor_f: f64) -> Steady {
        if outdoor_f >= 40.0 {
            Line::through((47.0, self.h11), (62.0, self.h01)).at(outdoor_f)
        } else if outdoor_f >= 17.0 {
            let h21 = self
                .h21
                .unwrap_or_else(|| frosted_at_35_f(self.h31, self.h11));
            Line::through((17.0, self.h31), (35.0, h21)).at(outdoor_f)
        } else {
            Line::through((17.0, self.h31), (47.0, self.h11)).at(outdoor_f)
        }
    }

    /// Steady operation at full capacity.
    #[must_use]
    pub fn full_at(&self, outdoor_f: f64) -> Steady {
        full_at(self.h12, self.h22, self.h32, self.h42, outdoor_f)
    }
}

impl HeatingSystem for TwoCapacityHeating {
    fn operation(&self, outdoor_f: f64, load_btu_h: f64) -> Operation {
        operation(
            self.low_at(outdoor_f),
            self.full_at(outdoor_f),
            load_btu_h,
            self.degradation,
        )
    }
}

/// Cooling tests of a two-capacity unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoCapacityCooling {
    /// Full capacity, 95 °F.
    pub a2: Steady,
    /// Full capacity, 82 °F.
    pub b2: Steady,
    /// Low capacity, 82 °F.
    pub b1: Steady,
    /// Low capacity, 67 °F.
    pub f1: Steady,
    /// Degradation coefficient at low capacity.
    pub degradation: f64,
}

impl TwoCapacityCooling {
    /// Steady operation at low capacity, on the line through 67 and 82 °F.
    #[must_use]
    pub fn low_at(&self, outdoor_f: f64) -> Steady {
        Line::through((67.0, self.f1), (82.0, self.b1)).at(outdoor_f)
    }

    /// Steady operation at full capacity, on the line through 82 and 95 °F.
    #[must_use]
    pub fn full_at(&self, outdoor_f: f64) -> Steady {
        Line::through((82.0, self.b2), (95.0, self.a2)).at(outdoor_f)
    }
}

impl CoolingSystem for TwoCapacityCooling {
    fn operation(&self, outdoor_f: f64, load_btu_h: f64) -> Operation {
        operation(
            self.low_at(outdoor_f),
            self.full_at(outdoor_f),
            load_btu_h,
            self.degradation,
        )
    }

    fn design_capacity_btu_h(&self) -> f64 {
        self.a2.capacity_btu_h
    }
}

/// Cycling at low, going to and fro between low and full, or full without pause.
fn operation(low: Steady, full: Steady, load_btu_h: f64, degradation: f64) -> Operation {
    if load_btu_h >= full.capacity_btu_h {
        return Operation::full(full);
    }
    if load_btu_h <= low.capacity_btu_h {
        return Operation::cycling(load_btu_h, low, degradation);
    }
    let low_share = (full.capacity_btu_h - load_btu_h) / (full.capacity_btu_h - low.capacity_btu_h);
    Operation::between(
        load_btu_h,
        low_share * low.power_w + (1.0 - low_share) * full.power_w,
    )
}
