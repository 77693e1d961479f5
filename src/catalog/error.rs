//! Why a catalog cannot be used, or something cannot be found in it.

use std::path::{Path, PathBuf};

use rusqlite::ErrorCode;

/// Why a catalog cannot be used, or something cannot be found in it.
#[derive(Debug, thiserror::Error)]
pub enum CatalogError {
    /// The file is not a catalog, or its content is broken. It was left as it is.
    #[error("catalog `{}` is damaged or is not a catalog ({what}); it was left as it is", .path.display())]
    Damaged {
        /// The file.
        path: PathBuf,
        /// What is wrong with it.
        what: String,
    },
    /// A newer version of the program wrote it. It was left as it is.
    #[error(
        "catalog `{}` was written by a newer version of this program (schema {found}, this one knows up to {known}); it was left as it is",
        .path.display()
    )]
    Newer {
        /// The file.
        path: PathBuf,
        /// Its schema version.
        found: i64,
        /// The newest schema version that this program knows.
        known: i64,
    },
    /// The file or its folder cannot be reached.
    #[error("cannot {verb} catalog `{}`: {reason}", .path.display())]
    Unreachable {
        /// The file.
        path: PathBuf,
        /// What was tried: `open`, `create`, `copy`.
        verb: &'static str,
        /// What the system says.
        reason: String,
    },
    /// The file or its folder is write-protected. Nothing was changed.
    #[error("catalog `{}` cannot be written to: the file or its folder is write-protected; nothing was changed", .0.display())]
    ReadOnly(PathBuf),
    /// No room is left on the disk. Nothing was changed.
    #[error("no room is left for catalog `{}`; nothing was changed", .0.display())]
    Full(PathBuf),
    /// Another program has been writing to it for too long. Nothing was changed.
    #[error("catalog `{}` is in use by another program that is writing to it; nothing was changed", .0.display())]
    Busy(PathBuf),
    /// No entry has that key.
    #[error("no {what} `{key}` in the catalog")]
    NotFound {
        /// What was looked for: `unit`, `source`, `climate`.
        what: &'static str,
        /// The key looked for.
        key: String,
        /// A key that is near, if any.
        nearest: Option<String>,
    },
    /// No data folder is known on this platform.
    #[error("cannot tell where this platform keeps data; name a catalog file")]
    NoDataFolder,
    /// Two points of one unit at the same mode, speed, outdoor temperature and indoor condition.
    #[error(
        "unit `{0}` has two points at the same mode, speed, outdoor temperature and indoor condition"
    )]
    DuplicatePoint(String),
    /// The program and SQLite disagree; not the user's doing.
    #[error("catalog: {0}")]
    Sql(#[source] rusqlite::Error),
}

impl CatalogError {
    /// Whether the catalog itself cannot be used: damaged, or newer than the program.
    #[must_use]
    pub fn is_unusable(&self) -> bool {
        matches!(self, Self::Damaged { .. } | Self::Newer { .. })
    }

    /// The same where the file concerned is known to the user by another path.
    pub(super) fn about(self, path: &Path) -> Self {
        match self {
            Self::Unreachable { verb, reason, .. } => Self::Unreachable {
                path: path.to_path_buf(),
                verb,
                reason,
            },
            other => other,
        }
    }

    /// What may mend it.
    #[must_use]
    pub fn hint(&self) -> Option<String> {
        match self {
            Self::Damaged { .. } => Some(
                "restore a copy, or name another file with --catalog; a new file is created with the built-in data"
                    .to_owned(),
            ),
            Self::Newer { .. } => Some("use the newer version of the program".to_owned()),
            Self::ReadOnly(_) | Self::Unreachable { .. } => {
                Some("name a catalog file in a folder of your own with --catalog".to_owned())
            }
            Self::NotFound { nearest: Some(key), .. } => Some(format!("did you mean `{key}`?")),
            Self::NoDataFolder => Some("name a file with --catalog or OVERWINTER_CATALOG".to_owned()),
            _ => None,
        }
    }

    /// Sorts out what an error of SQLite means for the user.
    pub(super) fn from_sql(path: Option<&Path>, error: rusqlite::Error) -> Self {
        let Some(path) = path.map(Path::to_path_buf) else {
            return Self::Sql(error);
        };
        if let rusqlite::Error::FromSqlConversionFailure(..)
        | rusqlite::Error::InvalidColumnType(..)
        | rusqlite::Error::IntegralValueOutOfRange(..)
        | rusqlite::Error::Utf8Error(..) = error
        {
            return Self::Damaged {
                path,
                what: format!("a row holds what the program never writes: {error}"),
            };
        }
        match error.sqlite_error_code() {
            Some(ErrorCode::DatabaseCorrupt) => Self::Damaged {
                path,
                what: plainly(&error.to_string()),
            },
            Some(ErrorCode::NotADatabase) => Self::Damaged {
                path,
                what: "it is no SQLite file".to_owned(),
            },
            Some(ErrorCode::ReadOnly | ErrorCode::PermissionDenied) => Self::ReadOnly(path),
            Some(ErrorCode::DiskFull) => Self::Full(path),
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => Self::Busy(path),
            Some(ErrorCode::CannotOpen | ErrorCode::SystemIoFailure) => Self::Unreachable {
                path,
                verb: "use",
                reason: error.to_string(),
            },
            _ => Self::Sql(error),
        }
    }
}

/// What SQLite finds broken, in words that need no knowledge of its insides: the page, where it names one.
pub(super) fn plainly(found: &str) -> String {
    let page = found.split("page ").skip(1).find_map(|after| {
        let digits = after.split(|character: char| !character.is_ascii_digit());
        digits
            .into_iter()
            .next()
            .filter(|number| !number.is_empty())
    });
    match page {
        Some(page) => format!("page {page} of the file cannot be read"),
        None if found.contains("index") => "an index does not agree with its table".to_owned(),
        None => "some of its pages cannot be read".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // The texts are those of SQLite's integrity check.
    #[test]
    fn what_is_broken_is_said_plainly() {
        assert_eq!(
            plainly(
                "*** in database main ***\nTree 4 page 17: btreeInitPage() returns error code 11"
            ),
            "page 17 of the file cannot be read"
        );
        assert_eq!(
            plainly("row 3 missing from index unit_by_key"),
            "an index does not agree with its table"
        );
        assert_eq!(
            plainly("database disk image is malformed"),
            "some of its pages cannot be read"
        );
    }
}
