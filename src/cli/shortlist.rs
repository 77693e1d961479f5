//! `overwinter shortlist`: which units carry a house, and why each other one does not.

use std::collections::BTreeSet;
use std::path::PathBuf;

use super::output::Format;
use super::{App, CliError, Outcome};
use crate::catalog::Catalog;
use crate::report::answer::{Answer, CatalogSize};
use crate::report::shortlist_table::{ShortlistView, shortlist_table};
use crate::study::{Brief, Judged, RankBy, Shortlist};

/// Which units carry a house without backup, and why each other one does not
///
/// Exit code 0 where some unit is accepted, 1 where none is.
#[derive(clap::Args)]
pub struct Arguments {
    /// The house
    #[arg(value_name = "HOUSE.toml")]
    house: PathBuf,
    /// What is asked of a unit; without it, the built-in requirements at their defaults
    #[arg(long, value_name = "FILE.toml")]
    criteria: Option<PathBuf>,
    /// A climate of the catalog, in place of the house's own
    #[arg(long, value_name = "KEY")]
    climate: Option<String>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t)]
    format: Format,
    /// What accepted units are ranked by
    #[arg(long, value_enum, default_value_t)]
    rank_by: RankBy,
    /// Show only the best accepted units
    #[arg(long, value_name = "N")]
    top: Option<usize>,
    /// Show every rejected and undecided unit with every reason
    #[arg(long)]
    all: bool,
}

/// Judges the whole catalog and prints the short list.
///
/// # Errors
/// Where a file cannot be read, or the catalog cannot be used.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let house = app.read_house(&arguments.house)?;
    let criteria = app.read_criteria(arguments.criteria.as_deref())?;
    let catalog = app.catalog()?;
    let climate = app.climate_of(
        &catalog,
        &house,
        &arguments.house,
        arguments.climate.as_deref(),
    )?;
    let brief = Brief::new(house, climate.as_ref(), criteria, app.units);
    let judged = catalog.judge_all(|unit| brief.judge(unit))?;
    let by = arguments.rank_by;
    let list = Shortlist::of(judged, |unit| by.figure(unit));
    let counts = catalog.counts()?;
    let size = CatalogSize {
        units: counts.units,
        points: counts.points,
    };
    let key = climate.as_ref().map(|climate| climate.key.as_str());
    match arguments.format {
        Format::Json => {
            let mut answer = Answer::of(brief.house(), size, key, &list, app.units);
            if let Some(top) = arguments.top {
                answer.accepted.truncate(top);
            }
            app.print_json(&answer)?;
        }
        Format::Csv => app.print(&crate::report::shortlist_csv::shortlist_csv(
            &list, app.units,
        ))?,
        Format::Table => {
            let sources = sources_of(&catalog, &list)?;
            let view = ShortlistView {
                house: brief.house(),
                catalog: size,
                climate: key,
                ranked_by: if key.is_none() && by == RankBy::Electricity {
                    "in the order of their names (no climate, so no annual electricity)"
                } else {
                    by.words()
                },
                units: app.units,
                width: app.look.width,
                top: arguments.top,
                all: arguments.all,
                sources: &sources,
            };
            let text = shortlist_table(&view, &list);
            app.print(&text)?;
        }
    }
    Ok(if list.accepted.is_empty() {
        Outcome::NothingAccepted
    } else {
        Outcome::Done
    })
}

/// The sources behind the accepted units, by title, publisher, year and kind.
fn sources_of(catalog: &Catalog, list: &Shortlist) -> Result<Vec<String>, CliError> {
    let used: BTreeSet<_> = list
        .accepted
        .iter()
        .map(|judged: &Judged| judged.model.source)
        .collect();
    used.into_iter()
        .map(|id| Ok(source_words(&catalog.source(id)?)))
        .collect()
}

/// A source in one line.
pub(super) fn source_words(source: &crate::equipment::Source) -> String {
    let mut words = source.title.clone();
    if let Some(publisher) = &source.publisher {
        words += &format!(", {publisher}");
    }
    if let Some(year) = source.year {
        words += &format!(", {year}");
    }
    words + &format!(" ({})", source.kind.name().replace('_', " "))
}

impl clap::ValueEnum for RankBy {
    fn value_variants<'a>() -> &'a [Self] {
        Self::ALL
    }

    fn to_possible_value(&self) -> Option<clap::builder::PossibleValue> {
        Some(clap::builder::PossibleValue::new(self.name()).help(self.words()))
    }
}
