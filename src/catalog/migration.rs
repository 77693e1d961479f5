//! Brings a catalog of an older version up to today's schema: one transaction, a copy of the file first.

use std::path::{Path, PathBuf};

use rusqlite::{Connection, TransactionBehavior};

use super::CatalogError;

/// Marks a file as this program's catalog (`OVWI`), in the header field that SQLite keeps for the purpose.
pub(super) const APPLICATION_ID: i32 = 0x4F56_5749;

/// The one definition of today's schema.
const SCHEMA: &str = include_str!("../../schema.sql");

/// What leads to each version from the one before; the first needs nothing. A released step is never changed.
const STEPS: &[&str] = &[""];

/// Today's schema and the way to it.
#[derive(Clone, Copy)]
pub(super) struct Plan {
    /// Creates an empty catalog of the newest version.
    pub(super) schema: &'static str,
    /// Leads to version n from version n - 1; the first is never run.
    pub(super) steps: &'static [&'static str],
}

/// The plan of this program.
pub(super) const PLAN: Plan = Plan {
    schema: SCHEMA,
    steps: STEPS,
};

impl Plan {
    /// The newest version it knows.
    pub(super) fn version(self) -> i64 {
        i64::try_from(self.steps.len()).unwrap_or(i64::MAX)
    }

    /// Creates the schema in an empty database.
    pub(super) fn create(self, connection: &mut Connection) -> rusqlite::Result<()> {
        let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        transaction.execute_batch(self.schema)?;
        transaction.pragma_update(None, "application_id", APPLICATION_ID)?;
        transaction.pragma_update(None, "user_version", self.version())?;
        transaction.commit()
    }

    /// Upgrades an older catalog after copying its file; returns the copy's path, or `None` where nothing was due.
    pub(super) fn upgrade(
        self,
        connection: &mut Connection,
        path: &Path,
    ) -> Result<Option<PathBuf>, CatalogError> {
        let sql = |error| CatalogError::from_sql(Some(path), error);
        let found = version(connection).map_err(sql)?;
        if found >= self.version() {
            return Ok(None);
        }
        let copy = free_copy_path(path, found);
        connection
            .execute("VACUUM INTO ?1", [copy.to_string_lossy()])
            .map_err(sql)?;
        let transaction = connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(sql)?;
        // Another program may have upgraded it while this one waited for its turn.
        let found = version(&transaction).map_err(sql)?;
        for step in self
            .steps
            .iter()
            .skip(usize::try_from(found).unwrap_or(usize::MAX))
        {
            transaction.execute_batch(step).map_err(sql)?;
        }
        transaction
            .pragma_update(None, "user_version", self.version())
            .map_err(sql)?;
        transaction.commit().map_err(sql)?;
        Ok(Some(copy))
    }
}

/// The schema version a catalog says it has.
pub(super) fn version(connection: &Connection) -> rusqlite::Result<i64> {
    connection.pragma_query_value(None, "user_version", |row| row.get(0))
}

/// Every object of the schema as SQLite keeps it, in the order of names.
pub(super) fn schema_of(connection: &Connection) -> rusqlite::Result<Vec<(String, String)>> {
    connection
        .prepare("SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY name")?
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
        .collect()
}

/// A name beside the catalog that is not taken: `catalog.before-v2.db`, then `catalog.before-v2-2.db` and so on.
fn free_copy_path(path: &Path, found: i64) -> PathBuf {
    let stem = path
        .file_stem()
        .unwrap_or_default()
        .to_string_lossy()
        .into_owned();
    let named = |suffix: String| path.with_file_name(format!("{stem}.version-{found}{suffix}.db"));
    let mut copy = named(String::new());
    let mut number = 2;
    while copy.exists() {
        copy = named(format!("-{number}"));
        number += 1;
    }
    copy
}
