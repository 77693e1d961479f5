//! Degree days, bin hours and other figures by which a climate is known.

use std::collections::BTreeMap;

use super::{Record, State};
use crate::quantity::{Celsius, Hours};

/// Heating degree days \[K·d\] from daily means: the sum of `base - mean` over the days whose mean lies below `base`.
///
/// - `records`  in the order of time, each day's records beside each other; several years, weighted to one, are fine
///
/// # Source
/// Degree days from daily mean temperatures, ASHRAE Handbook - Fundamentals, chapter Climatic Design Information.
#[must_use]
pub fn heating_degree_days(records: &[Record], base: Celsius) -> f64 {
    daily_means(records)
        .map(|(days, mean)| days * (base - mean).0.max(0.0))
        .sum()
}

/// Cooling degree days \[K·d\] from daily means: the sum of `mean - base` over the days whose mean lies above `base`.
///
/// - `records`  as for [`heating_degree_days`]
///
/// # Source
/// As [`heating_degree_days`].
#[must_use]
pub fn cooling_degree_days(records: &[Record], base: Celsius) -> f64 {
    daily_means(records)
        .map(|(days, mean)| days * (mean - base).0.max(0.0))
        .sum()
}

/// Each day's weight (1 for a whole day, less for a gap or where years are averaged) and mean temperature.
fn daily_means(records: &[Record]) -> impl Iterator<Item = (f64, Celsius)> {
    records
        .chunk_by(|a, b| (a.month, a.day) == (b.month, b.day))
        .map(|day| {
            let hours: f64 = day.iter().map(|record| record.hours.0).sum();
            let sum: f64 = day
                .iter()
                .map(|record| record.hours.0 * record.outdoor.0)
                .sum();
            (hours / 24.0, Celsius(sum / hours))
        })
}

/// Hours by whole degree, coldest first: the centre of each 1 K bin (halves round up) and its hours.
#[must_use]
pub fn bin_hours(states: &[State]) -> Vec<(Celsius, Hours)> {
    let mut bins: BTreeMap<i32, Hours> = BTreeMap::new();
    for state in states {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "weather stays far inside the range"
        )]
        let bin = (state.outdoor.0 + 0.5).floor() as i32;
        *bins.entry(bin).or_default() += state.hours;
    }
    bins.into_iter()
        .map(|(bin, hours)| (Celsius(f64::from(bin)), hours))
        .collect()
}

/// Hours colder than a temperature. States are not split: exact only for states of single records or at a bin's edge.
#[must_use]
pub fn hours_below(weather: impl IntoIterator<Item = (Hours, Celsius)>, limit: Celsius) -> Hours {
    weather
        .into_iter()
        .filter(|&(_, outdoor)| outdoor < limit)
        .map(|(hours, _)| hours)
        .sum()
}

/// Hours warmer than a temperature, as [`hours_below`].
#[must_use]
pub fn hours_above(weather: impl IntoIterator<Item = (Hours, Celsius)>, limit: Celsius) -> Hours {
    weather
        .into_iter()
        .filter(|&(_, outdoor)| outdoor > limit)
        .map(|(hours, _)| hours)
        .sum()
}

/// Hour-weighted mean temperature; `None` where there are no hours.
#[must_use]
pub fn mean_outdoor(states: &[State]) -> Option<Celsius> {
    let hours: f64 = states.iter().map(|state| state.hours.0).sum();
    let sum: f64 = states
        .iter()
        .map(|state| state.hours.0 * state.outdoor.0)
        .sum();
    (hours > 0.0).then(|| Celsius(sum / hours))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(day: u8, outdoor: [f64; 2]) -> [Record; 2] {
        let half = |hour, outdoor| Record {
            month: 1,
            day,
            hour,
            hours: Hours(12.0),
            outdoor: Celsius(outdoor),
            humidity_ratio: None,
        };
        [half(12, outdoor[0]), half(24, outdoor[1])]
    }

    #[test]
    fn degree_days_count_daily_means_not_hours() {
        let records = [
            day(1, [10.0, 20.0]),
            day(2, [16.0, 24.0]),
            day(3, [-2.0, 2.0]),
        ]
        .concat();
        // By hand: means 15, 20 and 0 °C: 3 + 0 + 18 below 18 °C, 5 + 10 + 0 above 10 °C.
        assert!((heating_degree_days(&records, Celsius(18.0)) - 21.0).abs() < 1e-12);
        assert!((cooling_degree_days(&records, Celsius(10.0)) - 15.0).abs() < 1e-12);
    }

    #[test]
    fn bins_round_halves_up() {
        let state = |t| State {
            hours: Hours(1.0),
            outdoor: Celsius(t),
            humidity_ratio: None,
        };
        let bins = bin_hours(&[state(-0.5), state(0.4), state(0.5)]);
        assert_eq!(
            bins,
            [(Celsius(0.0), Hours(2.0)), (Celsius(1.0), Hours(1.0))]
        );
    }

    #[test]
    fn a_climate_without_hours_has_no_mean() {
        assert_eq!(mean_outdoor(&[]), None);
        let state = |hours, t| State {
            hours: Hours(hours),
            outdoor: Celsius(t),
            humidity_ratio: None,
        };
        assert_eq!(
            mean_outdoor(&[state(3.0, 0.0), state(1.0, 8.0)]),
            Some(Celsius(2.0))
        );
    }
}
