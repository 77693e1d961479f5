//! Physical quantities as types: the unit lives in the type, so a kilowatt never meets a Celsius by accident.
//!
//! A temperature is a *place* on a scale ([`Celsius`]); the distance between two is another type ([`Kelvins`]),
//! so adding two temperatures does not compile:
//!
//! ```compile_fail
//! use overwinter::quantity::Celsius;
//! let nonsense = Celsius(20.0) + Celsius(5.0);
//! ```
//!
//! Inside a formula the plain number is `.0`, so that the code can look like the paper it follows.

mod counted;
mod parse;
mod temperature;
mod unit_system;

pub use counted::counted;
pub use parse::{Dimension, ParseQuantityError, parse_quantity};
pub use temperature::{Celsius, Kelvins};
pub use unit_system::{UnitSystem, fixed};

/// Declares a quantity that can be added, scaled, and divided by its own kind.
macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
        #[serde(transparent)]
        pub struct $name(pub f64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);

            /// The smaller of the two.
            #[must_use]
            pub fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }

            /// The larger of the two.
            #[must_use]
            pub fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }
        }

        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl std::ops::AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl std::ops::Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl std::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }

        impl std::ops::Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }

        impl std::ops::Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
                items.fold(Self::ZERO, |total, item| total + item)
            }
        }
    };
}

quantity! {
    /// Power, thermal or electric \[kW\].
    Kilowatts
}
quantity! {
    /// Energy, thermal or electric \[kWh\].
    KilowattHours
}
quantity! {
    /// Money, in the currency that its owner names.
    Money
}
quantity! {
    /// Mass of greenhouse gases \[kg of CO₂-equivalent\].
    KilogramsCo2
}
quantity! {
    /// Coefficient of performance: heat moved per electricity used.
    Cop
}
quantity! {
    /// A length of time \[h\].
    Hours
}
quantity! {
    /// Volume flow of air \[L/s\].
    LitresPerSecond
}
quantity! {
    /// Pressure \[Pa\].
    Pascals
}
quantity! {
    /// Height above sea level \[m\].
    Metres
}
quantity! {
    /// Mass flow of water vapour or liquid water \[kg/h\]; one kilogram is one litre of condensate.
    KilogramsPerHour
}
quantity! {
    /// Mass of water \[kg\].
    Kilograms
}
quantity! {
    /// Humidity ratio \[kg of water vapour per kg of dry air\].
    HumidityRatio
}
quantity! {
    /// Specific enthalpy of moist air \[kJ per kg of dry air\], zero for dry air at 0 °C.
    KilojoulesPerKilogram
}

impl std::ops::Mul<Hours> for Kilowatts {
    type Output = KilowattHours;
    fn mul(self, time: Hours) -> KilowattHours {
        KilowattHours(self.0 * time.0)
    }
}

impl std::ops::Mul<Hours> for KilogramsPerHour {
    type Output = Kilograms;
    fn mul(self, time: Hours) -> Kilograms {
        Kilograms(self.0 * time.0)
    }
}

impl KilogramsPerHour {
    /// The same flow as litres of condensate per day.
    #[must_use]
    pub fn litres_per_day(self) -> f64 {
        self.0 * 24.0
    }
}
