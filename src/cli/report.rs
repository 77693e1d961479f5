//! `overwinter report`: the whole answer for one house as a page for screen and paper.

use std::path::PathBuf;

use super::page_file::PageArguments;
use super::unit_sources::sources_of;
use super::{App, CliError, Outcome};
use crate::catalog::Catalog;
use crate::climate::Climate;
use crate::report::answer::CatalogSize;
use crate::report::fingerprint::{Content, Fingerprint, InputPrint, climate_digest, text_digest};
use crate::report::page::{ClimateFacts, ReportView, SectionUnit, report_html};
use crate::study::{Brief, RankBy, Shortlist};

/// The whole answer for one house as a page: short list, charts, reasons, what to ask, how to repeat it
///
/// One file that makes no request and runs no script. To make a PDF, print the page from a browser (A4 or Letter).
/// Exit code 0 where some unit is accepted, 1 where none is; the page is written either way.
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
    /// Units that get a section with charts, whatever their verdict; without it, every accepted unit
    #[arg(long, value_name = "UNIT,UNIT")]
    only: Vec<String>,
    #[command(flatten)]
    page: PageArguments,
}

/// Writes the report.
///
/// # Errors
/// Where a file cannot be read or written, a unit is not in the catalog, or the catalog cannot be used.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    arguments.page.check()?;
    let house_text = app.read_text("the house file", &arguments.house)?;
    let house = app.read_house(&arguments.house)?;
    let criteria = app.read_criteria(arguments.criteria.as_deref())?;
    let criteria_text = match &arguments.criteria {
        None => None,
        Some(path) => Some(app.read_text("the criteria file", path)?),
    };
    let catalog = app.catalog()?;
    let climate = app.climate_of(
        &catalog,
        &house,
        &arguments.house,
        arguments.climate.as_deref(),
    )?;
    let brief = Brief::new(house, climate.as_ref(), criteria, app.units);
    let by = RankBy::default();
    let list = Shortlist::of(catalog.judge_all(|unit| brief.judge(unit))?, |unit| {
        by.figure(unit)
    });
    let keys = named(&arguments.only, &catalog)?.unwrap_or_else(|| {
        list.accepted
            .iter()
            .map(|judged| judged.model.key.clone())
            .collect()
    });
    let sections = keys
        .iter()
        .map(|key| section(&catalog, key))
        .collect::<Result<Vec<_>, CliError>>()?;
    let counts = catalog.counts()?;
    let fingerprint = fingerprint(
        &house_text,
        criteria_text.as_deref(),
        climate.as_ref(),
        &catalog,
        app,
    )?;
    let criteria_file = arguments
        .criteria
        .as_deref()
        .and_then(|path| path.file_name())
        .map(|name| name.to_string_lossy().into_owned());
    let facts = climate.as_ref().map(climate_facts);
    let view = ReportView {
        brief: &brief,
        climate: facts.as_ref(),
        list: &list,
        catalog: CatalogSize {
            units: counts.units,
            points: counts.points,
        },
        sections: &sections,
        sections_were_named: !arguments.only.is_empty(),
        ranked_by: if climate.is_none() {
            "their names (no climate, so no annual electricity)"
        } else {
            by.words()
        },
        criteria: criteria_file.as_deref(),
        units: app.units,
        date: &arguments.page.date(),
        fingerprint: &fingerprint,
    };
    arguments.page.write(&report_html(&view), app)?;
    Ok(if list.accepted.is_empty() {
        Outcome::NothingAccepted
    } else {
        Outcome::Done
    })
}

/// The units named, each once; a name with a comma in it is tried as it is before it is taken for several.
///
/// # Errors
/// Where one is not in the catalog.
fn named(only: &[String], catalog: &Catalog) -> Result<Option<Vec<String>>, CliError> {
    if only.is_empty() {
        return Ok(None);
    }
    let mut keys: Vec<String> = Vec::new();
    for given in only {
        let parts: Vec<&str> = if catalog.unit(given).is_ok() {
            vec![given]
        } else {
            given.split(',').map(str::trim).collect()
        };
        for key in parts.into_iter().filter(|key| !key.is_empty()) {
            if !keys.iter().any(|known| known == key) {
                keys.push(key.to_owned());
            }
        }
    }
    Ok(Some(keys))
}

/// A unit with the sources of its figures and points.
fn section(catalog: &Catalog, key: &str) -> Result<SectionUnit, CliError> {
    let unit = catalog.unit(key)?;
    let sources = sources_of(catalog, [&unit])?;
    Ok(SectionUnit { unit, sources })
}

fn climate_facts(climate: &Climate) -> ClimateFacts {
    ClimateFacts {
        key: climate.key.clone(),
        name: climate.name.clone(),
        source: climate.source.clone(),
        notes: climate.notes.clone(),
    }
}

/// The fingerprint of all that the answer depends on.
fn fingerprint(
    house: &str,
    criteria: Option<&str>,
    climate: Option<&Climate>,
    catalog: &Catalog,
    app: &App,
) -> Result<Fingerprint, CliError> {
    let (mut sources, mut units, mut points) =
        (Content::default(), Content::default(), Content::default());
    catalog.export_sources(&mut sources)?;
    catalog.export_units(&mut units, &mut points)?;
    let input = |covers: String, digest| InputPrint { covers, digest };
    let shown_in = app.units.temperature_unit();
    Ok(Fingerprint::of(vec![
        input("house file, every byte".to_owned(), text_digest(house)),
        match criteria {
            Some(text) => input("criteria file, every byte".to_owned(), text_digest(text)),
            None => input(
                "criteria: none given, the built-in requirements".to_owned(),
                text_digest(""),
            ),
        },
        match climate {
            Some(climate) => input(
                format!(
                    "climate {}: hours, temperature and humidity of each state",
                    climate.key
                ),
                climate_digest(&climate.states),
            ),
            None => input("climate: none".to_owned(), text_digest("")),
        },
        input(
            "catalog: sources.csv as exported".to_owned(),
            sources.digest(),
        ),
        input("catalog: units.csv as exported".to_owned(), units.digest()),
        input(
            "catalog: points.csv as exported".to_owned(),
            points.digest(),
        ),
        input(
            format!("units of the page: {shown_in}"),
            text_digest(shown_in),
        ),
    ]))
}
