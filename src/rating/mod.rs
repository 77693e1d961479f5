//! Seasonal ratings recomputed from published points, so that a declared figure can be held against its own data.
//!
//! Two procedures, each in its own units and with its own climate:
//!
//! - [`en14825`]: SCOP and SEER of the European standard, hours of a reference year, kW and °C;
//! - [`m1`]: HSPF2 and SEER2 of the United States' 10 CFR 430 Subpart B Appendix M1, fractional bins, Btu/h, W and °F.
//!
//! [`recompute()`] takes a catalog unit, finds the points that a procedure needs, and says how far the declared figure and
//! the recomputed one lie apart, or which points are missing. A rating is a figure for comparing units in a reference
//! climate; it says nothing about one house, for which the season itself is computed elsewhere in this crate.

pub mod en14825;
pub mod m1;
mod recompute;

pub use recompute::{
    Assumption, CATALOG_TOLERANCE, Comparison, Figure, MissingPoint, Outcome, Recomputed, recompute,
};
