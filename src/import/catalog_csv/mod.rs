//! The catalog's own CSV files: sources, units, points. One transaction: all rows or none, and every problem is listed.

mod cells;
mod files;
mod header;
mod lookup;
mod points;
mod problems;
mod rows;
mod run;
mod sources;
mod summary;
mod units;

pub use files::{CatalogFiles, Input};
pub use run::{ImportError, import_catalog};
pub use summary::{Summary, Tally};

#[cfg(test)]
mod tests;
