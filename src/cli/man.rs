//! `overwinter man`: the manual pages, made from the command definitions.

use std::fs;
use std::path::PathBuf;

use clap::CommandFactory as _;

use super::{App, Cli, CliError, Outcome};

/// Print the manual page, or write one page for every command
#[derive(clap::Args)]
pub struct Arguments {
    /// Folder to write all pages into; it is created
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
}

/// Prints or writes the manual pages.
///
/// # Errors
/// Where the folder cannot be created or written to.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let mut command = Cli::command();
    // Fills in what subcommands inherit, such as the global options.
    command.build();
    let Some(folder) = arguments.out else {
        let mut page = Vec::new();
        clap_mangen::Man::new(command).render(&mut page)?;
        app.print(&String::from_utf8_lossy(&page))?;
        return Ok(Outcome::Done);
    };
    let cannot = |error: std::io::Error| {
        CliError::input(format!(
            "cannot write manual pages into `{}`: {error}",
            folder.display()
        ))
    };
    fs::create_dir_all(&folder).map_err(cannot)?;
    clap_mangen::generate_to(command, &folder).map_err(cannot)?;
    app.print(&format!("Wrote manual pages into {}.\n", folder.display()))?;
    Ok(Outcome::Done)
}
