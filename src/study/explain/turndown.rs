//! Turndown, explained: the coil, what the minimum removes, from where down it cycles, and how long.

use super::cycling::{latent_steps, run_fraction_step};
use super::indoor_air::{humidity_ratio_step, split_steps};
use super::reading::Reading;
use super::typical::median;
use super::{
    Authority, Bar, Cell, Line, Mark, Measure, Part, Picture, Step, Subject, Table, reading_words,
};
use crate::climate::{State, bin_hours};
use crate::cooling::{
    CoilPerformance, CoolingCurves, CoolingState, DESIGN_RELATIVE_HUMIDITY, Running,
};
use crate::criteria::cycles_below;
use crate::equipment::{Mode, Point, Speed, SpeedsAt, Turndown};
use crate::house::{Cooling, CoolingLoadLine};
use crate::quantity::{Celsius, Hours, Kilowatts};

pub(super) fn parts(subject: &Subject<'_>) -> Vec<Part> {
    let Some(cooling) = subject.brief.house().cooling else {
        return vec![Part::Words("The house is not cooled.".to_owned())];
    };
    let Some(curves) = CoolingCurves::of(subject.unit) else {
        return vec![Part::Words(
            "Nothing is published for cooling, so nothing can be computed.".to_owned(),
        )];
    };
    let mut parts: Vec<Part> = vec![points(subject).into()];
    if curves.turndown() == Turndown::Unknown {
        parts.push(Part::Words(
            "No minimum is published for cooling: how far the unit turns down is unknown, and so is from where down it \
             cycles. Ask the supplier for capacity, input, sensible heat ratio and airflow at the minimum speed. What follows \
             is the maximum."
                .to_owned(),
        ));
    }
    let design = cooling.load.design_outdoor;
    if let Some(point) = nearest_point(subject, &curves, design) {
        parts.push(Part::Words(format!(
            "The coil, from the published {} point at {} °C outdoors:",
            point.speed.name(),
            reading_words(point.outdoor)
        )));
        match super::coil::steps(point) {
            Ok(steps) => parts.extend(steps.into_iter().map(Part::Step)),
            Err(problem) => {
                parts.push(Part::Words(format!(
                    "No coil can have this sensible heat ratio: {problem}. Humidity is unknown."
                )));
            }
        }
    }
    parts.extend(at_design(subject, &curves, design));
    parts.extend(cycling_begins(subject, &curves, &cooling));
    parts.push(Part::Picture(capacity_picture(subject, &curves, &cooling)));
    parts.extend(season(subject));
    parts.extend(typical_cycling(subject, &curves, &cooling));
    parts
}

/// The published cooling points.
fn points(subject: &Subject<'_>) -> Table {
    let cooling = |point: &&Point| point.mode == Mode::Cooling;
    Table {
        title: "Published cooling points".to_owned(),
        head: vec![
            "speed",
            "outdoor °C",
            "indoor °C",
            "wet bulb °C",
            "capacity kW",
            "input kW",
            "SHR",
            "airflow L/s",
        ],
        rows: subject
            .unit
            .points
            .iter()
            .filter(cooling)
            .map(|point| {
                vec![
                    Cell::word(point.speed.name()),
                    Cell::number(point.outdoor),
                    point.indoor_dry_bulb.into(),
                    point.indoor_wet_bulb.into(),
                    Cell::number(point.capacity),
                    Cell::number(point.power),
                    point.sensible_heat_ratio.into(),
                    point.airflow.into(),
                ]
            })
            .collect(),
    }
}

/// The published point that serves as minimum, nearest to a temperature.
fn nearest_point<'a>(
    subject: &Subject<'a>,
    curves: &CoolingCurves,
    outdoor: Celsius,
) -> Option<&'a Point> {
    let speeds = curves.rating_speeds();
    let serving = speeds
        .serving(Speed::Minimum)
        .or_else(|| speeds.serving(Speed::Maximum))?;
    subject
        .unit
        .points
        .iter()
        .filter(|point| point.mode == Mode::Cooling && point.speed == serving)
        .min_by(|a, b| {
            let distance = |point: &Point| (point.outdoor - outdoor).0.abs();
            distance(a).total_cmp(&distance(b))
        })
}

/// The speeds on the room's air at an outdoor temperature.
pub(super) fn speeds_at(
    subject: &Subject<'_>,
    curves: &CoolingCurves,
    outdoor: Celsius,
    indoor: crate::quantity::HumidityRatio,
) -> Option<SpeedsAt<CoilPerformance>> {
    let speeds = curves.at(outdoor)?;
    Some(if speeds.varies() {
        speeds.at(subject.brief.room().wet_bulb(indoor))
    } else {
        speeds.base()
    })
}

/// The steps that read capacity, airflow and bypass factor of a speed at a temperature.
///
/// None where capacity is published over several wet bulbs of the room.
pub(super) fn reading_steps(curves: &CoolingCurves, speed: Speed, outdoor: Celsius) -> Vec<Step> {
    if curves.varies_with_wet_bulb() {
        return Vec::new();
    }
    let (at, name) = (reading_words(outdoor), speed.name());
    let speeds = curves.rating_speeds();
    let quantities: [Quantity<'_>; 3] = [
        (
            format!("Total capacity of the {name} at {at} °C"),
            "C",
            Measure::Kilowatts,
            |performance| Some(performance.capacity.0),
        ),
        (
            "Airflow there".to_owned(),
            "V",
            Measure::LitresPerSecond,
            |performance| Some(performance.airflow.0),
        ),
        (
            "Bypass factor there".to_owned(),
            "BF",
            Measure::Plain,
            |performance| performance.bypass_factor,
        ),
    ];
    quantities
        .into_iter()
        .filter_map(|(title, symbol, measure, of)| {
            let reading = Reading {
                title,
                symbol,
                measure,
                of,
            };
            match speed {
                Speed::Minimum => reading.minimum_step(speeds, outdoor),
                Speed::Rated => reading.step(speeds.rated()?, outdoor),
                Speed::Maximum => reading.step(speeds.maximum(), outdoor),
            }
        })
        .collect()
}

/// Title, symbol and unit of what is read off a cooling curve, and how it is got from a point.
type Quantity<'a> = (
    String,
    &'a str,
    Measure,
    fn(&CoilPerformance) -> Option<f64>,
);

/// What the minimum (the maximum, where no minimum is known) removes at the design temperature, at the set point and 50 % relative humidity.
fn at_design(subject: &Subject<'_>, curves: &CoolingCurves, design: Celsius) -> Vec<Part> {
    let room = subject.brief.room();
    let Some(speeds) = speeds_at(subject, curves, design, room.design) else {
        return vec![Part::Words(format!(
            "Nothing is published for {} °C, the cooling design temperature.",
            reading_words(design)
        ))];
    };
    let known = curves.turndown() != Turndown::Unknown;
    let (speed, performance) = if known {
        (Speed::Minimum, &speeds.minimum)
    } else {
        (Speed::Maximum, &speeds.maximum)
    };
    let mut parts = vec![Part::Words(format!(
        "What the {} removes at {} °C outdoors, the room at {} °C and 50 % relative humidity:",
        speed.name(),
        reading_words(design),
        reading_words(room.temperature)
    ))];
    parts.extend(
        reading_steps(curves, speed, design)
            .into_iter()
            .map(Part::Step),
    );
    if curves.varies_with_wet_bulb() {
        parts.push(Part::Words(
            "Capacity is published over several wet bulbs of the room, and taken between them at the room's own."
                .to_owned(),
        ));
    }
    parts.push(
        humidity_ratio_step(
            room,
            DESIGN_RELATIVE_HUMIDITY,
            room.design,
            "Humidity ratio of the room's air",
        )
        .into(),
    );
    parts.extend(
        split_steps(performance, room, room.design)
            .unwrap_or_default()
            .into_iter()
            .map(Part::Step),
    );
    parts
}

/// Sensible load at a temperature.
pub(super) fn load_step(load: &CoolingLoadLine, outdoor: Celsius) -> Step {
    Step::new(
        format!("Sensible load at {} °C", reading_words(outdoor)),
        Authority::CommonPractice,
    )
    .equation("Q_s", "Q_sd · (T - T_c0) / (T_cd - T_c0)")
    .with("Q_sd", load.design_sensible)
    .with("T", outdoor)
    .with("T_c0", load.zero_load_outdoor)
    .with("T_cd", load.design_outdoor)
    .gives(load.at(outdoor))
}

/// Sensible capacity of the minimum at the set point and 50 % relative humidity.
pub(super) fn minimum_sensible(
    subject: &Subject<'_>,
    curves: &CoolingCurves,
    outdoor: Celsius,
) -> Option<Kilowatts> {
    let room = subject.brief.room();
    let coil = speeds_at(subject, curves, outdoor, room.design)?
        .minimum
        .coil()?;
    Some(
        coil.split(room.temperature, room.design, &room.air)
            .sensible,
    )
}

pub(super) fn cycling_begins(
    subject: &Subject<'_>,
    curves: &CoolingCurves,
    cooling: &Cooling,
) -> Vec<Part> {
    if curves.turndown() == Turndown::Unknown {
        return Vec::new();
    }
    let load = &cooling.load;
    let title = "From which outdoor temperature down it cycles";
    let Some(below) = cycles_below(load, curves, subject.brief.room()) else {
        return vec![
            Step::new(title, Authority::CommonPractice)
                .note("never by this measure, or the coil is unknown: the minimum does not exceed the load")
                .into(),
        ];
    };
    let Some(minimum) = minimum_sensible(subject, curves, below) else {
        return Vec::new();
    };
    let at_below = load.at(below);
    if (at_below - minimum).0.abs() > 1e-6 {
        return vec![
            load_step(load, below)
                .note(format!(
                    "the minimum removes {:.2} kW there, more than the load: it cycles at every temperature with a call up to this one",
                    minimum.0
                ))
                .into(),
        ];
    }
    vec![
        Step::new(title, Authority::CommonPractice)
            .equation("T_x", "T_c0 + C_s · (T_cd - T_c0) / Q_sd")
            .with("T_c0", load.zero_load_outdoor)
            .with("C_s", minimum)
            .with("T_cd", load.design_outdoor)
            .with("Q_sd", load.design_sensible)
            .gives(below)
            .note("C_s is what the minimum removes, sensible, at that temperature, at the set point and 50 % relative humidity")
            .into(),
    ]
}

fn capacity_picture(subject: &Subject<'_>, curves: &CoolingCurves, cooling: &Cooling) -> Picture {
    let room = subject.brief.room();
    let load = &cooling.load;
    let hottest = curves
        .rating_speeds()
        .maximum()
        .severe_end()
        .max(load.design_outdoor);
    let sensible = |outdoor: Celsius, fastest: bool| {
        let speeds = speeds_at(subject, curves, outdoor, room.design)?;
        let performance = if fastest {
            speeds.maximum
        } else {
            speeds.minimum
        };
        let coil = performance.coil()?;
        Some(
            coil.split(room.temperature, room.design, &room.air)
                .sensible
                .0,
        )
    };
    let mut temperatures = Vec::new();
    let mut outdoor = load.zero_load_outdoor.0;
    while outdoor <= hottest.0.min(100.0) {
        temperatures.push(Celsius(outdoor));
        outdoor += 0.5;
    }
    let line = |name: &str, value: &dyn Fn(Celsius) -> Option<f64>| Line {
        name: name.to_owned(),
        points: temperatures
            .iter()
            .map(|&outdoor| (outdoor.0, value(outdoor).unwrap_or(f64::NAN)))
            .collect(),
    };
    let mut lines = vec![line("load", &|outdoor| Some(load.at(outdoor).0))];
    if curves.turndown() == Turndown::Known {
        lines.push(line("minimum", &|outdoor| sensible(outdoor, false)));
    }
    lines.push(line("maximum", &|outdoor| sensible(outdoor, true)));
    let below = cycles_below(load, curves, room).filter(|_| curves.turndown() != Turndown::Unknown);
    Picture::Lines {
        shows: super::Shows::Cooling,
        title: "Sensible capacity and load over outdoor temperature".to_owned(),
        axis: "kW sensible",
        lines,
        mark: below.map(|below| Mark {
            name: "cycles below".to_owned(),
            x: below.0,
            y: load.at(below).0,
        }),
    }
}

/// The summer's hours, and how many of them cycle.
fn season(subject: &Subject<'_>) -> Vec<Part> {
    let Some(season) = subject.judged.cooling.and_then(|figures| figures.season) else {
        return vec![Part::Words(
            "No climate is given, so no summer is summed.".to_owned(),
        )];
    };
    let Some(cycling) = season.known.and_then(|known| known.cycling_hours) else {
        return Vec::new();
    };
    let mut parts = vec![Part::Picture(hours_picture(subject))];
    if season.cooling_hours > Hours::ZERO {
        let largest = subject
            .brief
            .criteria()
            .requirements
            .max_cooling_cycling_share;
        parts.push(
            Step::new(
                "Share of the cooling hours in which it cycles",
                Authority::Climate,
            )
            .equation("S", "t_cycling / t_call")
            .with("t_cycling", cycling)
            .with("t_call", season.cooling_hours)
            .gives(cycling / season.cooling_hours)
            .note(format!(
                "at most {largest} is asked for (our default where the criteria say nothing)"
            ))
            .into(),
        );
    }
    parts
}

/// Every state with a call and whether the unit cycles in it.
fn states_with_call(subject: &Subject<'_>) -> Vec<(State, CoolingState)> {
    let curves = CoolingCurves::of(subject.unit);
    let mut found = Vec::new();
    let _ = subject
        .brief
        .cooling_season(curves.as_ref(), |state, outcome| {
            found.push((*state, *outcome));
        });
    found
}

/// The states with a call in which the unit runs in a way that `wanted` says.
pub(super) fn states_where(
    subject: &Subject<'_>,
    wanted: impl Fn(&crate::cooling::CoolingOperation) -> bool,
) -> Vec<State> {
    states_with_call(subject)
        .into_iter()
        .filter(
            |(_, outcome)| matches!(outcome, CoolingState::Runs(operation) if wanted(operation)),
        )
        .map(|(state, _)| state)
        .collect()
}

fn hours_picture(subject: &Subject<'_>) -> Picture {
    let all = states_where(subject, |_| true);
    let cycling = states_where(subject, |operation| {
        operation.delivery.running == Running::Cycling
    });
    let of_cycling = bin_hours(&cycling);
    let bars = bin_hours(&all)
        .into_iter()
        .map(|(outdoor, hours)| Bar {
            outdoor: outdoor.0,
            hours: hours.0,
            cycling: of_cycling
                .iter()
                .find(|(bin, _)| *bin == outdoor)
                .map_or(0.0, |(_, hours)| hours.0),
        })
        .collect();
    Picture::Hours {
        title: "Cooling hours by outdoor temperature (shaded: the unit cycles)".to_owned(),
        bars,
    }
}

/// One hour of cycling: run fraction, and what is left of the drying.
fn typical_cycling(subject: &Subject<'_>, curves: &CoolingCurves, cooling: &Cooling) -> Vec<Part> {
    if curves.turndown() == Turndown::Unknown {
        return Vec::new();
    }
    let cycling = states_where(subject, |operation| {
        operation.delivery.running == Running::Cycling
    });
    let Some(state) = median(&cycling) else {
        return Vec::new();
    };
    let room = subject.brief.room();
    let load = cooling.load.at(state.outdoor);
    let Some(minimum) = minimum_sensible(subject, curves, state.outdoor) else {
        return Vec::new();
    };
    let mut parts = vec![
        Part::Words(format!(
            "One hour in the middle of the cycling ones, {} °C outdoors, the room at 50 % relative humidity:",
            reading_words(state.outdoor)
        )),
        load_step(&cooling.load, state.outdoor).into(),
    ];
    if load >= minimum {
        parts.push(Part::Words(
            "At 50 % the minimum removes no more than the load; in the room's own, more humid or drier air it does."
                .to_owned(),
        ));
        return parts;
    }
    let run_fraction = load / minimum;
    parts.push(run_fraction_step(load, minimum, run_fraction).into());
    parts.extend(latent_steps(room, run_fraction).into_iter().map(Part::Step));
    parts
}
