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
pub use own_criterion::{CriterionReading, keeps, reading};
pub use reason::{REASON_CODES, Reason};
pub use turns_down::cycles_below;

/// A built-in requirement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Requirement {
    /// The design load is carried without backup.
    CarriesDesignLoad,
    /// The unit runs at the colder temperature that the house names.
    RunsBeyondDesign,
    /// The sensible design load is carried.
    CarriesCoolingDesign,
    /// The unit turns down far enough in cooling.
    TurnsDown,
    /// The room stays dry.
    KeepsDry,
    /// The designer's or purchaser's own criteria.
    OwnCriteria,
}

/// How a requirement is judged.
type Judge = fn(&Case<'_>, &mut Findings);

/// Every requirement, in the order in which reasons are listed.
const REQUIREMENTS: &[(Requirement, Judge)] = &[
    (Requirement::CarriesDesignLoad, carries_design_load::judge),
    (Requirement::RunsBeyondDesign, runs_beyond_design::judge),
    (
        Requirement::CarriesCoolingDesign,
        carries_cooling_design::judge,
    ),
    (Requirement::TurnsDown, turns_down::judge),
    (Requirement::KeepsDry, keeps_dry::judge),
    (Requirement::OwnCriteria, own_criterion::judge),
];

/// Judges a case against every requirement.
#[must_use]
pub fn judge(case: &Case<'_>) -> Findings {
    let mut findings = Findings::default();
    for (_, requirement) in REQUIREMENTS {
        requirement(case, &mut findings);
    }
    findings
}

/// Judges a case against each requirement on its own, in the order in which reasons are listed.
#[must_use]
pub fn judge_each(case: &Case<'_>) -> Vec<(Requirement, Findings)> {
    let apart = |&(requirement, judge): &(Requirement, Judge)| {
        let mut findings = Findings::default();
        judge(case, &mut findings);
        (requirement, findings)
    };
    REQUIREMENTS.iter().map(apart).collect()
}
