//! Seasonal ratings recomputed from published points.
