//! What a learner works out with one unit in one house: the questions' numbers, their answers, and the way to each.

use super::cycling::{latent_steps, run_fraction_step};
use super::humidity::litres_a_day;
use super::turndown::{cycling_begins, load_step, minimum_sensible};
use super::{Part, Step, Subject, heating, heating_balance};
use crate::climate::State;
use crate::cooling::CoolingCurves;
use crate::criteria::cycles_below;
use crate::equipment::{Turndown, Unit};
use crate::heating::BalancePoint;
use crate::quantity::{Celsius, KilogramsPerHour, Kilowatts};
use crate::study::{Brief, Judged};

/// How much of the design load is left where the last question makes the load line flatter.
const FLATTER: f64 = 0.8;

/// The numbers of a teaching sheet.
#[derive(Debug)]
pub struct Lesson {
    /// The unit with its figures and verdict.
    pub judged: Judged,
    /// A whole outdoor temperature between the design and the zero-load one, and the load there.
    pub load_at: (Celsius, Kilowatts),
    /// The way to that load.
    pub load_steps: Vec<Step>,
    /// The way to the capacity at the design temperature and the margin.
    pub capacity_steps: Vec<Step>,
    /// The way to the balance point.
    pub balance_steps: Vec<Step>,
    /// Cycling in summer; `None` where the house is not cooled or nothing is known of the unit's turndown.
    pub cycling: Option<CyclingLesson>,
    /// Water in summer; `None` where humidity is not judged, or not known.
    pub water: Option<WaterLesson>,
    /// What a flatter load line would change.
    pub flatter: FlatterLesson,
}

/// Cycling in summer.
#[derive(Debug)]
pub struct CyclingLesson {
    /// From which outdoor temperature down it cycles; `None` where it never does.
    pub below: Option<Celsius>,
    /// The way to that.
    pub below_parts: Vec<Part>,
    /// A whole outdoor temperature with a call for cooling.
    pub at: Celsius,
    /// The sensible load there.
    pub load: Kilowatts,
    /// What the minimum removes there, sensible, at the set point and 50 % relative humidity.
    pub minimum: Kilowatts,
    /// The way to the run-time fraction, 1 where it runs through.
    pub run_steps: Vec<Step>,
}

impl CyclingLesson {
    /// The run-time fraction at the temperature asked for.
    #[must_use]
    pub fn run_fraction(&self) -> f64 {
        (self.load / self.minimum).min(1.0)
    }
}

/// Water in summer.
#[derive(Debug)]
pub struct WaterLesson {
    /// The state that is worked out.
    pub state: State,
    /// What would have to be taken out of the room besides, to hold the limit.
    pub need: KilogramsPerHour,
    /// The way to it.
    pub parts: Vec<Part>,
}

/// The same unit in the same house with a flatter load line.
#[derive(Debug)]
pub struct FlatterLesson {
    /// Share of the design load that is left.
    pub share: f64,
    /// The unit, judged there.
    pub judged: Judged,
    /// The design load there.
    pub load: Kilowatts,
    /// The way to the balance point there.
    pub steps: Vec<Step>,
}

/// Makes a lesson of a unit in a house.
#[must_use]
pub fn lesson(brief: &Brief, unit: &Unit) -> Lesson {
    let (judged, each) = brief.judge_each(unit);
    let subject = Subject {
        brief,
        unit,
        judged: &judged,
        each: &each,
    };
    let load = &brief.house().heating.load;
    let middle = Celsius(f64::midpoint(load.design_outdoor.0, load.zero_load_outdoor.0).round());
    let curves = brief.heating_curves(unit);
    let (capacity_steps, balance_steps) = curves.as_ref().map_or_else(Default::default, |curves| {
        (
            heating::capacity_steps(&subject, curves),
            heating_balance::steps(&subject, curves),
        )
    });
    Lesson {
        load_at: (middle, load.at(middle)),
        load_steps: heating::load_steps(&subject)
            .chain([heating_balance::load_at(&subject, middle)])
            .collect(),
        capacity_steps,
        balance_steps,
        cycling: cycling(&subject),
        water: litres_a_day(&subject).map(|found| WaterLesson {
            state: found.state,
            need: found.need,
            parts: found.parts,
        }),
        flatter: flatter(brief, unit),
        judged,
    }
}

fn cycling(subject: &Subject<'_>) -> Option<CyclingLesson> {
    let cooling = subject.brief.house().cooling?;
    let curves =
        CoolingCurves::of(subject.unit).filter(|curves| curves.turndown() != Turndown::Unknown)?;
    let room = subject.brief.room();
    let below = cycles_below(&cooling.load, &curves, room);
    // Halfway up to where it no longer cycles, so that there is a fraction to find; else halfway to the design day.
    let top = below.unwrap_or(cooling.load.design_outdoor);
    let zero = cooling.load.zero_load_outdoor;
    let at = Celsius(f64::midpoint(zero.0, top.0).round());
    let at = if at > zero {
        at
    } else {
        Celsius(zero.0.floor() + 1.0)
    };
    let load = cooling.load.at(at);
    let minimum =
        minimum_sensible(subject, &curves, at).filter(|&minimum| minimum > Kilowatts::ZERO)?;
    let mut run_steps = vec![load_step(&cooling.load, at)];
    if load < minimum {
        run_steps.push(run_fraction_step(load, minimum, load / minimum));
        run_steps.extend(latent_steps(room, load / minimum));
    }
    Some(CyclingLesson {
        below,
        below_parts: cycling_begins(subject, &curves, &cooling),
        at,
        load,
        minimum,
        run_steps,
    })
}

fn flatter(brief: &Brief, unit: &Unit) -> FlatterLesson {
    let mut house = brief.house().clone();
    let load = house.heating.load.design_load * FLATTER;
    house.heating.load.design_load = load;
    let flatter = brief.with_house(house);
    let (judged, each) = flatter.judge_each(unit);
    let subject = Subject {
        brief: &flatter,
        unit,
        judged: &judged,
        each: &each,
    };
    let mut steps: Vec<Step> = heating::load_steps(&subject).collect();
    if let Some(curves) = flatter.heating_curves(unit) {
        steps.extend(heating_balance::steps(&subject, &curves));
    }
    FlatterLesson {
        share: FLATTER,
        load,
        steps,
        judged,
    }
}

impl FlatterLesson {
    /// The balance point there.
    #[must_use]
    pub fn balance_point(&self) -> BalancePoint {
        self.judged.heating.balance_point
    }
}

#[cfg(test)]
mod tests {
    use super::super::example::{brief, house, unit};
    use super::*;
    use crate::study::Verdict;

    // By hand: halfway from -18 to 15 °C is -1.5, rounded away from zero -2 °C; 9.2 · 17 / 33 kW.
    #[test]
    fn the_numbers_of_a_lesson_are_those_of_the_verdict() {
        let brief = brief(house());
        let found = lesson(&brief, &unit("a"));
        assert_eq!(found.load_at.0, Celsius(-2.0));
        assert!((found.load_at.1.0 - 9.2 * 17.0 / 33.0).abs() < 1e-9);
        let last = found.capacity_steps.last().unwrap().result.unwrap().number;
        assert_eq!(Some(last), found.judged.heating.margin());
        let balance = found.balance_steps.last().unwrap().result.unwrap().number;
        assert_eq!(
            Some(Celsius(balance)),
            found.judged.heating.balance_point.temperature()
        );
    }

    #[test]
    fn the_run_time_fraction_is_load_over_minimum() {
        let brief = brief(house());
        let cycling = lesson(&brief, &unit("a")).cycling.unwrap();
        let below = cycling.below.unwrap();
        assert!(cycling.at < below && cycling.at > Celsius(19.0));
        let step = &cycling.run_steps[1];
        assert_eq!(step.result.unwrap().number, cycling.run_fraction());
        assert!(cycling.run_fraction() < 1.0);
    }

    #[test]
    fn a_flatter_line_is_judged_like_any_other() {
        let brief = brief(house());
        let found = lesson(&brief, &unit("a"));
        assert!(matches!(found.judged.verdict, Verdict::Rejected(_)));
        assert!((found.flatter.load.0 - 0.8 * 9.2).abs() < 1e-12);
        let mut flatter = house();
        flatter.heating.load.design_load = found.flatter.load;
        let judged = super::super::example::brief(flatter).judge(&unit("a"));
        assert_eq!(found.flatter.balance_point(), judged.heating.balance_point);
        assert!(found.flatter.judged.heating.margin() > found.judged.heating.margin());
    }

    #[test]
    fn water_is_what_the_state_lacks() {
        let brief = brief(house());
        let water = lesson(&brief, &unit("a")).water.unwrap();
        let Some(Part::Step(last)) = water.parts.last() else {
            panic!("the way ends with a step");
        };
        assert_eq!(last.result.unwrap().number, water.need.0);
        assert!(water.need > KilogramsPerHour::ZERO);
    }

    #[test]
    fn without_cooling_or_moisture_there_is_less_to_ask() {
        let mut dry = house();
        dry.moisture = None;
        assert!(lesson(&brief(dry), &unit("a")).water.is_none());
        let mut uncooled = house();
        uncooled.cooling = None;
        let found = lesson(&brief(uncooled), &unit("a"));
        assert!(found.cycling.is_none() && found.water.is_none());
    }
}
