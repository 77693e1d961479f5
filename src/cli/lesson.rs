//! `overwinter lesson`: a teaching sheet about one unit in one house.

use std::path::PathBuf;
use std::sync::Arc;

use super::page_file::PageArguments;
use super::pick_unit::unit_or_pick;
use super::unit_sources::sources_of;
use super::{App, CliError, Outcome};
use crate::report::lesson::{LessonView, lesson_html};
use crate::study::Brief;
use crate::study::explain::lesson;

/// A teaching sheet: questions about one unit in one house with room to write, and the answers on a page of their own
///
/// One file that makes no request and runs no script. To make a PDF, print the page from a browser (A4 or Letter).
#[derive(clap::Args)]
pub struct Arguments {
    /// The house
    #[arg(value_name = "HOUSE.toml")]
    house: PathBuf,
    /// The unit's key; at a terminal, leaving it out opens a list to pick from
    #[arg(value_name = "UNIT")]
    unit: Option<String>,
    /// What is asked of a unit; without it, the built-in requirements at their defaults
    #[arg(long, value_name = "FILE.toml")]
    criteria: Option<PathBuf>,
    /// A climate of the catalog, in place of the house's own
    #[arg(long, value_name = "KEY")]
    climate: Option<String>,
    #[command(flatten)]
    page: PageArguments,
}

/// Writes the sheet.
///
/// # Errors
/// Where a file cannot be read or written, the unit is not in the catalog, or the catalog cannot be used.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    arguments.page.check()?;
    let house = app.read_house(&arguments.house)?;
    let criteria = app.read_criteria(arguments.criteria.as_deref())?;
    let catalog = app.catalog()?;
    let climate = app.climate_of(
        &catalog,
        &house,
        &arguments.house,
        arguments.climate.as_deref(),
    )?;
    let brief = Arc::new(Brief::new(house, climate.as_ref(), criteria, app.units));
    let unit = catalog.unit(&unit_or_pick(arguments.unit, &catalog, &brief)?)?;
    let sources = sources_of(&catalog, [&unit])?;
    let page = lesson_html(&LessonView {
        brief: &brief,
        unit: &unit,
        lesson: &lesson(&brief, &unit),
        climate: climate.as_ref().map(|climate| climate.name.as_str()),
        sources: &sources,
        units: app.units,
        date: &arguments.page.date(),
    });
    arguments.page.write(&page, app)?;
    Ok(Outcome::Done)
}
