//! The heating side: does the unit carry the house on the design day, and what does it do over a whole winter?

mod balance_point;
mod curves;
mod figures;
mod hour;
mod season;

pub use balance_point::{BalancePoint, balance_point};
pub use curves::{HeatPerformance, HeatingAt, HeatingCurves};
pub use figures::HeatingFigures;
pub use hour::{HeatingHour, Running, heating_hour, neighbouring_speeds, part_load_factor};
pub use season::{HeatingSeason, heating_season, season_without_points};

/// Cyclic degradation coefficient where the unit declares none.
///
/// # Source
/// Default of 10 CFR 430 Subpart B Appendix M1.
pub const DEFAULT_DEGRADATION: f64 = 0.25;
