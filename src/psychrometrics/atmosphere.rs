//! Air pressure.

use crate::quantity::{Metres, Pascals};

/// Standard atmospheric pressure at sea level, at which equipment is rated.
pub const STANDARD_PRESSURE: Pascals = Pascals(101_325.0);

/// Pressure of the standard atmosphere: `101325 (1 - 2.25577e-5 z)^5.2559`.
///
/// - `altitude`  -5000 to 11 000 \[m\]
///
/// # Source
/// ASHRAE Handbook - Fundamentals 2017, chapter 1, equation 3 (exponent as printed there: 5.2559).
#[must_use]
pub fn standard_pressure(altitude: Metres) -> Pascals {
    STANDARD_PRESSURE * (1.0 - 2.255_77e-5 * altitude.0).powf(5.2559)
}
