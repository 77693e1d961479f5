//! `overwinter about`: what the program is for, what it is not, and who decides.

use super::{App, CliError, Outcome};
use crate::report::cautions::CAUTIONS;
use crate::report::table::paragraph;

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
    let width = app.look.width;
    let purpose = concat!(env!("CARGO_PKG_DESCRIPTION"), ".");
    app.print(&paragraph(purpose, width, "", ""))?;
    app.print("\n")?;
    for caution in CAUTIONS {
        app.print(&paragraph(caution, width, "- ", "  "))?;
    }
    Ok(Outcome::Done)
}
