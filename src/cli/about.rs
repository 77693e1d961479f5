//! `overwinter about`: what the program is for, what it is not, and who decides.

use super::{App, CliError, Outcome};
use crate::report::cautions::CAUTIONS;

/// What the program is for, and its cautions
#[derive(clap::Args)]
pub struct Arguments {}

/// Prints the cautions.
///
/// # Errors
/// Where standard output cannot be written to.
pub fn run(_arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    app.print(concat!(
        env!("CARGO_PKG_NAME"),
        " ",
        env!("CARGO_PKG_VERSION"),
        "\n\n"
    ))?;
    app.print(concat!(env!("CARGO_PKG_DESCRIPTION"), ".\n\n"))?;
    for caution in CAUTIONS {
        app.print(&format!("- {caution}\n"))?;
    }
    Ok(Outcome::Done)
}
