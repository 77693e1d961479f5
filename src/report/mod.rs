//! Tables, charts and pages made from answers; computes no physics.

pub mod clean_text;
pub mod svg;
pub mod terminal;
