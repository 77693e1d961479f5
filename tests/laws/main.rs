//! Laws that must hold for any input, checked with generated cases.

mod cooling;
mod dual_fuel;
mod given;
mod heating;
mod verdicts;
