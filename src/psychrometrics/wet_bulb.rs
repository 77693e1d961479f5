//! Thermodynamic wet-bulb temperature.

use super::{PsychrometricError, dew_point, saturation_humidity_ratio};
use crate::quantity::{Celsius, HumidityRatio, Pascals};

/// Humidity ratio from dry bulb and thermodynamic wet bulb.
///
/// Over water `((2501 - 2.326 t*) Ws* - 1.006 (t - t*)) / (2501 + 1.86 t - 4.186 t*)`,
/// over ice `((2830 - 0.24 t*) Ws* - 1.006 (t - t*)) / (2830 + 1.86 t - 2.1 t*)`.
///
/// # Errors
/// [`PsychrometricError::WetBulbAboveDryBulb`] and [`PsychrometricError::DrierThanDry`].
///
/// # Source
/// ASHRAE Handbook - Fundamentals 2017, chapter 1, equations 33 and 35.
pub fn humidity_ratio_at_wet_bulb(
    dry_bulb: Celsius,
    wet_bulb: Celsius,
    pressure: Pascals,
) -> Result<HumidityRatio, PsychrometricError> {
    if wet_bulb > dry_bulb {
        return Err(PsychrometricError::WetBulbAboveDryBulb {
            dry_bulb: dry_bulb.0,
            wet_bulb: wet_bulb.0,
        });
    }
    let w = unchecked_humidity_ratio(dry_bulb, wet_bulb, pressure);
    if w < 0.0 {
        return Err(PsychrometricError::DrierThanDry {
            dry_bulb: dry_bulb.0,
            wet_bulb: wet_bulb.0,
        });
    }
    Ok(HumidityRatio(w))
}

fn unchecked_humidity_ratio(dry_bulb: Celsius, wet_bulb: Celsius, pressure: Pascals) -> f64 {
    let (t, t_star) = (dry_bulb.0, wet_bulb.0);
    let ws = saturation_humidity_ratio(wet_bulb, pressure).0;
    if t_star >= 0.0 {
        ((2501.0 - 2.326 * t_star) * ws - 1.006 * (t - t_star))
            / (2501.0 + 1.86 * t - 4.186 * t_star)
    } else {
        ((2830.0 - 0.24 * t_star) * ws - 1.006 * (t - t_star)) / (2830.0 + 1.86 * t - 2.1 * t_star)
    }
}

/// Thermodynamic wet bulb from dry bulb and humidity ratio, by bisection between dew point and dry bulb.
///
/// - `humidity_ratio`  0 to saturation
/// - returns \[°C\], never above `dry_bulb`, within 1e-6 K of the root
///
/// # Errors
/// [`PsychrometricError::OutOfRange`] where the air is drier than saturated air at -100 °C.
pub fn wet_bulb(
    dry_bulb: Celsius,
    humidity_ratio: HumidityRatio,
    pressure: Pascals,
) -> Result<Celsius, PsychrometricError> {
    let mut low = dew_point(humidity_ratio, pressure)?.0.min(dry_bulb.0);
    let mut high = dry_bulb.0;
    while high - low > 1e-7 {
        let middle = f64::midpoint(low, high);
        if unchecked_humidity_ratio(dry_bulb, Celsius(middle), pressure) > humidity_ratio.0 {
            high = middle;
        } else {
            low = middle;
        }
    }
    Ok(Celsius(f64::midpoint(low, high)))
}
