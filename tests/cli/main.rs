//! The commands as a user runs them: that the wiring works, what they print, and how they end.

mod demo_catalog;
mod humidity;
mod rank_by;
mod severe_years;
mod whatif;
