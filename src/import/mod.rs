//! Reads files from outside: catalog CSV, house and criteria TOML, weather.

mod built_in_climates;
mod calendar;
pub mod catalog_csv;
mod climate_columns;
mod climate_csv;
mod climate_file;
mod criteria_file;
mod design_temperatures;
mod energy_section;
mod epw;
mod epw_header;
mod epw_row;
mod house_file;
mod house_template;
mod nearest;
mod problem;
mod quotes_file;
mod tariff_section;
mod text_place;
mod toml_reader;
mod weather_humidity;

pub use built_in_climates::built_in_climates;
pub use climate_csv::read_climate_csv;
pub use climate_file::{climate_key, read_climate};
pub use criteria_file::read_criteria;
pub use design_temperatures::design_temperatures;
pub use epw::read_epw;
pub use house_file::read_house;
pub use house_template::HOUSE_TEMPLATE;
pub use nearest::nearest;
pub use problem::{Problem, Problems, quoted};
pub use quotes_file::{QUOTE_COLUMNS, read_quotes};

#[cfg(test)]
mod tests;
