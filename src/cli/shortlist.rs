//! `overwinter shortlist`: which units carry a house, and why each other one does not.

use std::collections::BTreeSet;
use std::path::PathBuf;

use super::new_file::WorkbookArguments;
use super::output::Format;
use super::{App, CliError, Outcome};
use crate::catalog::Catalog;
use crate::climate::Climate;
use crate::economics::BillError;
use crate::house::House;
use crate::report::answer::{Answer, CatalogSize, MoistureContext};
use crate::report::other_climates::OtherClimates;
use crate::report::sheet::{Sheet, sheet_notes};
use crate::report::shortlist_csv::shortlist_sheet;
use crate::report::shortlist_table::{ShortlistView, shortlist_table};
use crate::study::{
    Brief, Judged, OtherClimate, RankBy, RunningCosts, Shortlist, Verdict, coldest,
    price_currencies,
};

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
    /// A climate of the catalog, in place of the house's own; given again, further climates, such as a severe year, that
    /// are shown beside the one that judges
    #[arg(long, value_name = "KEY")]
    climate: Vec<String>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t)]
    format: Format,
    /// What accepted units are ranked by
    #[arg(long, value_enum, default_value_t)]
    rank_by: RankBy,
    /// Show only the best accepted units
    #[arg(long, value_name = "N", value_parser = at_least_one)]
    top: Option<usize>,
    /// Show every rejected and undecided unit with every reason
    #[arg(long)]
    all: bool,
    #[command(flatten)]
    workbook: WorkbookArguments,
}

/// How many units are to be shown.
fn at_least_one(text: &str) -> Result<usize, String> {
    text.trim()
        .parse()
        .ok()
        .filter(|&count| count >= 1)
        .ok_or_else(|| "expected a whole number of units, 1 or more".to_owned())
}

/// Judges the whole catalog and prints the short list.
///
/// # Errors
/// Where a file cannot be read, or the catalog cannot be used.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    arguments.workbook.check()?;
    let house = app.read_house(&arguments.house)?;
    let criteria = app.read_criteria(arguments.criteria.as_deref())?;
    let catalog = app.catalog()?;
    let climate = app.climate_of(
        &catalog,
        &house,
        &arguments.house,
        arguments.climate.first().map(String::as_str),
    )?;
    let by = arguments.rank_by;
    let brief = Brief::new(house, climate.as_ref(), criteria, app.units);
    let others = arguments
        .climate
        .iter()
        .skip(1)
        .map(|key| Ok(OtherClimate::new(&brief, &catalog.climate(key)?)))
        .collect::<Result<Vec<_>, CliError>>()?;
    let file = arguments.house.display().to_string();
    let costs = running_costs(by, brief.house(), climate.as_ref(), &file)?;
    let judged = catalog.judge_all(|unit| {
        let mut judged = brief.judge(unit);
        let mut years = Vec::new();
        if matches!(judged.verdict, Verdict::Accepted) {
            if let Some(costs) = &costs {
                judged.running = Some(costs.year(unit, &judged)?);
            }
            years = others.iter().map(|other| other.year(unit)).collect();
        }
        Ok::<_, BillError>((judged, years))
    })?;
    let mut elsewhere = OtherClimates {
        own: climate.as_ref().map_or_else(Default::default, |climate| {
            (climate.key.clone(), coldest(climate))
        }),
        others: others
            .iter()
            .map(|other| (other.key.clone(), other.coldest))
            .collect(),
        ..OtherClimates::default()
    };
    let mut units = Vec::with_capacity(judged.len());
    for outcome in judged {
        let (judged, years) = outcome.map_err(CliError::input)?;
        if !years.is_empty() {
            elsewhere.years.insert(judged.model.key.clone(), years);
        }
        units.push(judged);
    }
    let elsewhere = (!others.is_empty()).then_some(&elsewhere);
    let judged = units;
    let list = Shortlist::of(judged, |unit| by.figure(unit));
    if by == RankBy::Price {
        one_currency(&list.accepted)?;
    }
    let counts = catalog.counts()?;
    let size = CatalogSize {
        units: counts.units,
        points: counts.points,
    };
    let key = climate.as_ref().map(|climate| climate.key.as_str());
    let sources = sources_of(&catalog, &list)?;
    arguments.workbook.write(app, || Sheet {
        notes: sheet_notes(&brief.house().name, key, &sources),
        ..shortlist_sheet(
            &list,
            MoistureContext::of(brief.house()),
            elsewhere,
            app.units,
        )
    })?;
    match arguments.format {
        Format::Json => {
            let mut answer = Answer::of(brief.house(), size, key, &list, elsewhere, app.units);
            if let Some(top) = arguments.top {
                answer.accepted.truncate(top);
            }
            app.print_json(&answer)?;
        }
        Format::Csv => app.print(
            &shortlist_sheet(
                &list,
                MoistureContext::of(brief.house()),
                elsewhere,
                app.units,
            )
            .csv(),
        )?,
        Format::Table => {
            let view = ShortlistView {
                house: brief.house(),
                catalog: size,
                climate: key,
                ranked_by: if key.is_none() && by == RankBy::Electricity {
                    "in the order of their names (no climate, so no annual electricity)"
                } else {
                    by.words()
                },
                by,
                units: app.units,
                width: app.look.width,
                top: arguments.top,
                all: arguments.all,
                sources: &sources,
                elsewhere,
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

/// The house's prices and factors, where accepted units are ranked by what they make of them.
///
/// # Errors
/// Where the house lacks what the ranking needs.
fn running_costs<'a>(
    by: RankBy,
    house: &'a House,
    climate: Option<&Climate>,
    file: &str,
) -> Result<Option<RunningCosts<'a>>, CliError> {
    let emissions = match by {
        RankBy::Cost => false,
        RankBy::Emissions => true,
        _ => return Ok(None),
    };
    let name = by.name();
    let climate = climate.ok_or_else(|| {
        CliError::input(format!(
            "cannot rank by {name}: the house file `{file}` names no climate, so that no year is known"
        ))
        .hint("name one with --climate KEY, or `climate` or `climate_file` under [site]")
    })?;
    let lacks = |names: &str| {
        CliError::input(format!(
            "cannot rank by {name}: the house file `{file}` lacks {names} under [energy]"
        ))
        .hint("no price or factor is built in; give each with its source")
    };
    let Some(costs) = RunningCosts::new(house, climate) else {
        return Err(lacks(if emissions {
            "`electricity_emissions_g`"
        } else {
            "`electricity_price`"
        }));
    };
    let missing = costs.not_given(emissions).map_err(CliError::input)?;
    if missing.is_empty() {
        return Ok(Some(costs));
    }
    let names: Vec<String> = missing.iter().map(|name| format!("`{name}`")).collect();
    Err(lacks(&names.join(" and ")))
}

/// Refuses to compare prices of several currencies.
fn one_currency(accepted: &[Judged]) -> Result<(), CliError> {
    let currencies = price_currencies(accepted);
    if currencies.len() <= 1 {
        return Ok(());
    }
    let names: Vec<String> = currencies
        .into_iter()
        .map(|currency| currency.unwrap_or_else(|| "no stated currency".to_owned()))
        .collect();
    Err(CliError::input(format!(
        "cannot rank by price: accepted units are priced in {}, and no exchange rate is assumed",
        names.join(" and in ")
    ))
    .hint("keep to one with a criterion: value = \"currency\", equals = \"...\""))
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
