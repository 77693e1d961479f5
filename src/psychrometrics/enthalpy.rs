//! Enthalpy of moist air, and its inverses.

use crate::quantity::{Celsius, HumidityRatio, KilojoulesPerKilogram};

/// Specific heat of dry air \[kJ/(kg K)\].
const DRY_AIR: f64 = 1.006;
/// Specific heat of water vapour \[kJ/(kg K)\].
const VAPOUR: f64 = 1.86;
/// Heat of evaporation at 0 °C \[kJ/kg\].
const EVAPORATION: f64 = 2501.0;

/// Enthalpy of moist air: `1.006 T + W (2501 + 1.86 T)`, kJ per kg of dry air, zero for dry air at 0 °C.
///
/// # Source
/// ASHRAE Handbook - Fundamentals 2017, chapter 1, equation 30.
#[must_use]
pub fn enthalpy(dry_bulb: Celsius, humidity_ratio: HumidityRatio) -> KilojoulesPerKilogram {
    KilojoulesPerKilogram(DRY_AIR * dry_bulb.0 + humidity_ratio.0 * vapour_enthalpy(dry_bulb))
}

/// Enthalpy of the water vapour in the air, kJ per kg of vapour: `2501 + 1.86 T`.
#[must_use]
fn vapour_enthalpy(dry_bulb: Celsius) -> f64 {
    EVAPORATION + VAPOUR * dry_bulb.0
}

/// Humidity ratio of air with this enthalpy and dry bulb: the inverse of [`enthalpy`].
#[must_use]
pub fn humidity_ratio_at_enthalpy(
    enthalpy: KilojoulesPerKilogram,
    dry_bulb: Celsius,
) -> HumidityRatio {
    HumidityRatio((enthalpy.0 - DRY_AIR * dry_bulb.0) / vapour_enthalpy(dry_bulb))
}

/// Dry bulb of air with this enthalpy and humidity ratio: the inverse of [`enthalpy`].
#[must_use]
pub fn dry_bulb_at_enthalpy(
    enthalpy: KilojoulesPerKilogram,
    humidity_ratio: HumidityRatio,
) -> Celsius {
    Celsius((enthalpy.0 - EVAPORATION * humidity_ratio.0) / specific_heat(humidity_ratio))
}

/// Specific heat of moist air, kJ per K and kg of dry air: `1.006 + 1.86 W`.
#[must_use]
pub fn specific_heat(humidity_ratio: HumidityRatio) -> f64 {
    DRY_AIR + VAPOUR * humidity_ratio.0
}

/// Heat that a kilogram of water gives up when it condenses out of air at a temperature \[kJ/kg\]: `2501 - 2.361 T`.
///
/// # Source
/// Linear fit to the steam tables, common in building simulation; 2444 kJ/kg at 24 °C.
#[must_use]
pub fn heat_of_evaporation(temperature: Celsius) -> f64 {
    EVAPORATION - 2.361 * temperature.0
}
