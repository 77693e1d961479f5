//! Saturation of water vapour over ice and over liquid water.

use super::{MOLAR_MASS_RATIO, PsychrometricError};
use crate::quantity::{Celsius, HumidityRatio, Pascals};

/// Below this the vapour is in equilibrium with ice, above it with liquid water.
pub const TRIPLE_POINT: Celsius = Celsius(0.01);

/// 0 °C on the absolute scale \[K\].
const ICE_POINT_KELVIN: f64 = 273.15;

/// Coefficients of `ln p = a/T + b + c T + d T² + e T³ + f T⁴ + g ln T`.
struct Coefficients {
    a: f64,
    b: f64,
    c: f64,
    d: f64,
    e: f64,
    f: f64,
    g: f64,
}

/// Over ice, -100 to 0 °C: equation 5, C1 to C7.
const ICE: Coefficients = Coefficients {
    a: -5.674_535_9e3,
    b: 6.392_524_7,
    c: -9.677_843_0e-3,
    d: 6.221_570_1e-7,
    e: 2.074_782_5e-9,
    f: -9.484_024_0e-13,
    g: 4.163_501_9,
};

/// Over liquid water, 0 to 200 °C: equation 6, C8 to C13.
const WATER: Coefficients = Coefficients {
    a: -5.800_220_6e3,
    b: 1.391_499_3,
    c: -4.864_023_9e-2,
    d: 4.176_476_8e-5,
    e: -1.445_209_3e-8,
    f: 0.0,
    g: 6.545_967_3,
};

impl Coefficients {
    fn over(temperature: Celsius) -> &'static Self {
        if temperature < TRIPLE_POINT {
            &ICE
        } else {
            &WATER
        }
    }

    fn log_pressure(&self, t: f64) -> f64 {
        self.a / t
            + self.b
            + t * (self.c + t * (self.d + t * (self.e + t * self.f)))
            + self.g * t.ln()
    }

    fn log_pressure_slope(&self, t: f64) -> f64 {
        -self.a / (t * t)
            + self.c
            + t * (2.0 * self.d + t * (3.0 * self.e + t * 4.0 * self.f))
            + self.g / t
    }
}

/// Saturation pressure of water vapour, over ice below the triple point and over liquid water above it.
///
/// - `temperature`  -100 to 200 \[°C\]
/// - returns \[Pa\]
///
/// Switches at the triple point and not at 0 °C as printed, so that the inverse is continuous.
///
/// # Source
/// Hyland and Wexler 1983, in ASHRAE Handbook - Fundamentals 2017, chapter 1, equations 5 and 6.
#[must_use]
pub fn saturation_pressure(temperature: Celsius) -> Pascals {
    Pascals(
        Coefficients::over(temperature)
            .log_pressure(temperature.0 + ICE_POINT_KELVIN)
            .exp(),
    )
}

/// How fast the saturation pressure rises with temperature \[Pa/K\]: the derivative of the same equations.
#[must_use]
pub fn saturation_pressure_slope(temperature: Celsius) -> f64 {
    let t = temperature.0 + ICE_POINT_KELVIN;
    let coefficients = Coefficients::over(temperature);
    coefficients.log_pressure(t).exp() * coefficients.log_pressure_slope(t)
}

/// Humidity ratio of saturated air: `0.621945 p_ws / (p - p_ws)`.
///
/// - `temperature`  -100 to below the boiling point at `pressure` \[°C\]
/// - returns kg of water per kg of dry air; infinite where the water boils
///
/// # Source
/// ASHRAE Handbook - Fundamentals 2017, chapter 1, equation 21.
#[must_use]
pub fn saturation_humidity_ratio(temperature: Celsius, pressure: Pascals) -> HumidityRatio {
    let vapour = saturation_pressure(temperature);
    if vapour >= pressure {
        return HumidityRatio(f64::INFINITY);
    }
    HumidityRatio(MOLAR_MASS_RATIO * vapour.0 / (pressure.0 - vapour.0))
}

/// Temperature at which water vapour of this pressure is saturated: the inverse of [`saturation_pressure`].
///
/// Newton's method on the logarithm of the pressure, which is nearly straight in `1/T`.
///
/// - `vapour`  the saturation pressures of -100 to 200 °C \[Pa\]
/// - returns \[°C\], within 1e-9 K
///
/// # Errors
/// [`PsychrometricError::OutOfRange`] where no temperature of the range answers.
pub fn saturation_temperature(vapour: Pascals) -> Result<Celsius, PsychrometricError> {
    let out_of_range = PsychrometricError::OutOfRange { pressure: vapour.0 };
    let (coldest, hottest) = (Celsius(-100.0), Celsius(200.0));
    if !(vapour >= saturation_pressure(coldest) && vapour <= saturation_pressure(hottest)) {
        return Err(out_of_range);
    }
    let wanted = vapour.0.ln();
    let coefficients = if vapour < saturation_pressure(TRIPLE_POINT) {
        &ICE
    } else {
        &WATER
    };
    // Magnus form as a first guess, within a kelvin over the range of weather.
    let magnus = (vapour.0 / 611.2).max(1e-9).ln();
    let mut t = ICE_POINT_KELVIN + 243.12 * magnus / (17.62 - magnus);
    for _ in 0..50 {
        let step = (coefficients.log_pressure(t) - wanted) / coefficients.log_pressure_slope(t);
        t = (t - step).clamp(ICE_POINT_KELVIN - 101.0, ICE_POINT_KELVIN + 201.0);
        if step.abs() < 1e-10 {
            return Ok(Celsius(t - ICE_POINT_KELVIN));
        }
    }
    Err(out_of_range)
}
