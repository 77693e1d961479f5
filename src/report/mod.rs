//! Tables, charts and pages made from answers. Returns strings; computes no physics.

pub mod answer;
pub mod cautions;
mod clean_text;
pub mod csv_text;
pub mod humidity_answer;
pub mod humidity_table;
pub mod load_sweep;
pub mod other_climates;
pub mod sensible_sweep;
pub mod shortlist_csv;
pub mod shortlist_table;
pub mod table;

pub use clean_text::clean_text;
