//! The room's air in summer on a psychrometric chart: where it settles and for how long, the limit, the coil.

use std::collections::BTreeMap;

use crate::climate::State;
use crate::cooling::{CoolingCurves, CoolingOperation, CoolingState, Room, Running};
use crate::equipment::Unit;
use crate::psychrometrics::{humidity_ratio_at_relative, saturation_humidity_ratio};
use crate::quantity::{Celsius, Hours, HumidityRatio};
use crate::study::Brief;

/// Hours of like indoor air, the dry bulb at the set point.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RoomState {
    /// Mean humidity ratio of these hours.
    pub humidity_ratio: HumidityRatio,
    /// Hours a year.
    pub hours: Hours,
    /// Whether the limit would be passed by more than the house's own dehumidifier mends.
    pub is_humid: bool,
}

/// The coil's apparatus dew point in one hour of cycling: the minimum speed on the room's air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoilAt {
    /// Humidity ratio of the air that enters it.
    pub entering: HumidityRatio,
    /// Apparatus dew point.
    pub apparatus_dew_point: Celsius,
    /// Humidity ratio there.
    pub saturated: HumidityRatio,
}

/// The room's air through the hours with a call.
#[derive(Clone, Debug, PartialEq)]
pub struct RoomPortrait {
    /// The dry bulb that is kept.
    pub dry_bulb: Celsius,
    /// The saturation curve, coolest first.
    pub saturation: Vec<(Celsius, HumidityRatio)>,
    /// Lines of equal relative humidity, each with its share.
    pub relative_humidity: Vec<(f64, Vec<(Celsius, HumidityRatio)>)>,
    /// The limit's line, with its share.
    pub limit: (f64, Vec<(Celsius, HumidityRatio)>),
    /// The room's air by steps of 0.5 g/kg, driest first.
    pub states: Vec<RoomState>,
    /// The coil in the longest humid state in which it cycles, or else the longest one in which it does.
    pub coil: Option<CoilAt>,
}

/// Dry bulbs between which lines are drawn \[°C\].
const SHOWN: (i32, i32) = (5, 35);
/// Lines of relative humidity beside the limit.
const LINES: [f64; 4] = [0.2, 0.4, 0.6, 0.8];
/// Steps of humidity ratio in which hours are gathered \[kg/kg\].
const STEP: f64 = 0.000_5;

impl RoomPortrait {
    /// The room's air with a unit; `None` where humidity is not judged, or is not known.
    #[must_use]
    pub fn of(brief: &Brief, unit: &Unit) -> Option<Self> {
        brief.without_call()?;
        let dehumidifier = brief.house().moisture?.dehumidifier;
        let curves = CoolingCurves::of(unit)?;
        let mut gathered: BTreeMap<(i64, bool), (f64, f64)> = BTreeMap::new();
        let mut longest: Option<(bool, State, CoolingOperation)> = None;
        let season = brief.cooling_season(Some(&curves), |state, outcome| {
            let CoolingState::Runs(operation) = outcome else {
                return;
            };
            let is_humid = operation
                .supplemental
                .is_some_and(|need| need > dehumidifier);
            #[expect(
                clippy::cast_possible_truncation,
                reason = "air holds less than 1 kg/kg"
            )]
            let step = (operation.indoor.0 / STEP).floor() as i64;
            let sums = gathered.entry((step, is_humid)).or_default();
            sums.0 += operation.indoor.0 * state.hours.0;
            sums.1 += state.hours.0;
            let weight = |humid: bool, state: &State| (humid, state.hours);
            let is_longer = longest
                .is_none_or(|(humid, found, _)| weight(is_humid, state) > weight(humid, &found));
            if operation.delivery.running == Running::Cycling && is_longer {
                longest = Some((is_humid, *state, *operation));
            }
        })?;
        season.known?.humidity?;
        let room = brief.room();
        let share = brief.house().indoor.humidity_limit;
        let line = |share| (share, line_of(room, share));
        Some(Self {
            dry_bulb: room.temperature,
            saturation: shown()
                .map(|dry_bulb| (dry_bulb, saturation_humidity_ratio(dry_bulb, room.pressure)))
                .collect(),
            relative_humidity: LINES
                .into_iter()
                .filter(|other| (other - share).abs() > 0.049)
                .map(line)
                .collect(),
            limit: line(share),
            states: gathered
                .into_iter()
                .map(|((_, is_humid), (water, hours))| RoomState {
                    humidity_ratio: HumidityRatio(water / hours),
                    hours: Hours(hours),
                    is_humid,
                })
                .collect(),
            coil: longest.and_then(|(_, state, operation)| coil(room, &curves, &state, &operation)),
        })
    }
}

fn shown() -> impl Iterator<Item = Celsius> {
    (SHOWN.0..=SHOWN.1).map(|degrees| Celsius(f64::from(degrees)))
}

fn line_of(room: &Room, share: f64) -> Vec<(Celsius, HumidityRatio)> {
    shown()
        .map(|dry_bulb| {
            (
                dry_bulb,
                humidity_ratio_at_relative(dry_bulb, share, room.pressure),
            )
        })
        .collect()
}

fn coil(
    room: &Room,
    curves: &CoolingCurves,
    state: &State,
    operation: &CoolingOperation,
) -> Option<CoilAt> {
    let entering = operation.indoor;
    let speeds = curves.at(state.outdoor)?;
    let speeds = if speeds.varies() {
        speeds.at(room.wet_bulb(entering))
    } else {
        speeds.base()
    };
    let dew_point =
        speeds
            .minimum
            .coil()?
            .apparatus_dew_point(room.temperature, entering, &room.air);
    Some(CoilAt {
        entering,
        apparatus_dew_point: dew_point,
        saturated: saturation_humidity_ratio(dew_point, room.pressure),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::explain::example::{brief, house, unit};

    #[test]
    fn hours_of_indoor_air_add_up_to_the_season() {
        let brief = brief(house());
        let portrait = RoomPortrait::of(&brief, &unit("a")).unwrap();
        let season = brief.judge(&unit("a")).cooling.unwrap().season.unwrap();
        let humidity = season.known.unwrap().humidity.unwrap();
        let hours = |humid: bool| -> f64 {
            portrait
                .states
                .iter()
                .filter(|state| state.is_humid == humid)
                .map(|state| state.hours.0)
                .sum()
        };
        assert!((hours(true) - humidity.humid_hours.0).abs() < 1e-9);
        assert!((hours(true) + hours(false) - season.cooling_hours.0).abs() < 1e-9);
        assert!(hours(true) > 0.0 && hours(false) > 0.0);
    }

    #[test]
    fn the_coil_is_colder_than_the_room_and_its_dew_point_lies_on_the_saturation_curve() {
        let brief = brief(house());
        let portrait = RoomPortrait::of(&brief, &unit("a")).unwrap();
        let coil = portrait.coil.unwrap();
        assert!(coil.apparatus_dew_point < portrait.dry_bulb);
        let saturated = saturation_humidity_ratio(coil.apparatus_dew_point, brief.room().pressure);
        assert_eq!(coil.saturated, saturated);
        assert!(coil.saturated < coil.entering, "the coil dries");
    }

    #[test]
    fn the_limit_is_drawn_once_and_passes_the_room_at_its_limit() {
        let brief = brief(house());
        let portrait = RoomPortrait::of(&brief, &unit("a")).unwrap();
        let shares: Vec<f64> = portrait
            .relative_humidity
            .iter()
            .map(|line| line.0)
            .collect();
        assert_eq!(shares, [0.2, 0.4, 0.8]);
        let at_room = portrait
            .limit
            .1
            .iter()
            .find(|(dry_bulb, _)| *dry_bulb == brief.room().temperature);
        assert_eq!(at_room.unwrap().1, brief.room().limit);
    }

    #[test]
    fn without_moisture_there_is_nothing_to_draw() {
        let mut dry = house();
        dry.moisture = None;
        assert_eq!(RoomPortrait::of(&brief(dry), &unit("a")), None);
    }
}
