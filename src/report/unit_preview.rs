//! A unit at a glance: its verdict, its main figures and its curve against the load, for the pane beside a list.

use super::clean_text;
use super::explain::verdict_word;
use super::table::paragraph;
use super::terminal::{Glyphs, TextMark, TextPlot, TextSeries, plot_text};
use crate::equipment::Unit;
use crate::heating::{BalancePoint, HeatingAt};
use crate::quantity::{Celsius, UnitSystem, fixed};
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
    text + &curve(brief, unit, &judged, usize::from(width), rows)
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

fn curve(brief: &Brief, unit: &Unit, judged: &Judged, columns: usize, rows: usize) -> String {
    let Some(curves) = brief.heating_curves(unit) else {
        return "Nothing is published for heating.\n".to_owned();
    };
    let load = &brief.house().heating.load;
    let coldest = curves
        .speeds
        .maximum()
        .severe_end()
        .min(load.design_outdoor);
    let steps = 60;
    let places: Vec<Celsius> = (0..=steps)
        .map(|step| {
            coldest + (load.zero_load_outdoor - coldest) * (f64::from(step) / f64::from(steps))
        })
        .collect();
    let line = |name: &str, value: &dyn Fn(Celsius) -> f64| TextSeries {
        name: name.to_owned(),
        points: places.iter().map(|&at| (at.0, value(at))).collect(),
    };
    let capacity = |at: Celsius, fastest: bool| match curves.at(at) {
        HeatingAt::Runs(speeds) if fastest => speeds.maximum.capacity.0,
        HeatingAt::Runs(speeds) => speeds.minimum.capacity.0,
        HeatingAt::LockedOut | HeatingAt::Unproven => f64::NAN,
    };
    let mut series = vec![
        line("maximum", &|at| capacity(at, true)),
        line("load", &|at| load.at(at).0),
    ];
    if curves.speeds.minimum().is_some() {
        series.push(line("minimum", &|at| capacity(at, false)));
    }
    plot_text(&TextPlot {
        title: String::new(),
        x_title: "outdoor °C".to_owned(),
        y_title: "heat, kW".to_owned(),
        series,
        mark: judged
            .heating
            .balance_point
            .temperature()
            .map(|balance| TextMark {
                name: "balance".to_owned(),
                x: balance.0,
                y: load.at(balance).0,
            }),
        columns,
        rows,
        glyphs: Glyphs::Unicode,
    })
}
