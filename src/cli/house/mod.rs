//! `overwinter house`: starts a house file, and reads one back.

use super::{App, CliError, Outcome};

mod check;
mod new;

/// Start a house file, or read one back in words
#[derive(clap::Args)]
pub struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(clap::Subcommand)]
enum Command {
    New(new::Arguments),
    Check(check::Arguments),
}

/// Runs the command named.
///
/// # Errors
/// As the command's own.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    match arguments.command {
        Command::New(arguments) => new::run(&arguments, app),
        Command::Check(arguments) => check::run(&arguments, app),
    }
}
