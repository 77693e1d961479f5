//! Reads files from outside: catalog CSV, house and criteria TOML, weather.

mod calendar;
pub mod catalog_csv;
mod criteria_file;
mod energy_section;
mod epw;
mod epw_header;
mod epw_row;
mod house_file;
mod house_template;
mod nearest;
mod problem;
mod text_place;
mod toml_reader;
mod weather_humidity;

pub use criteria_file::read_criteria;
pub use epw::read_epw;
pub use house_file::read_house;
pub use house_template::HOUSE_TEMPLATE;
pub use nearest::nearest;
pub use problem::{Problem, Problems, quoted};

#[cfg(test)]
mod tests;
