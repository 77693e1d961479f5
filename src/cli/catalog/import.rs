//! `overwinter catalog import`: reads sources, units and points from CSV files, all or nothing.

use std::path::PathBuf;

use crate::cli::{App, CliError, Outcome};
use crate::import::catalog_csv::{CatalogFiles, Summary, Tally, import_catalog};
use crate::quantity::counted;

/// Read sources, units and points from CSV files: all rows, or none
///
/// An entry is replaced whole: a unit of units.csv takes the place of the unit with its key, and its points in points.csv
/// take the place of its earlier points. Every problem is listed with its file and line, and then nothing is changed.
#[derive(clap::Args)]
pub struct Arguments {
    /// A folder with sources.csv, units.csv, points.csv, or such files one by one
    #[arg(required = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
}

/// Imports, and says what changed.
///
/// # Errors
/// Where the files have problems, or the catalog cannot be written to.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let files = CatalogFiles::find(&arguments.paths)?;
    let mut catalog = app.catalog()?;
    catalog.verify_pages()?;
    let summary = import_catalog(&mut catalog, &files)?;
    app.print(&words(&summary))?;
    Ok(Outcome::Done)
}

fn words(summary: &Summary) -> String {
    let mut text = String::new();
    if summary.is_nothing_new() {
        text += &format!(
            "nothing new: {} and {} are in the catalog already, exactly so\n",
            counted(summary.units.total(), "unit", "units"),
            counted(summary.sources.total(), "source", "sources"),
        );
    } else {
        for (tally, what) in [(summary.sources, "source"), (summary.units, "unit")] {
            text += &tally_words(tally, what);
        }
        text += &format!("{} read\n", counted(summary.points, "point", "points"));
        if summary.units.replaced > 0 {
            text += "a replaced unit is replaced whole, its points included\n";
        }
    }
    if summary.units_without_points_count > 0 {
        let named = summary.units_without_points.join(", ");
        let more = if summary.units_without_points_count > summary.units_without_points.len() as u64
        {
            ", …"
        } else {
            ""
        };
        text += &format!(
            "{} without points: {named}{more}\n",
            counted(summary.units_without_points_count, "unit", "units")
        );
    }
    text
}

fn tally_words(tally: Tally, what: &str) -> String {
    if tally.total() == 0 {
        return String::new();
    }
    format!(
        "{}: {} new, {} replaced, {} unchanged\n",
        counted(tally.total(), what, &format!("{what}s")),
        tally.new,
        tally.replaced,
        tally.unchanged
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_summary_says_what_changed_and_that_nothing_did() {
        let mut summary = Summary {
            sources: Tally {
                new: 1,
                ..Tally::default()
            },
            units: Tally {
                new: 1,
                replaced: 2,
                unchanged: 3,
            },
            points: 41,
            ..Summary::default()
        };
        assert_eq!(
            words(&summary),
            "1 source: 1 new, 0 replaced, 0 unchanged\n6 units: 1 new, 2 replaced, 3 unchanged\n41 points read\n\
             a replaced unit is replaced whole, its points included\n"
        );
        summary.sources = Tally {
            unchanged: 1,
            ..Tally::default()
        };
        summary.units = Tally {
            unchanged: 6,
            ..Tally::default()
        };
        summary.units_without_points = vec!["alder".to_owned()];
        summary.units_without_points_count = 1;
        assert_eq!(
            words(&summary),
            "nothing new: 6 units and 1 source are in the catalog already, exactly so\n1 unit without points: alder\n"
        );
    }
}
