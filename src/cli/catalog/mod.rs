//! `overwinter catalog`: what the catalog holds, and how it gets there.

use super::{App, CliError, Outcome};

/// What the catalog holds, and how it gets there
#[derive(clap::Args)]
pub struct Arguments {
    #[command(subcommand)]
    command: Command,
}

mod check;
mod export;
mod import;
mod list;
mod remove;
mod show;
mod sources;

commands! {
    Import => import,
    List => list,
    Show => show,
    Check => check,
    Export => export,
    Remove => remove,
    Sources => sources,
}

/// Runs the command below it.
///
/// # Errors
/// Where that command fails.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    arguments.command.run(app)
}
