//! Heating, explained: the published points, the design day, the balance point, one hour, the winter.

use super::reading::Reading;
use super::{
    Authority, Cell, Line, Mark, Measure, Part, Picture, Step, Subject, Table, Value,
    heating_balance, heating_hour, heating_season,
};
use crate::equipment::Speed;
use crate::heating::{BalancePoint, HeatPerformance, HeatingAt, HeatingCurves};
use crate::quantity::Celsius;

pub(super) fn parts(subject: &Subject<'_>) -> Vec<Part> {
    let brief = subject.brief;
    let Some(curves) = brief.heating_curves(subject.unit) else {
        return vec![Part::Words(
            "Nothing is published for heating, so nothing can be computed.".to_owned(),
        )];
    };
    let mut parts = vec![points(&curves).into()];
    parts.extend(load_steps(subject).map(Part::Step));
    parts.extend(capacity_steps(subject, &curves).into_iter().map(Part::Step));
    parts.extend(
        heating_balance::steps(subject, &curves)
            .into_iter()
            .map(Part::Step),
    );
    parts.push(Part::Picture(capacity_picture(subject, &curves)));
    parts.extend(heating_hour::parts(subject, &curves));
    parts.extend(heating_season::parts(subject, &curves));
    parts
}

/// What the curves are drawn through, as they serve.
fn points(curves: &HeatingCurves) -> Table {
    let speeds = &curves.speeds;
    let by_speed = [
        (Speed::Minimum, speeds.minimum()),
        (Speed::Rated, speeds.rated()),
        (Speed::Maximum, Some(speeds.maximum())),
    ];
    let rows = by_speed
        .into_iter()
        .filter_map(|(speed, curve)| Some((speed, curve?)))
        .flat_map(|(speed, curve)| {
            let published_as = speeds.serving(speed).unwrap_or(speed);
            let name = if published_as == speed {
                speed.name().to_owned()
            } else {
                format!("{}, serves as {}", published_as.name(), speed.name())
            };
            curve.points().iter().map(move |&(outdoor, performance)| {
                vec![
                    Cell::word(name.clone()),
                    Cell::number(outdoor),
                    Cell::number(performance.capacity),
                    Cell::number(performance.power),
                    Cell::number(performance.cop()),
                ]
            })
        })
        .collect();
    Table {
        title: "Published heating points, at the house's indoor temperature".to_owned(),
        head: vec!["speed", "outdoor °C", "capacity kW", "input kW", "COP"],
        rows,
    }
}

pub(super) fn load_steps(subject: &Subject<'_>) -> impl Iterator<Item = Step> {
    let load = subject.brief.house().heating.load;
    let slope = load.design_load.0 / (load.zero_load_outdoor - load.design_outdoor).0;
    [
        Step::new("Load at the design temperature", Authority::House)
            .reads("Q_d", load.design_load)
            .note(format!(
                "the designer's load calculation, at T_d = {} °C outdoors",
                load.design_outdoor.0
            )),
        Step::new(
            "Load line: what each kelvin colder adds",
            Authority::AppendixM1,
        )
        .equation("q", "Q_d / (T_0 - T_d)")
        .with("Q_d", load.design_load)
        .with("T_0", load.zero_load_outdoor)
        .with("T_d", load.design_outdoor)
        .gives(Value::new(slope, Measure::KilowattsPerKelvin))
        .note("a straight line, zero at T_0, where gains alone keep the house warm"),
    ]
    .into_iter()
}

pub(super) fn capacity_steps(subject: &Subject<'_>, curves: &HeatingCurves) -> Vec<Step> {
    let heating = &subject.brief.house().heating;
    let design = heating.load.design_outdoor;
    let title = format!("Largest capacity at {} °C", design.0);
    match curves.at(design) {
        HeatingAt::LockedOut => {
            let limit = curves.operates_to.unwrap_or(design);
            return vec![
                Step::new(title, Authority::Published)
                    .reads("C", crate::quantity::Kilowatts::ZERO)
                    .note(format!(
                        "it is declared to run down to {} °C only, and stands still below",
                        limit.0
                    )),
            ];
        }
        HeatingAt::Unproven => {
            return vec![Step::new(title, Authority::OurRule).note(format!(
                "not published: the coldest point is at {} °C, and no credit is given for colder weather",
                curves.speeds.maximum().severe_end().0
            ))];
        }
        HeatingAt::Runs(_) => {}
    }
    let maximum = curves.speeds.maximum();
    let capacity = Reading::<HeatPerformance> {
        title,
        symbol: "C",
        measure: Measure::Kilowatts,
        of: |performance| Some(performance.capacity.0),
    };
    let power = Reading::<HeatPerformance> {
        title: format!("Electric input at {} °C", design.0),
        symbol: "P",
        measure: Measure::Kilowatts,
        of: |performance| Some(performance.power.0),
    };
    let mut steps: Vec<Step> = [capacity.step(maximum, design), power.step(maximum, design)]
        .into_iter()
        .flatten()
        .collect();
    if let Some(performance) = maximum.at(design) {
        steps.push(
            Step::new(
                "COP at full output on the design day",
                Authority::Definition,
            )
            .equation("COP", "C / P")
            .with("C", performance.capacity)
            .with("P", performance.power)
            .gives(performance.cop()),
        );
    }
    if let (Some(capacity), Some(margin)) = (
        subject.judged.heating.capacity_at_design,
        subject.judged.heating.margin(),
    ) {
        let mut step = Step::new("Margin above the design load", Authority::Definition)
            .equation("M", "C / Q_d - 1")
            .with("C", capacity)
            .with("Q_d", heating.load.design_load)
            .gives(margin);
        step.note = if heating.reserve > 0.0 {
            format!(
                "{:+.1} %; the house asks for {:.0} % in reserve",
                margin * 100.0,
                heating.reserve * 100.0
            )
        } else if margin >= 0.0 {
            format!(
                "{:+.1} %: the load is carried without backup",
                margin * 100.0
            )
        } else {
            format!("{:+.1} %: the load is not carried", margin * 100.0)
        };
        steps.push(step);
    }
    steps
}

/// Temperatures at which curves are drawn: every half kelvin from a little below what matters to the zero-load one.
fn drawn(subject: &Subject<'_>, curves: &HeatingCurves) -> Vec<Celsius> {
    let load = &subject.brief.house().heating.load;
    let coldest = curves
        .speeds
        .maximum()
        .severe_end()
        .min(load.design_outdoor);
    let first = (coldest.0 - 2.0).floor().max(-100.0);
    let mut temperatures = Vec::new();
    let mut outdoor = first;
    while outdoor < load.zero_load_outdoor.0.min(100.0) {
        temperatures.push(Celsius(outdoor));
        outdoor += 0.5;
    }
    temperatures.push(load.zero_load_outdoor);
    temperatures
}

/// Largest and smallest capacity against the load line, the balance point marked.
pub(super) fn capacity_picture(subject: &Subject<'_>, curves: &HeatingCurves) -> Picture {
    let load = &subject.brief.house().heating.load;
    let temperatures = drawn(subject, curves);
    let line = |name: &str, value: &dyn Fn(Celsius) -> Option<f64>| Line {
        name: name.to_owned(),
        points: temperatures
            .iter()
            .map(|&outdoor| (outdoor.0, value(outdoor).unwrap_or(f64::NAN)))
            .collect(),
    };
    let runs = |outdoor| match curves.at(outdoor) {
        HeatingAt::Runs(speeds) => Some(speeds),
        HeatingAt::LockedOut | HeatingAt::Unproven => None,
    };
    let mut lines = vec![
        line("maximum", &|outdoor| {
            runs(outdoor).map(|speeds| speeds.maximum.capacity.0)
        }),
        line("load", &|outdoor| Some(load.at(outdoor).0)),
    ];
    if curves.speeds.minimum().is_some() {
        lines.push(line("minimum", &|outdoor| {
            runs(outdoor).map(|speeds| speeds.minimum.capacity.0)
        }));
    }
    let mark = match subject.judged.heating.balance_point {
        BalancePoint::At(balance) => Some(("balance point", balance)),
        BalancePoint::AtOperatingLimit(limit) => Some(("it stops", limit)),
        BalancePoint::BelowColdestPoint(_) | BalancePoint::Unproven => None,
    };
    Picture::Lines {
        shows: super::Shows::Heating,
        title: "Capacity and load over outdoor temperature".to_owned(),
        axis: "kW",
        lines,
        mark: mark.map(|(name, balance)| Mark {
            name: name.to_owned(),
            x: balance.0,
            y: load.at(balance).0,
        }),
    }
}
