//! What is asked of a unit: one file per requirement, each with the reason it gives where the unit fails.
//!
//! A requirement shows that it holds, that it fails, or what would have to be published to tell. A new one is its file,
//! its `mod` line and one line in [`REQUIREMENTS`].

mod ask;
mod carries_cooling_design;
mod carries_design_load;
mod case;
mod criterion;
mod keeps_dry;
mod limits;
mod own_criterion;
mod reason;
mod runs_beyond_design;
mod season_share;
#[cfg(test)]
mod testing;
mod turns_down;

pub use ask::{Ask, AskCode};
pub use case::{Case, Findings};
pub use criterion::{Bound, BoundValue, Criteria, Criterion, CriterionValue};
pub use limits::Requirements;
pub use own_criterion::{CriterionReading, reading};
pub use reason::{REASON_CODES, Reason};
pub use turns_down::cycles_below;

/// Every requirement, in the order in which reasons are listed.
const REQUIREMENTS: &[fn(&Case<'_>, &mut Findings)] = &[
    carries_design_load::judge,
    runs_beyond_design::judge,
    carries_cooling_design::judge,
    turns_down::judge,
    keeps_dry::judge,
    own_criterion::judge,
];

/// Judges a case against every requirement.
#[must_use]
pub fn judge(case: &Case<'_>) -> Findings {
    let mut findings = Findings::default();
    for requirement in REQUIREMENTS {
        requirement(case, &mut findings);
    }
    findings
}
