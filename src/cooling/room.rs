//! The room that a cooling unit serves: what is the same in every state and for every unit.

use super::LatentDegradation;
use crate::house::{Fan, House};
use crate::psychrometrics::{
    SaturatedAir, humidity_ratio_at_relative, relative_humidity, saturation_humidity_ratio,
    standard_pressure, wet_bulb,
};
use crate::quantity::{Celsius, HumidityRatio, KilogramsPerHour, Pascals};

/// Indoor relative humidity at which design capacities are stated, and at which a season is computed where the house
/// gives no moisture gains.
pub const DESIGN_RELATIVE_HUMIDITY: f64 = 0.50;

/// A room kept at a dry bulb, at the air pressure of its altitude.
#[derive(Clone, Debug)]
pub struct Room {
    /// Dry bulb kept.
    pub temperature: Celsius,
    /// Air pressure.
    pub pressure: Pascals,
    /// What the fan does between calls.
    pub fan: Fan,
    /// Humidity ratio that is not to be passed.
    pub limit: HumidityRatio,
    /// Humidity ratio of the design condition.
    pub design: HumidityRatio,
    /// Wet bulb of the design condition.
    pub design_wet_bulb: Celsius,
    /// Humidity ratio above which water would stand on everything.
    pub saturation: HumidityRatio,
    /// Saturated air at this pressure.
    pub air: SaturatedAir,
    /// What a cycling coil loses of its drying with the fan running on.
    pub degradation: &'static LatentDegradation,
}

impl Room {
    /// The room of a house in its cooling season.
    #[must_use]
    pub fn of(house: &House) -> Self {
        Self::at(house, house.indoor.cooling)
    }

    /// The room of a house, were it kept at another dry bulb.
    #[must_use]
    pub fn at(house: &House, temperature: Celsius) -> Self {
        let pressure = standard_pressure(house.altitude());
        let design = humidity_ratio_at_relative(temperature, DESIGN_RELATIVE_HUMIDITY, pressure);
        Self {
            temperature,
            pressure,
            fan: house
                .cooling
                .map_or_else(Fan::default, |cooling| cooling.fan),
            limit: humidity_ratio_at_relative(temperature, house.indoor.humidity_limit, pressure),
            design,
            design_wet_bulb: room_wet_bulb(temperature, design, pressure),
            saturation: saturation_humidity_ratio(temperature, pressure),
            air: SaturatedAir::at_pressure(pressure),
            degradation: LatentDegradation::default_curve(),
        }
    }

    /// Relative humidity at a humidity ratio.
    #[must_use]
    pub fn relative_humidity(&self, humidity_ratio: HumidityRatio) -> f64 {
        relative_humidity(self.temperature, humidity_ratio, self.pressure)
    }

    /// Wet bulb at a humidity ratio; the driest air counts as that of the driest published one.
    #[must_use]
    pub fn wet_bulb(&self, humidity_ratio: HumidityRatio) -> Celsius {
        room_wet_bulb(self.temperature, humidity_ratio, self.pressure)
    }

    /// Moisture that a kilowatt of latent capacity removes: `3600 / h_fg`, `h_fg = 2501 - 2.361 T`.
    #[must_use]
    pub fn removal_per_kilowatt(&self) -> KilogramsPerHour {
        KilogramsPerHour(3600.0 / crate::psychrometrics::heat_of_evaporation(self.temperature))
    }
}

fn room_wet_bulb(dry_bulb: Celsius, humidity_ratio: HumidityRatio, pressure: Pascals) -> Celsius {
    wet_bulb(dry_bulb, humidity_ratio, pressure).unwrap_or(Celsius(f64::NEG_INFINITY))
}
