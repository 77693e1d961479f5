//! Moist air by the equations of the ASHRAE Handbook. Pure; no tables of measured values, no I/O.

mod atmosphere;
mod enthalpy;
mod humidity;
mod saturated_air;
mod saturation;
mod wet_bulb;

pub use atmosphere::{STANDARD_PRESSURE, standard_pressure};
pub use enthalpy::{
    dry_bulb_at_enthalpy, enthalpy, heat_of_evaporation, humidity_ratio_at_enthalpy, specific_heat,
};
pub use humidity::{
    dew_point, humidity_ratio, humidity_ratio_at_relative, relative_humidity, vapour_pressure,
};
pub use saturated_air::SaturatedAir;
pub use saturation::{
    TRIPLE_POINT, saturation_humidity_ratio, saturation_pressure, saturation_pressure_slope,
    saturation_temperature,
};
pub use wet_bulb::{humidity_ratio_at_wet_bulb, wet_bulb};

/// Ratio of the molar masses of water and dry air.
pub const MOLAR_MASS_RATIO: f64 = 0.621_945;

/// A state that moist air cannot be in, or a temperature outside the equations' range.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum PsychrometricError {
    /// A wet bulb above the dry bulb.
    #[error("the wet bulb ({wet_bulb} °C) lies above the dry bulb ({dry_bulb} °C)")]
    WetBulbAboveDryBulb {
        /// Dry bulb \[°C\].
        dry_bulb: f64,
        /// Wet bulb \[°C\].
        wet_bulb: f64,
    },
    /// A wet bulb so far below the dry bulb that the air would hold less than no water.
    #[error(
        "a wet bulb of {wet_bulb} °C at a dry bulb of {dry_bulb} °C would need less than no water"
    )]
    DrierThanDry {
        /// Dry bulb \[°C\].
        dry_bulb: f64,
        /// Wet bulb \[°C\].
        wet_bulb: f64,
    },
    /// A pressure or humidity for which no temperature in -100 to 200 °C answers.
    #[error(
        "no saturation temperature between -100 and 200 °C has a vapour pressure of {pressure} Pa"
    )]
    OutOfRange {
        /// Vapour pressure \[Pa\].
        pressure: f64,
    },
}
