//! HSPF2 and SEER2 by US 10 CFR 430 Subpart B Appendix M1.
//!
//! The appendix is written in °F, Btu/h and W, and its constants belong to those units; they are kept here, in the
//! names (`_f`, `_btu_h`, `_w`), so that the code can be read beside it. Test points bear the appendix's names: H0 62 °F,
//! H1 47 °F, H2 35 °F, H3 17 °F, H4 5 °F in heating and A 95 °F, B 82 °F, E 87 °F, F 67 °F in cooling, followed by the speed:
//! 1 low, 2 full, V intermediate, N nominal.
//!
//! Not modelled, because no catalog tells: a low capacity locked out in part of the range, a minimum speed that rises
//! in the cold, triple-capacity and multiple-compressor systems, and heat comfort controllers.

mod bins;
mod cooling;
mod defrost;
mod heating;
mod operation;
mod single_speed;
mod steady;
mod two_capacity;
mod variable_speed;

pub use bins::{COOLING_BINS, Region};
pub use cooling::{CoolingBin, CoolingSeason, cooling_season};
pub use defrost::{demand_defrost_credit, frosted_at_35_f};
pub use heating::{CutOut, HeatingBin, HeatingConditions, HeatingSeason, heating_season};
pub use operation::{CoolingSystem, HeatingSystem, Operation, Regime};
pub use single_speed::{SingleSpeedCooling, SingleSpeedHeating};
pub use steady::Steady;
pub use two_capacity::{TwoCapacityCooling, TwoCapacityHeating};
pub use variable_speed::{FullSpeedAt47, VariableSpeedCooling, VariableSpeedHeating};

/// Heat of a watt-hour \[Btu/Wh\] as the appendix and its rating sheet round it.
pub const BTU_PER_WH_RATING_SHEET: f64 = 3.413;

/// The same as AHRI 210/240 of 2026 rounds it.
pub const BTU_PER_WH_STANDARD_2026: f64 = 3.412;

/// Degradation coefficient in heating where none is measured, and the most that a measured one may count.
///
/// # Source
/// 10 CFR 430 Subpart B Appendix M1, section 3.8.1.
pub const DEFAULT_HEATING_DEGRADATION: f64 = 0.25;

/// Degradation coefficient in cooling of single-speed and two-capacity systems where none is measured, and the most
/// that a measured one may count.
///
/// # Source
/// 10 CFR 430 Subpart B Appendix M1, section 3.5; two-capacity confirmed by a published worked case.
pub const DEFAULT_COOLING_DEGRADATION: f64 = 0.20;

/// The same for variable-speed systems.
///
/// # Source
/// 10 CFR 430 Subpart B Appendix M1, section 3.5 (from memory).
pub const DEFAULT_COOLING_DEGRADATION_VARIABLE_SPEED: f64 = 0.25;
