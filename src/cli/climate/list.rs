//! `overwinter climate list`: the climates of the catalog.

use crate::cli::{App, CliError, Outcome};
use crate::report::climate_table::climate_list;

/// List the climates of the catalog
#[derive(clap::Args)]
pub struct Arguments {}

pub(super) fn run(_arguments: &Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let catalog = app.catalog()?;
    let mut climates = Vec::new();
    for (key, _) in catalog.climates()? {
        climates.push(catalog.climate(&key)?);
    }
    app.print(&climate_list(&climates, app.units, app.look.width))?;
    Ok(Outcome::Done)
}
