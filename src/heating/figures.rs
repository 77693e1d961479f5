//! The figures of a unit's heating in a house.

use super::{BalancePoint, HeatingCurves, HeatingSeason, balance_point};
use crate::equipment::Turndown;
use crate::house::HeatingLoadLine;
use crate::quantity::{Celsius, Hours, KilowattHours, Kilowatts};

/// Heating figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatingFigures {
    /// Load at the design temperature.
    pub load_at_design: Kilowatts,
    /// Largest capacity there: zero below the operating limit; `None` where unproven.
    pub capacity_at_design: Option<Kilowatts>,
    /// Where the unit stops carrying the house.
    pub balance_point: BalancePoint,
    /// Coldest published point of the curve that serves as maximum; `None` without any.
    pub coldest_point: Option<Celsius>,
    /// The whole winter; `None` without a climate.
    pub season: Option<HeatingSeason>,
    /// What is known of the turndown; `None` without any heating point.
    pub turndown: Option<Turndown>,
}

impl HeatingFigures {
    /// The figures without a season.
    #[must_use]
    pub fn at_design(
        load: &HeatingLoadLine,
        unit: Option<&HeatingCurves>,
        season: Option<HeatingSeason>,
    ) -> Self {
        Self {
            load_at_design: load.design_load,
            capacity_at_design: unit
                .and_then(|unit| unit.at(load.design_outdoor).maximum_capacity()),
            balance_point: unit.map_or(BalancePoint::Unproven, |unit| balance_point(load, unit)),
            coldest_point: unit.map(|unit| unit.speeds.maximum().severe_end()),
            season,
            turndown: unit.map(|unit| unit.speeds.turndown()),
        }
    }

    /// Capacity above the design load, as a fraction of it.
    #[must_use]
    pub fn margin(&self) -> Option<f64> {
        self.capacity_at_design
            .map(|capacity| capacity / self.load_at_design - 1.0)
    }

    /// Whether cycling can be told: some minimum is known, or the unit has one speed.
    fn turndown_is_known(&self) -> bool {
        self.turndown != Some(Turndown::Unknown)
    }

    /// Hours below the unit's minimum; `None` without a climate or where turndown is unknown.
    #[must_use]
    pub fn cycling_hours(&self) -> Option<Hours> {
        self.season
            .filter(|_| self.turndown_is_known())
            .map(|season| season.cycling_hours)
    }

    /// Heat delivered in those hours.
    #[must_use]
    pub fn heat_while_cycling(&self) -> Option<KilowattHours> {
        self.season
            .filter(|_| self.turndown_is_known())
            .map(|season| season.heat_while_cycling)
    }
}
