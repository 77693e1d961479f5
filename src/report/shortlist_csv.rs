//! The short list as comma-separated values: one row a unit, the settled names as columns.

use serde_json::Value;

use super::answer::{self, MoistureContext};
use super::csv_text::csv_text;
use super::other_climates::OtherClimates;
use crate::quantity::UnitSystem;
use crate::study::{Judged, Shortlist, Verdict};

/// The short list as CSV with a header line. Figures keep full precision; an unknown one is blank.
#[must_use]
pub fn shortlist_csv(
    list: &Shortlist,
    elsewhere: Option<&OtherClimates>,
    units: UnitSystem,
) -> String {
    let groups = [
        ("accepted", &list.accepted),
        ("rejected", &list.rejected),
        ("undecided", &list.undecided),
    ];
    let rows: Vec<Vec<(String, String)>> = groups
        .iter()
        .flat_map(|&(verdict, group)| {
            group.iter().enumerate().map(move |(place, judged)| {
                let rank = if verdict == "accepted" {
                    (place + 1).to_string()
                } else {
                    String::new()
                };
                let mut row = row(verdict, rank, judged, units);
                row.extend(beside(judged, elsewhere));
                row
            })
        })
        .collect();
    let mut header: Vec<String> = Vec::new();
    for (name, _) in rows.iter().flatten() {
        if !header.contains(name) {
            header.push(name.clone());
        }
    }
    let cell = |row: &[(String, String)], name: &str| {
        row.iter()
            .find(|(column, _)| column == name)
            .map_or_else(String::new, |(_, value)| value.clone())
    };
    let cells = rows
        .iter()
        .map(|row| header.iter().map(|name| cell(row, name)).collect())
        .collect::<Vec<_>>();
    csv_text(&header, &cells)
}

fn row(verdict: &str, rank: String, judged: &Judged, units: UnitSystem) -> Vec<(String, String)> {
    let mut row = vec![
        ("unit".to_owned(), judged.model.key.clone()),
        ("verdict".to_owned(), verdict.to_owned()),
        ("rank".to_owned(), rank),
        ("codes".to_owned(), codes(&judged.verdict)),
        ("text".to_owned(), sentences(&judged.verdict, units)),
    ];
    let context = MoistureContext {
        judged: true,
        litres_per_kwh: None,
    };
    let figures = [
        ("heating", serde_json::to_value(answer::heating(judged))),
        (
            "cooling",
            serde_json::to_value(answer::cooling(judged.cooling.as_ref(), context)),
        ),
    ];
    for (side, value) in figures {
        if let Ok(Value::Object(entries)) = value {
            for (name, value) in entries {
                let text = match value {
                    Value::Null => String::new(),
                    other => other.to_string(),
                };
                row.push((format!("{side}.{name}"), text));
            }
        }
    }
    row
}

/// The year's money and emissions, and the years in other climates, where they were asked for.
fn beside(judged: &Judged, elsewhere: Option<&OtherClimates>) -> Vec<(String, String)> {
    let text = |value: Option<f64>| value.map_or_else(String::new, |value| value.to_string());
    let mut columns = Vec::new();
    if let Some(running) = judged.running {
        let cost = running.cost.map(|cost| cost.0);
        let emissions = running.emissions.map(|emissions| emissions.0);
        columns.push(("annual_cost".to_owned(), text(cost)));
        columns.push(("annual_emissions_kg".to_owned(), text(emissions)));
    }
    let years = elsewhere.map_or_else(Vec::new, |others| others.answers(&judged.model.key));
    for year in years {
        if let Ok(Value::Object(entries)) = serde_json::to_value(&year) {
            for (name, value) in entries.into_iter().filter(|(name, _)| name != "climate") {
                let name = format!("{}.{name}", year.climate);
                columns.push((name, text(value.as_f64())));
            }
        }
    }
    columns
}

fn codes(verdict: &Verdict) -> String {
    match verdict {
        Verdict::Accepted => String::new(),
        Verdict::Rejected(reasons) => join(reasons.iter().map(|reason| reason.code().to_owned())),
        Verdict::Undecided(asks) => join(asks.iter().map(|ask| ask.code.name().to_owned())),
    }
}

fn sentences(verdict: &Verdict, units: UnitSystem) -> String {
    match verdict {
        Verdict::Accepted => String::new(),
        Verdict::Rejected(reasons) => join(reasons.iter().map(|reason| reason.sentence(units))),
        Verdict::Undecided(asks) => join(asks.iter().map(|ask| ask.text.clone())),
    }
}

fn join(texts: impl Iterator<Item = String>) -> String {
    texts.collect::<Vec<_>>().join("; ")
}
