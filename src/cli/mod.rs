//! The command line: parse, run, report the error, choose the exit code.
//!
//! One file is one command. A new one is its file, its `mod` line, and one line in the list below.

mod app;
mod error;
mod exit;
mod files;
mod new_file;
mod output;
mod page_file;

pub use app::App;
pub use error::CliError;
pub use exit::Outcome;

use std::process::ExitCode;

use clap::Parser;

/// Picks air-source heat pumps that carry a house through the winter without backup heat
/// and still turn down far enough in summer to keep it dry.
#[derive(Parser)]
#[command(name = "overwinter", version, about, max_term_width = 100)]
pub struct Cli {
    #[command(flatten)]
    global: app::GlobalArguments,
    #[command(subcommand)]
    command: Command,
}

/// Declares the commands: each has a module with `Arguments` and `run`.
macro_rules! commands {
    ($($variant:ident => $($module:ident)::+),+ $(,)?) => {
        #[derive(clap::Subcommand)]
        enum Command {
            $(#[allow(missing_docs)] $variant($($module)::+::Arguments)),+
        }

        impl Command {
            fn run(self, app: &mut App) -> Result<Outcome, CliError> {
                match self {
                    $(Self::$variant(arguments) => $($module)::+::run(arguments, app)),+
                }
            }
        }
    };
}

mod about;
mod catalog;
mod chosen_units;
mod climate;
mod compare;
mod completions;
mod cost;
mod explain;
mod house;
mod humidity;
mod lesson;
mod man;
mod pick;
mod pick_unit;
mod quotes;
mod report;
mod shortlist;
mod switchover;
mod unit_sources;
mod whatif;

commands! {
    Shortlist => shortlist,
    Explain => explain,
    Compare => compare,
    Report => report,
    Lesson => lesson,
    Humidity => humidity,
    Quotes => quotes,
    Cost => cost,
    Switchover => switchover,
    Whatif => whatif,
    Pick => pick,
    House => house,
    Climate => climate,
    Catalog => catalog,
    About => about,
    Completions => completions,
    Man => man,
}

/// Runs the command line and returns its exit code.
#[must_use]
pub fn main() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => return error::report_usage(&error),
    };
    let mut app = App::new(cli.global);
    let result = cli
        .command
        .run(&mut app)
        .and_then(|outcome| app.finish().map(|()| outcome));
    match result {
        Ok(outcome) => outcome.into(),
        Err(error) => error.report(),
    }
}
