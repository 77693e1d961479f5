//! `overwinter pick`: finds a unit by typing some letters of its name, with its curve and verdict beside the list.

use std::io::{IsTerminal, stdout};
use std::path::PathBuf;
use std::sync::Arc;

use super::pick_unit::unit_or_pick;
use super::{App, CliError, Outcome};
use crate::report::clean_text;

/// Pick a unit from a list, with its curve and verdict beside it, and print its key
///
/// Needs a terminal. The key goes to standard output, so that it can be handed to another command.
#[derive(clap::Args)]
pub struct Arguments {
    /// The house
    #[arg(value_name = "HOUSE.toml")]
    house: PathBuf,
    /// What is asked of a unit; without it, the built-in requirements at their defaults
    #[arg(long, value_name = "FILE.toml")]
    criteria: Option<PathBuf>,
    /// A climate of the catalog, in place of the house's own
    #[arg(long, value_name = "KEY")]
    climate: Option<String>,
}

/// Opens the list and prints the key of the unit that was picked.
///
/// # Errors
/// Where a file cannot be read, nobody sits at the terminal, or nothing was picked.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let catalog = app.catalog()?;
    let (brief, _) = app.brief(
        &catalog,
        &arguments.house,
        arguments.criteria.as_deref(),
        arguments.climate.as_deref(),
    )?;
    let key = unit_or_pick(None, &catalog, &Arc::new(brief))?;
    // A script gets the key as it is; a terminal must not be steered by it.
    let shown = if stdout().is_terminal() {
        clean_text(&key, 600)
    } else {
        key
    };
    app.print(&format!("{shown}\n"))?;
    Ok(Outcome::Done)
}
