//! Reads files from outside: catalog CSV, house and criteria TOML, weather.

mod nearest;
mod problem;

pub use nearest::nearest;
pub use problem::{Problem, Problems, quoted};
