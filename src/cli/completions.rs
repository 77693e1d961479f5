//! `overwinter completions`: what a shell needs to complete commands and options.

use clap::CommandFactory as _;
use clap_complete::Shell;

use super::{App, Cli, CliError, Outcome};

/// Print what a shell needs to complete commands and options
#[derive(clap::Args)]
pub struct Arguments {
    /// The shell
    #[arg(value_enum)]
    shell: For,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum For {
    /// Save as overwinter in the folder of bash completions
    Bash,
    /// Save as _overwinter in a folder of $fpath
    Zsh,
    /// Save as overwinter.fish in the folder of fish completions
    Fish,
}

/// Prints the completions, made from the command definitions.
///
/// # Errors
/// Where standard output cannot be written to.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let shell = match arguments.shell {
        For::Bash => Shell::Bash,
        For::Zsh => Shell::Zsh,
        For::Fish => Shell::Fish,
    };
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Cli::command(), "overwinter", &mut script);
    app.print(&String::from_utf8_lossy(&script))?;
    Ok(Outcome::Done)
}
