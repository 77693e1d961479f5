//! `overwinter climate import`: takes a weather file into the catalog.

use std::path::PathBuf;

use crate::catalog::Change;
use crate::cli::{App, CliError, Outcome};
use crate::quantity::{counted, fixed};
use crate::report::table::paragraph;

/// Take a weather file into the catalog: EPW, or a CSV table of bins or of hours
///
/// What is missing in it is said and never filled. A climate of the same name is replaced.
#[derive(clap::Args)]
pub struct Arguments {
    /// The weather file
    #[arg(value_name = "FILE.epw|FILE.csv")]
    file: PathBuf,
    /// The climate's name in the catalog; without it, one made of the file's name
    #[arg(long, value_name = "KEY")]
    key: Option<String>,
}

pub(super) fn run(arguments: &Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let mut climate = app.read_climate_file(&arguments.file)?;
    if let Some(key) = &arguments.key {
        key.trim().clone_into(&mut climate.key);
    }
    if climate.key.is_empty() {
        return Err(CliError::input("the climate has no name").hint("give it one with --key"));
    }
    let mut catalog = app.catalog()?;
    let mut writing = catalog.write()?;
    let change = writing.put_climate(&climate)?;
    writing.commit()?;
    let done = match change {
        Change::New => "Imported",
        Change::Replaced => "Replaced",
        Change::Unchanged => "Already there, unchanged:",
    };
    let mut text = format!(
        "{done} {}: {}, {} in {}.\n",
        climate.key,
        climate.name,
        counted(fixed(climate.hours().0, 0), "hour", "hours"),
        counted(climate.states.len(), "state", "states")
    );
    for note in &climate.notes {
        text += &paragraph(note, app.look.width, "- ", "  ");
    }
    app.print(&text)?;
    Ok(Outcome::Done)
}
