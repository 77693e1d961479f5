//! A unit at a glance: its verdict, its main figures and its curve against the load, for the pane beside a list.

use super::clean_text;
use super::explain::{TextSize, text_picture, verdict_word};
use super::table::paragraph;
use super::terminal::Glyphs;
use crate::equipment::Unit;
use crate::heating::BalancePoint;
use crate::quantity::{UnitSystem, fixed};
use crate::study::explain::heating_picture;
use crate::study::{Brief, Judged, Verdict};

/// Longest name \[characters\].
const LONGEST_NAME: usize = 120;
/// Why a unit was rejected or left undecided: this many reasons are shown.
const REASONS_SHOWN: usize = 3;

/// The unit in a house, `width` characters wide and with a chart of `rows` rows.
#[must_use]
pub fn unit_preview(brief: &Brief, unit: &Unit, width: u16, rows: usize) -> String {
    let judged = brief.judge(unit);
    let units = brief.units();
    let mut text = paragraph(&clean_text(&unit.model.key, LONGEST_NAME), width, "", "  ");
    text += &paragraph(&verdict_word(&judged.verdict).to_uppercase(), width, "", "");
    for line in reasons(&judged.verdict, units) {
        text += &paragraph(&line, width, "- ", "  ");
    }
    for line in figures(&judged, brief, units) {
        text += &paragraph(&line, width, "", "  ");
    }
    text.push('\n');
    text += &match heating_picture(brief, unit, &judged) {
        Some(picture) => {
            let size = TextSize {
                columns: usize::from(width),
                rows,
            };
            text_picture(&picture, size, Glyphs::Unicode)
        }
        None => "Nothing is published for heating.\n".to_owned(),
    };
    text
}

fn reasons(verdict: &Verdict, units: UnitSystem) -> Vec<String> {
    match verdict {
        Verdict::Accepted => Vec::new(),
        Verdict::Rejected(reasons) => reasons
            .iter()
            .take(REASONS_SHOWN)
            .map(|reason| reason.sentence(units))
            .collect(),
        Verdict::Undecided(asks) => asks
            .iter()
            .take(REASONS_SHOWN)
            .map(|ask| format!("not published: {}", ask.text))
            .collect(),
    }
}

fn figures(judged: &Judged, brief: &Brief, units: UnitSystem) -> Vec<String> {
    let heating = &judged.heating;
    let design = units.temperature(brief.house().heating.load.design_outdoor);
    let mut lines = vec![match (heating.capacity_at_design, heating.margin()) {
        (Some(capacity), Some(margin)) => format!(
            "{} of {} at {design} ({:+.0} %)",
            units.power(capacity),
            units.power(heating.load_at_design),
            margin * 100.0
        ),
        _ => format!("capacity at {design} is not published"),
    }];
    lines.push(match heating.balance_point {
        BalancePoint::At(balance) => format!("balance point {}", units.temperature(balance)),
        BalancePoint::AtOperatingLimit(limit) => {
            format!(
                "carries the load down to {}, where it stops",
                units.temperature(limit)
            )
        }
        BalancePoint::BelowColdestPoint(coldest) => format!(
            "balance point below {}, the coldest published point",
            units.temperature(coldest)
        ),
        BalancePoint::Unproven => "balance point unknown".to_owned(),
    });
    if let Some(cop) = heating.season.and_then(|season| season.seasonal_cop()) {
        lines.push(format!("seasonal COP {}", fixed(cop, 2)));
    }
    if let Some(season) = judged.cooling.and_then(|cooling| cooling.season)
        && let Some(cycling) = season.known.and_then(|known| known.cycling_hours)
        && season.cooling_hours.0 > 0.0
    {
        lines.push(format!(
            "cycles in {:.0} % of the cooling hours",
            cycling / season.cooling_hours * 100.0
        ));
    }
    lines
}
