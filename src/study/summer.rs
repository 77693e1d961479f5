//! A unit's cooling season taken apart by outdoor temperature, with the room kept at one dry bulb.

use std::collections::BTreeMap;

use crate::climate::State;
use crate::cooling::{
    CoolingCurves, CoolingOperation, CoolingSeason, CoolingState, Room, Running, WithoutCall,
    cooling_season, need_without_call,
};
use crate::house::{House, Moisture};
use crate::quantity::{Celsius, Hours, Kilograms, KilogramsPerHour, KilowattHours};

/// A cooling season with the room kept at one dry bulb. The sensible load line stays as the house gives it.
#[derive(Clone, Debug)]
pub struct Summer {
    /// Dry bulb kept.
    pub indoor: Celsius,
    /// The season's sums.
    pub season: CoolingSeason,
    /// The states with a call in steps of 1 K outdoors, coolest first.
    pub rows: Vec<SummerRow>,
    /// All states with a call together.
    pub all: SummerRow,
    /// The states without a call in steps of 1 K, coolest first; empty where humidity is not judged.
    pub without_call: Vec<WithoutCallRow>,
}

/// Sums over states with a call. Unproven hours count only in `hours` and `unproven_hours`.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SummerRow {
    /// Outdoor temperature, rounded to whole degrees (halves up); of the sum over all rows, zero.
    pub outdoor: Celsius,
    /// Hours with a call.
    pub hours: Hours,
    /// Hours for which nothing is published.
    pub unproven_hours: Hours,
    /// Sensible heat removed.
    pub sensible: KilowattHours,
    /// Sensible load left unmet.
    pub shortfall: KilowattHours,
    /// Latent heat of the moisture gained at the humidity that results.
    pub latent_load: KilowattHours,
    /// Latent heat of the moisture gained with the room at the humidity limit; where air carries moisture out, none.
    pub latent_load_at_limit: KilowattHours,
    /// Latent heat that the unit removes, net of what a wet coil gives back.
    pub latent: KilowattHours,
    /// Electricity taken.
    pub electricity: KilowattHours,
    /// Run-time fraction times hours.
    pub running_hours: Hours,
    /// Hours below the minimum.
    pub cycling_hours: Hours,
    /// Hours between the speeds.
    pub modulating_hours: Hours,
    /// Hours at the maximum.
    pub flat_hours: Hours,
    /// Hours above the humidity limit by more than the house's own dehumidifier mends.
    pub humid_hours: Hours,
    /// Relative humidity times hours.
    humidity_hours: f64,
    /// Highest relative humidity; `None` where humidity is not judged.
    pub peak_relative_humidity: Option<f64>,
    /// Moisture that the unit removes.
    pub removed: Kilograms,
    /// Supplemental dehumidification that would hold the limit.
    pub supplemental: Kilograms,
    /// The same at its peak.
    pub supplemental_peak: KilogramsPerHour,
}

/// Sums over states without a call, in which no cooling unit removes moisture.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct WithoutCallRow {
    /// Outdoor temperature, rounded to whole degrees (halves up).
    pub outdoor: Celsius,
    /// Hours.
    pub hours: Hours,
    /// Hours in which the room would pass the limit.
    pub humid_hours: Hours,
    /// Supplemental dehumidification that would hold it.
    pub supplemental: Kilograms,
    /// The same at its peak.
    pub supplemental_peak: KilogramsPerHour,
}

impl Summer {
    /// The cooling season of a unit with the room kept at `indoor`; `None` where the house is not cooled.
    ///
    /// The season is computed once: its rows are the states as they are visited, so that they add up to its sums.
    #[must_use]
    pub fn of(
        house: &House,
        unit: Option<&CoolingCurves>,
        states: &[State],
        indoor: Celsius,
    ) -> Option<Self> {
        let cooling = house.cooling.as_ref()?;
        let room = Room::at(house, indoor);
        let moisture = house.moisture.as_ref();
        let (without_call, free) = moisture
            .and_then(|moisture| free_rows(house, moisture, &room, states))
            .unzip();
        let mut rows: BTreeMap<i64, SummerRow> = BTreeMap::new();
        let mut all = SummerRow::default();
        let season = cooling_season(
            cooling,
            unit,
            &room,
            moisture,
            without_call.as_ref(),
            states,
            |state, outcome| {
                for row in [rows.entry(degree(state.outdoor)).or_default(), &mut all] {
                    row.add(state, outcome, &room, moisture);
                }
            },
        );
        Some(Self {
            indoor,
            season,
            rows: by_degree(rows, |row, outdoor| row.outdoor = outdoor),
            all,
            without_call: free.unwrap_or_default(),
        })
    }

    /// Whether heat and electricity are known: no coil has an inconsistent sensible heat ratio.
    #[must_use]
    pub fn coil_is_known(&self) -> bool {
        self.season.known.is_some()
    }

    /// Whether it is known how far the unit turns down, so that cycling and run time can be told.
    #[must_use]
    pub fn turndown_is_known(&self) -> bool {
        self.season
            .known
            .is_some_and(|known| known.cycling_hours.is_some())
    }

    /// Whether humidity is known.
    #[must_use]
    pub fn humidity_is_known(&self) -> bool {
        self.season
            .known
            .is_some_and(|known| known.humidity.is_some())
    }
}

impl SummerRow {
    fn add(
        &mut self,
        state: &State,
        outcome: &CoolingState,
        room: &Room,
        moisture: Option<&Moisture>,
    ) {
        let hours = state.hours;
        self.hours += hours;
        let operation = match outcome {
            CoolingState::Unproven => {
                self.unproven_hours += hours;
                return;
            }
            CoolingState::UnknownCoil => return,
            CoolingState::Runs(operation) => operation,
        };
        let delivery = &operation.delivery;
        self.sensible += delivery.sensible * hours;
        self.shortfall += delivery.shortfall * hours;
        self.latent += delivery.latent * hours;
        self.electricity += delivery.input * hours;
        self.running_hours += hours * delivery.run_fraction;
        self.removed += operation.removal * hours;
        match delivery.running {
            Running::Cycling => self.cycling_hours += hours,
            Running::Modulating => self.modulating_hours += hours,
            Running::Flat => self.flat_hours += hours,
        }
        self.add_moisture(state, operation, room, moisture);
    }

    fn add_moisture(
        &mut self,
        state: &State,
        operation: &CoolingOperation,
        room: &Room,
        moisture: Option<&Moisture>,
    ) {
        let (Some(need), Some(moisture), Some(outdoor)) =
            (operation.supplemental, moisture, state.humidity_ratio)
        else {
            return;
        };
        let hours = state.hours;
        let latent_heat = |gain: KilogramsPerHour| {
            crate::quantity::Kilowatts(gain / room.removal_per_kilowatt()) * hours
        };
        self.latent_load += latent_heat(moisture.gain(operation.indoor, outdoor));
        self.latent_load_at_limit += latent_heat(
            moisture
                .gain(room.limit, outdoor)
                .max(KilogramsPerHour::ZERO),
        );
        let humidity = room.relative_humidity(operation.indoor);
        self.humidity_hours += humidity * hours.0;
        self.peak_relative_humidity = Some(
            self.peak_relative_humidity
                .map_or(humidity, |peak| peak.max(humidity)),
        );
        if need > moisture.dehumidifier {
            self.humid_hours += hours;
        }
        self.supplemental += need * hours;
        self.supplemental_peak = self.supplemental_peak.max(need);
    }

    /// Hours for which performance is published.
    #[must_use]
    pub fn proven_hours(&self) -> Hours {
        self.hours - self.unproven_hours
    }

    /// Sensible load in those hours, met or not.
    #[must_use]
    pub fn sensible_load(&self) -> KilowattHours {
        self.sensible + self.shortfall
    }

    /// Sensible share of the house's load with the room at the humidity limit: a unit whose own share is not above this
    /// holds the limit. `None` without proven hours.
    #[must_use]
    pub fn required_sensible_heat_ratio(&self) -> Option<f64> {
        ratio(self.sensible_load(), self.latent_load_at_limit)
    }

    /// Sensible share of what the unit removes, at the humidity that results. `None` without proven hours.
    #[must_use]
    pub fn delivered_sensible_heat_ratio(&self) -> Option<f64> {
        ratio(self.sensible, self.latent)
    }

    /// Mean run-time fraction, weighted by hours; `None` without proven hours.
    #[must_use]
    pub fn run_fraction(&self) -> Option<f64> {
        self.mean(self.running_hours.0)
    }

    /// Mean relative humidity, weighted by hours; `None` without proven hours, or where humidity is not judged.
    #[must_use]
    pub fn mean_relative_humidity(&self) -> Option<f64> {
        self.peak_relative_humidity?;
        self.mean(self.humidity_hours)
    }

    /// The mean over proven hours of something summed over them.
    #[must_use]
    pub fn mean(&self, sum: f64) -> Option<f64> {
        let hours = self.proven_hours().0;
        (hours > 0.0).then(|| sum / hours)
    }
}

fn ratio(sensible: KilowattHours, latent: KilowattHours) -> Option<f64> {
    (sensible > KilowattHours::ZERO).then(|| sensible / (sensible + latent))
}

/// The states without a call by whole degrees, and their sums; `None` where a state's humidity is not recorded.
fn free_rows(
    house: &House,
    moisture: &Moisture,
    room: &Room,
    states: &[State],
) -> Option<(WithoutCall, Vec<WithoutCallRow>)> {
    let mut rows: BTreeMap<i64, WithoutCallRow> = BTreeMap::new();
    let mut sums = WithoutCall::default();
    for state in states
        .iter()
        .filter(|state| house.is_without_call(state.outdoor))
    {
        let need = need_without_call(moisture, room, state.humidity_ratio?);
        let row = rows.entry(degree(state.outdoor)).or_default();
        row.hours += state.hours;
        if need > moisture.dehumidifier {
            row.humid_hours += state.hours;
            sums.humid_hours += state.hours;
        }
        row.supplemental += need * state.hours;
        row.supplemental_peak = row.supplemental_peak.max(need);
        sums.supplemental += need * state.hours;
        sums.supplemental_peak = sums.supplemental_peak.max(need);
    }
    Some((sums, by_degree(rows, |row, outdoor| row.outdoor = outdoor)))
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "the cast saturates, and weather stays far inside the range"
)]
fn degree(outdoor: Celsius) -> i64 {
    (outdoor.0 + 0.5).floor() as i64
}

fn by_degree<R>(rows: BTreeMap<i64, R>, mut place: impl FnMut(&mut R, Celsius)) -> Vec<R> {
    rows.into_iter()
        .map(|(degree, mut row)| {
            #[expect(clippy::cast_precision_loss, reason = "a small number of degrees")]
            place(&mut row, Celsius(degree as f64));
            row
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::test_house::{climate, house, unit};

    fn close(found: f64, expected: f64) {
        assert!(
            (found - expected).abs() < 1e-9 * expected.abs().max(1.0),
            "{found} ≠ {expected}"
        );
    }

    fn summer(house: &House, indoor: f64, hours: &[(u8, u8, f64, f64)]) -> Summer {
        let curves = CoolingCurves::of(&unit("a", 9.0, 5.0));
        Summer::of(
            house,
            curves.as_ref(),
            &climate(hours).states,
            Celsius(indoor),
        )
        .unwrap()
    }

    // By hand: without sources of moisture indoors the room is as dry as outdoors, 3 g/kg, where the coil stays dry and
    // all 5 kW are sensible. 29 °C asks for 0.4 · 5 = 2 kW: run time 2/5; 34 °C for 4 kW: 4/5. COP 4, no cycling loss.
    #[test]
    fn a_dry_summer_can_be_worked_out_on_paper() {
        let dry = [(7, 1, 29.0, 3.0), (7, 2, 29.2, 3.0), (7, 3, 34.0, 3.0)];
        let summer = summer(&house(20.0, 0.0), 26.7, &dry);
        assert_eq!(summer.rows.len(), 2);
        let [low, high] = [summer.rows[0], summer.rows[1]];
        assert_eq!((low.outdoor, low.hours), (Celsius(29.0), Hours(2.0)));
        close(low.sensible_load().0, 2.0 * 2.04);
        close(low.run_fraction().unwrap(), 2.04 / 5.0);
        close(high.run_fraction().unwrap(), 0.8);
        close(high.electricity.0, 1.0);
        close(high.delivered_sensible_heat_ratio().unwrap(), 1.0);
        close(high.required_sensible_heat_ratio().unwrap(), 1.0);
        assert_eq!(high.cycling_hours, Hours(1.0));
        close(
            summer.all.run_fraction().unwrap(),
            (2.0 * 2.04 + 4.0) / 5.0 / 3.0,
        );
        let room = Room::at(&house(20.0, 0.0), Celsius(26.7));
        close(
            summer.all.mean_relative_humidity().unwrap(),
            room.relative_humidity(crate::quantity::HumidityRatio(0.003)),
        );
    }

    // A steady state: what the unit removes is what the house gains, so latent load and latent heat removed are one.
    #[test]
    fn rows_add_up_to_the_season_and_gains_to_what_is_removed() {
        let humid = [
            (6, 1, 22.0, 14.0),
            (6, 2, 23.4, 16.0),
            (7, 1, 27.0, 15.0),
            (7, 2, 31.0, 12.0),
            (7, 3, 33.0, 17.0),
            (8, 3, 45.0, 17.0),
        ];
        for indoor in [24.0, 26.7] {
            let summer = summer(&house(30.0, 0.5), indoor, &humid);
            let known = summer.season.known.unwrap();
            let humidity = known.humidity.unwrap();
            let sum = |of: &dyn Fn(&SummerRow) -> f64| summer.rows.iter().map(of).sum::<f64>();
            close(sum(&|row| row.hours.0), summer.season.cooling_hours.0);
            close(sum(&|row| row.unproven_hours.0), 1.0);
            close(sum(&|row| row.sensible.0), known.sensible.0);
            close(sum(&|row| row.shortfall.0), known.shortfall.0);
            close(sum(&|row| row.electricity.0), known.electricity.0);
            close(
                sum(&|row| row.cycling_hours.0),
                known.cycling_hours.unwrap().0,
            );
            close(sum(&|row| row.humid_hours.0), humidity.humid_hours.0);
            close(sum(&|row| row.removed.0), humidity.removed.0);
            close(sum(&|row| row.latent_load.0), sum(&|row| row.latent.0));
            let free: f64 = summer
                .without_call
                .iter()
                .map(|row| row.supplemental.0)
                .sum();
            close(
                sum(&|row| row.supplemental.0) + free,
                humidity.supplemental.0,
            );
            let free: f64 = summer
                .without_call
                .iter()
                .map(|row| row.humid_hours.0)
                .sum();
            close(free, humidity.humid_hours_without_call.0);
            assert_eq!(
                summer.all.peak_relative_humidity,
                humidity.peak_relative_humidity
            );
        }
    }

    #[test]
    fn a_row_is_above_the_limit_exactly_where_its_ratio_is_above_what_holds_it() {
        let humid = [(7, 1, 26.0, 15.0), (7, 2, 29.0, 12.0), (7, 3, 32.0, 9.0)];
        let summer = summer(&house(40.0, 0.5), 24.0, &humid);
        for row in &summer.rows {
            let above = row.peak_relative_humidity.unwrap() > 0.60;
            let ratio = row.delivered_sensible_heat_ratio().unwrap();
            assert_eq!(
                above,
                ratio > row.required_sensible_heat_ratio().unwrap(),
                "{row:?}"
            );
        }
        assert!(summer.all.humid_hours > Hours::ZERO);
        assert!(summer.all.humid_hours < summer.all.hours);
    }
}
