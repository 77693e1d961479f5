//! Humidity ratio, relative humidity and dew point, each from the others.

use super::{MOLAR_MASS_RATIO, PsychrometricError, saturation_pressure, saturation_temperature};
use crate::quantity::{Celsius, HumidityRatio, Pascals};

/// Humidity ratio of air whose vapour has this pressure: `0.621945 p_w / (p - p_w)`.
///
/// # Source
/// ASHRAE Handbook - Fundamentals 2017, chapter 1, equation 20.
#[must_use]
pub fn humidity_ratio(vapour: Pascals, pressure: Pascals) -> HumidityRatio {
    HumidityRatio(MOLAR_MASS_RATIO * vapour.0 / (pressure.0 - vapour.0))
}

/// Pressure of the vapour in air of this humidity ratio: the inverse of [`humidity_ratio`].
#[must_use]
pub fn vapour_pressure(humidity_ratio: HumidityRatio, pressure: Pascals) -> Pascals {
    Pascals(pressure.0 * humidity_ratio.0 / (MOLAR_MASS_RATIO + humidity_ratio.0))
}

/// Humidity ratio at a dry bulb and a relative humidity.
///
/// - `relative`  0 to 1, over ice below the triple point as weather stations and the handbook's tables have it
#[must_use]
pub fn humidity_ratio_at_relative(
    dry_bulb: Celsius,
    relative: f64,
    pressure: Pascals,
) -> HumidityRatio {
    humidity_ratio(saturation_pressure(dry_bulb) * relative, pressure)
}

/// Relative humidity at a dry bulb and a humidity ratio; 1 is saturated.
#[must_use]
pub fn relative_humidity(
    dry_bulb: Celsius,
    humidity_ratio: HumidityRatio,
    pressure: Pascals,
) -> f64 {
    vapour_pressure(humidity_ratio, pressure) / saturation_pressure(dry_bulb)
}

/// Temperature at which air of this humidity ratio is saturated.
///
/// # Errors
/// [`PsychrometricError::OutOfRange`] for air drier than saturated air at -100 °C.
pub fn dew_point(
    humidity_ratio: HumidityRatio,
    pressure: Pascals,
) -> Result<Celsius, PsychrometricError> {
    saturation_temperature(vapour_pressure(humidity_ratio, pressure))
}
