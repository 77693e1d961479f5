//! Brings a catalog of an older version up to today's schema: one transaction, a copy of the file first.

use std::path::{Path, PathBuf};

use rusqlite::{Connection, TransactionBehavior};

use super::CatalogError;

/// Marks a file as this program's catalog (`OVWI`), in the header field that SQLite keeps for the purpose.
pub(super) const APPLICATION_ID: i32 = 0x4F56_5749;

/// The one definition of today's schema.
const SCHEMA: &str = include_str!("../../schema.sql");

/// What leads to each version from the one before; the first needs nothing. A released step is never changed.
const STEPS: &[&str] = &["", include_str!("steps/2_climates.sql")];

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

/// A name beside the catalog that is not taken: `catalog.version-1.db`, then `catalog.version-1-2.db` and so on.
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::Catalog;

    const FIRST: &str = include_str!("../../tests/fixtures/catalog_v1.sql");

    fn first_version(folder: &Path) -> PathBuf {
        let path = folder.join("catalog.db");
        Connection::open(&path)
            .and_then(|connection| connection.execute_batch(FIRST))
            .unwrap();
        path
    }

    #[test]
    fn a_catalog_of_the_first_version_upgrades_to_exactly_todays_schema_with_its_rows() {
        let folder = tempfile::tempdir().unwrap();
        let path = first_version(folder.path());
        let before = std::fs::read(&path).unwrap();

        let catalog = Catalog::open(&path).unwrap();
        let fresh = Catalog::in_memory().unwrap();
        assert_eq!(
            schema_of(&catalog.connection).unwrap(),
            schema_of(&fresh.connection).unwrap()
        );
        assert_eq!(version(&catalog.connection).unwrap(), PLAN.version());
        let alder = catalog.unit("alder").unwrap();
        assert_eq!(alder.points.len(), 2);
        assert_eq!(alder.points[0].power.0, 2.0);
        assert_eq!(catalog.keys().unwrap(), ["alder", "birch"]);
        catalog.verify().unwrap();

        // The copy is the old catalog, readable and still of its own version.
        let copy = Connection::open(folder.path().join("catalog.version-1.db")).unwrap();
        assert_eq!(version(&copy).unwrap(), 1);
        let points: i64 = copy
            .query_row("SELECT count(*) FROM point", [], |row| row.get(0))
            .unwrap();
        assert_eq!(points, 3);
        assert_ne!(before, std::fs::read(&path).unwrap());
    }

    #[test]
    fn an_upgrade_that_fails_half_way_changes_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let path = first_version(folder.path());
        let broken = Plan {
            schema: SCHEMA,
            steps: &[
                "",
                "CREATE TABLE climate (id INTEGER) STRICT; CREATE TABLE climate (id INTEGER) STRICT;",
            ],
        };
        let mut connection = Connection::open(&path).unwrap();
        let old = schema_of(&connection).unwrap();
        assert!(matches!(
            broken.upgrade(&mut connection, &path),
            Err(CatalogError::Sql(_))
        ));
        assert_eq!(schema_of(&connection).unwrap(), old);
        assert_eq!(version(&connection).unwrap(), 1);
    }

    #[test]
    fn a_second_copy_does_not_take_the_first_ones_place() {
        let folder = tempfile::tempdir().unwrap();
        let path = first_version(folder.path());
        std::fs::write(folder.path().join("catalog.version-1.db"), "mine").unwrap();
        drop(Catalog::open(&path).unwrap());
        assert_eq!(
            std::fs::read(folder.path().join("catalog.version-1.db")).unwrap(),
            b"mine"
        );
        assert!(folder.path().join("catalog.version-1-2.db").exists());
    }
}
