//! From figures to charts: what a unit is in a house, in the units that the reader asked for.
//!
//! Nothing is computed here but a change of unit; the numbers come from [`crate::study::portrait`] and from verdicts.

mod comparison_chart;
mod heating_charts;
mod room_chart;
mod turndown_chart;

pub use comparison_chart::comparison_chart;
pub use heating_charts::{heat_chart, load_chart};
pub use room_chart::room_chart;
pub use turndown_chart::turndown_chart;

use super::clean_text;
use super::svg::{BandPoint, BinHours, Caption, Units};
use crate::quantity::{Celsius, Kilowatts, UnitSystem};
use crate::study::portrait::{BandAt, HoursAt};

/// Longest name in a caption \[characters\].
const LONGEST_NAME: usize = 80;
/// Half of a bin's width \[K\].
const HALF_BIN: f64 = 0.5;

/// A caption: what is shown, and of which unit in which house.
#[must_use]
pub fn caption(title: &str, unit: &str, house: &str) -> Caption {
    Caption {
        title: title.to_owned(),
        subtitle: format!(
            "{} in {}",
            clean_text(unit, LONGEST_NAME),
            clean_text(house, LONGEST_NAME)
        ),
    }
}

/// The units written on a chart's axes.
#[must_use]
pub fn chart_units(units: UnitSystem) -> Units {
    Units {
        temperature: units.temperature_unit(),
        power: units.power_unit(),
        energy: "kWh",
    }
}

fn line(points: &[(Celsius, Kilowatts)], units: UnitSystem) -> Vec<(f64, f64)> {
    points.iter().map(|&point| place(point, units)).collect()
}

fn place((outdoor, power): (Celsius, Kilowatts), units: UnitSystem) -> (f64, f64) {
    (units.temperature_value(outdoor), units.power_value(power))
}

fn band(points: &[BandAt], units: UnitSystem) -> Vec<BandPoint> {
    points
        .iter()
        .map(|point| BandPoint {
            outdoor: units.temperature_value(point.outdoor),
            minimum: point.minimum.map(|power| units.power_value(power)),
            maximum: point.maximum.map(|power| units.power_value(power)),
        })
        .collect()
}

/// Where a bin around a whole degree begins and ends.
fn edges(middle: Celsius, units: UnitSystem) -> (f64, f64) {
    (
        units.temperature_value(Celsius(middle.0 - HALF_BIN)),
        units.temperature_value(Celsius(middle.0 + HALF_BIN)),
    )
}

fn bins(hours: &[HoursAt], units: UnitSystem) -> Vec<BinHours> {
    hours
        .iter()
        .map(|bin| {
            let (from, to) = edges(bin.outdoor, units);
            BinHours {
                from,
                to,
                hours: bin.hours.0,
                cycling_hours: bin.cycling.0,
            }
        })
        .collect()
}

fn ranges(unproven: Option<(Celsius, Celsius)>, units: UnitSystem) -> Vec<(f64, f64)> {
    let place = |outdoor| units.temperature_value(outdoor);
    unproven
        .into_iter()
        .map(|(from, to)| (place(from), place(to)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Hours;

    // By hand: -20 °C = -4 °F, 0.5 K = 0.9 °F; 1 kW = 3.41214 kBtu/h (NIST SP 811).
    #[test]
    fn charts_are_drawn_in_the_units_asked_for() {
        let (temperature, power) = place((Celsius(-20.0), Kilowatts(1.0)), UnitSystem::Ip);
        assert!((temperature + 4.0).abs() < 1e-9 && (power - 3.412_14).abs() < 1e-5);
        let hours = HoursAt {
            outdoor: Celsius(0.0),
            hours: Hours(7.0),
            cycling: Hours(2.0),
        };
        let bin = bins(&[hours], UnitSystem::Ip)[0];
        assert!((bin.from - 31.1).abs() < 1e-9 && (bin.to - 32.9).abs() < 1e-9);
        assert_eq!((bin.hours, bin.cycling_hours), (7.0, 2.0));
        assert_eq!(
            ranges(Some((Celsius(35.0), Celsius(40.0))), UnitSystem::Si),
            [(35.0, 40.0)]
        );
    }
}
