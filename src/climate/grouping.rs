//! Groups hourly records into states of 1 K and 1 g/kg.

use std::collections::BTreeMap;

use super::State;
use crate::quantity::{Celsius, Hours, HumidityRatio};

/// Groups records by temperature rounded to whole degrees and humidity ratio cut to whole grams per kilogram.
///
/// A state carries its hours and the hour-weighted means of temperature and humidity ratio in it. Halves round up
/// (`floor(T + 0.5)`), which reproduces published bin tables. Records without humidity group by temperature alone.
///
/// - `records`  (duration, dry bulb, humidity ratio), in any order
/// - returns states, coldest first, then driest first; their hours add up to the records'
///
/// # Source
/// The bin method, common practice; checked against the 1 °C bin hours of nine station files.
#[must_use]
pub fn group(
    records: impl IntoIterator<Item = (Hours, Celsius, Option<HumidityRatio>)>,
) -> Vec<State> {
    #[derive(Default)]
    struct Sum {
        hours: f64,
        temperature: f64,
        humidity: f64,
    }
    let mut bins: BTreeMap<(i64, Option<i64>), Sum> = BTreeMap::new();
    for (hours, outdoor, humidity_ratio) in records {
        let temperature_bin = whole(outdoor.0 + 0.5);
        let humidity_bin = humidity_ratio.map(|w| whole(w.0 * 1000.0));
        let sum = bins.entry((temperature_bin, humidity_bin)).or_default();
        sum.hours += hours.0;
        sum.temperature += hours.0 * outdoor.0;
        sum.humidity += hours.0 * humidity_ratio.map_or(0.0, |w| w.0);
    }
    bins.into_iter()
        .filter(|(_, sum)| sum.hours > 0.0)
        .map(|((_, humidity_bin), sum)| State {
            hours: Hours(sum.hours),
            outdoor: Celsius(sum.temperature / sum.hours),
            humidity_ratio: humidity_bin.map(|_| HumidityRatio(sum.humidity / sum.hours)),
        })
        .collect()
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "the cast saturates, and weather stays far inside the range"
)]
fn whole(number: f64) -> i64 {
    number.floor() as i64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn like_hours_share_a_state_and_keep_their_means() {
        let hour = |t: f64, w: f64| (Hours(1.0), Celsius(t), Some(HumidityRatio(w)));
        let states = group([
            hour(0.4, 0.0031),
            hour(-0.5, 0.0035),
            hour(0.5, 0.0031),
            hour(0.0, 0.0041),
        ]);
        // By hand: -0.5 and 0.4 round to 0 (halves up), 0.5 rounds to 1; 3.1 and 3.5 g/kg share a bin, 4.1 does not.
        assert_eq!(states.len(), 3);
        assert_eq!(states[0].hours, Hours(2.0));
        assert!((states[0].outdoor.0 + 0.05).abs() < 1e-12);
        assert!((states[0].humidity_ratio.unwrap().0 - 0.0033).abs() < 1e-12);
        assert_eq!(states[2].outdoor, Celsius(0.5));
    }
}
