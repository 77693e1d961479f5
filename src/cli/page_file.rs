//! Where a page goes: to the file named, or to whatever standard output leads to; never over a file that is not ours.

use std::fs;
use std::io::{IsTerminal, Read as _};
use std::path::{Path, PathBuf};

use super::{App, CliError};

/// So much of a file is read to see who made it \[bytes\]: the `generator` stands at the very beginning.
const BEGINNING: u64 = 1_024;

/// Where a page goes.
#[derive(clap::Args)]
pub struct PageArguments {
    /// File to write; may be left out where standard output is not a terminal
    #[arg(short, long, value_name = "FILE.html")]
    output: Option<PathBuf>,
    /// Replace the file even if this program did not make it
    #[arg(long)]
    force: bool,
    /// Date on the page, as YYYY-MM-DD; without it, today
    #[arg(long, value_name = "DATE")]
    date: Option<jiff::civil::Date>,
}

impl PageArguments {
    /// The date on the page, in ISO 8601.
    pub fn date(&self) -> String {
        self.date
            .unwrap_or_else(|| jiff::ZonedDateTime::now().date())
            .to_string()
    }

    /// Looks whether the page may be written, before any work is done for it.
    ///
    /// # Errors
    /// Where it would fill a terminal, or replace a file that this program did not make.
    pub fn check(&self) -> Result<(), CliError> {
        let Some(path) = &self.output else {
            if std::io::stdout().is_terminal() {
                return Err(CliError::input("the page has nowhere to go")
                    .hint("name a file: -o report.html"));
            }
            return Ok(());
        };
        if self.force || !path.exists() || is_ours(path)? {
            return Ok(());
        }
        Err(CliError::input(format!(
            "`{}` is there already, and is no page of this program",
            path.display()
        ))
        .hint("name another file, or replace this one with --force"))
    }

    /// Writes the page, and says where.
    ///
    /// # Errors
    /// Where it cannot be written.
    pub fn write(&self, page: &str, app: &mut App) -> Result<(), CliError> {
        match &self.output {
            None => app.print(page),
            Some(path) => fs::write(path, page).map_err(|error| {
                CliError::input(format!("cannot write `{}`: {error}", path.display()))
            }),
        }
    }
}

/// Whether a file begins as the pages of this program do.
fn is_ours(path: &Path) -> Result<bool, CliError> {
    let mut beginning = Vec::new();
    fs::File::open(path)
        .and_then(|file| file.take(BEGINNING).read_to_end(&mut beginning))
        .map_err(|error| {
            CliError::input(format!("cannot look into `{}`: {error}", path.display()))
        })?;
    let mark = concat!(
        "<meta name=\"generator\" content=\"",
        env!("CARGO_PKG_NAME"),
        " "
    );
    Ok(String::from_utf8_lossy(&beginning).contains(mark))
}
