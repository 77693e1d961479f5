//! Reads a written quantity such as `"31.4 kBtu/h"` or `"0 °F"` into the unit that the program computes in.

/// What kind of quantity is expected, which decides the units that are understood.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// A temperature on the scale: `°C`, `C`, `°F`, `F`, `K`. Computed in °C.
    Temperature,
    /// Power: `kW`, `W`, `Btu/h`, `kBtu/h`, `ton` (of refrigeration). Computed in kW.
    Power,
    /// Volume flow of air: `L/s`, `cfm`, `m3/h`. Computed in L/s.
    AirFlow,
    /// Mass flow of water: `kg/d`, `kg/h`, `L/d`, `lb/d`, `pint/d` (US). Computed in kg/h.
    WaterFlow,
    /// Length: `m`, `ft`. Computed in m.
    Length,
    /// A plain number, a fraction, or a percentage (`60 %` is 0.6).
    Fraction,
    /// A plain number without a unit.
    Number,
}

/// A written quantity that cannot be read.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ParseQuantityError {
    /// The text does not begin with a number.
    #[error("found `{0}`, expected a number")]
    NotANumber(String),
    /// The number is infinite or not a number.
    #[error("found `{0}`, expected a finite number")]
    NotFinite(String),
    /// The unit is not one of the dimension's units.
    #[error("found unit `{unit}`, expected one of {expected}")]
    UnknownUnit {
        /// The unit as written.
        unit: String,
        /// The units that are understood, listed for a reader.
        expected: &'static str,
    },
}

/// One unit: its spelling, and value = number × factor + offset.
type Unit = (&'static str, f64, f64);

// Exact by definition: 1 Btu(IT) = 1055.05585262 J; 1 ton of refrigeration = 12 000 Btu/h; 1 ft = 0.3048 m;
// 1 lb = 0.45359237 kg; 1 US pint = 0.473176473 L. A kilogram of water is taken as a litre.
const KW_PER_BTU_H: f64 = 1_055.055_852_62 / 3_600.0 / 1_000.0;
const LITRES_PER_SECOND_PER_CFM: f64 = 0.3048 * 0.3048 * 0.3048 * 1_000.0 / 60.0;

const TEMPERATURE: &[Unit] = &[
    ("°C", 1.0, 0.0),
    ("C", 1.0, 0.0),
    ("°F", 1.0 / 1.8, -32.0 / 1.8),
    ("F", 1.0 / 1.8, -32.0 / 1.8),
    ("K", 1.0, -273.15),
];
const POWER: &[Unit] = &[
    ("kW", 1.0, 0.0),
    ("W", 0.001, 0.0),
    ("Btu/h", KW_PER_BTU_H, 0.0),
    ("kBtu/h", KW_PER_BTU_H * 1_000.0, 0.0),
    ("ton", KW_PER_BTU_H * 12_000.0, 0.0),
];
const AIR_FLOW: &[Unit] = &[
    ("L/s", 1.0, 0.0),
    ("cfm", LITRES_PER_SECOND_PER_CFM, 0.0),
    ("m3/h", 1.0 / 3.6, 0.0),
    ("m³/h", 1.0 / 3.6, 0.0),
];
const WATER_FLOW: &[Unit] = &[
    ("kg/h", 1.0, 0.0),
    ("kg/d", 1.0 / 24.0, 0.0),
    ("L/d", 1.0 / 24.0, 0.0),
    ("L/h", 1.0, 0.0),
    ("lb/d", 0.453_592_37 / 24.0, 0.0),
    ("pint/d", 0.473_176_473 / 24.0, 0.0),
];
const LENGTH: &[Unit] = &[("m", 1.0, 0.0), ("ft", 0.3048, 0.0)];
const FRACTION: &[Unit] = &[("%", 0.01, 0.0)];

impl Dimension {
    fn units(self) -> &'static [Unit] {
        match self {
            Self::Temperature => TEMPERATURE,
            Self::Power => POWER,
            Self::AirFlow => AIR_FLOW,
            Self::WaterFlow => WATER_FLOW,
            Self::Length => LENGTH,
            Self::Fraction => FRACTION,
            Self::Number => &[],
        }
    }

    /// The units understood for this dimension, as a reader would list them.
    #[must_use]
    pub fn expected(self) -> &'static str {
        match self {
            Self::Temperature => "°C, °F, K",
            Self::Power => "kW, W, Btu/h, kBtu/h, ton",
            Self::AirFlow => "L/s, cfm, m3/h",
            Self::WaterFlow => "kg/d, kg/h, L/d, L/h, lb/d, pint/d",
            Self::Length => "m, ft",
            Self::Fraction => "a plain number or %",
            Self::Number => "a plain number",
        }
    }

    /// What brings a number without a unit into the computed unit: water flows are written per day, all else as computed.
    fn bare_factor(self) -> f64 {
        if self == Self::WaterFlow {
            1.0 / 24.0
        } else {
            1.0
        }
    }

    /// Factor and offset that bring a number in `unit` into the computed unit, or `None` for an unknown unit.
    #[must_use]
    pub fn scale(self, unit: &str) -> Option<(f64, f64)> {
        self.units()
            .iter()
            .find(|(spelling, _, _)| spelling.eq_ignore_ascii_case(unit))
            .map(|&(_, factor, offset)| (factor, offset))
    }
}

/// Reads a number with an optional unit into the dimension's computed unit.
///
/// - `text`  a number, then a unit with or without a space between: `"9.2 kW"`, `"-18°C"`, `"75 cfm"`;
///   without a unit the number is in °C, kW, L/s, kg/d, m, or is a fraction
///
/// # Errors
/// [`ParseQuantityError`] where the text is not a finite number or its unit is not one of the dimension's.
///
/// # Source
/// Unit definitions: NIST SP 811 (Btu in the International Table definition), exact.
pub fn parse_quantity(text: &str, dimension: Dimension) -> Result<f64, ParseQuantityError> {
    let text = text.trim().replace('\u{2212}', "-");
    let (number, unit) = split_number(&text);
    let value: f64 = number
        .parse()
        .map_err(|_| ParseQuantityError::NotANumber(text.clone()))?;
    if !value.is_finite() {
        return Err(ParseQuantityError::NotFinite(text));
    }
    if unit.is_empty() {
        return Ok(value * dimension.bare_factor());
    }
    let (factor, offset) =
        dimension
            .scale(unit)
            .ok_or_else(|| ParseQuantityError::UnknownUnit {
                unit: unit.to_owned(),
                expected: dimension.expected(),
            })?;
    Ok(value * factor + offset)
}

/// Splits `"9.2 kW"` into `("9.2", "kW")`: the longest beginning that reads as a number, and the rest.
fn split_number(text: &str) -> (&str, &str) {
    let mut end = 0;
    for (at, character) in text.char_indices() {
        let after = at + character.len_utf8();
        if text[..after].parse::<f64>().is_ok() {
            end = after;
        }
    }
    (&text[..end], text[end..].trim())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(text: &str, dimension: Dimension, expected: f64) {
        let value = parse_quantity(text, dimension).expect(text);
        assert!(
            (value - expected).abs() < 1e-9 * expected.abs().max(1.0),
            "{text}: {value} ≠ {expected}"
        );
    }

    // Source: NIST SP 811, appendix B: 1 Btu(IT)/h = 0.293 071 07 W; 1 ton of refrigeration (12 000 Btu/h) = 3 516.853 W;
    // 1 ft3/min = 0.471 947 4 L/s; 1 ft = 0.3048 m.
    #[test]
    fn units_follow_their_definitions() {
        close("9.2 kW", Dimension::Power, 9.2);
        close("9.2", Dimension::Power, 9.2);
        close("12000 Btu/h", Dimension::Power, 3.516_852_842);
        close("1 ton", Dimension::Power, 3.516_852_842);
        close("31.4kBtu/h", Dimension::Power, 31.4 * 0.293_071_070_172);
        close("75 cfm", Dimension::AirFlow, 75.0 * 0.471_947_443_2);
        close("-18 °C", Dimension::Temperature, -18.0);
        close("\u{2212}18 °C", Dimension::Temperature, -18.0);
        close("0 °F", Dimension::Temperature, -17.777_777_777_78);
        close("10 kg/d", Dimension::WaterFlow, 10.0 / 24.0);
        close("10", Dimension::WaterFlow, 10.0 / 24.0);
        close("260 ft", Dimension::Length, 79.248);
        close("60 %", Dimension::Fraction, 0.6);
        close("1e3 W", Dimension::Power, 1.0);
    }

    #[test]
    fn what_cannot_be_read_is_refused_with_what_was_expected() {
        assert_eq!(
            parse_quantity("warm", Dimension::Temperature),
            Err(ParseQuantityError::NotANumber("warm".into()))
        );
        assert_eq!(
            parse_quantity("inf kW", Dimension::Power),
            Err(ParseQuantityError::NotFinite("inf kW".into()))
        );
        assert_eq!(
            parse_quantity("NaN", Dimension::Power),
            Err(ParseQuantityError::NotFinite("NaN".into()))
        );
        let error = parse_quantity("9 °C", Dimension::Power)
            .unwrap_err()
            .to_string();
        assert_eq!(
            error,
            "found unit `°C`, expected one of kW, W, Btu/h, kBtu/h, ton"
        );
    }
}
