//! One heating hour, in the case that applies: at its maximum, between speeds, or cycling.

use super::heating_balance::load_at;
use super::reading::Reading;
use super::typical::median;
use super::{Authority, Measure, Part, Step, Subject};
use crate::equipment::{SpeedsAt, Turndown};
use crate::heating::{
    HeatPerformance, HeatingAt, HeatingCurves, HeatingHour, Running, heating_hour,
    neighbouring_speeds, part_load_factor,
};
use crate::quantity::Celsius;

pub(super) fn parts(subject: &Subject<'_>, curves: &HeatingCurves) -> Vec<Part> {
    let load = &subject.brief.house().heating.load;
    let of_winter = subject.brief.states().and_then(|states| {
        median(
            states
                .iter()
                .filter(|state| state.outdoor < load.zero_load_outdoor),
        )
    });
    let (outdoor, why) = match of_winter {
        Some(state) => (
            state.outdoor,
            "the state in the middle of the heating hours",
        ),
        None => (
            load.design_outdoor + (load.zero_load_outdoor - load.design_outdoor) * 0.5,
            "halfway between design and zero load, for want of a climate",
        ),
    };
    let words = super::reading_words(outdoor);
    let mut parts = vec![Part::Words(format!(
        "One hour at {words} °C outdoors, {why}:"
    ))];
    parts.extend(steps(subject, curves, outdoor).into_iter().map(Part::Step));
    parts
}

fn steps(subject: &Subject<'_>, curves: &HeatingCurves, outdoor: Celsius) -> Vec<Step> {
    let load = subject.brief.house().heating.load.at(outdoor);
    let at = curves.at(outdoor);
    let hour = heating_hour(load, &at, curves.degradation);
    let mut steps = vec![load_at(subject, outdoor)];
    let HeatingAt::Runs(speeds) = at else {
        steps.push(
            Step::new("What the unit does", Authority::OurRule)
                .reads("B", hour.backup)
                .note(if hour.running == Running::LockedOut {
                    "below its operating limit it stands still, and all the load is left to backup heat"
                } else {
                    "nothing is published here: no credit is given, and all the load is counted as backup heat"
                }),
        );
        return steps;
    };
    let reading =
        |title: &str, symbol: &'static str, of: fn(&HeatPerformance) -> Option<f64>| Reading {
            title: format!("{title} there"),
            symbol,
            measure: Measure::Kilowatts,
            of,
        };
    let capacity: OfPoint = |performance| Some(performance.capacity.0);
    let power: OfPoint = |performance| Some(performance.power.0);
    let maximum = curves.speeds.maximum();
    steps.extend(reading("Largest capacity", "C_max", capacity).step(maximum, outdoor));
    if curves.speeds.minimum().is_some() {
        steps.extend(
            reading("Smallest capacity", "C_min", capacity).minimum_step(&curves.speeds, outdoor),
        );
    }
    match hour.running {
        Running::Flat => {
            steps.extend(reading("Electric input", "P", power).step(maximum, outdoor));
            steps.push(
                Step::new("Heat left to the backup", Authority::AppendixM1)
                    .equation("B", "Q - C_max")
                    .with("Q", hour.load)
                    .with("C_max", hour.delivered)
                    .gives(hour.backup)
                    .note("the load is above the maximum: the unit runs flat out"),
            );
        }
        Running::Modulating => {
            steps.extend(neighbours(curves, &speeds, &hour, outdoor));
            steps.extend(modulating(&hour, &speeds));
        }
        Running::Cycling => {
            steps.extend(match curves.speeds.minimum() {
                Some(_) => reading("Electric input at the minimum", "P_min", power)
                    .minimum_step(&curves.speeds, outdoor),
                None => {
                    reading("Electric input at the maximum", "P_max", power).step(maximum, outdoor)
                }
            });
            steps.extend(cycling(&hour, &speeds, curves));
        }
        Running::LockedOut | Running::Unproven => {}
    }
    steps
}

/// How a quantity is got from a point.
type OfPoint = fn(&HeatPerformance) -> Option<f64>;

/// The steps that read capacity and input of the two speeds between which the load lies.
fn neighbours(
    curves: &HeatingCurves,
    speeds: &SpeedsAt<HeatPerformance>,
    hour: &HeatingHour,
    outdoor: Celsius,
) -> Vec<Step> {
    let [slower, faster] = neighbouring_speeds(speeds, hour.load);
    let read = |performance: HeatPerformance, words: &str, letter: &str| {
        let quantities: [(&str, &str, OfPoint); 2] = [
            ("Capacity", "C", |performance| Some(performance.capacity.0)),
            ("Electric input", "P", |performance| {
                Some(performance.power.0)
            }),
        ];
        quantities
            .into_iter()
            .filter_map(|(name, symbol, of)| {
                let symbol = format!("{symbol}_{letter}");
                let reading = Reading {
                    title: format!("{name} of the {words} neighbouring speed"),
                    symbol: &symbol,
                    measure: Measure::Kilowatts,
                    of,
                };
                if performance == speeds.maximum {
                    reading.step(curves.speeds.maximum(), outdoor)
                } else if speeds.rated == Some(performance) {
                    reading.step(curves.speeds.rated()?, outdoor)
                } else {
                    reading.minimum_step(&curves.speeds, outdoor)
                }
            })
            .collect::<Vec<_>>()
    };
    let mut steps = read(slower, "slower", "s");
    steps.extend(read(faster, "faster", "f"));
    steps
}

fn modulating(hour: &HeatingHour, speeds: &SpeedsAt<HeatPerformance>) -> Vec<Step> {
    let [slower, faster] = neighbouring_speeds(speeds, hour.load);
    let cop = hour.load / hour.input;
    vec![
        Step::new(
            "COP of the slower neighbouring speed",
            Authority::Definition,
        )
        .equation("COP_s", "C_s / P_s")
        .with("C_s", slower.capacity)
        .with("P_s", slower.power)
        .gives(slower.cop()),
        Step::new(
            "COP of the faster neighbouring speed",
            Authority::Definition,
        )
        .equation("COP_f", "C_f / P_f")
        .with("C_f", faster.capacity)
        .with("P_f", faster.power)
        .gives(faster.cop()),
        Step::new("COP at the load", Authority::AppendixM1)
            .equation("COP", "COP_s + (COP_f - COP_s) · (Q - C_s) / (C_f - C_s)")
            .with("COP_s", slower.cop())
            .with("COP_f", faster.cop())
            .with("Q", hour.load)
            .with("C_s", slower.capacity)
            .with("C_f", faster.capacity)
            .gives(cop)
            .note("the load lies between two speeds; COP goes linearly with capacity between them"),
        Step::new("Electric input", Authority::Definition)
            .equation("P", "Q / COP")
            .with("Q", hour.load)
            .with("COP", cop)
            .gives(hour.input),
    ]
}

fn cycling(
    hour: &HeatingHour,
    speeds: &SpeedsAt<HeatPerformance>,
    curves: &HeatingCurves,
) -> Vec<Step> {
    let degradation = curves.degradation;
    let (capacity, power, why) = match curves.speeds.turndown() {
        Turndown::Known => (
            "C_min",
            "P_min",
            "the load is below the minimum: the unit runs on and off",
        ),
        Turndown::SingleSpeed => (
            "C_max",
            "P_max",
            "the load is below its one speed: the unit runs on and off",
        ),
        Turndown::Unknown => (
            "C_max",
            "P_max",
            "no minimum is published: how far it turns down is unknown, and its energy is counted as of one speed",
        ),
    };
    let run_fraction = hour.load / speeds.minimum.capacity;
    let factor = part_load_factor(degradation, run_fraction);
    vec![
        Step::new("Run fraction", Authority::AppendixM1)
            .equation("X", &format!("Q / {capacity}"))
            .with("Q", hour.load)
            .with(capacity, speeds.minimum.capacity)
            .gives(run_fraction)
            .note(why),
        Step::new("Part-load factor", Authority::AppendixM1)
            .equation("PLF", "1 - C_D · (1 - X)")
            .with("C_D", degradation)
            .with("X", run_fraction)
            .gives(factor)
            .note("what starting and stopping costs; C_D is 0.25 where none is declared"),
        Step::new("Electric input", Authority::AppendixM1)
            .equation("P", &format!("X · {power} / PLF"))
            .with("X", run_fraction)
            .with(power, speeds.minimum.power)
            .with("PLF", factor)
            .gives(hour.input),
    ]
}
