//! The chart of the room's air in summer.

use super::caption;
use crate::house::House;
use crate::quantity::{Celsius, HumidityRatio, UnitSystem};
use crate::report::svg::{Coil, IndoorState, NamedLine, Psychrometric};
use crate::study::portrait::RoomPortrait;

/// Grains in a pound, by definition.
const GRAINS_PER_POUND: f64 = 7_000.0;
/// The dry bulbs shown \[°C\].
const SHOWN: (f64, f64) = (8.0, 34.0);
/// The axis reaches at least as high \[kg/kg\].
const HIGHEST: f64 = 0.020;

/// The psychrometric chart of the hours with a call.
#[must_use]
pub fn room_chart(
    portrait: &RoomPortrait,
    house: &House,
    unit: &str,
    units: UnitSystem,
) -> Psychrometric {
    let temperature = |dry_bulb: Celsius| units.temperature_value(dry_bulb);
    let water = |ratio: HumidityRatio| match units {
        UnitSystem::Si => ratio.0 * 1_000.0,
        UnitSystem::Ip => ratio.0 * GRAINS_PER_POUND,
    };
    let line = |points: &[(Celsius, HumidityRatio)]| -> Vec<(f64, f64)> {
        points
            .iter()
            .map(|&(dry_bulb, ratio)| (temperature(dry_bulb), water(ratio)))
            .collect()
    };
    let named = |(share, points): &(f64, Vec<(Celsius, HumidityRatio)>), before: &str| NamedLine {
        name: format!("{before}{:.0} %", share * 100.0),
        points: line(points),
    };
    let highest = portrait
        .states
        .iter()
        .map(|state| state.humidity_ratio)
        .fold(HumidityRatio(HIGHEST), HumidityRatio::max);
    Psychrometric {
        caption: caption("Summer: the air in the rooms", unit, &house.name),
        temperature_unit: units.temperature_unit(),
        humidity_ratio_unit: match units {
            UnitSystem::Si => "g/kg",
            UnitSystem::Ip => "gr/lb",
        },
        dry_bulb: (temperature(Celsius(SHOWN.0)), temperature(Celsius(SHOWN.1))),
        highest_humidity_ratio: water(highest),
        saturation: line(&portrait.saturation),
        relative_humidity: portrait
            .relative_humidity
            .iter()
            .map(|found| named(found, ""))
            .collect(),
        limit: Some(named(&portrait.limit, "limit ")),
        states: portrait
            .states
            .iter()
            .map(|state| IndoorState {
                dry_bulb: temperature(portrait.dry_bulb),
                humidity_ratio: water(state.humidity_ratio),
                hours: state.hours.0,
                is_humid: state.is_humid,
            })
            .collect(),
        coil: portrait.coil.map(|coil| Coil {
            entering: (temperature(portrait.dry_bulb), water(coil.entering)),
            apparatus_dew_point: (temperature(coil.apparatus_dew_point), water(coil.saturated)),
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::explain::example::{brief, house, unit};

    #[test]
    fn the_chart_carries_the_portraits_hours_and_its_limit() {
        let brief = brief(house());
        let portrait = RoomPortrait::of(&brief, &unit("a")).unwrap();
        let chart = room_chart(&portrait, brief.house(), "a", UnitSystem::Si);
        assert_eq!(chart.limit.as_ref().unwrap().name, "limit 60 %");
        assert!(chart.states.iter().all(|state| state.dry_bulb == 24.0));
        let grains = room_chart(&portrait, brief.house(), "a", UnitSystem::Ip);
        assert!((grains.highest_humidity_ratio - 140.0).abs() < 1e-9);
        assert!((grains.dry_bulb.1 - 93.2).abs() < 1e-9);
    }
}
