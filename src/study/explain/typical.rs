//! The state that stands for many: the one at the hour-weighted median temperature.

use crate::climate::State;
use crate::quantity::Celsius;

/// The state in which the hour-weighted median temperature lies, states coldest first; `None` without hours.
pub(super) fn median<'a>(states: impl IntoIterator<Item = &'a State>) -> Option<&'a State> {
    let mut sorted: Vec<&State> = states.into_iter().collect();
    sorted.sort_by(|a, b| a.outdoor.0.total_cmp(&b.outdoor.0));
    let all: f64 = sorted.iter().map(|state| state.hours.0).sum();
    let mut passed = 0.0;
    sorted.into_iter().find(|state| {
        passed += state.hours.0;
        passed >= all / 2.0
    })
}

/// Five-kelvin band of a temperature: its colder edge.
pub(super) fn band(outdoor: Celsius) -> f64 {
    (outdoor.0 / 5.0).floor() * 5.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Hours;

    #[test]
    fn the_median_weighs_hours_not_states() {
        let state = |outdoor: f64, hours: f64| State {
            hours: Hours(hours),
            outdoor: Celsius(outdoor),
            humidity_ratio: None,
        };
        let states = [state(5.0, 1.0), state(-3.0, 7.0), state(9.0, 2.0)];
        assert_eq!(median(&states).map(|state| state.outdoor.0), Some(-3.0));
        assert_eq!(median(&[]), None);
    }

    #[test]
    fn a_band_begins_at_its_colder_edge() {
        assert_eq!(
            [band(Celsius(-0.1)), band(Celsius(0.0)), band(Celsius(4.9))],
            [-5.0, 0.0, 0.0]
        );
    }
}
