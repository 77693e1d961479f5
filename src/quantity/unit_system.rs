//! Quantities as a reader wants to see them: in SI or inch-pound units, rounded for tables.

use super::{Celsius, Kelvins, KilogramsPerHour, Kilowatts, LitresPerSecond};

/// The units of what is printed for people.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum UnitSystem {
    /// °C, kW, L/s, L/d
    #[default]
    Si,
    /// °F, kBtu/h, cfm, pint/d
    Ip,
}

/// One kilowatt in thousand Btu(IT) per hour.
const KBTU_H_PER_KW: f64 = 3_600.0 / 1_055.055_852_62;
/// One litre per second in cubic feet per minute.
const CFM_PER_LITRE_PER_SECOND: f64 = 60.0 / (0.3048 * 0.3048 * 0.3048 * 1_000.0);
/// One litre in US pints.
const PINTS_PER_LITRE: f64 = 1.0 / 0.473_176_473;

impl UnitSystem {
    /// A temperature with its unit, to a tenth of a degree.
    #[must_use]
    pub fn temperature(self, temperature: Celsius) -> String {
        format!(
            "{} {}",
            self.bare_temperature(temperature),
            self.temperature_unit()
        )
    }

    /// A temperature without its unit, to a tenth of a degree.
    #[must_use]
    pub fn bare_temperature(self, temperature: Celsius) -> String {
        fixed(self.temperature_value(temperature), 1)
    }

    /// A temperature as a number in this system's unit, not rounded: for the scale of a chart.
    #[must_use]
    pub fn temperature_value(self, temperature: Celsius) -> f64 {
        match self {
            Self::Si => temperature.0,
            Self::Ip => temperature.fahrenheit(),
        }
    }

    /// The unit of temperatures.
    #[must_use]
    pub fn temperature_unit(self) -> &'static str {
        match self {
            Self::Si => "°C",
            Self::Ip => "°F",
        }
    }

    /// A temperature difference with its unit.
    #[must_use]
    pub fn difference(self, difference: Kelvins) -> String {
        match self {
            Self::Si => format!("{} K", fixed(difference.0, 1)),
            Self::Ip => format!("{} °F", fixed(difference.0 * 1.8, 1)),
        }
    }

    /// A power with its unit.
    #[must_use]
    pub fn power(self, power: Kilowatts) -> String {
        format!("{} {}", self.bare_power(power), self.power_unit())
    }

    /// A power without its unit.
    #[must_use]
    pub fn bare_power(self, power: Kilowatts) -> String {
        match self {
            Self::Si => fixed(self.power_value(power), 2),
            Self::Ip => fixed(self.power_value(power), 1),
        }
    }

    /// A power by which something is short, with its unit: never a bare zero, for it is short by something.
    #[must_use]
    pub fn shortfall(self, power: Kilowatts) -> String {
        let smallest = match self {
            Self::Si => "0.01",
            Self::Ip => "0.1",
        };
        let rounded = self.bare_power(power);
        if power > Kilowatts::ZERO && rounded.bytes().all(|byte| matches!(byte, b'0' | b'.')) {
            return format!("less than {smallest} {}", self.power_unit());
        }
        format!("{rounded} {}", self.power_unit())
    }

    /// A heat flow as a number in this system's unit, not rounded: for the scale of a chart.
    #[must_use]
    pub fn power_value(self, power: Kilowatts) -> f64 {
        match self {
            Self::Si => power.0,
            Self::Ip => power.0 * KBTU_H_PER_KW,
        }
    }

    /// The unit of heating and cooling power.
    #[must_use]
    pub fn power_unit(self) -> &'static str {
        match self {
            Self::Si => "kW",
            Self::Ip => "kBtu/h",
        }
    }

    /// A year's condensate with its unit.
    #[must_use]
    pub fn water_per_year(self, litres: f64) -> String {
        format!(
            "{} {}",
            self.bare_water_per_year(litres),
            self.water_per_year_unit()
        )
    }

    /// A year's condensate without its unit.
    #[must_use]
    pub fn bare_water_per_year(self, litres: f64) -> String {
        fixed(self.water_value(litres), 0)
    }

    /// An amount of water as a number in this system's unit, not rounded: for the scale of a chart.
    #[must_use]
    pub fn water_value(self, litres: f64) -> f64 {
        match self {
            Self::Si => litres,
            Self::Ip => litres * PINTS_PER_LITRE,
        }
    }

    /// The unit of a year's condensate.
    #[must_use]
    pub fn water_per_year_unit(self) -> &'static str {
        match self {
            Self::Si => "L",
            Self::Ip => "pints",
        }
    }

    /// An airflow with its unit.
    #[must_use]
    pub fn airflow(self, flow: LitresPerSecond) -> String {
        match self {
            Self::Si => format!("{} L/s", fixed(flow.0, 0)),
            Self::Ip => format!("{} cfm", fixed(flow.0 * CFM_PER_LITRE_PER_SECOND, 0)),
        }
    }

    /// A flow of condensate per day with its unit.
    #[must_use]
    pub fn water_per_day(self, flow: KilogramsPerHour) -> String {
        format!(
            "{} {}",
            self.bare_water_per_day(flow),
            self.water_per_day_unit()
        )
    }

    /// A flow of condensate per day without its unit.
    #[must_use]
    pub fn bare_water_per_day(self, flow: KilogramsPerHour) -> String {
        match self {
            Self::Si => fixed(flow.litres_per_day(), 1),
            Self::Ip => fixed(flow.litres_per_day() * PINTS_PER_LITRE, 1),
        }
    }

    /// The unit of a flow of condensate per day.
    #[must_use]
    pub fn water_per_day_unit(self) -> &'static str {
        match self {
            Self::Si => "L/d",
            Self::Ip => "pint/d",
        }
    }
}

/// A number with a fixed count of decimals; never `-0`.
#[must_use]
pub fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    if text.starts_with('-') && text.bytes().all(|byte| matches!(byte, b'-' | b'0' | b'.')) {
        return text[1..].to_owned();
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    // Source of the factors: NIST SP 811; -18 °C = -0.4 °F, 9.2 kW = 31.39 kBtu/h, 54 L/s = 114.4 cfm.
    #[test]
    fn both_unit_systems_say_the_same() {
        assert_eq!(UnitSystem::Si.temperature(Celsius(-18.0)), "-18.0 °C");
        assert_eq!(UnitSystem::Ip.temperature(Celsius(-18.0)), "-0.4 °F");
        assert_eq!(UnitSystem::Ip.power(Kilowatts(9.2)), "31.4 kBtu/h");
        assert_eq!(UnitSystem::Ip.airflow(LitresPerSecond(54.0)), "114 cfm");
        assert_eq!(UnitSystem::Si.power(Kilowatts(-0.001)), "0.00 kW");
    }

    #[test]
    fn what_is_short_is_never_short_by_nothing() {
        let si = |kw: f64| UnitSystem::Si.shortfall(Kilowatts(kw));
        assert_eq!(si(0.0049), "less than 0.01 kW");
        assert_eq!(si(0.0051), "0.01 kW");
        assert_eq!(si(1.36), "1.36 kW");
        let ip = UnitSystem::Ip.shortfall(Kilowatts(0.0049));
        assert_eq!(ip, "less than 0.1 kBtu/h");
    }
}
