//! `overwinter climate`: the weather that houses stand in.

use super::{App, CliError, Outcome};

mod design;
mod import;
mod list;
mod remove;
mod show;

/// Import, list, show and remove climates; look up design temperatures
#[derive(clap::Args)]
pub struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(clap::Subcommand)]
enum Command {
    Import(import::Arguments),
    List(list::Arguments),
    Show(show::Arguments),
    Remove(remove::Arguments),
    Design(design::Arguments),
}

/// Runs the command named.
///
/// # Errors
/// As the command's own.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    match arguments.command {
        Command::Import(arguments) => import::run(&arguments, app),
        Command::List(arguments) => list::run(&arguments, app),
        Command::Show(arguments) => show::run(&arguments, app),
        Command::Remove(arguments) => remove::run(&arguments, app),
        Command::Design(arguments) => design::run(&arguments, app),
    }
}
