//! `overwinter catalog export`: writes the three CSV files that an import reads.

use std::fs::File;
use std::io::BufWriter;
use std::path::PathBuf;

use crate::cli::{App, CliError, Outcome};
use crate::quantity::counted;

/// Write the catalog as sources.csv, units.csv and points.csv
///
/// Importing them again changes nothing. Existing files are not written over.
#[derive(clap::Args)]
pub struct Arguments {
    /// The folder to write to; created where it does not exist
    #[arg(value_name = "FOLDER")]
    folder: PathBuf,
}

/// Writes the files.
///
/// # Errors
/// Where a file exists already or cannot be written, or the catalog cannot be read.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let catalog = app.catalog()?;
    let folder = arguments.folder;
    std::fs::create_dir_all(&folder).map_err(|error| {
        CliError::input(format!(
            "cannot create the folder `{}`: {error}",
            folder.display()
        ))
    })?;
    let names = ["sources.csv", "units.csv", "points.csv"];
    if let Some(there) = names
        .iter()
        .map(|name| folder.join(name))
        .find(|path| path.exists())
    {
        return Err(CliError::input(format!(
            "`{}` exists already; nothing was written",
            there.display()
        ))
        .hint("name a new folder"));
    }
    let create = |name: &str| {
        let path = folder.join(name);
        File::create_new(&path)
            .map(BufWriter::new)
            .map_err(|error| CliError::input(format!("cannot write `{}`: {error}", path.display())))
    };
    catalog.export_sources(create(names[0])?)?;
    catalog.export_units(create(names[1])?, create(names[2])?)?;
    let counts = catalog.counts()?;
    app.print(&format!(
        "{}, {}, {} written to {}\n",
        counted(counts.sources, "source", "sources"),
        counted(counts.units, "unit", "units"),
        counted(counts.points, "point", "points"),
        folder.display()
    ))?;
    Ok(Outcome::Done)
}
