//! `overwinter climate remove`: takes a climate out of the catalog.

use crate::cli::{App, CliError, Outcome};

/// Take a climate out of the catalog
#[derive(clap::Args)]
pub struct Arguments {
    /// The climate's name in the catalog
    #[arg(value_name = "KEY")]
    key: String,
}

pub(super) fn run(arguments: &Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let mut catalog = app.catalog()?;
    // Found first, so that a mistyped name is answered with the nearest one.
    let climate = catalog.climate(&arguments.key)?;
    let mut writing = catalog.write()?;
    writing.remove_climate(&climate.key)?;
    writing.commit()?;
    app.print(&format!("Removed {}: {}.\n", climate.key, climate.name))?;
    Ok(Outcome::Done)
}
