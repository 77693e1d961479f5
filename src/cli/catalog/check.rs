//! `overwinter catalog check`: looks for numbers that physics speaks against, for seasonal figures that do not follow from
//! their points, and for what is missing.

use crate::cli::output::Format;
use crate::cli::{App, CliError, Outcome};
use crate::cooling::check_coils;
use crate::equipment::Unit;
use crate::equipment::physics::{Finding, check};
use crate::quantity::counted;
use crate::rating::{self, Recomputed, recompute};
use crate::report::csv_text::{cells_of, csv_text};
use crate::report::rating_check::{
    UnitRatings, rating_code, rating_counts, rating_sentence, rating_text,
};
use crate::report::table::paragraph;

/// Look for numbers that physics speaks against, and for what is missing
///
/// Declared seasonal figures are recomputed from the published points, by EN 14825 and by Appendix M1, as far as those
/// have the tests that a procedure needs. The file itself is verified too. Exit code 0 whatever is found: a finding is
/// for you to judge.
#[derive(clap::Args)]
pub struct Arguments {
    /// Only these units; without any, the whole catalog
    #[arg(value_name = "UNIT")]
    keys: Vec<String>,
    /// Leave out what is only missing or suspicious, seasonal figures included
    #[arg(long)]
    impossible: bool,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

/// What was found of one unit.
struct Found {
    findings: Vec<Finding>,
    ratings: UnitRatings,
}

/// One finding, or what came of one seasonal figure: a row of the answer as data.
#[derive(Default, serde::Serialize)]
struct Row {
    unit: String,
    /// `None`: it concerns the unit as a whole.
    point: Option<String>,
    code: &'static str,
    text: String,
    figure: Option<&'static str>,
    declared: Option<f64>,
    recomputed: Option<f64>,
    lowest: Option<f64>,
    highest: Option<f64>,
    /// `recomputed / declared - 1`.
    deviation: Option<f64>,
    tolerance: Option<f64>,
    missing: Vec<String>,
    assumptions: Vec<String>,
}

/// Prints what is found.
///
/// # Errors
/// Where the catalog cannot be used, or a unit is not in it.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let catalog = app.catalog()?;
    catalog.verify()?;
    let look = |unit: &Unit| {
        let mut findings = check(unit);
        findings.extend(check_coils(unit));
        findings.retain(|finding| finding.kind.is_impossible() || !arguments.impossible);
        findings.sort_by_key(|finding| finding.kind);
        let figures = if arguments.impossible {
            Vec::new()
        } else {
            recompute(unit)
        };
        Found {
            findings,
            ratings: UnitRatings {
                unit: unit.model.key.clone(),
                figures,
            },
        }
    };
    let by_unit: Vec<Found> = if arguments.keys.is_empty() {
        catalog.judge_all(look)?
    } else {
        let units = arguments.keys.iter().map(|key| catalog.unit(key));
        units
            .map(|unit| Ok(look(&unit?)))
            .collect::<Result<_, CliError>>()?
    };
    match arguments.format {
        Format::Json => app.print_json(&rows(&by_unit))?,
        Format::Csv => {
            let (header, _) = cells_of(&[Row::default()]);
            let (_, rows) = cells_of(&rows(&by_unit));
            app.print(&csv_text(&header, &rows))?;
        }
        Format::Table => {
            let width = app.look.width;
            let mut text = findings(&by_unit, width);
            let counts = counts(&by_unit, width);
            if arguments.impossible {
                text += &counts;
            } else {
                let ratings: Vec<UnitRatings> =
                    by_unit.into_iter().map(|found| found.ratings).collect();
                text += &rating_text(&ratings, width);
                text += &counts;
                text += &rating_counts(&ratings, width);
            }
            app.print(&text)?;
        }
    }
    Ok(Outcome::Done)
}

/// Every finding and every seasonal figure, unit by unit.
fn rows(by_unit: &[Found]) -> Vec<Row> {
    let mut rows = Vec::new();
    for found in by_unit {
        rows.extend(found.findings.iter().map(Row::of_finding));
        let ratings = &found.ratings;
        rows.extend(
            ratings
                .figures
                .iter()
                .map(|figure| Row::of_rating(&ratings.unit, figure)),
        );
    }
    rows
}

impl Row {
    fn of_finding(finding: &Finding) -> Self {
        Self {
            unit: finding.unit.clone(),
            point: (!finding.point.is_empty()).then(|| finding.point.clone()),
            code: finding.kind.code(),
            text: finding.sentence.clone(),
            ..Self::default()
        }
    }

    fn of_rating(unit: &str, found: &Recomputed) -> Self {
        let row = Self {
            unit: unit.to_owned(),
            code: rating_code(&found.outcome),
            text: rating_sentence(found),
            figure: Some(found.figure.name()),
            declared: Some(found.declared),
            ..Self::default()
        };
        match &found.outcome {
            rating::Outcome::Compared(comparison) => Self {
                recomputed: Some(comparison.recomputed),
                lowest: Some(comparison.lowest),
                highest: Some(comparison.highest),
                deviation: Some(comparison.deviation),
                tolerance: Some(comparison.tolerance),
                assumptions: comparison
                    .assumptions
                    .iter()
                    .map(ToString::to_string)
                    .collect(),
                ..row
            },
            rating::Outcome::Missing(points) => Self {
                missing: points.iter().map(ToString::to_string).collect(),
                ..row
            },
            rating::Outcome::Unphysical(_) | rating::Outcome::OtherProcedure => row,
        }
    }
}

/// The findings of each unit that has any.
fn findings(by_unit: &[Found], width: u16) -> String {
    let mut text = String::new();
    for found in by_unit {
        let Some(first) = found.findings.first() else {
            continue;
        };
        text += &paragraph(&first.unit, width, "", "");
        for finding in &found.findings {
            let place = if finding.point.is_empty() {
                String::new()
            } else {
                format!("{}: ", finding.point)
            };
            let line = format!("{place}{} ({})", finding.sentence, finding.kind.code());
            text += &paragraph(&line, width, "  ", "    ");
        }
    }
    if !text.is_empty() {
        text.push('\n');
    }
    text
}

fn counts(by_unit: &[Found], width: u16) -> String {
    let impossible = by_unit
        .iter()
        .flat_map(|found| &found.findings)
        .filter(|finding| finding.kind.is_impossible())
        .count();
    let all: usize = by_unit.iter().map(|found| found.findings.len()).sum();
    let concerned = by_unit
        .iter()
        .filter(|found| !found.findings.is_empty())
        .count();
    let words = format!(
        "{} in {concerned} of {}; {impossible} of them impossible, the rest missing or suspicious.",
        counted(all, "finding", "findings"),
        counted(by_unit.len(), "unit", "units"),
    );
    paragraph(&words, width, "", "")
}
