//! The whole heating season: one hour's rule summed over the climate's states.

use super::{HeatingAt, HeatingCurves, HeatingHour, Running, heating_hour};
use crate::climate::State;
use crate::house::HeatingLoadLine;
use crate::quantity::{Celsius, Hours, KilowattHours};

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
    match unit {
        Some(unit) => summed(load, unit.degradation, states, |outdoor| unit.at(outdoor)),
        None => season_without_points(load, None, states),
    }
}

/// The heating season of a unit without any heating point: locked out below its operating limit, unproven above it.
#[must_use]
pub fn season_without_points(
    load: &HeatingLoadLine,
    operates_to: Option<Celsius>,
    states: &[State],
) -> HeatingSeason {
    summed(load, 0.0, states, |outdoor| {
        HeatingAt::without_points(operates_to, outdoor)
    })
}

fn summed(
    load: &HeatingLoadLine,
    degradation: f64,
    states: &[State],
    at: impl Fn(Celsius) -> HeatingAt,
) -> HeatingSeason {
    let mut season = HeatingSeason::default();
    for state in states
        .iter()
        .filter(|state| state.outdoor < load.zero_load_outdoor)
    {
        let hour = heating_hour(load.at(state.outdoor), &at(state.outdoor), degradation);
        season.add(state.hours, &hour);
    }
    season
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Kilowatts;

    /// 8 kW at -20 °C, nothing at 20 °C: `Q = 4 - 0.2 T` kW.
    const LOAD: HeatingLoadLine = HeatingLoadLine {
        design_outdoor: Celsius(-20.0),
        design_load: Kilowatts(8.0),
        zero_load_outdoor: Celsius(20.0),
    };

    // By hand: 10 h at 8 kW and 20 h at 7 kW are colder than the limit; 30 h at 6 kW, at the limit itself, and 40 h at
    // 4 kW are not; at 20 °C there is no load. 80 + 140 + 180 + 160 kWh.
    #[test]
    fn a_unit_without_points_is_locked_out_below_its_limit_and_unproven_above_it() {
        let states: Vec<State> = [
            (-20.0, 10.0),
            (-15.0, 20.0),
            (-10.0, 30.0),
            (0.0, 40.0),
            (20.0, 50.0),
        ]
        .into_iter()
        .map(|(outdoor, hours)| State {
            hours: Hours(hours),
            outdoor: Celsius(outdoor),
            humidity_ratio: None,
        })
        .collect();
        let season = season_without_points(&LOAD, Some(Celsius(-10.0)), &states);
        let hours = (
            season.hours_below_balance,
            season.unproven_hours,
            season.heating_hours,
        );
        assert_eq!(hours, (Hours(30.0), Hours(70.0), Hours(100.0)));
        assert!((season.backup.0 - 560.0).abs() < 1e-9);
        assert_eq!(
            (season.load, season.heat_pump),
            (season.backup, KilowattHours::ZERO)
        );

        let without_limit = season_without_points(&LOAD, None, &states);
        assert_eq!(
            (
                without_limit.hours_below_balance,
                without_limit.unproven_hours
            ),
            (Hours::ZERO, Hours(100.0))
        );
        assert_eq!(heating_season(&LOAD, None, &states), without_limit);
    }
}
