//! One unit before the requirements: everything that was computed of it.

use super::{Ask, AskCode, Criteria, Reason};
use crate::climate::State;
use crate::cooling::{CoolingCurves, CoolingFigures, Room, house_sensible_heat_ratio_at_design};
use crate::equipment::Unit;
use crate::heating::{HeatingCurves, HeatingFigures};
use crate::house::House;
use crate::quantity::UnitSystem;

/// A unit in a house, with its figures.
pub struct Case<'a> {
    /// The house.
    pub house: &'a House,
    /// The climate's states; `None` without a climate.
    pub states: Option<&'a [State]>,
    /// What is asked.
    pub criteria: &'a Criteria,
    /// The room in summer.
    pub room: &'a Room,
    /// The unit.
    pub unit: &'a Unit,
    /// Its heating curves, where it has any.
    pub heating: Option<&'a HeatingCurves>,
    /// Its cooling curves, where it has any.
    pub cooling: Option<&'a CoolingCurves>,
    /// Its heating figures.
    pub heating_figures: &'a HeatingFigures,
    /// Its cooling figures, where the house is cooled.
    pub cooling_figures: Option<&'a CoolingFigures>,
    /// Units in which questions are written.
    pub units: UnitSystem,
}

/// What the requirements found.
#[derive(Debug, Default)]
pub struct Findings {
    /// Requirements shown to fail.
    pub reasons: Vec<Box<dyn Reason>>,
    /// What would have to be published to tell.
    pub asks: Vec<Ask>,
}

impl Findings {
    /// A requirement fails.
    pub fn fails(&mut self, reason: impl Reason + 'static) {
        self.reasons.push(Box::new(reason));
    }

    /// A requirement cannot be told. The same question is noted once.
    pub fn unknown(&mut self, code: AskCode, text: impl Into<String>) {
        let ask = Ask {
            code,
            text: text.into(),
        };
        if !self.asks.contains(&ask) {
            self.asks.push(ask);
        }
    }
}

impl Case<'_> {
    /// Whether the room's humidity is judged: the house gives its moisture gains and the climate its humidity.
    #[must_use]
    pub fn humidity_is_judged(&self) -> bool {
        let recorded = |states: &[State]| states.iter().all(|state| state.humidity_ratio.is_some());
        self.house.moisture.is_some() && self.states.is_some_and(recorded)
    }

    /// Sensible share of the house's load at the cooling design temperature.
    #[must_use]
    pub fn house_sensible_heat_ratio_at_design(&self) -> Option<f64> {
        house_sensible_heat_ratio_at_design(self.house, self.room, self.states?)
    }
}
