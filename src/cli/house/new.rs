//! `overwinter house new`: writes a commented starting file.

use std::fs::File;
use std::io::{ErrorKind, Write as _};
use std::path::PathBuf;

use crate::cli::{App, CliError, Outcome};
use crate::import::HOUSE_TEMPLATE;

/// Write a commented house file to start from; a file that is there already is left alone
#[derive(clap::Args)]
pub struct Arguments {
    /// The file to write
    #[arg(value_name = "FILE.toml")]
    file: PathBuf,
}

pub(super) fn run(arguments: &Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let place = arguments.file.display();
    let written = File::create_new(&arguments.file)
        .and_then(|mut file| file.write_all(HOUSE_TEMPLATE.as_bytes()));
    written.map_err(|error| {
        let failed = CliError::input(format!("cannot write `{place}`: {error}"));
        match error.kind() {
            ErrorKind::AlreadyExists => failed.hint("it was left as it is; name another file"),
            ErrorKind::NotFound => failed.hint("its folder does not exist"),
            _ => failed,
        }
    })?;
    app.print(&format!(
        "Wrote {place}.\nPut your own numbers in, then read it back in words:\n  overwinter house check {place}\n"
    ))?;
    Ok(Outcome::Done)
}
