//! What is asked of a unit, and why it fails.
