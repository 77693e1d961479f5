//! Reads files from outside: catalog CSV, house and criteria TOML, weather.

pub mod catalog_csv;
mod criteria_file;
mod energy_section;
mod house_file;
mod house_template;
mod nearest;
mod problem;
mod text_place;
mod toml_reader;

pub use criteria_file::read_criteria;
pub use house_file::read_house;
pub use house_template::HOUSE_TEMPLATE;
pub use nearest::nearest;
pub use problem::{Problem, Problems, quoted};

#[cfg(test)]
mod tests;
