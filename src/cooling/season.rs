//! The whole cooling season: heat, electricity, cycling and moisture summed over the climate's states.

use super::curves::CoolingCurves;
use super::{CoolingOperation, CoolingState, Room, Running, cooling_state};
use crate::climate::State;
use crate::equipment::Turndown;
use crate::house::{Cooling, House, Moisture};
use crate::quantity::{Hours, HumidityRatio, Kilograms, KilogramsPerHour, KilowattHours};

/// A summer's sums. What cannot be known is `None`.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CoolingSeason {
    /// Hours with a call for cooling: warmer than the zero-load temperature.
    pub cooling_hours: Hours,
    /// Hours for which nothing is published; they count nowhere else.
    pub unproven_hours: Hours,
    /// Energy and humidity; `None` where a published sensible heat ratio is inconsistent.
    pub known: Option<Known>,
}

/// What is known of a summer whose coil is known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Known {
    /// Sensible heat removed.
    pub sensible: KilowattHours,
    /// Electricity taken.
    pub electricity: KilowattHours,
    /// Sensible load left unmet.
    pub shortfall: KilowattHours,
    /// Hours in which the load is below the minimum speed's sensible capacity; `None` where turndown is unknown.
    pub cycling_hours: Option<Hours>,
    /// Moisture; `None` where turndown, gains or outdoor humidity are unknown.
    pub humidity: Option<HumiditySeason>,
}

/// A summer's moisture.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct HumiditySeason {
    /// Hours with a call in which the room is more humid than the limit.
    pub humid_hours: Hours,
    /// Hours without a call in which it would be: no cooling unit can mend those.
    pub humid_hours_without_call: Hours,
    /// Highest relative humidity over hours with a call; `None` without such hours.
    pub peak_relative_humidity: Option<f64>,
    /// Moisture that the unit removes.
    pub removed: Kilograms,
    /// Supplemental dehumidification that would hold the limit all year.
    pub supplemental: Kilograms,
    /// The same at its peak.
    pub supplemental_peak: KilogramsPerHour,
}

/// What the house's moisture comes to in the states without a call, whatever the unit.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct WithoutCall {
    /// Hours in which the room would be more humid than the limit.
    pub humid_hours: Hours,
    /// Supplemental dehumidification that would hold the limit.
    pub supplemental: Kilograms,
    /// The same at its peak.
    pub supplemental_peak: KilogramsPerHour,
}

/// Moisture in the states without a call; `None` where a state's outdoor humidity is not recorded.
#[must_use]
pub fn without_call(
    house: &House,
    moisture: &Moisture,
    room: &Room,
    states: &[State],
) -> Option<WithoutCall> {
    let mut sums = WithoutCall::default();
    for state in states
        .iter()
        .filter(|state| house.is_without_call(state.outdoor))
    {
        let need = need_without_call(moisture, room, state.humidity_ratio?);
        if need > moisture.dehumidifier.max(KilogramsPerHour::ZERO) {
            sums.humid_hours += state.hours;
        }
        sums.supplemental += need * state.hours;
        sums.supplemental_peak = sums.supplemental_peak.max(need);
    }
    Some(sums)
}

/// Supplemental dehumidification that holds the limit in a state without a call: the gains at the limit.
#[must_use]
pub fn need_without_call(
    moisture: &Moisture,
    room: &Room,
    outdoor: HumidityRatio,
) -> KilogramsPerHour {
    moisture
        .gain(room.limit, outdoor)
        .max(KilogramsPerHour::ZERO)
}

/// The cooling season of a unit over a climate's states.
///
/// - `unit`  `None` for a unit without any cooling point: all hours are unproven
/// - `without_call`  the house's own share, computed once for all units; `None` where humidity is not judged
/// - `visit`  is shown every state with a call, as it is computed
#[must_use]
pub fn cooling_season(
    cooling: &Cooling,
    unit: Option<&CoolingCurves>,
    room: &Room,
    moisture: Option<&Moisture>,
    without_call: Option<&WithoutCall>,
    states: &[State],
    mut visit: impl FnMut(&State, &CoolingState),
) -> CoolingSeason {
    let mut season = CoolingSeason::default();
    let mut sums = Sums::default();
    let moisture = moisture.filter(|_| without_call.is_some());
    let mut unknown_coil = unit.is_some_and(|unit| unit.inconsistent_in_use());
    let mut unknown_humidity = false;
    for state in states
        .iter()
        .filter(|state| state.outdoor > cooling.load.zero_load_outdoor)
    {
        season.cooling_hours += state.hours;
        let load = cooling.load.at(state.outdoor);
        let outcome = unit.map_or(CoolingState::Unproven, |unit| {
            cooling_state(load, state, unit, room, moisture)
        });
        visit(state, &outcome);
        match outcome {
            CoolingState::Unproven => season.unproven_hours += state.hours,
            CoolingState::UnknownCoil => unknown_coil = true,
            CoolingState::Runs(operation) => {
                unknown_humidity |= operation.supplemental.is_none();
                sums.add(state.hours, &operation, moisture, room);
            }
        }
    }
    if unknown_coil {
        return season;
    }
    let turns_down = unit.is_none_or(|unit| unit.turndown() != Turndown::Unknown);
    let humidity = without_call
        .filter(|_| turns_down && !unknown_humidity)
        .map(|house| HumiditySeason {
            humid_hours: sums.humid_hours,
            humid_hours_without_call: house.humid_hours,
            peak_relative_humidity: sums.peak.map(|peak| room.relative_humidity(peak)),
            removed: sums.removed,
            supplemental: sums.supplemental + house.supplemental,
            supplemental_peak: sums.supplemental_peak.max(house.supplemental_peak),
        });
    season.known = Some(Known {
        sensible: sums.sensible,
        electricity: sums.electricity,
        shortfall: sums.shortfall,
        cycling_hours: turns_down.then_some(sums.cycling_hours),
        humidity,
    });
    season
}

#[derive(Default)]
struct Sums {
    sensible: KilowattHours,
    electricity: KilowattHours,
    shortfall: KilowattHours,
    cycling_hours: Hours,
    humid_hours: Hours,
    peak: Option<HumidityRatio>,
    removed: Kilograms,
    supplemental: Kilograms,
    supplemental_peak: KilogramsPerHour,
}

impl Sums {
    fn add(
        &mut self,
        hours: Hours,
        operation: &CoolingOperation,
        moisture: Option<&Moisture>,
        room: &Room,
    ) {
        let delivery = &operation.delivery;
        self.sensible += delivery.sensible * hours;
        self.electricity += delivery.input * hours;
        self.shortfall += delivery.shortfall * hours;
        if delivery.running == Running::Cycling {
            self.cycling_hours += hours;
        }
        self.removed += operation.removal * hours;
        if let Some((need, moisture)) = operation.supplemental.zip(moisture) {
            if need > moisture.dehumidifier {
                self.humid_hours += hours;
            }
            self.supplemental += need * hours;
            self.supplemental_peak = self.supplemental_peak.max(need);
            debug_assert!(operation.indoor <= room.saturation);
            self.peak = Some(
                self.peak
                    .map_or(operation.indoor, |peak| peak.max(operation.indoor)),
            );
        }
    }
}
