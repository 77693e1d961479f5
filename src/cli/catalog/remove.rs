//! `overwinter catalog remove`: takes a unit out.

use crate::cli::{App, CliError, Outcome};

/// Take a unit and its points out of the catalog
///
/// Nothing is asked: the unit's exact key is needed. `overwinter catalog export` keeps a copy first.
#[derive(clap::Args)]
pub struct Arguments {
    /// The unit's key, exactly
    #[arg(value_name = "UNIT")]
    unit: String,
}

/// Removes the unit.
///
/// # Errors
/// Where no unit has that key, or the catalog cannot be written to.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let mut catalog = app.catalog()?;
    catalog.verify_pages()?;
    catalog.remove(&arguments.unit)?;
    app.print(&format!(
        "removed {}\n",
        crate::report::clean_text(&arguments.unit, 120)
    ))?;
    Ok(Outcome::Done)
}
