//! `overwinter catalog check`: looks for numbers that physics speaks against, and for what is missing.

use crate::cli::output::Format;
use crate::cli::{App, CliError, Outcome};
use crate::cooling::check_coils;
use crate::equipment::Unit;
use crate::equipment::physics::{Finding, check};
use crate::report::csv_text::csv_text;
use crate::report::table::paragraph;

/// Look for numbers that physics speaks against, and for what is missing
///
/// The file itself is verified too. Exit code 0 whatever is found: a finding is for you to judge.
#[derive(clap::Args)]
pub struct Arguments {
    /// Only these units; without any, the whole catalog
    #[arg(value_name = "UNIT")]
    keys: Vec<String>,
    /// Leave out what is only missing or suspicious
    #[arg(long)]
    impossible: bool,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t)]
    format: Format,
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
        findings
    };
    let by_unit: Vec<Vec<Finding>> = if arguments.keys.is_empty() {
        catalog.judge_all(look)?
    } else {
        let units = arguments.keys.iter().map(|key| catalog.unit(key));
        units
            .map(|unit| Ok(look(&unit?)))
            .collect::<Result<_, CliError>>()?
    };
    match arguments.format {
        Format::Json => {
            let findings: Vec<serde_json::Value> = by_unit.iter().flatten().map(as_json).collect();
            app.print_json(&findings)?;
        }
        Format::Csv => {
            let header = ["unit", "point", "code", "text"].map(str::to_owned);
            let rows: Vec<Vec<String>> = by_unit
                .iter()
                .flatten()
                .map(|finding| as_cells(finding).to_vec())
                .collect();
            app.print(&csv_text(&header, &rows))?;
        }
        Format::Table => {
            let text = as_text(&by_unit, app.look.width);
            app.print(&text)?;
        }
    }
    Ok(Outcome::Done)
}

fn as_json(finding: &Finding) -> serde_json::Value {
    let [unit, point, code, text] = as_cells(finding);
    let point = if point.is_empty() {
        serde_json::Value::Null
    } else {
        point.into()
    };
    serde_json::json!({ "unit": unit, "point": point, "code": code, "text": text })
}

fn as_cells(finding: &Finding) -> [String; 4] {
    [
        finding.unit.clone(),
        finding.point.clone(),
        finding.kind.code().to_owned(),
        finding.sentence.clone(),
    ]
}

fn as_text(by_unit: &[Vec<Finding>], width: u16) -> String {
    let mut text = String::new();
    for findings in by_unit {
        let Some(first) = findings.first() else {
            continue;
        };
        text += &paragraph(&first.unit, width, "", "");
        for finding in findings {
            let place = if finding.point.is_empty() {
                String::new()
            } else {
                format!("{}: ", finding.point)
            };
            let line = format!("{place}{} ({})", finding.sentence, finding.kind.code());
            text += &paragraph(&line, width, "  ", "    ");
        }
    }
    let impossible = by_unit
        .iter()
        .flatten()
        .filter(|finding| finding.kind.is_impossible())
        .count();
    let all: usize = by_unit.iter().map(Vec::len).sum();
    let concerned = by_unit
        .iter()
        .filter(|findings| !findings.is_empty())
        .count();
    if !text.is_empty() {
        text.push('\n');
    }
    text + &format!(
        "{all} findings in {concerned} of {} units; {impossible} of them impossible, the rest missing or suspicious.\n",
        by_unit.len()
    )
}
