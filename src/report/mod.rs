//! Tables, charts and pages made from answers. Returns strings; computes no physics.

pub mod answer;
pub mod cautions;
mod clean_text;
pub mod climate_csv;
pub mod climate_table;
pub mod csv_text;
pub mod design_table;
pub mod house_words;
pub mod shortlist_csv;
pub mod shortlist_table;
pub mod table;

pub use clean_text::clean_text;
