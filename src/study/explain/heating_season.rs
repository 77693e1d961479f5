//! The winter: the same hour's rule summed over the climate, band by band, and what follows from the sums.

use std::collections::BTreeMap;

use super::typical::band;
use super::{Authority, Bar, Cell, Line, Measure, Part, Picture, Step, Subject, Table, Value};
use crate::climate::State;
use crate::heating::{HeatingCurves, HeatingSeason, Running, heating_hour, heating_season};
use crate::quantity::{Celsius, Hours};

pub(super) fn parts(subject: &Subject<'_>, curves: &HeatingCurves) -> Vec<Part> {
    let (Some(states), Some(season)) = (subject.brief.states(), subject.judged.heating.season)
    else {
        return vec![Part::Words(
            "No climate is given, so no winter is summed.".to_owned(),
        )];
    };
    let load = &subject.brief.house().heating.load;
    let heating: Vec<State> = states
        .iter()
        .filter(|state| state.outdoor < load.zero_load_outdoor)
        .copied()
        .collect();
    let mut parts: Vec<Part> = vec![bands(subject, curves, &heating, &season).into()];
    parts.extend(sums(&season).into_iter().map(Part::Step));
    parts.push(Part::Picture(hours_picture(subject, curves, &heating)));
    parts.extend(cop_picture(subject, curves, &heating).map(Part::Picture));
    parts
}

fn row(name: String, season: &HeatingSeason) -> Vec<Cell> {
    vec![
        Cell::Word(name),
        Cell::number(season.heating_hours),
        Cell::number(season.load),
        Cell::number(season.heat_pump),
        Cell::number(season.electricity),
        Cell::number(season.backup),
        Cell::number(season.cycling_hours),
    ]
}

/// The winter in bands of five kelvins; the last row adds them up.
fn bands(
    subject: &Subject<'_>,
    curves: &HeatingCurves,
    heating: &[State],
    season: &HeatingSeason,
) -> Table {
    let load = &subject.brief.house().heating.load;
    let mut by_band: Vec<(f64, Vec<State>)> = Vec::new();
    for state in heating {
        let edge = band(state.outdoor);
        match by_band
            .iter_mut()
            .find(|(there, _)| (there - edge).abs() < 0.5)
        {
            Some((_, states)) => states.push(*state),
            None => by_band.push((edge, vec![*state])),
        }
    }
    by_band.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut rows: Vec<Vec<Cell>> = by_band
        .iter()
        .map(|(edge, states)| {
            let sums = heating_season(load, Some(curves), states);
            row(format!("{edge} to {}", edge + 5.0), &sums)
        })
        .collect();
    rows.push(row("all".to_owned(), season));
    Table {
        title: "The winter by outdoor temperature: hours times kW, state by state".to_owned(),
        head: vec![
            "outdoor °C",
            "hours",
            "load kWh",
            "pump kWh",
            "input kWh",
            "backup kWh",
            "cycling h",
        ],
        rows,
    }
}

fn sums(season: &HeatingSeason) -> Vec<Step> {
    let mut steps = Vec::new();
    if let Some(cop) = season.seasonal_cop() {
        steps.push(
            Step::new("Seasonal COP", Authority::Definition)
                .equation("SCOP", "H / E")
                .with("H", season.heat_pump)
                .with("E", season.electricity)
                .gives(cop)
                .note(
                    "heat by the heat pump over the electricity that it takes; backup stands apart",
                ),
        );
    }
    if let Some(share) = season.share_carried() {
        steps.push(
            Step::new(
                "Share of the winter's heat that it carries",
                Authority::Definition,
            )
            .equation("S", "H / L")
            .with("H", season.heat_pump)
            .with("L", season.load)
            .gives(share),
        );
    }
    steps.push(
        Step::new("Hours below the balance point", Authority::Climate)
            .reads("t_b", season.hours_below_balance)
            .note(format!(
                "of {:.0} heating hours; {:.0} h more are colder than anything published",
                season.heating_hours.0, season.unproven_hours.0
            )),
    );
    steps.push(
        Step::new("Heat left to the backup in a year", Authority::Climate)
            .reads("B", Value::new(season.backup.0, Measure::KilowattHours)),
    );
    steps
}

/// Hours and cycling hours by whole degrees, over the winter.
fn hours_picture(subject: &Subject<'_>, curves: &HeatingCurves, heating: &[State]) -> Picture {
    let load = &subject.brief.house().heating.load;
    let mut bars: BTreeMap<i64, (Hours, Hours)> = BTreeMap::new();
    for state in heating {
        let hour = heating_hour(
            load.at(state.outdoor),
            &curves.at(state.outdoor),
            curves.degradation,
        );
        #[expect(
            clippy::cast_possible_truncation,
            reason = "the cast saturates, and weather stays far inside the range"
        )]
        let bin = (state.outdoor.0 / 2.0).round() as i64;
        let bar = bars.entry(bin).or_default();
        bar.0 += state.hours;
        if hour.running == Running::Cycling {
            bar.1 += state.hours;
        }
    }
    Picture::Hours {
        title: "Heating hours by outdoor temperature (shaded: the unit cycles)".to_owned(),
        bars: bars
            .into_iter()
            .map(|(bin, (hours, cycling))| Bar {
                #[expect(clippy::cast_precision_loss, reason = "a small count")]
                outdoor: bin as f64 * 2.0,
                hours: hours.0,
                cycling: cycling.0,
            })
            .collect(),
    }
}

/// COP at the load, over the winter's temperatures.
fn cop_picture(
    subject: &Subject<'_>,
    curves: &HeatingCurves,
    heating: &[State],
) -> Option<Picture> {
    let load = &subject.brief.house().heating.load;
    let coldest = heating.first()?.outdoor;
    let mut points = Vec::new();
    let mut outdoor = coldest.0.floor();
    while outdoor < load.zero_load_outdoor.0 - 0.25 {
        let at = Celsius(outdoor);
        let hour = heating_hour(load.at(at), &curves.at(at), curves.degradation);
        let cop = if hour.input.0 > 0.0 {
            hour.delivered / hour.input
        } else {
            f64::NAN
        };
        points.push((outdoor, cop));
        outdoor += 0.5;
    }
    Some(Picture::Lines {
        shows: super::Shows::Cop,
        title: "COP at the house's load".to_owned(),
        axis: "COP",
        lines: vec![Line {
            name: "COP".to_owned(),
            points,
        }],
        mark: None,
    })
}
