//! The whole heating season: one hour's rule summed over the climate's states.

use super::{HeatingCurves, HeatingHour, Running, heating_hour};
use crate::climate::State;
use crate::house::HeatingLoadLine;
use crate::quantity::{Hours, KilowattHours};

/// A winter's sums.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct HeatingSeason {
    /// Hours colder than the zero-load temperature.
    pub heating_hours: Hours,
    /// Heat that the house needs.
    pub load: KilowattHours,
    /// Heat that the heat pump delivers.
    pub heat_pump: KilowattHours,
    /// Electricity that the heat pump takes for it.
    pub electricity: KilowattHours,
    /// Heat left to the backup.
    pub backup: KilowattHours,
    /// Hours in which the load is above the unit's proven maximum.
    pub hours_below_balance: Hours,
    /// Hours for which nothing is published.
    pub unproven_hours: Hours,
    /// Hours in which the load is below the unit's minimum.
    pub cycling_hours: Hours,
    /// Heat delivered in those hours.
    pub heat_while_cycling: KilowattHours,
}

impl HeatingSeason {
    /// Adds one state's hours.
    pub fn add(&mut self, hours: Hours, hour: &HeatingHour) {
        self.heating_hours += hours;
        self.load += hour.load * hours;
        self.heat_pump += hour.delivered * hours;
        self.electricity += hour.input * hours;
        self.backup += hour.backup * hours;
        if hour.below_balance {
            self.hours_below_balance += hours;
        }
        match hour.running {
            Running::Unproven => self.unproven_hours += hours,
            Running::Cycling => {
                self.cycling_hours += hours;
                self.heat_while_cycling += hour.delivered * hours;
            }
            Running::Modulating | Running::Flat | Running::LockedOut => {}
        }
    }

    /// Heat by the heat pump per electricity it takes; `None` where it never runs.
    #[must_use]
    pub fn seasonal_cop(&self) -> Option<f64> {
        (self.electricity > KilowattHours::ZERO).then(|| self.heat_pump / self.electricity)
    }

    /// Share of the season's heat that the heat pump carries; `None` where no heat is needed.
    #[must_use]
    pub fn share_carried(&self) -> Option<f64> {
        (self.load > KilowattHours::ZERO).then(|| self.heat_pump / self.load)
    }
}

/// The heating season of a unit, or of no unit at all, over a climate's states.
#[must_use]
pub fn heating_season(
    load: &HeatingLoadLine,
    unit: Option<&HeatingCurves>,
    states: &[State],
) -> HeatingSeason {
    let mut season = HeatingSeason::default();
    for state in states
        .iter()
        .filter(|state| state.outdoor < load.zero_load_outdoor)
    {
        let at = unit.map_or(super::HeatingAt::Unproven, |unit| unit.at(state.outdoor));
        let degradation = unit.map_or(0.0, |unit| unit.degradation);
        season.add(
            state.hours,
            &heating_hour(load.at(state.outdoor), &at, degradation),
        );
    }
    season
}
