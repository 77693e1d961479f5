//! The short list for a spreadsheet: one row a unit, the settled names as columns.

use serde_json::Value;

use super::answer::{self, MoistureContext};
use super::other_climates::OtherClimates;
use super::sheet::{Cell, Sheet};
use crate::quantity::UnitSystem;
use crate::study::{Judged, Shortlist, Verdict};

/// The short list as a sheet. Figures keep full precision; an unknown one is blank.
#[must_use]
pub fn shortlist_sheet(
    list: &Shortlist,
    moisture: MoistureContext,
    elsewhere: Option<&OtherClimates>,
    units: UnitSystem,
) -> Sheet {
    let groups = [
        ("accepted", &list.accepted),
        ("rejected", &list.rejected),
        ("undecided", &list.undecided),
    ];
    let rows = groups
        .iter()
        .flat_map(|&(verdict, group)| {
            (1_u32..).zip(group).map(move |(place, judged)| {
                let rank = (verdict == "accepted").then_some(f64::from(place));
                let mut row = row(verdict, rank, judged, moisture, units);
                row.extend(beside(judged, elsewhere));
                row
            })
        })
        .collect();
    Sheet::of_named("short list", rows)
}

fn row(
    verdict: &str,
    rank: Option<f64>,
    judged: &Judged,
    moisture: MoistureContext,
    units: UnitSystem,
) -> Vec<(String, Cell)> {
    let mut row = vec![
        ("unit".to_owned(), Cell::text(judged.model.key.as_str())),
        ("verdict".to_owned(), Cell::text(verdict)),
        ("rank".to_owned(), Cell::number(rank)),
        ("codes".to_owned(), Cell::text(codes(&judged.verdict))),
        (
            "text".to_owned(),
            Cell::text(sentences(&judged.verdict, units)),
        ),
    ];
    let figures = [
        ("heating", serde_json::to_value(answer::heating(judged))),
        (
            "cooling",
            serde_json::to_value(answer::cooling(judged.cooling.as_ref(), moisture)),
        ),
    ];
    for (side, value) in figures {
        if let Ok(Value::Object(entries)) = value {
            for (name, value) in entries {
                row.push((format!("{side}.{name}"), Cell::of(&value)));
            }
        }
    }
    row
}

/// The year's money and emissions, and the years in other climates, where they were asked for.
fn beside(judged: &Judged, elsewhere: Option<&OtherClimates>) -> Vec<(String, Cell)> {
    let mut columns = Vec::new();
    if let Some(running) = judged.running {
        let cost = running.cost.map(|cost| cost.0);
        let emissions = running.emissions.map(|emissions| emissions.0);
        columns.push(("annual_cost".to_owned(), Cell::number(cost)));
        columns.push(("annual_emissions_kg".to_owned(), Cell::number(emissions)));
    }
    let years = elsewhere.map_or_else(Vec::new, |others| others.answers(&judged.model.key));
    for year in years {
        if let Ok(Value::Object(entries)) = serde_json::to_value(&year) {
            for (name, value) in entries.into_iter().filter(|(name, _)| name != "climate") {
                let name = format!("{}.{name}", year.climate);
                columns.push((name, Cell::number(value.as_f64())));
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
