//! Every requirement with its value, its limit and what came of it.

use super::{Cell, Part, Subject, Table, Value, reading_words};
use crate::cooling::CoolingCurves;
use crate::criteria::{
    BoundValue, Criterion, CriterionReading, Findings, Requirement, keeps, reading,
};
use crate::quantity::{Hours, UnitSystem, counted, fixed};
use crate::study::Verdict;

/// What came of a requirement.
fn outcome(asked: bool, findings: &Findings) -> &'static str {
    if !asked {
        "not asked"
    } else if !findings.reasons.is_empty() {
        "fails"
    } else if findings.asks.is_empty() {
        "holds"
    } else {
        "not known"
    }
}

pub(super) fn parts(subject: &Subject<'_>) -> Vec<Part> {
    let mut rows = Vec::new();
    for (requirement, findings) in subject.each {
        if *requirement == Requirement::OwnCriteria {
            let criteria = &subject.brief.criteria().criteria;
            rows.extend(criteria.iter().map(|criterion| own(subject, criterion)));
        } else {
            rows.push(built_in(subject, *requirement, findings));
        }
    }
    let mut parts = vec![
        Table {
            title: "What is asked of the unit".to_owned(),
            head: vec!["requirement", "value", "limit", "outcome"],
            rows,
        }
        .into(),
    ];
    parts.push(Part::Words(verdict_words(&subject.judged.verdict)));
    for (_, findings) in subject.each {
        for reason in &findings.reasons {
            parts.push(Part::Words(format!(
                "{}: {}. Remedy: {}.",
                reason.code(),
                reason.sentence(subject.brief.units()),
                reason.remedy(subject.brief.units())
            )));
        }
        for ask in &findings.asks {
            parts.push(Part::Words(format!("Ask the supplier for: {}.", ask.text)));
        }
    }
    parts
}

fn verdict_words(verdict: &Verdict) -> String {
    match verdict {
        Verdict::Accepted => "Accepted: every requirement is shown to hold.".to_owned(),
        Verdict::Rejected(reasons) => format!(
            "Rejected: {} shown not to hold.",
            counted(reasons.len(), "requirement is", "requirements are")
        ),
        Verdict::Undecided(asks) => format!(
            "Undecided: none fails, but {} not published.",
            counted(asks.len(), "needed value is", "needed values are")
        ),
    }
}

/// A built-in requirement: its value as it was judged, beside its limit.
fn built_in(subject: &Subject<'_>, requirement: Requirement, findings: &Findings) -> Vec<Cell> {
    let brief = subject.brief;
    let (house, asked_of) = (brief.house(), brief.criteria().requirements);
    let figures = subject.judged.cooling.as_ref();
    let season = figures.and_then(|figures| figures.season);
    let share = |hours: Option<Hours>| {
        let all = season?.cooling_hours;
        let hours = hours?;
        Some(if all > Hours::ZERO { hours / all } else { 0.0 })
    };
    let (name, value, limit, asked): (String, Cell, Cell, bool) = match requirement {
        Requirement::CarriesDesignLoad => (
            format!(
                "largest heating capacity at {} °C, kW at least",
                reading_words(house.heating.load.design_outdoor)
            ),
            subject.judged.heating.capacity_at_design.into(),
            Cell::number(house.heating.load.design_load * (1.0 + house.heating.reserve)),
            asked_of.full_load_without_backup,
        ),
        Requirement::RunsBeyondDesign => (
            "runs down to, °C".to_owned(),
            subject
                .unit
                .model
                .operates_to
                .or(subject.judged.heating.coldest_point)
                .into(),
            house
                .heating
                .must_run_to
                .map_or(Cell::word("none"), Cell::number),
            asked_of.run_beyond_design && house.heating.must_run_to.is_some(),
        ),
        Requirement::CarriesCoolingDesign => (
            match house.cooling {
                Some(cooling) => format!(
                    "largest sensible capacity at {} °C, kW at least",
                    reading_words(cooling.load.design_outdoor)
                ),
                None => "largest sensible capacity, kW at least".to_owned(),
            },
            figures
                .and_then(|figures| figures.sensible_capacity_at_design)
                .into(),
            figures.map(|figures| figures.sensible_at_design).into(),
            asked_of.cooling_design && house.cooling.is_some(),
        ),
        Requirement::TurnsDown => (
            "share of the cooling hours that cycle, at most".to_owned(),
            share(
                season
                    .and_then(|season| season.known)
                    .and_then(|known| known.cycling_hours),
            )
            .into(),
            Cell::number(asked_of.max_cooling_cycling_share),
            asked_of.max_cooling_cycling_share < 1.0 && season.is_some(),
        ),
        Requirement::KeepsDry => (
            "share of the cooling hours that are humid, at most".to_owned(),
            share(
                season
                    .and_then(|season| season.known)
                    .and_then(|known| known.humidity)
                    .map(|humidity| humidity.humid_hours),
            )
            .into(),
            Cell::number(asked_of.max_humid_share),
            asked_of.max_humid_share < 1.0 && season.is_some() && brief.without_call().is_some(),
        ),
        Requirement::OwnCriteria => (String::new(), Cell::Missing, Cell::Missing, false),
    };
    vec![
        Cell::Word(name),
        value,
        limit,
        Cell::word(outcome(asked, findings)),
    ]
}

/// A criterion of the designer's or purchaser's own.
fn own(subject: &Subject<'_>, criterion: &Criterion) -> Vec<Cell> {
    let heating = subject.brief.heating_curves(subject.unit);
    let cooling = CoolingCurves::of(subject.unit);
    let found = reading(criterion, subject.unit, heating.as_ref(), cooling.as_ref());
    let (value, outcome) = match &found {
        CriterionReading::Unpublished => (Cell::Missing, "not known"),
        CriterionReading::Found(value) => (
            match value {
                BoundValue::Number(number) => Cell::Number(Value::from(*number)),
                BoundValue::Text(_) | BoundValue::Flag(_) => Cell::Word(value.to_string()),
            },
            if keeps(value, &criterion.bound) {
                "holds"
            } else {
                "fails"
            },
        ),
    };
    let place = criterion.at.map_or_else(String::new, |at| {
        format!(
            ", {} speed at {} °C",
            criterion.speed.name(),
            fixed(at.0, 1)
        )
    });
    vec![
        Cell::Word(format!("{}{place}", criterion.label())),
        value,
        Cell::Word(criterion.bound.words(criterion.value, UnitSystem::Si)),
        Cell::word(outcome),
    ]
}
