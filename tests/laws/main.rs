//! Laws that must hold for any input, checked with generated cases.

mod dual_fuel;
