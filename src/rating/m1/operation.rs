//! What a unit does in one bin: how much it delivers, and for how much power.

use super::{Region, Steady};

/// How the unit meets the load of a bin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Regime {
    /// The load is below the least capacity: the unit cycles.
    Cycling,
    /// The load lies between the least capacity and the full one.
    Between,
    /// The load is at or above the full capacity.
    Full,
}

/// Operation in one bin, as if the bin lasted an hour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Operation {
    /// How the load is met.
    pub regime: Regime,
    /// Heat moved \[Btu/h\].
    pub delivered_btu_h: f64,
    /// Mean electric input \[W\].
    pub power_w: f64,
    /// Whether the unit gives way to resistance heat here where it would be no better than that.
    pub yields_to_resistance: bool,
}

impl Operation {
    /// Cycling between off and a steady operation above the load: `X P / PLF`, `X = load/capacity`,
    /// `PLF = 1 - CD (1 - X)`.
    pub(super) fn cycling(load_btu_h: f64, steady: Steady, degradation: f64) -> Self {
        let share = load_btu_h / steady.capacity_btu_h;
        let part_load_factor = 1.0 - degradation * (1.0 - share);
        Self {
            regime: Regime::Cycling,
            delivered_btu_h: load_btu_h,
            power_w: share * steady.power_w / part_load_factor,
            yields_to_resistance: false,
        }
    }

    /// The load met without cycling.
    pub(super) fn between(load_btu_h: f64, power_w: f64) -> Self {
        Self {
            regime: Regime::Between,
            delivered_btu_h: load_btu_h,
            power_w,
            yields_to_resistance: false,
        }
    }

    /// Full operation without pause.
    pub(super) fn full(steady: Steady) -> Self {
        Self {
            regime: Regime::Full,
            delivered_btu_h: steady.capacity_btu_h,
            power_w: steady.power_w,
            yields_to_resistance: true,
        }
    }
}

/// A heating system of one of the appendix's classes.
pub trait HeatingSystem {
    /// What it does at an outdoor temperature \[°F\] under a load \[Btu/h\].
    fn operation(&self, outdoor_f: f64, load_btu_h: f64) -> Operation;

    /// Design load as a multiple of the cooling capacity at 95 °F.
    fn slope(&self, region: Region) -> f64 {
        region.slope()
    }
}

/// A cooling system of one of the appendix's classes.
pub trait CoolingSystem {
    /// What it does at an outdoor temperature \[°F\] under a load \[Btu/h\].
    fn operation(&self, outdoor_f: f64, load_btu_h: f64) -> Operation;

    /// Cooling capacity at 95 °F \[Btu/h\], from which the load line is drawn.
    fn design_capacity_btu_h(&self) -> f64;

    /// Factor V on the load line: 0.93 for variable-speed heat pumps, else 1.
    fn load_factor(&self) -> f64 {
        1.0
    }
}
