//! Tables, charts and pages made from answers; computes no physics.
