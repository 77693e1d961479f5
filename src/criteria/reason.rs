//! Why a unit is rejected: a finding with its numbers, a sentence and a remedy.

use crate::quantity::UnitSystem;

/// Stable codes of all reasons, with what each says.
pub const REASON_CODES: &[(&str, &str)] = &[
    (
        "short_at_design",
        "capacity at the design temperature is below the load",
    ),
    (
        "stops_above_design",
        "the unit stops at a temperature warmer than the design temperature",
    ),
    (
        "stops_too_warm",
        "the unit stops at a temperature warmer than the house needs it to run at",
    ),
    (
        "short_in_cooling",
        "sensible capacity at the cooling design temperature is below the load",
    ),
    (
        "cycles_in_cooling",
        "the load lies below the unit's minimum in too large a share of the cooling hours",
    ),
    (
        "humid",
        "the room is too humid in too large a share of the cooling hours",
    ),
    (
        "criterion",
        "a criterion of the designer's or purchaser's own is not met",
    ),
];

/// One failing requirement.
pub trait Reason: std::fmt::Debug + Send + Sync {
    /// Stable code, one of [`REASON_CODES`].
    fn code(&self) -> &'static str;

    /// What it is called where it is a criterion of the designer's or purchaser's own.
    fn name(&self) -> Option<&str> {
        None
    }

    /// The value found, in [`Reason::unit`]; `None` where it is a word.
    fn value(&self) -> Option<f64>;

    /// The limit it misses, in [`Reason::unit`]; `None` where it is a word.
    fn limit(&self) -> Option<f64>;

    /// The unit of value and limit; `share` for a fraction of hours, empty for a plain number.
    fn unit(&self) -> &'static str;

    /// What was found, as a sentence with its numbers.
    fn sentence(&self, units: UnitSystem) -> String;

    /// What would close the gap.
    fn remedy(&self, units: UnitSystem) -> String;
}
