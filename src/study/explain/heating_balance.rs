//! The balance point, solved from its two straight lines.

use super::{Authority, Measure, Step, Subject, Value};
use crate::equipment::CurvePlace;
use crate::heating::{BalancePoint, HeatPerformance, HeatingCurves};
use crate::quantity::{Celsius, Kilowatts};

const TITLE: &str = "Balance point: where load and largest capacity meet";

pub(super) fn steps(subject: &Subject<'_>, curves: &HeatingCurves) -> Vec<Step> {
    let load = &subject.brief.house().heating.load;
    match subject.judged.heating.balance_point {
        BalancePoint::At(balance) => crossing(subject, curves, balance),
        BalancePoint::AtOperatingLimit(limit) => {
            let carried = curves
                .speeds
                .maximum()
                .at(limit)
                .map_or(Kilowatts::ZERO, |performance| performance.capacity);
            vec![load_at(subject, limit).note(format!(
                "down to its operating limit the unit delivers up to {:.2} kW; there it stops, and the limit counts as the balance point",
                carried.0
            ))]
        }
        BalancePoint::BelowColdestPoint(coldest) => {
            let carried = curves
                .speeds
                .maximum()
                .at(coldest)
                .map_or(Kilowatts::ZERO, |performance| performance.capacity);
            vec![load_at(subject, coldest).note(format!(
                "the unit delivers up to {:.2} kW at its coldest published point and carries the load there: the balance point lies below {} °C, where nothing is published",
                carried.0, coldest.0
            ))]
        }
        BalancePoint::Unproven => vec![Step::new(TITLE, Authority::OurRule).note(format!(
            "unknown: nothing is published below {} °C",
            load.zero_load_outdoor.0
        ))],
    }
}

/// The load at a temperature.
pub(super) fn load_at(subject: &Subject<'_>, outdoor: Celsius) -> Step {
    let load = &subject.brief.house().heating.load;
    Step::new(
        format!("Load at {} °C", super::reading_words(outdoor)),
        Authority::AppendixM1,
    )
    .equation("Q", "Q_d · (T_0 - T) / (T_0 - T_d)")
    .with("Q_d", load.design_load)
    .with("T_0", load.zero_load_outdoor)
    .with("T", outdoor)
    .with("T_d", load.design_outdoor)
    .gives(load.at(outdoor))
}

fn crossing(subject: &Subject<'_>, curves: &HeatingCurves, balance: Celsius) -> Vec<Step> {
    let load = &subject.brief.house().heating.load;
    let maximum = curves.speeds.maximum();
    let slope_of_load = load.design_load.0 / (load.zero_load_outdoor - load.design_outdoor).0;
    let mut steps = Vec::new();
    // The straight piece of the capacity curve on which the crossing lies, as a point and a slope.
    let (start, slope) = match maximum.place(balance) {
        CurvePlace::AtPoint(point) => {
            steps.push(load_at(subject, balance).note(format!(
                "the capacity published there is {:.3} kW: the lines meet at this very point",
                point.1.capacity.0
            )));
            return steps;
        }
        CurvePlace::Between(a, b) => (a, steepness(&mut steps, a, b)),
        CurvePlace::Continued {
            inner,
            last,
            limited,
        } if limited == balance => (inner, steepness(&mut steps, inner, last)),
        CurvePlace::Held(only) => (only, 0.0),
        CurvePlace::Continued { .. } => match maximum.at(balance) {
            Some(held) => ((balance, held), 0.0),
            None => return steps,
        },
        CurvePlace::Unproven => return steps,
    };
    let solved = (slope_of_load * load.zero_load_outdoor.0 - start.1.capacity.0
        + slope * start.0.0)
        / (slope_of_load + slope);
    let step = Step::new(TITLE, Authority::CommonPractice);
    if (solved - balance.0).abs() > 1e-6 {
        steps.push(
            step.reads("T_b", balance)
                .note("found by halving, for the continued line was trimmed to what is credible"),
        );
        return steps;
    }
    steps.push(
        step.equation("T_b", "(q · T_0 - C_1 + c · T_1) / (q + c)")
            .with("q", Value::new(slope_of_load, Measure::KilowattsPerKelvin))
            .with("T_0", load.zero_load_outdoor)
            .with("C_1", start.1.capacity)
            .with("c", Value::new(slope, Measure::KilowattsPerKelvin))
            .with("T_1", start.0)
            .gives(balance)
            .note("from q · (T_0 - T_b) = C_1 + c · (T_b - T_1); colder than this, backup heat is needed"),
    );
    steps
}

fn steepness(
    steps: &mut Vec<Step>,
    a: (Celsius, HeatPerformance),
    b: (Celsius, HeatPerformance),
) -> f64 {
    let slope = (b.1.capacity - a.1.capacity).0 / (b.0 - a.0).0;
    steps.push(
        Step::new(
            "Capacity line: what each kelvin warmer adds",
            Authority::AppendixM1,
        )
        .equation("c", "(C_2 - C_1) / (T_2 - T_1)")
        .with("C_1", a.1.capacity)
        .with("C_2", b.1.capacity)
        .with("T_1", a.0)
        .with("T_2", b.0)
        .gives(Value::new(slope, Measure::KilowattsPerKelvin))
        .note("on the straight piece of the curve where the lines meet"),
    );
    slope
}
