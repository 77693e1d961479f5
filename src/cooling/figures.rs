//! The figures of a unit's cooling in a house.

use super::{CoilPerformance, CoolingCurves, CoolingSeason, Room};
use crate::equipment::Turndown;
use crate::house::Cooling;
use crate::quantity::Kilowatts;

/// Cooling figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoolingFigures {
    /// Sensible load at the design temperature.
    pub sensible_at_design: Kilowatts,
    /// Largest sensible capacity there; `None` where unproven or the coil is unknown.
    pub sensible_capacity_at_design: Option<Kilowatts>,
    /// Sensible capacity of the minimum speed there; `None` where turndown is unknown too.
    pub minimum_sensible: Option<Kilowatts>,
    /// The whole summer; `None` without a climate.
    pub season: Option<CoolingSeason>,
}

impl CoolingFigures {
    /// The figures at the design temperature, the set point and 50 % relative humidity, with a season beside them.
    #[must_use]
    pub fn at_design(
        cooling: &Cooling,
        unit: Option<&CoolingCurves>,
        room: &Room,
        season: Option<CoolingSeason>,
    ) -> Self {
        let speeds = unit
            .and_then(|unit| unit.at(cooling.load.design_outdoor))
            .map(|speeds| {
                if speeds.varies() {
                    speeds.at(room.design_wet_bulb)
                } else {
                    speeds.base()
                }
            });
        let sensible = |performance: CoilPerformance| {
            Some(
                performance
                    .coil()?
                    .split(room.temperature, room.design, &room.air)
                    .sensible,
            )
        };
        let turns_down = unit.is_some_and(|unit| unit.turndown() != Turndown::Unknown);
        Self {
            sensible_at_design: cooling.load.design_sensible,
            sensible_capacity_at_design: speeds.and_then(|speeds| sensible(speeds.maximum)),
            minimum_sensible: speeds
                .filter(|_| turns_down)
                .and_then(|speeds| sensible(speeds.minimum)),
            season,
        }
    }
}
