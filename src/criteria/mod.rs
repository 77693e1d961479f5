//! What is asked of a unit, and why it fails.

mod criterion;
mod limits;

pub use criterion::{Bound, BoundValue, Criteria, Criterion, CriterionValue};
pub use limits::Requirements;
