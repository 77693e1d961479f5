//! Temperature as a place on the scale, and the distance between two such places.

use std::ops::{Add, Div, Mul, Sub};

/// A temperature \[°C\]: a place on the scale.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize,
)]
#[serde(transparent)]
pub struct Celsius(pub f64);

/// A temperature difference \[K\]: a distance along the scale.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize,
)]
#[serde(transparent)]
pub struct Kelvins(pub f64);

impl Celsius {
    /// The place on the scale that a Fahrenheit thermometer calls `fahrenheit`.
    #[must_use]
    pub fn from_fahrenheit(fahrenheit: f64) -> Self {
        Self((fahrenheit - 32.0) / 1.8)
    }

    /// What a Fahrenheit thermometer shows here \[°F\].
    #[must_use]
    pub fn fahrenheit(self) -> f64 {
        self.0 * 1.8 + 32.0
    }

    /// The colder of the two.
    #[must_use]
    pub fn min(self, other: Self) -> Self {
        Self(self.0.min(other.0))
    }

    /// The warmer of the two.
    #[must_use]
    pub fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }
}

impl Sub for Celsius {
    type Output = Kelvins;
    fn sub(self, other: Self) -> Kelvins {
        Kelvins(self.0 - other.0)
    }
}

impl Add<Kelvins> for Celsius {
    type Output = Self;
    fn add(self, distance: Kelvins) -> Self {
        Self(self.0 + distance.0)
    }
}

impl Sub<Kelvins> for Celsius {
    type Output = Self;
    fn sub(self, distance: Kelvins) -> Self {
        Self(self.0 - distance.0)
    }
}

impl Mul<f64> for Kelvins {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self(self.0 * factor)
    }
}

impl Div for Kelvins {
    type Output = f64;
    fn div(self, other: Self) -> f64 {
        self.0 / other.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Fixed points of the two scales (definition).
    #[test]
    fn water_freezes_at_32_and_boils_at_212_fahrenheit() {
        assert!((Celsius::from_fahrenheit(32.0).0).abs() < 1e-12);
        assert!((Celsius(100.0).fahrenheit() - 212.0).abs() < 1e-12);
        assert!((Celsius::from_fahrenheit(-40.0).0 + 40.0).abs() < 1e-12);
    }
}
