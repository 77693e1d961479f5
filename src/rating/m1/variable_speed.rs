//! A unit with a continuously variable speed.

use super::single_speed::full_at;
use super::steady::Line;
use super::{CoolingSystem, HeatingSystem, Operation, Region, Steady, frosted_at_35_f};

/// How capacity and power at full speed would rise from 17 to 47 °F in a split system whose full speed at 47 °F was
/// not tested, per °F.
///
/// # Source
/// 10 CFR 430 Subpart B Appendix M1, section 3.6.4 (split systems).
const CAPACITY_RISE_PER_F: f64 = 0.0204;
const POWER_RISE_PER_F: f64 = 0.00455;

/// What is known of full speed at 47 °F.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FullSpeedAt47 {
    /// Test H12.
    Tested(Steady),
    /// The nominal test H1N ran at the speed of the test at 17 °F.
    SameAsNominal,
    /// Neither: estimated from the test at 17 °F.
    Estimated,
}

/// Heating tests of a variable-speed unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VariableSpeedHeating {
    /// Low speed, 62 °F.
    pub h01: Steady,
    /// Low speed, 47 °F.
    pub h11: Steady,
    /// Nominal speed, 47 °F.
    pub h1n: Steady,
    /// Full speed, 47 °F.
    pub h12: FullSpeedAt47,
    /// Intermediate speed, 35 °F.
    pub h2v: Steady,
    /// Full speed, 35 °F, frost included; `None`: the frost default.
    pub h22: Option<Steady>,
    /// Full speed, 17 °F.
    pub h32: Steady,
    /// Full speed, 5 °F; `None`: the line from 47 through 17 °F is continued.
    pub h42: Option<Steady>,
    /// Degradation coefficient at low speed.
    pub degradation: f64,
}

impl VariableSpeedHeating {
    fn full_at_47(&self) -> Steady {
        match self.h12 {
            FullSpeedAt47::Tested(h12) => h12,
            FullSpeedAt47::SameAsNominal => self.h1n,
            FullSpeedAt47::Estimated => self.h32.scaled(
                1.0 + 30.0 * CAPACITY_RISE_PER_F,
                1.0 + 30.0 * POWER_RISE_PER_F,
            ),
        }
    }

    fn full_at_35(&self) -> Steady {
        self.h22
            .unwrap_or_else(|| frosted_at_35_f(self.h32, self.full_at_47()))
    }

    fn low_line(&self) -> Line {
        Line::through((47.0, self.h11), (62.0, self.h01))
    }

    /// Low speed, on the line through 47 and 62 °F.
    #[must_use]
    pub fn low_at(&self, outdoor_f: f64) -> Steady {
        self.low_line().at(outdoor_f)
    }

    /// Intermediate speed, on a line through 35 °F whose slope lies between those of low and full speed.
    #[must_use]
    pub fn intermediate_at(&self, outdoor_f: f64) -> Steady {
        let low = self.low_line();
        let full = Line::through((17.0, self.h32), (35.0, self.full_at_35()));
        intermediate(low, full, 35.0, self.h2v).at(outdoor_f)
    }

    /// Full speed; from 45 °F up lowered in the ratio of nominal to full speed at 47 °F, as no unit runs faster than
    /// nominal there.
    #[must_use]
    pub fn full_at(&self, outdoor_f: f64) -> Steady {
        let at_47 = self.full_at_47();
        let full = full_at(
            at_47,
            Some(self.full_at_35()),
            self.h32,
            self.h42,
            outdoor_f,
        );
        if outdoor_f < 45.0 {
            return full;
        }
        full.scaled(
            self.h1n.capacity_btu_h / at_47.capacity_btu_h,
            self.h1n.power_w / at_47.power_w,
        )
    }
}

impl HeatingSystem for VariableSpeedHeating {
    fn operation(&self, outdoor_f: f64, load_btu_h: f64) -> Operation {
        operation(
            [
                self.low_at(outdoor_f),
                self.intermediate_at(outdoor_f),
                self.full_at(outdoor_f),
            ],
            load_btu_h,
            self.degradation,
        )
    }

    fn slope(&self, region: Region) -> f64 {
        region.slope_variable_speed()
    }
}

/// Cooling tests of a variable-speed heat pump.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VariableSpeedCooling {
    /// Full speed, 95 °F.
    pub a2: Steady,
    /// Full speed, 82 °F.
    pub b2: Steady,
    /// Intermediate speed, 87 °F.
    pub ev: Steady,
    /// Low speed, 82 °F.
    pub b1: Steady,
    /// Low speed, 67 °F.
    pub f1: Steady,
    /// Degradation coefficient at low speed.
    pub degradation: f64,
}

impl VariableSpeedCooling {
    fn low_line(&self) -> Line {
        Line::through((67.0, self.f1), (82.0, self.b1))
    }

    fn full_line(&self) -> Line {
        Line::through((82.0, self.b2), (95.0, self.a2))
    }

    /// Low speed, on the line through 67 and 82 °F.
    #[must_use]
    pub fn low_at(&self, outdoor_f: f64) -> Steady {
        self.low_line().at(outdoor_f)
    }

    /// Intermediate speed, on a line through 87 °F whose slope lies between those of low and full speed.
    #[must_use]
    pub fn intermediate_at(&self, outdoor_f: f64) -> Steady {
        intermediate(self.low_line(), self.full_line(), 87.0, self.ev).at(outdoor_f)
    }

    /// Full speed, on the line through 82 and 95 °F.
    #[must_use]
    pub fn full_at(&self, outdoor_f: f64) -> Steady {
        self.full_line().at(outdoor_f)
    }
}

impl CoolingSystem for VariableSpeedCooling {
    fn operation(&self, outdoor_f: f64, load_btu_h: f64) -> Operation {
        operation(
            [
                self.low_at(outdoor_f),
                self.intermediate_at(outdoor_f),
                self.full_at(outdoor_f),
            ],
            load_btu_h,
            self.degradation,
        )
    }

    fn design_capacity_btu_h(&self) -> f64 {
        self.a2.capacity_btu_h
    }

    fn load_factor(&self) -> f64 {
        0.93
    }
}

/// The line of intermediate speed: its slope goes from the low to the full line's as far as its test lies between the
/// two, for capacity and power each: `M = m_low (1 - N) + m_full N`, `N = (X_v - X_low)/(X_full - X_low)` at the test.
///
/// # Source
/// 10 CFR 430 Subpart B Appendix M1, sections 4.1.4 and 4.2.4.
fn intermediate(low: Line, full: Line, test_f: f64, tested: Steady) -> Line {
    let (at_low, at_full) = (low.at(test_f), full.at(test_f));
    let capacity_share = (tested.capacity_btu_h - at_low.capacity_btu_h)
        / (at_full.capacity_btu_h - at_low.capacity_btu_h);
    let power_share = (tested.power_w - at_low.power_w) / (at_full.power_w - at_low.power_w);
    low.blended_through(full, (capacity_share, power_share), test_f, tested)
}

/// Cycling at low speed, full without pause, or in between with the efficiency straight in capacity from low over
/// intermediate to full.
fn operation(
    [low, intermediate, full]: [Steady; 3],
    load_btu_h: f64,
    degradation: f64,
) -> Operation {
    if load_btu_h >= full.capacity_btu_h {
        return Operation::full(full);
    }
    if load_btu_h <= low.capacity_btu_h {
        return Operation::cycling(load_btu_h, low, degradation);
    }
    let (below, above) = if load_btu_h <= intermediate.capacity_btu_h {
        (low, intermediate)
    } else {
        (intermediate, full)
    };
    let share = (load_btu_h - below.capacity_btu_h) / (above.capacity_btu_h - below.capacity_btu_h);
    let (from, to) = (below.efficiency_btu_per_wh(), above.efficiency_btu_per_wh());
    let efficiency = from + (to - from) * share;
    Operation::between(load_btu_h, load_btu_h / efficiency)
}
