//! A designer's own criterion: a value of the unit, where it is read, and the bound that it must keep.

use std::fmt;

use super::Requirements;
use crate::equipment::{FieldKind, Speed, UNIT_FIELDS, UnitField, unit_field};
use crate::quantity::{Celsius, Kilowatts, LitresPerSecond, UnitSystem};

/// Everything that is asked of a unit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Criteria {
    /// The built-in checks.
    pub requirements: Requirements,
    /// The designer's own, in the order of the file.
    pub criteria: Vec<Criterion>,
}

/// One criterion.
#[derive(Clone, Debug, PartialEq)]
pub struct Criterion {
    /// What a reader calls it.
    pub name: String,
    /// The value that is judged.
    pub value: CriterionValue,
    /// The compressor speed at which a curve's value is read.
    pub speed: Speed,
    /// The outdoor temperature at which a curve's value is read; `None` for a declared column.
    pub at: Option<Celsius>,
    /// What the value must keep to.
    pub bound: Bound,
}

impl Criterion {
    /// What a criterion is called that its file does not name: `heating.cop at -15.0 °C, maximum speed: at least 1.75`.
    #[must_use]
    pub fn default_name(
        value: CriterionValue,
        speed: Speed,
        at: Option<Celsius>,
        bound: &Bound,
    ) -> String {
        let units = UnitSystem::Si;
        let place = at.map_or_else(String::new, |at| {
            format!(" at {}, {} speed", units.temperature(at), speed.name())
        });
        format!("{}{place}: {}", value.name(), bound.words(value, units))
    }

    /// Its name where the place and the bound stand beside it: without them if it has no name of its own.
    #[must_use]
    pub fn label(&self) -> &str {
        if self.name == Self::default_name(self.value, self.speed, self.at, &self.bound) {
            self.value.name()
        } else {
            &self.name
        }
    }
}

/// The value that a criterion judges.
#[derive(Clone, Copy)]
pub enum CriterionValue {
    /// Heating capacity \[kW\].
    HeatingCapacity,
    /// Heating coefficient of performance.
    HeatingCop,
    /// Total cooling capacity \[kW\].
    CoolingCapacity,
    /// Cooling coefficient of performance.
    CoolingCop,
    /// Sensible share of the cooling capacity.
    CoolingShr,
    /// A declared column of the unit.
    Field(&'static UnitField),
}

impl CriterionValue {
    /// The values read off a curve.
    pub const OF_CURVES: [Self; 5] = [
        Self::HeatingCapacity,
        Self::HeatingCop,
        Self::CoolingCapacity,
        Self::CoolingCop,
        Self::CoolingShr,
    ];

    /// Its name in criteria files.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::HeatingCapacity => "heating.capacity",
            Self::HeatingCop => "heating.cop",
            Self::CoolingCapacity => "cooling.capacity",
            Self::CoolingCop => "cooling.cop",
            Self::CoolingShr => "cooling.shr",
            Self::Field(field) => field.name,
        }
    }

    /// The value with this name in criteria files.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        let of_curves = Self::OF_CURVES
            .into_iter()
            .find(|value| value.name() == name);
        of_curves.or_else(|| unit_field(name).map(Self::Field))
    }

    /// Every name that a criteria file may use.
    pub fn names() -> impl Iterator<Item = &'static str> {
        Self::OF_CURVES
            .into_iter()
            .map(Self::name)
            .chain(UNIT_FIELDS.iter().map(|field| field.name))
    }

    /// The unit that its numbers are in; empty for a plain number, a word, or yes and no.
    #[must_use]
    pub fn unit(self) -> &'static str {
        match self {
            Self::HeatingCapacity | Self::CoolingCapacity => "kW",
            Self::HeatingCop | Self::CoolingCop | Self::CoolingShr => "",
            Self::Field(field) => match field.name {
                "operates_to_c" => "°C",
                "airflow_l_s" => "L/s",
                "external_static_pa" => "Pa",
                "sound_db_a" => "dB(A)",
                "circuit_ampacity_a" => "A",
                "standby_w" => "W",
                _ => "",
            },
        }
    }

    /// A number of it with its unit, in the reader's units where it is a power, a temperature or an airflow.
    #[must_use]
    pub fn words(self, number: f64, units: UnitSystem) -> String {
        match self.unit() {
            "" => number.to_string(),
            "kW" => units.power(Kilowatts(number)),
            "°C" => units.temperature(Celsius(number)),
            "L/s" => units.airflow(LitresPerSecond(number)),
            unit => format!("{number} {unit}"),
        }
    }

    /// What kind of value it is.
    #[must_use]
    pub fn kind(self) -> FieldKind {
        match self {
            Self::Field(field) => field.kind,
            _ => FieldKind::Number,
        }
    }

    /// Whether it is read off a cooling curve.
    #[must_use]
    pub fn is_of_cooling(self) -> bool {
        matches!(
            self,
            Self::CoolingCapacity | Self::CoolingCop | Self::CoolingShr
        )
    }

    /// Whether it is read off a curve, and so needs an outdoor temperature and a speed.
    #[must_use]
    pub fn is_of_curve(self) -> bool {
        !matches!(self, Self::Field(_))
    }
}

impl PartialEq for CriterionValue {
    fn eq(&self, other: &Self) -> bool {
        self.name() == other.name()
    }
}

impl fmt::Debug for CriterionValue {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.name())
    }
}

/// A single value that a bound names.
#[derive(Clone, Debug, PartialEq)]
pub enum BoundValue {
    /// A number, in the unit of the criterion's value.
    Number(f64),
    /// A word.
    Text(String),
    /// Yes or no.
    Flag(bool),
}

impl fmt::Display for BoundValue {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number(number) => write!(out, "{number}"),
            Self::Text(text) => out.write_str(text),
            Self::Flag(true) => out.write_str("yes"),
            Self::Flag(false) => out.write_str("no"),
        }
    }
}

/// What a value must keep to.
#[derive(Clone, Debug, PartialEq)]
pub enum Bound {
    /// At least this, in the value's unit.
    AtLeast(f64),
    /// At most this, in the value's unit.
    AtMost(f64),
    /// Exactly this.
    Equals(BoundValue),
    /// One of these; never empty.
    OneOf(Vec<BoundValue>),
}

impl Bound {
    /// The bound on a value in words, with the unit behind its numbers: `at least 1.75`, `one of R32, R290`.
    #[must_use]
    pub fn words(&self, of: CriterionValue, units: UnitSystem) -> String {
        let with_unit = |value: &BoundValue| match value {
            BoundValue::Number(number) => of.words(*number, units),
            _ => value.to_string(),
        };
        match self {
            Self::AtLeast(limit) => format!("at least {}", of.words(*limit, units)),
            Self::AtMost(limit) => format!("at most {}", of.words(*limit, units)),
            Self::Equals(value) => with_unit(value),
            Self::OneOf(values) => {
                let values: Vec<String> = values.iter().map(with_unit).collect();
                format!("one of {}", values.join(", "))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_leads_back_to_its_value() {
        for name in CriterionValue::names() {
            assert_eq!(
                CriterionValue::from_name(name).map(CriterionValue::name),
                Some(name)
            );
        }
        assert_eq!(CriterionValue::from_name("heating.warmth"), None);
    }

    #[test]
    fn a_criterion_without_a_name_is_called_by_its_value_beside_its_bound() {
        let (value, bound) = (CriterionValue::HeatingCop, Bound::AtLeast(1.75));
        let at = Some(Celsius(-15.0));
        let name = Criterion::default_name(value, Speed::Maximum, at, &bound);
        assert_eq!(
            name,
            "heating.cop at -15.0 °C, maximum speed: at least 1.75"
        );
        let mut criterion = Criterion {
            name,
            value,
            speed: Speed::Maximum,
            at,
            bound,
        };
        assert_eq!(criterion.label(), "heating.cop");
        criterion.name = "COP on a cold night".to_owned();
        assert_eq!(criterion.label(), "COP on a cold night");
    }

    #[test]
    fn a_bound_reads_with_its_unit() {
        let words = |bound: Bound, name: &str, units| {
            bound.words(CriterionValue::from_name(name).unwrap(), units)
        };
        let (si, ip) = (UnitSystem::Si, UnitSystem::Ip);
        let power = || Bound::AtLeast(9.2);
        assert_eq!(words(power(), "heating.capacity", si), "at least 9.20 kW");
        assert_eq!(
            words(power(), "heating.capacity", ip),
            "at least 31.4 kBtu/h"
        );
        let cold = || Bound::AtMost(-18.0);
        assert_eq!(words(cold(), "operates_to_c", ip), "at most -0.4 °F");
        assert_eq!(
            words(Bound::AtLeast(54.0), "airflow_l_s", ip),
            "at least 114 cfm"
        );
        assert_eq!(
            words(Bound::AtMost(56.0), "sound_db_a", ip),
            "at most 56 dB(A)"
        );
        assert_eq!(words(Bound::AtMost(56.0), "hspf", si), "at most 56");
        let refrigerants = ["R32", "R290"].map(|name| BoundValue::Text(name.into()));
        assert_eq!(
            words(Bound::OneOf(refrigerants.to_vec()), "refrigerant", si),
            "one of R32, R290"
        );
    }
}
