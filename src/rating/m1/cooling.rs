//! SEER2: a cooling season over fractional bins.

use super::{COOLING_BINS, CoolingSystem, Regime};

/// The load line of cooling passes through zero here \[°F\] ...
const ZERO_LOAD_F: f64 = 65.0;
/// ... and through the capacity, divided by [`OVERSIZING`], here \[°F\].
const DESIGN_OUTDOOR_F: f64 = 95.0;
/// How far the appendix takes a unit to be larger than its load.
const OVERSIZING: f64 = 1.1;

/// One bin of the cooling season, weighted by its fraction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoolingBin {
    /// Outdoor temperature \[°F\].
    pub outdoor_f: f64,
    /// Fraction of the season.
    pub fraction: f64,
    /// Building load, not weighted \[Btu/h\].
    pub load_btu_h: f64,
    /// How the load is met.
    pub regime: Regime,
    /// Heat removed times fraction \[Btu/h\].
    pub removed_btu_h: f64,
    /// Electric input times fraction \[W\].
    pub power_w: f64,
}

/// A cooling season, computed.
#[derive(Clone, Debug, PartialEq)]
pub struct CoolingSeason {
    /// The bins, coolest first.
    pub bins: Vec<CoolingBin>,
}

impl CoolingSeason {
    /// Sum of heat removed times fraction \[Btu/h\].
    #[must_use]
    pub fn removed_btu_h(&self) -> f64 {
        self.bins.iter().map(|bin| bin.removed_btu_h).sum()
    }

    /// Sum of electric input times fraction \[W\].
    #[must_use]
    pub fn power_w(&self) -> f64 {
        self.bins.iter().map(|bin| bin.power_w).sum()
    }

    /// Seasonal energy efficiency ratio \[Btu/Wh\].
    #[must_use]
    pub fn seer2(&self) -> f64 {
        self.removed_btu_h() / self.power_w()
    }
}

/// The cooling season of a two-capacity or variable-speed system: load line `BL(T) = (T - 65)/(95 - 65) · Q(95 °F)/1.1 · V`.
///
/// A load above full capacity is cut to that capacity, in the heat removed as in the power.
///
/// # Source
/// 10 CFR 430 Subpart B Appendix M1, section 4.1.
#[must_use]
pub fn cooling_season(system: &impl CoolingSystem) -> CoolingSeason {
    let design_load = system.design_capacity_btu_h() / OVERSIZING * system.load_factor();
    let bins = COOLING_BINS
        .iter()
        .map(|&(outdoor_f, fraction)| {
            let load_btu_h =
                (outdoor_f - ZERO_LOAD_F) / (DESIGN_OUTDOOR_F - ZERO_LOAD_F) * design_load;
            let operation = system.operation(outdoor_f, load_btu_h);
            CoolingBin {
                outdoor_f,
                fraction,
                load_btu_h,
                regime: operation.regime,
                removed_btu_h: operation.delivered_btu_h * fraction,
                power_w: operation.power_w * fraction,
            }
        })
        .collect();
    CoolingSeason { bins }
}
