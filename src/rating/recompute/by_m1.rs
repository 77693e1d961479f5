//! HSPF2 and SEER2 from a catalog unit.
//!
//! Which speed serves as which test is our rule. Points at one speed: single-speed. `minimum` and one other: two-capacity.
//! Else variable-speed, with `minimum` as low, `rated` as nominal (47 °F) and intermediate (35 and 87 °F), `maximum` as
//! full speed. The heating load line is drawn from the cooling capacity at 95 °F that stands on the label, `rated` where
//! that is published.

use super::published::{IndoorCondition, Lookup};
use super::{Assumption, Comparison, Outcome};
use crate::equipment::{Mode, Point, Speed, Unit};
use crate::quantity::Celsius;
use crate::rating::m1::{
    BTU_PER_WH_RATING_SHEET, DEFAULT_COOLING_DEGRADATION,
    DEFAULT_COOLING_DEGRADATION_VARIABLE_SPEED, DEFAULT_HEATING_DEGRADATION, FullSpeedAt47,
    HeatingConditions, Region, SingleSpeedCooling, SingleSpeedHeating, Steady, TwoCapacityCooling,
    TwoCapacityHeating, VariableSpeedCooling, VariableSpeedHeating, cooling_season, heating_season,
};

/// The most that the credit for defrosting on demand can be.
const LARGEST_DEFROST_CREDIT: f64 = 1.03;

/// Air entering the indoor coil at the appendix's rating conditions: 70 °F in heating, 80 °F and 67 °F wet in cooling.
fn indoor(mode: Mode) -> IndoorCondition {
    match mode {
        Mode::Heating => IndoorCondition {
            dry_bulb: Celsius::from_fahrenheit(70.0),
            wet_bulb: None,
        },
        Mode::Cooling => IndoorCondition {
            dry_bulb: Celsius::from_fahrenheit(80.0),
            wet_bulb: Some(Celsius::from_fahrenheit(67.0)),
        },
    }
}

/// The class of system that a mode's published speeds amount to.
enum Class {
    Single(Speed),
    TwoCapacity { full: Speed },
    Variable,
}

fn class(lookup: &Lookup<'_>, mode: Mode) -> Class {
    match lookup.speeds(mode).as_slice() {
        [only] => Class::Single(*only),
        [Speed::Minimum, full] => Class::TwoCapacity { full: *full },
        _ => Class::Variable,
    }
}

/// HSPF2 in region IV; whether the unit earns the credit for defrosting on demand is unknown.
pub(super) fn hspf2(unit: &Unit, declared: f64) -> Outcome {
    let mut tests = Tests {
        lookup: Lookup::new(unit, indoor),
        assumptions: Vec::new(),
    };
    let a2 = tests.label_capacity();
    let conditions = |a2: Steady| HeatingConditions {
        region: Region::IV,
        design_capacity_btu_h: a2.capacity_btu_h,
        cut_out: None,
        defrost_credit: 1.0,
        btu_per_wh: BTU_PER_WH_RATING_SHEET,
    };
    let degradation =
        tests.degradation(unit.model.degradation_heating, DEFAULT_HEATING_DEGRADATION);
    let season = match class(&tests.lookup, Mode::Heating) {
        Class::Single(speed) => single_speed(&mut tests, speed, degradation)
            .and_then(|system| Some(heating_season(&system, &conditions(a2?)))),
        Class::TwoCapacity { full } => two_capacity(&mut tests, full, degradation)
            .and_then(|system| Some(heating_season(&system, &conditions(a2?)))),
        Class::Variable => variable_speed(&mut tests, degradation)
            .and_then(|system| Some(heating_season(&system, &conditions(a2?)))),
    };
    tests.assumptions.push(Assumption::DefrostCreditUnknown);
    tests.compared(
        declared,
        season.map(|season| season.hspf2()),
        &[LARGEST_DEFROST_CREDIT],
    )
}

fn single_speed(
    tests: &mut Tests<'_>,
    speed: Speed,
    degradation: f64,
) -> Option<SingleSpeedHeating> {
    let h1 = tests.heating(speed, 47.0);
    let h2 = tests.frosted(speed, "H2");
    let h3 = tests.heating(speed, 17.0);
    let h4 = tests.optional(Mode::Heating, speed, 5.0);
    Some(SingleSpeedHeating {
        h1: h1?,
        h2,
        h3: h3?,
        h4,
        degradation,
    })
}

fn two_capacity(
    tests: &mut Tests<'_>,
    full: Speed,
    degradation: f64,
) -> Option<TwoCapacityHeating> {
    let h01 = tests.heating(Speed::Minimum, 62.0);
    let h11 = tests.heating(Speed::Minimum, 47.0);
    let h21 = tests.frosted(Speed::Minimum, "H21");
    let h31 = tests.heating(Speed::Minimum, 17.0);
    let h12 = tests.heating(full, 47.0);
    let h22 = tests.frosted(full, "H22");
    let h32 = tests.heating(full, 17.0);
    let h42 = tests.optional(Mode::Heating, full, 5.0);
    Some(TwoCapacityHeating {
        h01: h01?,
        h11: h11?,
        h21,
        h31: h31?,
        h12: h12?,
        h22,
        h32: h32?,
        h42,
        degradation,
    })
}

fn variable_speed(tests: &mut Tests<'_>, degradation: f64) -> Option<VariableSpeedHeating> {
    let h01 = tests.heating(Speed::Minimum, 62.0);
    let h11 = tests.heating(Speed::Minimum, 47.0);
    let h1n = tests.heating(Speed::Rated, 47.0);
    let h12 = match tests.optional(Mode::Heating, Speed::Maximum, 47.0) {
        Some(h12) => FullSpeedAt47::Tested(h12),
        None => {
            tests.assumptions.push(Assumption::FullSpeedEstimated);
            FullSpeedAt47::Estimated
        }
    };
    let h2v = tests.heating(Speed::Rated, 35.0);
    let h22 = tests.frosted(Speed::Maximum, "H22");
    let h32 = tests.heating(Speed::Maximum, 17.0);
    let h42 = tests.optional(Mode::Heating, Speed::Maximum, 5.0);
    Some(VariableSpeedHeating {
        h01: h01?,
        h11: h11?,
        h1n: h1n?,
        h12,
        h2v: h2v?,
        h22,
        h32: h32?,
        h42,
        degradation,
    })
}

/// SEER2.
pub(super) fn seer2(unit: &Unit, declared: f64) -> Outcome {
    let mut tests = Tests {
        lookup: Lookup::new(unit, indoor),
        assumptions: Vec::new(),
    };
    let published = unit.model.degradation_cooling;
    let figure = match class(&tests.lookup, Mode::Cooling) {
        Class::Single(speed) => {
            let degradation = tests.degradation(published, DEFAULT_COOLING_DEGRADATION);
            tests
                .cooling(speed, 82.0)
                .map(|b| SingleSpeedCooling { b, degradation }.seer2())
        }
        Class::TwoCapacity { full } => {
            let degradation = tests.degradation(published, DEFAULT_COOLING_DEGRADATION);
            let (a2, b2) = (tests.cooling(full, 95.0), tests.cooling(full, 82.0));
            let (b1, f1) = (
                tests.cooling(Speed::Minimum, 82.0),
                tests.cooling(Speed::Minimum, 67.0),
            );
            (|| {
                let system = TwoCapacityCooling {
                    a2: a2?,
                    b2: b2?,
                    b1: b1?,
                    f1: f1?,
                    degradation,
                };
                Some(cooling_season(&system).seer2())
            })()
        }
        Class::Variable => {
            let degradation =
                tests.degradation(published, DEFAULT_COOLING_DEGRADATION_VARIABLE_SPEED);
            let full = Speed::Maximum;
            if tests.optional(Mode::Cooling, Speed::Rated, 95.0).is_some() {
                tests.assumptions.push(Assumption::FullSpeedIsMaximum);
            }
            let (a2, b2) = (tests.cooling(full, 95.0), tests.cooling(full, 82.0));
            let ev = tests.cooling(Speed::Rated, 87.0);
            let (b1, f1) = (
                tests.cooling(Speed::Minimum, 82.0),
                tests.cooling(Speed::Minimum, 67.0),
            );
            (|| {
                let system = VariableSpeedCooling {
                    a2: a2?,
                    b2: b2?,
                    ev: ev?,
                    b1: b1?,
                    f1: f1?,
                    degradation,
                };
                Some(cooling_season(&system).seer2())
            })()
        }
    };
    tests.compared(declared, figure, &[])
}

/// Picks tests among published points, and keeps what was missing or assumed.
struct Tests<'a> {
    lookup: Lookup<'a>,
    assumptions: Vec<Assumption>,
}

impl Tests<'_> {
    fn heating(&mut self, speed: Speed, outdoor_f: f64) -> Option<Steady> {
        self.lookup
            .need(Mode::Heating, speed, Celsius::from_fahrenheit(outdoor_f))
            .map(steady)
    }

    fn cooling(&mut self, speed: Speed, outdoor_f: f64) -> Option<Steady> {
        self.lookup
            .need(Mode::Cooling, speed, Celsius::from_fahrenheit(outdoor_f))
            .map(steady)
    }

    fn optional(&self, mode: Mode, speed: Speed, outdoor_f: f64) -> Option<Steady> {
        self.lookup
            .find(mode, speed, Celsius::from_fahrenheit(outdoor_f))
            .map(steady)
    }

    /// The test at 35 °F, whose absence is an assumption and not a gap.
    fn frosted(&mut self, speed: Speed, test: &'static str) -> Option<Steady> {
        let found = self.optional(Mode::Heating, speed, 35.0);
        if found.is_none() {
            self.assumptions.push(Assumption::FrostDefault { test });
        }
        found
    }

    /// Test A or A2 for the heating load line: `rated` as on a label, else `maximum`, else the only speed there is.
    fn label_capacity(&mut self) -> Option<Steady> {
        let only = match self.lookup.speeds(Mode::Cooling).as_slice() {
            [only] => Some(*only),
            _ => None,
        };
        [Some(Speed::Rated), Some(Speed::Maximum), only]
            .into_iter()
            .flatten()
            .find_map(|speed| self.optional(Mode::Cooling, speed, 95.0))
            .or_else(|| self.cooling(Speed::Rated, 95.0))
    }

    fn degradation(&mut self, published: Option<f64>, default: f64) -> f64 {
        // A measured coefficient above the default counts as the default.
        published.map_or_else(
            || {
                self.assumptions
                    .push(Assumption::DefaultDegradation(default));
                default
            },
            |published| published.min(default),
        )
    }

    /// `factors`: what unknown inputs may multiply the figure by.
    fn compared(self, declared: f64, figure: Option<f64>, factors: &[f64]) -> Outcome {
        match figure {
            Some(figure) if figure.is_finite() && figure > 0.0 => {
                let others: Vec<f64> = factors.iter().map(|factor| figure * factor).collect();
                Outcome::Compared(Comparison::new(declared, figure, &others, self.assumptions))
            }
            Some(figure) => {
                Outcome::Unphysical(format!("the published points lead to a figure of {figure}"))
            }
            None => Outcome::Missing(self.lookup.missing),
        }
    }
}

fn steady(point: &Point) -> Steady {
    Steady::from_kilowatts(point.capacity, point.power)
}
