//! Saturated air by its enthalpy: what a coil surface of that enthalpy does to the humidity ratio, fast.
//!
//! The moisture balance asks for this tens of millions of times, at one pressure. The curve is therefore laid out once
//! per pressure as cubic pieces through exact values and exact slopes, one stretch over ice and one over water, so that
//! the kink at the triple point falls on a joint.

use super::{
    TRIPLE_POINT, enthalpy, saturation_humidity_ratio, saturation_pressure,
    saturation_pressure_slope,
};
use crate::quantity::{Celsius, HumidityRatio, KilojoulesPerKilogram, Pascals};

/// Coldest coil surface that is tabulated; colder ones are solved one by one.
const COLDEST: Celsius = Celsius(-60.0);
/// Warmest coil surface that is tabulated.
const WARMEST: Celsius = Celsius(50.0);
/// Pieces per stretch. Error of a cubic piece goes with the fourth power of its length: below 1e-12 kg/kg here.
const PIECES: usize = 512;

/// Saturated air at one pressure, by enthalpy.
#[derive(Clone, Debug)]
pub struct SaturatedAir {
    pressure: Pascals,
    ice: Stretch,
    water: Stretch,
}

/// Equally long cubic pieces over a range of enthalpy.
#[derive(Clone, Debug)]
struct Stretch {
    first: f64,
    last: f64,
    pieces_per_kilojoule: f64,
    /// Polynomial coefficients of each piece in its local coordinate, 0 to 1.
    pieces: Vec<[f64; 4]>,
}

impl SaturatedAir {
    /// Lays the curve out at a pressure.
    #[must_use]
    pub fn at_pressure(pressure: Pascals) -> Self {
        let just_frozen = Celsius(TRIPLE_POINT.0.next_down());
        Self {
            pressure,
            ice: Stretch::between(COLDEST, just_frozen, pressure),
            water: Stretch::between(TRIPLE_POINT, WARMEST, pressure),
        }
    }

    /// The pressure it was laid out for.
    #[must_use]
    pub fn pressure(&self) -> Pascals {
        self.pressure
    }

    /// Humidity ratio of saturated air with this enthalpy.
    ///
    /// # Accuracy
    /// Within 1e-11 kg/kg of the solved value between -60 and 50 °C; solved outside.
    #[must_use]
    pub fn humidity_ratio_at(&self, enthalpy: KilojoulesPerKilogram) -> HumidityRatio {
        let h = enthalpy.0;
        if h >= self.water.first && h <= self.water.last {
            HumidityRatio(self.water.at(h))
        } else if h >= self.ice.first && h <= self.ice.last {
            HumidityRatio(self.ice.at(h))
        } else {
            saturation_humidity_ratio(temperature_at(enthalpy, self.pressure), self.pressure)
        }
    }

    /// Temperature of saturated air with this enthalpy.
    #[must_use]
    pub fn temperature_at(&self, enthalpy: KilojoulesPerKilogram) -> Celsius {
        super::dry_bulb_at_enthalpy(enthalpy, self.humidity_ratio_at(enthalpy))
    }
}

impl Stretch {
    fn between(cold: Celsius, warm: Celsius, pressure: Pascals) -> Self {
        let enthalpy_at = |t: Celsius| enthalpy(t, saturation_humidity_ratio(t, pressure)).0;
        let (first, last) = (enthalpy_at(cold), enthalpy_at(warm));
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let step = (last - first) / PIECES as f64;
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let nodes: Vec<(f64, f64)> = (0..=PIECES)
            .map(|at| {
                let h = KilojoulesPerKilogram(first + step * at as f64);
                let t = temperature_at(h, pressure).max(cold).min(warm);
                let slope = humidity_ratio_slope(t, pressure);
                // dh/dT along the saturation curve, so that dW/dh = (dW/dT) / (dh/dT).
                let w = saturation_humidity_ratio(t, pressure);
                let enthalpy_slope = 1.006 + 1.86 * w.0 + slope * (2501.0 + 1.86 * t.0);
                (w.0, slope / enthalpy_slope * step)
            })
            .collect();
        let pieces = nodes
            .windows(2)
            .map(|pair| {
                let ((w0, s0), (w1, s1)) = (pair[0], pair[1]);
                [
                    w0,
                    s0,
                    3.0 * (w1 - w0) - 2.0 * s0 - s1,
                    2.0 * (w0 - w1) + s0 + s1,
                ]
            })
            .collect();
        Self {
            first,
            last,
            pieces_per_kilojoule: step.recip(),
            pieces,
        }
    }

    fn at(&self, h: f64) -> f64 {
        let position = (h - self.first) * self.pieces_per_kilojoule;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "inside the stretch, checked"
        )]
        let piece = (position as usize).min(PIECES - 1);
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let x = position - piece as f64;
        let [a, b, c, d] = self.pieces[piece];
        a + x * (b + x * (c + x * d))
    }
}

/// Slope of the saturated humidity ratio over temperature \[1/K\]: the derivative of `0.621945 p_ws/(p - p_ws)`.
fn humidity_ratio_slope(temperature: Celsius, pressure: Pascals) -> f64 {
    let dry = pressure.0 - saturation_pressure(temperature).0;
    super::MOLAR_MASS_RATIO * pressure.0 * saturation_pressure_slope(temperature) / (dry * dry)
}

/// Temperature of saturated air with this enthalpy, by bisection and then Newton's method.
fn temperature_at(wanted: KilojoulesPerKilogram, pressure: Pascals) -> Celsius {
    let enthalpy_at =
        |t: f64| enthalpy(Celsius(t), saturation_humidity_ratio(Celsius(t), pressure)).0;
    let (mut low, mut high) = (-100.0, 100.0);
    // Dry air at -100 °C is a floor below which no coil of any kind works; the answer is then the floor.
    while high - low > 1e-13 * 100.0 {
        let middle = f64::midpoint(low, high);
        if middle <= low || middle >= high {
            break;
        }
        if enthalpy_at(middle) > wanted.0 {
            high = middle
        } else {
            low = middle
        }
    }
    Celsius(f64::midpoint(low, high))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_laid_out_curve_agrees_with_the_solved_one() {
        for altitude_pressure in [101_325.0, 83_000.0] {
            let pressure = Pascals(altitude_pressure);
            let air = SaturatedAir::at_pressure(pressure);
            for step in -5_990..4_990 {
                let t = Celsius(f64::from(step) * 0.01 + 0.003_7);
                let w = saturation_humidity_ratio(t, pressure);
                let found = air.humidity_ratio_at(enthalpy(t, w));
                assert!(
                    (found.0 - w.0).abs() < 1e-11,
                    "{t:?}: {} ≠ {}",
                    found.0,
                    w.0
                );
            }
        }
    }

    #[test]
    fn outside_the_table_the_curve_is_solved() {
        let air = SaturatedAir::at_pressure(Pascals(101_325.0));
        for t in [-80.0, 60.0] {
            let w = saturation_humidity_ratio(Celsius(t), air.pressure());
            let found = air.temperature_at(enthalpy(Celsius(t), w));
            assert!((found.0 - t).abs() < 1e-9);
        }
    }
}
