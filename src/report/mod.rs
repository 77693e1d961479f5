//! Tables, charts and pages made from answers. Returns strings; computes no physics.

pub mod cautions;
pub mod climate_csv;
pub mod units;
