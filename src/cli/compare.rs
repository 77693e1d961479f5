//! `overwinter compare`: several units side by side in one house.

use std::path::PathBuf;

use super::output::Format;
use super::unit_sources::sources_of;
use super::{App, CliError, Outcome};
use crate::report::compare::{CompareView, compare_csv, compare_data, compare_table};
use crate::study::comparison::comparison;

/// Several units side by side in one house, the best of each row marked
#[derive(clap::Args)]
pub struct Arguments {
    /// The house
    #[arg(value_name = "HOUSE.toml")]
    house: PathBuf,
    /// The units' keys
    #[arg(value_name = "UNIT", required = true, num_args = 1..)]
    keys: Vec<String>,
    /// What is asked of a unit; without it, the built-in requirements at their defaults
    #[arg(long, value_name = "FILE.toml")]
    criteria: Option<PathBuf>,
    /// A climate of the catalog, in place of the house's own
    #[arg(long, value_name = "KEY")]
    climate: Option<String>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

/// Judges the named units and prints them side by side.
///
/// # Errors
/// Where a file cannot be read, a unit is not in the catalog, or the catalog cannot be used.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let catalog = app.catalog()?;
    let (brief, climate) = app.brief(
        &catalog,
        &arguments.house,
        arguments.criteria.as_deref(),
        arguments.climate.as_deref(),
    )?;
    let units = arguments
        .keys
        .iter()
        .map(|key| Ok(catalog.unit(key)?))
        .collect::<Result<Vec<_>, CliError>>()?;
    let judged: Vec<_> = units.iter().map(|unit| brief.judge(unit)).collect();
    let sources = sources_of(&catalog, &units)?;
    let rows = comparison(&judged, brief.without_call().is_some());
    let view = CompareView {
        house: &brief.house().name,
        climate: climate.as_deref(),
        keys: &arguments.keys,
        judged: &judged,
        rows: &rows,
        units: app.units,
        width: app.look.width,
        sources: &sources,
    };
    match arguments.format {
        Format::Table => app.print(&compare_table(&view))?,
        Format::Json => app.print_json(&compare_data(&view))?,
        Format::Csv => app.print(&compare_csv(&view))?,
    }
    Ok(Outcome::Done)
}
