//! Opens a catalog: looks at the file before anything may write to it, then sets the connection up.

use std::fs::File;
use std::io::Read;
use std::path::Path;
use std::time::Duration;

use rusqlite::config::DbConfig;
use rusqlite::{Connection, ErrorCode, OpenFlags};

use super::error::plainly;
use super::migration::{APPLICATION_ID, PLAN, Plan, schema_of, version};
use super::{Access, Catalog, CatalogError};
use crate::quantity::counted;

/// How long a writer waits for another to finish.
const BUSY_TIMEOUT: Duration = Duration::from_secs(60);

/// Files up to this size are verified whole when opened; larger ones as they are read, before an import, and by `check`.
const VERIFIED_WHOLE: u64 = 8 << 20;

impl Catalog {
    /// An empty catalog in memory.
    ///
    /// # Errors
    /// [`CatalogError::Sql`] where SQLite cannot be set up.
    pub fn in_memory() -> Result<Self, CatalogError> {
        let create = || {
            let mut connection = Connection::open_in_memory()?;
            harden(&connection)?;
            PLAN.create(&mut connection)?;
            Ok(connection)
        };
        let connection = create().map_err(CatalogError::Sql)?;
        Ok(Self {
            connection,
            path: None,
            access: Access::Full,
        })
    }

    /// Creates an empty catalog file.
    ///
    /// # Errors
    /// Where the file exists already, or cannot be created.
    pub fn create(path: &Path) -> Result<Self, CatalogError> {
        let unreachable = |reason: String| CatalogError::Unreachable {
            path: path.to_path_buf(),
            verb: "create",
            reason,
        };
        if let Some(folder) = path.parent() {
            std::fs::create_dir_all(folder).map_err(|error| unreachable(error.to_string()))?;
        }
        File::create_new(path).map_err(|error| unreachable(error.to_string()))?;
        let create = || {
            let mut connection = Connection::open_with_flags(path, flags(Access::Full))?;
            harden(&connection)?;
            // Before there is a write-ahead log, so that the file's own header says from the first moment what it is.
            PLAN.create(&mut connection)?;
            set_up(&connection, Access::Full)?;
            Ok(connection)
        };
        match create() {
            Ok(connection) => Ok(Self {
                connection,
                path: Some(path.to_path_buf()),
                access: Access::Full,
            }),
            Err(error) => {
                // The empty file is ours, made a moment ago.
                let _ = std::fs::remove_file(path);
                Err(CatalogError::from_sql(Some(path), error))
            }
        }
    }

    /// Opens a catalog file; one of an older version is copied and then upgraded.
    ///
    /// The file is first looked at without any right to write, so that a damaged one, a newer one, or one that is no
    /// catalog at all stays byte for byte as it is.
    ///
    /// # Errors
    /// [`CatalogError::Damaged`], [`CatalogError::Newer`], or where the file cannot be reached.
    pub fn open(path: &Path) -> Result<Self, CatalogError> {
        Self::open_by(PLAN, path)
    }

    pub(super) fn open_by(plan: Plan, path: &Path) -> Result<Self, CatalogError> {
        check_header(plan, path)?;
        check_content(plan, path)?;
        let sql = |error| CatalogError::from_sql(Some(path), error);
        let (mut connection, access) = match open_to_write(path) {
            Ok(connection) => (connection, Access::Full),
            Err(error) if is_write_protection(&error) => {
                (open_to_read(path).map_err(sql)?, Access::ReadOnly)
            }
            Err(error) => return Err(sql(error)),
        };
        if version(&connection).map_err(sql)? < plan.version() {
            if access == Access::ReadOnly {
                return Err(CatalogError::ReadOnly(path.to_path_buf()));
            }
            plan.upgrade(&mut connection, path)?;
        }
        Ok(Self {
            connection,
            path: Some(path.to_path_buf()),
            access,
        })
    }

    /// Reads every page and checks that the file is sound; quicker than [`Catalog::verify`], for before a change.
    ///
    /// # Errors
    /// [`CatalogError::Damaged`] with the first thing found.
    pub fn verify_pages(&self) -> Result<(), CatalogError> {
        let first: String = self
            .connection
            .query_row("PRAGMA quick_check(1)", [], |row| row.get(0))
            .map_err(|error| self.error(error))?;
        if first == "ok" {
            return Ok(());
        }
        Err(CatalogError::Damaged {
            path: self.path.clone().unwrap_or_default(),
            what: plainly(&first),
        })
    }

    /// Reads every page and checks that the file is sound, its indexes agree and every reference leads somewhere.
    ///
    /// # Errors
    /// [`CatalogError::Damaged`] with the first thing found.
    pub fn verify(&self) -> Result<(), CatalogError> {
        let damaged = |what: String| CatalogError::Damaged {
            path: self.path.clone().unwrap_or_default(),
            what,
        };
        let first: String = self
            .connection
            .query_row("PRAGMA integrity_check(1)", [], |row| row.get(0))
            .map_err(|error| self.error(error))?;
        if first != "ok" {
            return Err(damaged(plainly(&first)));
        }
        let strays: i64 = self
            .connection
            .query_row("SELECT count(*) FROM pragma_foreign_key_check", [], |row| {
                row.get(0)
            })
            .map_err(|error| self.error(error))?;
        if strays > 0 {
            return Err(damaged(format!(
                "{} with a reference to something that is not there",
                counted(strays, "row", "rows")
            )));
        }
        Ok(())
    }
}

/// Looks at the first hundred bytes, as the SQLite file format lays them out, through plain file reading.
fn check_header(plan: Plan, path: &Path) -> Result<(), CatalogError> {
    let unreachable = |error: std::io::Error| CatalogError::Unreachable {
        path: path.to_path_buf(),
        verb: "open",
        reason: error.to_string(),
    };
    let damaged = |what: &str| CatalogError::Damaged {
        path: path.to_path_buf(),
        what: what.to_owned(),
    };
    let mut header = [0_u8; 100];
    let file = File::open(path).map_err(unreachable)?;
    if file.metadata().map_err(unreachable)?.is_dir() {
        return Err(damaged("it is a folder"));
    }
    let mut read = 0;
    let mut file = file.take(100);
    while read < header.len() {
        match file.read(&mut header[read..]).map_err(unreachable)? {
            0 => break,
            count => read += count,
        }
    }
    if read == 0 {
        return Err(damaged("it is empty"));
    }
    if read < header.len() || !header.starts_with(b"SQLite format 3\0") {
        return Err(damaged("it is no SQLite file"));
    }
    let word = |at: usize| {
        i32::from_be_bytes([header[at], header[at + 1], header[at + 2], header[at + 3]])
    };
    if word(68) != APPLICATION_ID {
        return Err(damaged("it is an SQLite file of another program"));
    }
    let found = i64::from(word(60));
    if found > plan.version() {
        return Err(newer(plan, path, found));
    }
    Ok(())
}

fn newer(plan: Plan, path: &Path, found: i64) -> CatalogError {
    CatalogError::Newer {
        path: path.to_path_buf(),
        found,
        known: plan.version(),
    }
}

/// Looks at version, schema and (in a small file) every page, on a connection without the right to write.
fn check_content(plan: Plan, path: &Path) -> Result<(), CatalogError> {
    let sql = |error| CatalogError::from_sql(Some(path), error);
    let damaged = |what: String| CatalogError::Damaged {
        path: path.to_path_buf(),
        what,
    };
    let connection = open_to_read(path).map_err(sql)?;
    let found = version(&connection).map_err(sql)?;
    if found > plan.version() {
        return Err(newer(plan, path, found));
    }
    if found < 1 {
        return Err(damaged("it has no schema version".to_owned()));
    }
    if found == plan.version() {
        let mut fresh = Connection::open_in_memory().map_err(CatalogError::Sql)?;
        plan.create(&mut fresh).map_err(CatalogError::Sql)?;
        let expected = schema_of(&fresh).map_err(CatalogError::Sql)?;
        let there = schema_of(&connection).map_err(sql)?;
        if let Some((name, _)) = expected.iter().find(|object| !there.contains(object)) {
            return Err(damaged(format!(
                "`{name}` is missing or not as it should be"
            )));
        }
    }
    let size = std::fs::metadata(path).map_or(0, |metadata| metadata.len());
    if size <= VERIFIED_WHOLE {
        let first: String = connection
            .query_row("PRAGMA quick_check(1)", [], |row| row.get(0))
            .map_err(sql)?;
        if first != "ok" {
            return Err(damaged(plainly(&first)));
        }
    }
    Ok(())
}

fn flags(access: Access) -> OpenFlags {
    let access = match access {
        Access::Full => OpenFlags::SQLITE_OPEN_READ_WRITE,
        Access::ReadOnly => OpenFlags::SQLITE_OPEN_READ_ONLY,
    };
    access | OpenFlags::SQLITE_OPEN_NO_MUTEX
}

fn open_to_write(path: &Path) -> rusqlite::Result<Connection> {
    let connection = Connection::open_with_flags(path, flags(Access::Full))?;
    if connection.is_readonly("main")? {
        return Err(rusqlite::Error::SqliteFailure(
            rusqlite::ffi::Error::new(rusqlite::ffi::SQLITE_READONLY),
            None,
        ));
    }
    set_up(&connection, Access::Full)?;
    Ok(connection)
}

/// Opens without the right to write; in a write-protected folder SQLite needs to be told that nobody else writes either.
pub(super) fn open_to_read(path: &Path) -> rusqlite::Result<Connection> {
    let plain = || {
        let connection = Connection::open_with_flags(path, flags(Access::ReadOnly))?;
        set_up(&connection, Access::ReadOnly)?;
        version(&connection)?;
        Ok(connection)
    };
    match plain() {
        Err(error) if is_write_protection(&error) && !has_log(path) => {
            let connection = Connection::open_with_flags(
                immutable_uri(path),
                flags(Access::ReadOnly) | OpenFlags::SQLITE_OPEN_URI,
            )?;
            set_up(&connection, Access::ReadOnly)?;
            Ok(connection)
        }
        result => result,
    }
}

/// Whether a write-ahead log with content lies beside the file: reading without it would miss what was written last.
fn has_log(path: &Path) -> bool {
    let mut log = path.as_os_str().to_owned();
    log.push("-wal");
    std::fs::metadata(log).is_ok_and(|metadata| metadata.len() > 0)
}

/// `file:` address of a file that does not change while it is read.
fn immutable_uri(path: &Path) -> String {
    let mut uri = String::from("file:");
    for byte in path.to_string_lossy().bytes() {
        match byte {
            b'/' | b'.' | b'-' | b'_' | b'0'..=b'9' | b'A'..=b'Z' | b'a'..=b'z' => {
                uri.push(char::from(byte));
            }
            _ => uri.push_str(&format!("%{byte:02X}")),
        }
    }
    uri.push_str("?immutable=1");
    uri
}

fn is_write_protection(error: &rusqlite::Error) -> bool {
    matches!(
        error.sqlite_error_code(),
        Some(ErrorCode::ReadOnly | ErrorCode::CannotOpen | ErrorCode::PermissionDenied)
    )
}

/// What every connection needs: names in double quotes are never text, and a schema is not trusted with functions. A
/// statement keeps its plan whatever is bound to it: without that SQLite plans it again for every unit.
fn harden(connection: &Connection) -> rusqlite::Result<()> {
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_DQS_DML, false)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_DQS_DDL, false)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA, false)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_ENABLE_QPSG, true)?;
    connection.pragma_update(None, "foreign_keys", true)
}

fn set_up(connection: &Connection, access: Access) -> rusqlite::Result<()> {
    connection.busy_timeout(BUSY_TIMEOUT)?;
    harden(connection)?;
    if access == Access::Full {
        connection.pragma_update(None, "journal_mode", "WAL")?;
        connection.pragma_update(None, "synchronous", "FULL")?;
    }
    // 16 MiB of pages: an import's inner nodes and the tail of each table stay in memory.
    connection.pragma_update(None, "cache_size", -16_384)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::path::PathBuf;

    fn catalog_file(folder: &Path) -> PathBuf {
        let path = folder.join("catalog.db");
        drop(Catalog::create(&path).unwrap());
        path
    }

    /// Opens, and returns the error after showing that the file is byte for byte what it was.
    fn refused(path: &Path) -> CatalogError {
        let before = std::fs::read(path).unwrap();
        let error = Catalog::open(path).err().expect("an error");
        assert_eq!(std::fs::read(path).unwrap(), before, "{error}");
        error
    }

    #[test]
    fn a_file_of_a_newer_version_is_named_and_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        let path = catalog_file(folder.path());
        Connection::open(&path)
            .unwrap()
            .pragma_update(None, "user_version", 99)
            .unwrap();
        let error = refused(&path);
        assert!(
            matches!(error, CatalogError::Newer { found: 99, .. }),
            "{error}"
        );
        assert!(error.is_unusable() && error.to_string().contains("catalog.db"));
    }

    #[test]
    fn a_damaged_file_is_named_and_left_alone_whatever_the_damage() {
        let folder = tempfile::tempdir().unwrap();
        let path = catalog_file(folder.path());
        let sound = std::fs::read(&path).unwrap();
        let half = sound.len() / 2;
        let mut noise_in_the_middle = sound.clone();
        noise_in_the_middle[4096..8192].fill(0x5A);
        let mut foreign = sound.clone();
        foreign[68..72].copy_from_slice(&[0, 0, 0, 1]);
        let cases: [(&str, &[u8]); 6] = [
            ("empty", b""),
            ("text", b"unit,maker\nlarch,Invented\n"),
            ("cut to its header", &sound[..100]),
            ("cut in half", &sound[..half]),
            ("noise in a page", &noise_in_the_middle),
            ("another program's", &foreign),
        ];
        for (what, bytes) in cases {
            std::fs::write(&path, bytes).unwrap();
            let error = refused(&path);
            assert!(
                matches!(error, CatalogError::Damaged { .. }),
                "{what}: {error}"
            );
            assert!(error.is_unusable() && error.to_string().contains("catalog.db"));
        }
    }

    #[test]
    fn a_catalog_without_one_of_its_tables_is_damaged() {
        let folder = tempfile::tempdir().unwrap();
        let path = catalog_file(folder.path());
        Connection::open(&path)
            .unwrap()
            .execute_batch("DROP TABLE point")
            .unwrap();
        assert!(refused(&path).to_string().contains("`point` is missing"));
    }

    #[test]
    fn a_missing_file_is_said_to_be_missing() {
        let folder = tempfile::tempdir().unwrap();
        let error = Catalog::open(&folder.path().join("none.db")).err().unwrap();
        assert!(
            matches!(error, CatalogError::Unreachable { verb: "open", .. }),
            "{error}"
        );
        assert!(!error.is_unusable());
    }

    #[test]
    fn an_existing_file_is_never_created_over() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("catalog.db");
        std::fs::write(&path, "mine").unwrap();
        assert!(Catalog::create(&path).is_err());
        assert_eq!(std::fs::read(&path).unwrap(), b"mine");
    }

    #[test]
    fn every_connection_is_set_up_with_care() {
        let folder = tempfile::tempdir().unwrap();
        let path = catalog_file(folder.path());
        let catalog = Catalog::open(&path).unwrap();
        let pragma = |name: &str| -> String {
            catalog
                .connection
                .pragma_query_value(None, name, |row| {
                    row.get_ref(0).map(|value| match value {
                        rusqlite::types::ValueRef::Integer(number) => number.to_string(),
                        other => other.as_str().unwrap_or_default().to_owned(),
                    })
                })
                .unwrap()
        };
        assert_eq!(pragma("journal_mode"), "wal");
        assert_eq!(pragma("foreign_keys"), "1");
        assert_eq!(pragma("synchronous"), "2");
        assert_eq!(pragma("trusted_schema"), "0");
        assert_eq!(pragma("application_id"), APPLICATION_ID.to_string());
        assert!(
            catalog
                .connection
                .prepare("SELECT \"no such column\"")
                .is_err()
        );
    }
}
