//! Tables, charts and pages made from answers. Returns strings; computes no physics.

pub mod answer;
pub mod cautions;
pub mod clean_text;
pub mod climate_csv;
pub mod climate_table;
pub mod compare;
pub mod cost;
pub mod csv_text;
pub mod design_table;
pub mod explain;
pub mod factor_words;
pub mod fingerprint;
pub mod foot;
pub mod house_words;
pub mod humidity_answer;
pub mod humidity_table;
pub mod lesson;
pub mod load_sweep;
pub mod other_climates;
pub mod page;
pub mod price_ratio_sweep;
pub mod quotes;
pub mod rating_check;
pub mod rejected_groups;
pub mod sensible_sweep;
pub mod sheet;
pub mod shortlist_csv;
pub mod shortlist_table;
pub mod svg;
pub mod switchover;
pub mod table;
pub mod terminal;
pub mod unit_preview;
pub mod view;

pub use clean_text::{clean_lines, clean_text};
