//! The figures of a unit's heating in a house.

use super::{BalancePoint, HeatingAt, HeatingCurves, HeatingSeason, balance_point};
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
    /// The figures at the design temperature, with the season that was computed.
    ///
    /// - `unit`  `None`: no heating point is published; `operates_to` alone may then say that it stands still
    #[must_use]
    pub fn at_design(
        load: &HeatingLoadLine,
        unit: Option<&HeatingCurves>,
        operates_to: Option<Celsius>,
        season: Option<HeatingSeason>,
    ) -> Self {
        let at_design = unit.map_or_else(
            || HeatingAt::without_points(operates_to, load.design_outdoor),
            |unit| unit.at(load.design_outdoor),
        );
        Self {
            load_at_design: load.design_load,
            capacity_at_design: at_design.maximum_capacity(),
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_unit_without_points_delivers_nothing_at_a_design_temperature_below_its_limit() {
        let load = HeatingLoadLine {
            design_outdoor: Celsius(-18.0),
            design_load: Kilowatts(9.0),
            zero_load_outdoor: Celsius(15.0),
        };
        let capacity = |limit: Option<f64>| {
            HeatingFigures::at_design(&load, None, limit.map(Celsius), None).capacity_at_design
        };
        assert_eq!(capacity(Some(-15.0)), Some(Kilowatts::ZERO));
        assert_eq!(capacity(Some(-18.0)), None);
        assert_eq!(capacity(None), None);
    }
}
