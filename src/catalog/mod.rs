//! The performance catalog: one SQLite file. The only place that speaks SQL.
//!
//! [`Catalog::open`] checks a file before anything writes to it; [`Catalog::write`] is one transaction;
//! [`Catalog::judge_all`] reads every unit in one ordered scan, on all cores.

mod builtin;
mod climate_row;
mod error;
mod export;
mod migration;
mod open;
mod point_rows;
mod read;
mod scan;
mod unit_row;
mod write;

pub use builtin::{CATALOG_VARIABLE, builtin_files, catalog_path};
pub use error::CatalogError;
pub use export::ExportError;
pub use read::{AsWritten, Counts};
pub use write::{Change, UnitId, Writing, WrittenPoint};

use std::path::{Path, PathBuf};

use rusqlite::Connection;

/// An open catalog.
pub struct Catalog {
    connection: Connection,
    /// `None`: in memory.
    path: Option<PathBuf>,
    access: Access,
}

/// What the program may do with a catalog.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Access {
    /// Read and write.
    Full,
    /// Read only: the file or its folder is write-protected.
    ReadOnly,
}

impl Catalog {
    /// The catalog's file; `None` where it is in memory.
    #[must_use]
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// Whether it can be written to.
    #[must_use]
    pub fn access(&self) -> Access {
        self.access
    }

    /// Lets the file grow to so many pages only, as if the disk were full then.
    #[cfg(test)]
    pub(crate) fn limit_pages_for_tests(&self, pages: u32) {
        self.connection
            .pragma_update(None, "max_page_count", pages)
            .unwrap();
    }

    fn error(&self, error: rusqlite::Error) -> CatalogError {
        CatalogError::from_sql(self.path.as_deref(), error)
    }
}
