//! One step of a worked calculation: an equation in symbols, the numbers put in, the result, and on whose authority.

use super::Authority;
use crate::quantity::{
    Celsius, HumidityRatio, KilogramsPerHour, KilojoulesPerKilogram, KilowattHours, Kilowatts,
    LitresPerSecond, Pascals,
};

/// The unit of a number in a step. Equations are worked in these, whatever else is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// A place on the temperature scale.
    Celsius,
    /// Thermal or electric power.
    Kilowatts,
    /// Power per kelvin of outdoor temperature.
    KilowattsPerKelvin,
    /// Energy.
    KilowattHours,
    /// Time, in a year.
    Hours,
    /// Time, in a cycle.
    Seconds,
    /// Cycles.
    PerHour,
    /// Volume flow of air.
    LitresPerSecond,
    /// Mass flow of dry air.
    KilogramsPerSecond,
    /// Mass flow of water.
    KilogramsPerHour,
    /// Condensate per day.
    LitresPerDay,
    /// Condensate.
    Litres,
    /// Enthalpy per mass of dry air, or of water.
    KilojoulesPerKilogram,
    /// Humidity ratio.
    KilogramsPerKilogram,
    /// Slope of humidity ratio over temperature.
    PerKelvin,
    /// Pressure.
    Pascals,
    /// A plain number.
    Plain,
}

impl Measure {
    /// The unit as it is written; empty for a plain number.
    #[must_use]
    pub fn unit(self) -> &'static str {
        match self {
            Self::Celsius => "°C",
            Self::Kilowatts => "kW",
            Self::KilowattsPerKelvin => "kW/K",
            Self::KilowattHours => "kWh",
            Self::Hours => "h",
            Self::Seconds => "s",
            Self::PerHour => "1/h",
            Self::LitresPerSecond => "L/s",
            Self::KilogramsPerSecond => "kg/s",
            Self::KilogramsPerHour => "kg/h",
            Self::LitresPerDay => "L/d",
            Self::Litres => "L",
            Self::KilojoulesPerKilogram => "kJ/kg",
            Self::KilogramsPerKilogram => "kg/kg",
            Self::PerKelvin => "1/K",
            Self::Pascals => "Pa",
            Self::Plain => "",
        }
    }
}

/// A number with its unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Value {
    /// The number, in full precision.
    pub number: f64,
    /// Its unit.
    pub measure: Measure,
}

impl Value {
    /// A number with its unit.
    #[must_use]
    pub fn new(number: f64, measure: Measure) -> Self {
        Self { number, measure }
    }
}

macro_rules! values {
    ($($quantity:ty => $measure:ident),+ $(,)?) => {
        $(impl From<$quantity> for Value {
            fn from(quantity: $quantity) -> Self {
                Self::new(quantity.0, Measure::$measure)
            }
        })+
    };
}

values! {
    Celsius => Celsius,
    Kilowatts => Kilowatts,
    KilowattHours => KilowattHours,
    crate::quantity::Hours => Hours,
    LitresPerSecond => LitresPerSecond,
    KilogramsPerHour => KilogramsPerHour,
    KilojoulesPerKilogram => KilojoulesPerKilogram,
    HumidityRatio => KilogramsPerKilogram,
    Pascals => Pascals,
}

impl From<f64> for Value {
    fn from(number: f64) -> Self {
        Self::new(number, Measure::Plain)
    }
}

/// A symbol with the number that it stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    /// The symbol, as in the equation.
    pub symbol: String,
    /// What it stands for.
    pub value: Value,
}

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What is found.
    pub title: String,
    /// The symbol of the result; empty where the step only says something.
    pub symbol: String,
    /// What the result equals, in symbols of [`Step::inputs`]; empty where it is read off, not computed.
    pub equation: String,
    /// The numbers put in.
    pub inputs: Vec<Input>,
    /// The result; `None` where there is none.
    pub result: Option<Value>,
    /// What a reader should know of it.
    pub note: String,
    /// On whose authority.
    pub authority: Authority,
}

impl Step {
    /// A step without numbers yet.
    #[must_use]
    pub fn new(title: impl Into<String>, authority: Authority) -> Self {
        Self {
            title: title.into(),
            symbol: String::new(),
            equation: String::new(),
            inputs: Vec::new(),
            result: None,
            note: String::new(),
            authority,
        }
    }

    /// With its equation: `symbol = equation`.
    ///
    /// The equation is written in `+ - · / ^ ( )`, `min(a, b)`, `max(a, b)`, `exp(a)`, numbers and symbols.
    #[must_use]
    pub fn equation(mut self, symbol: &str, equation: &str) -> Self {
        self.symbol = symbol.to_owned();
        self.equation = equation.to_owned();
        self
    }

    /// With a number put in.
    #[must_use]
    pub fn with(mut self, symbol: &str, value: impl Into<Value>) -> Self {
        self.inputs.push(Input {
            symbol: symbol.to_owned(),
            value: value.into(),
        });
        self
    }

    /// With its result.
    #[must_use]
    pub fn gives(mut self, value: impl Into<Value>) -> Self {
        self.result = Some(value.into());
        self
    }

    /// With a note.
    #[must_use]
    pub fn note(mut self, note: impl Into<String>) -> Self {
        self.note = note.into();
        self
    }

    /// A result that is read off, not computed.
    #[must_use]
    pub fn reads(mut self, symbol: &str, value: impl Into<Value>) -> Self {
        self.symbol = symbol.to_owned();
        self.gives(value)
    }
}
