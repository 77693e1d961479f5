//! Numbers of a step as a reader types them into a calculator: enough digits to come to the same result, no more.

use crate::quantity::{Celsius, KilogramsPerHour, Kilowatts, LitresPerSecond, UnitSystem, fixed};
use crate::study::explain::{Measure, Step, Value};

/// Significant digits of a number in this unit. Those that enter differences of like numbers carry more.
fn digits(measure: Measure) -> i32 {
    match measure {
        Measure::KilojoulesPerKilogram
        | Measure::KilogramsPerKilogram
        | Measure::PerKelvin
        | Measure::Pascals
        | Measure::KilowattHours
        | Measure::Hours
        | Measure::Celsius => 5,
        _ => 4,
    }
}

/// A number without its unit, `.` before decimals, no zeros at its end.
#[must_use]
pub fn bare(value: Value) -> String {
    let number = value.number;
    if !number.is_finite() {
        return "not a number".to_owned();
    }
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a logarithm of a finite number"
    )]
    let magnitude = if number == 0.0 {
        0
    } else {
        number.abs().log10().floor() as i32
    };
    let mut decimals = (digits(value.measure) - 1 - magnitude).clamp(0, 9);
    if value.measure == Measure::Celsius {
        decimals = decimals.min(3);
    }
    let text = fixed(number, decimals.unsigned_abs() as usize);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// A number in a table, where like stands below like: hours and energies whole.
pub(super) fn in_table(value: Value) -> String {
    match value.measure {
        Measure::KilowattHours | Measure::Hours if value.number.is_finite() => {
            fixed(value.number, 0)
        }
        _ => bare(value),
    }
}

/// A number with its unit.
#[must_use]
pub fn written(value: Value) -> String {
    format!("{} {}", bare(value), value.measure.unit())
        .trim_end()
        .to_owned()
}

/// The same in inch-pound units, where the reader asked for them and they differ.
#[must_use]
pub fn in_reader_units(value: Value, units: UnitSystem) -> Option<String> {
    if units == UnitSystem::Si {
        return None;
    }
    Some(match value.measure {
        Measure::Celsius => units.temperature(Celsius(value.number)),
        Measure::Kilowatts => units.power(Kilowatts(value.number)),
        Measure::LitresPerSecond => units.airflow(LitresPerSecond(value.number)),
        Measure::KilogramsPerHour => units.water_per_day(KilogramsPerHour(value.number)),
        Measure::Litres => units.water_per_year(value.number),
        _ => return None,
    })
}

/// A step's equation with its numbers in place of the symbols; empty where there is no equation.
#[must_use]
pub fn worked(step: &Step) -> String {
    let mut text = String::new();
    let mut symbol = String::new();
    let mut characters = step.equation.chars().peekable();
    while let Some(character) = characters.next() {
        let follows = characters.peek().copied();
        if is_of_symbol(character, &symbol, follows) {
            symbol.push(character);
            continue;
        }
        text += &in_place_of(step, &std::mem::take(&mut symbol));
        text.push(character);
    }
    text += &in_place_of(step, &symbol);
    text
}

/// Whether a character goes on with (or begins) a symbol or a number: letters, digits, `_`, a decimal point, and a comma
/// inside a subscript.
fn is_of_symbol(character: char, so_far: &str, follows: Option<char>) -> bool {
    let inside = !so_far.is_empty() && follows.is_some_and(char::is_alphanumeric);
    character.is_alphanumeric() || character == '_' || (matches!(character, '.' | ',') && inside)
}

fn in_place_of(step: &Step, symbol: &str) -> String {
    let Some(input) = step.inputs.iter().find(|input| input.symbol == symbol) else {
        return symbol.to_owned();
    };
    let number = bare(input.value);
    if number.starts_with('-') {
        format!("({number})")
    } else {
        number
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::explain::Authority;

    #[test]
    fn numbers_carry_the_digits_that_a_reader_needs() {
        let text = |number, measure| written(Value::new(number, measure));
        assert_eq!(text(9.2, Measure::Kilowatts), "9.2 kW");
        assert_eq!(text(1.0 / 3.0, Measure::Kilowatts), "0.3333 kW");
        assert_eq!(text(-18.0, Measure::Celsius), "-18 °C");
        assert_eq!(
            text(0.009_876_54, Measure::KilogramsPerKilogram),
            "0.0098765 kg/kg"
        );
        assert_eq!(text(18_234.6, Measure::KilowattHours), "18235 kWh");
        assert_eq!(text(-0.0, Measure::Plain), "0");
        assert_eq!(text(f64::NAN, Measure::Plain), "not a number");
    }

    #[test]
    fn symbols_give_way_to_their_numbers_and_functions_stay() {
        let step = Step::new("", Authority::OurRule)
            .equation("M", "max(0, C_max · C_max,e / C - exp(-t))")
            .with("C", 2.0)
            .with("C_max", 3.0)
            .with("C_max,e", -4.0)
            .with("t", 0.5);
        assert_eq!(worked(&step), "max(0, 3 · (-4) / 2 - exp(-0.5))");
    }

    #[test]
    fn inch_pound_readers_see_their_units_beside() {
        let value = Value::from(Celsius(-18.0));
        assert_eq!(in_reader_units(value, UnitSystem::Si), None);
        assert_eq!(
            in_reader_units(value, UnitSystem::Ip),
            Some("-0.4 °F".to_owned())
        );
    }
}
