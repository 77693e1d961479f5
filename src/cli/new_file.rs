//! Files that a command writes beside its answer: never over an existing one unless that is asked for.

use std::fs::File;
use std::io::{ErrorKind, Write as _};
use std::path::{Path, PathBuf};

use super::{App, CliError};
use crate::report::sheet::Sheet;

/// A workbook that holds the answer's table as well.
#[derive(clap::Args)]
pub struct WorkbookArguments {
    /// Write the table as a workbook too; an existing file is kept unless --force is given
    #[arg(short = 'o', long = "output", value_name = "FILE.xlsx")]
    output: Option<PathBuf>,
    /// Replace existing files that are named for writing
    #[arg(long)]
    force: bool,
}

impl WorkbookArguments {
    /// Whether existing files may be replaced.
    pub(super) fn force(&self) -> bool {
        self.force
    }

    /// Looks, before anything is computed, whether the workbook may be written.
    ///
    /// # Errors
    /// Where its name is not that of a workbook, or it is there already.
    pub(super) fn check(&self) -> Result<(), CliError> {
        let Some(path) = &self.output else {
            return Ok(());
        };
        let is_workbook = path
            .extension()
            .is_some_and(|ending| ending.eq_ignore_ascii_case("xlsx"));
        if !is_workbook {
            return Err(CliError::input(format!(
                "cannot write `{}`: expected a file name that ends in .xlsx",
                path.display()
            ))
            .hint("--format csv prints comma-separated values"));
        }
        check_new_file(path, self.force)
    }

    /// Writes the workbook where one is asked for; `sheet` is made only then.
    ///
    /// # Errors
    /// Where it cannot be written.
    pub(super) fn write(&self, app: &App, sheet: impl FnOnce() -> Sheet) -> Result<(), CliError> {
        let Some(path) = &self.output else {
            return Ok(());
        };
        let bytes = sheet().xlsx(app.today_parts()).map_err(|error| {
            CliError::input(format!("cannot make `{}`: {error}", path.display()))
        })?;
        write_new_file(path, &bytes, self.force)
    }
}

/// Refuses a file that is there already, unless it may be replaced.
///
/// # Errors
/// Where it is there.
pub(super) fn check_new_file(path: &Path, force: bool) -> Result<(), CliError> {
    if !force && path.symlink_metadata().is_ok() {
        return Err(is_there(path));
    }
    Ok(())
}

/// Writes a file whole: beside its place first, then moved there, so that no half-written one is left.
///
/// # Errors
/// Where it is there already and may not be replaced, or cannot be written.
pub(super) fn write_new_file(path: &Path, bytes: &[u8], force: bool) -> Result<(), CliError> {
    let failed = |error: std::io::Error| {
        CliError::input(format!("cannot write `{}`: {error}", path.display()))
    };
    if !force {
        let mut file = File::create_new(path).map_err(|error| {
            if error.kind() == ErrorKind::AlreadyExists {
                is_there(path)
            } else {
                failed(error)
            }
        })?;
        let written = file.write_all(bytes).and_then(|()| file.sync_all());
        return written.map_err(|error| {
            // What was begun here is ours to take away again.
            let _ = std::fs::remove_file(path);
            failed(error)
        });
    }
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(format!(".{}.part", std::process::id()));
    let beside = path.with_file_name(name);
    let written = std::fs::write(&beside, bytes).and_then(|()| std::fs::rename(&beside, path));
    written.map_err(|error| {
        let _ = std::fs::remove_file(&beside);
        failed(error)
    })
}

fn is_there(path: &Path) -> CliError {
    CliError::input(format!(
        "`{}` is there already; nothing was written",
        path.display()
    ))
    .hint("--force replaces it")
}
