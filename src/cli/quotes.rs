//! `overwinter quotes`: suppliers' quotes judged as the short list judges units.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use jiff::civil::Date;

use super::new_file::WorkbookArguments;
use super::shortlist::source_words;
use super::{App, CliError, Outcome};
use crate::catalog::{Catalog, CatalogError};
use crate::economics::BillError;
use crate::import::read_quotes;
use crate::report::quotes::{QuotesAnswer, QuotesView, quotes_page, quotes_sheet, quotes_table};
use crate::study::{JudgedQuote, Quote, QuoteBrief, QuoteVerdict, UnitFinding, order_quotes};

/// Which of several quotes carry a house, what each comes to, and what it does not say
///
/// QUOTES.csv has a row for each quote and these columns, in any order:
///
///   quote           your name for it
///   unit            a key of the catalog, or several with " + " between them
///   share           which part of the load each of several units serves: 0.6 + 0.4
///   supplier        who offers it
///   price           of the equipment
///   installation    of putting it in
///   extras          of everything else that the house needs, such as a panel
///   currency        of the three amounts
///   warranty_years
///   valid_until     the last day on which it holds, such as 2026-08-31
///   note            your own words
///
/// Only `quote` and `unit` must be there. A blank is what the quote does not
/// say: it is listed, and never taken as zero.
///
/// A unit is judged as `shortlist` judges it. A quote is accepted where every
/// unit of it is; a unit that the catalog does not have leaves it undecided,
/// with the list of what to ask the supplier for. Of several units each is
/// judged against its share of every load; without shares each is judged
/// against the whole house. An expired quote keeps its verdict, and the
/// answer says that it has expired.
///
/// Exit code 0 where some quote is accepted, 1 where none is.
#[derive(clap::Args)]
#[command(verbatim_doc_comment)]
pub struct Arguments {
    /// The house
    #[arg(value_name = "HOUSE.toml")]
    house: PathBuf,
    /// The quotes
    #[arg(value_name = "QUOTES.csv")]
    quotes: PathBuf,
    /// What is asked of a unit; without it, the built-in requirements at their defaults
    #[arg(long, value_name = "FILE.toml")]
    criteria: Option<PathBuf>,
    /// A climate of the catalog, in place of the house's own
    #[arg(long, value_name = "KEY")]
    climate: Option<String>,
    /// The day by which quotes count as expired; default: today
    #[arg(long, value_name = "YYYY-MM-DD")]
    today: Option<Date>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t)]
    format: Form,
    #[command(flatten)]
    workbook: WorkbookArguments,
}

/// The form of the answer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, clap::ValueEnum)]
enum Form {
    /// A table for people
    #[default]
    Table,
    /// One JSON document, full precision
    Json,
    /// Comma-separated values
    Csv,
    /// One self-contained page
    Html,
}

/// Judges the quotes.
///
/// # Errors
/// Where a file cannot be read, or the catalog cannot be used.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    arguments.workbook.check()?;
    let house = app.read_house(&arguments.house)?;
    let text = app.read_text("the file of quotes", &arguments.quotes)?;
    let quotes = read_quotes(&arguments.quotes.display().to_string(), &text)?;
    let criteria = app.read_criteria(arguments.criteria.as_deref())?;
    let catalog = app.catalog()?;
    let climate = app.climate_of(
        &catalog,
        &house,
        &arguments.house,
        arguments.climate.as_deref(),
    )?;
    let mut brief = QuoteBrief {
        house: &house,
        climate: climate.as_ref(),
        criteria: &criteria,
        units: app.units,
        known: BTreeMap::new(),
        near: BTreeMap::new(),
    };
    look_up(&catalog, &quotes, &mut brief)?;
    let (judged, no_cost) = judge(&brief, quotes)?;
    let sources = sources_of(&catalog, &judged)?;
    let view = QuotesView {
        house: &house,
        climate: climate.as_ref().map(|climate| climate.key.as_str()),
        today: arguments.today.unwrap_or_else(|| app.today()),
        units: app.units,
        width: app.look.width,
        no_cost: no_cost.as_deref(),
        sources: &sources,
    };
    arguments
        .workbook
        .write(app, || quotes_sheet(&view, &judged))?;
    match arguments.format {
        Form::Table => app.print(&quotes_table(&view, &judged))?,
        Form::Json => app.print_json(&QuotesAnswer::of(&view, &judged))?,
        Form::Csv => app.print(&quotes_sheet(&view, &judged).csv())?,
        Form::Html => app.print(&quotes_page(&view, &judged))?,
    }
    let accepted = judged
        .iter()
        .any(|judged| judged.verdict == QuoteVerdict::Accepted);
    Ok(if accepted {
        Outcome::Done
    } else {
        Outcome::NothingAccepted
    })
}

/// Looks every quoted unit up; of one that is not there, the nearest key.
fn look_up(
    catalog: &Catalog,
    quotes: &[Quote],
    brief: &mut QuoteBrief<'_>,
) -> Result<(), CliError> {
    let keys: BTreeSet<&str> = quotes
        .iter()
        .flat_map(|quote| &quote.units)
        .map(|unit| unit.key.as_str())
        .collect();
    for key in keys {
        match catalog.unit(key) {
            Ok(unit) => {
                brief.known.insert(key.to_owned(), unit);
            }
            Err(CatalogError::NotFound { nearest, .. }) => {
                if let Some(near) = nearest {
                    brief.near.insert(key.to_owned(), near);
                }
            }
            Err(error) => return Err(error.into()),
        }
    }
    Ok(())
}

/// The judged quotes in their order, and why no year can be priced, where a tariff asks more than the climate has.
fn judge(
    brief: &QuoteBrief<'_>,
    quotes: Vec<Quote>,
) -> Result<(Vec<JudgedQuote>, Option<String>), CliError> {
    let all = |brief: &QuoteBrief<'_>| {
        quotes
            .iter()
            .map(|quote| brief.judge(quote.clone()))
            .collect::<Result<Vec<JudgedQuote>, BillError>>()
    };
    let (mut judged, no_cost) = match all(brief) {
        Ok(judged) => (judged, None),
        Err(error) => {
            // The verdicts do not hang on prices: they are given without them, and the answer says why.
            let unpriced = crate::house::House {
                energy: None,
                ..brief.house.clone()
            };
            let without = QuoteBrief {
                house: &unpriced,
                known: brief.known.clone(),
                near: brief.near.clone(),
                ..*brief
            };
            let judged = all(&without).map_err(CliError::input)?;
            (judged, Some(error.to_string()))
        }
    };
    order_quotes(&mut judged);
    Ok((judged, no_cost))
}

/// The sources behind the quoted units that the catalog has.
fn sources_of(catalog: &Catalog, judged: &[JudgedQuote]) -> Result<Vec<String>, CliError> {
    let used: BTreeSet<_> = judged
        .iter()
        .flat_map(|judged| &judged.units)
        .filter_map(|unit| match &unit.finding {
            UnitFinding::Judged(found) => Some(found.model.source),
            UnitFinding::Unknown { .. } => None,
        })
        .collect();
    used.into_iter()
        .map(|id| Ok(source_words(&catalog.source(id)?)))
        .collect()
}
