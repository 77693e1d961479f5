//! The winter of a unit in a house: load line, capacity band, hours, and who delivers the heat.

use std::collections::BTreeMap;

use super::{BandAt, Bin, HoursAt, degree, sampled};
use crate::climate::State;
use crate::equipment::{Turndown, Unit};
use crate::heating::{HeatingAt, HeatingCurves, Running, heating_hour};
use crate::quantity::{Celsius, Hours, KilowattHours, Kilowatts};
use crate::study::{Brief, Judged};

/// The heat of one bin of outdoor temperature, by who delivers it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct HeatAt {
    /// The bin.
    pub bin: Bin,
    /// By the heat pump between its minimum and its maximum.
    pub steady: KilowattHours,
    /// By the heat pump while it cycles.
    pub cycling: KilowattHours,
    /// By backup.
    pub backup: KilowattHours,
}

/// The winter of a unit in a house.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatingPortrait {
    /// The load line, coldest first.
    pub load: Vec<(Celsius, Kilowatts)>,
    /// The capacity band, coldest first. Below its operating limit a unit delivers nothing; a unit of one speed, or with
    /// no published minimum, has no minimum here.
    pub band: Vec<BandAt>,
    /// The hours that call for heating, coldest first; empty without a climate.
    pub hours: Vec<HoursAt>,
    /// The balance point with the load there, where there is one.
    pub balance_point: Option<(Celsius, Kilowatts)>,
    /// Where nobody published a capacity.
    pub unproven: Option<(Celsius, Celsius)>,
    /// The heat of the hours, coldest first; empty without a climate.
    pub heat: Vec<HeatAt>,
}

impl HeatingPortrait {
    /// The winter of a unit.
    ///
    /// - `judged`  the same unit in the same house, judged
    #[must_use]
    pub fn of(brief: &Brief, unit: &Unit, judged: &Judged) -> Self {
        let heating = &brief.house().heating;
        let load = &heating.load;
        let curves = brief.heating_curves(unit);
        let states: Vec<State> = brief
            .states()
            .unwrap_or_default()
            .iter()
            .copied()
            .filter(|state| state.outdoor < load.zero_load_outdoor)
            .collect();
        let coldest = states
            .iter()
            .map(|state| degree(state.outdoor))
            .chain(heating.must_run_to)
            .chain(
                curves
                    .as_ref()
                    .map(|curves| curves.speeds.maximum().severe_end()),
            )
            .fold(load.design_outdoor, Celsius::min)
            .min(load.zero_load_outdoor);
        let ends = (Celsius(coldest.0.floor() - 1.0), load.zero_load_outdoor);
        let balance_point = judged
            .heating
            .balance_point
            .temperature()
            .map(|balance| (balance, load.at(balance)));
        Self {
            load: sampled(ends.0, ends.1, [load.design_outdoor])
                .into_iter()
                .filter(|&outdoor| {
                    outdoor == ends.0 || outdoor == ends.1 || outdoor == load.design_outdoor
                })
                .map(|outdoor| (outdoor, load.at(outdoor)))
                .collect(),
            band: curves
                .as_ref()
                .map_or_else(Vec::new, |curves| band(curves, ends, balance_point)),
            hours: hours(&states),
            balance_point,
            unproven: unproven(curves.as_ref(), unit.model.operates_to, ends),
            heat: heat(brief, curves.as_ref(), &states),
        }
    }
}

fn band(
    curves: &HeatingCurves,
    ends: (Celsius, Celsius),
    balance_point: Option<(Celsius, Kilowatts)>,
) -> Vec<BandAt> {
    let turns_down = curves.speeds.turndown() == Turndown::Known;
    let mut knots = curves.speeds.maximum().knots();
    knots.extend(
        curves
            .speeds
            .minimum()
            .map_or_else(Vec::new, |minimum| minimum.knots()),
    );
    knots.extend(curves.operates_to);
    knots.extend(balance_point.map(|(balance, _)| balance));
    let standing = |outdoor| BandAt {
        outdoor,
        minimum: turns_down.then_some(Kilowatts::ZERO),
        maximum: Some(Kilowatts::ZERO),
    };
    let mut band = Vec::new();
    for outdoor in sampled(ends.0, ends.1, knots) {
        match curves.at(outdoor) {
            HeatingAt::LockedOut => band.push(standing(outdoor)),
            HeatingAt::Unproven => band.push(BandAt {
                outdoor,
                minimum: None,
                maximum: None,
            }),
            HeatingAt::Runs(speeds) => {
                // It falls to nothing at this very temperature.
                if curves.operates_to == Some(outdoor) && outdoor > ends.0 {
                    band.push(standing(outdoor));
                }
                band.push(BandAt {
                    outdoor,
                    minimum: turns_down.then_some(speeds.minimum.capacity),
                    maximum: Some(speeds.maximum.capacity),
                });
            }
        }
    }
    band
}

/// From the cold end, or from the operating limit, to the coldest published point.
fn unproven(
    curves: Option<&HeatingCurves>,
    operates_to: Option<Celsius>,
    ends: (Celsius, Celsius),
) -> Option<(Celsius, Celsius)> {
    let from = operates_to.map_or(ends.0, |limit| limit.max(ends.0));
    let to = curves.map_or(ends.1, |curves| {
        curves.speeds.maximum().severe_end().min(ends.1)
    });
    (from < to).then_some((from, to))
}

fn hours(states: &[State]) -> Vec<HoursAt> {
    let mut bins: BTreeMap<Bin, Hours> = BTreeMap::new();
    for state in states {
        *bins.entry(Bin::holding(state.outdoor)).or_default() += state.hours;
    }
    bins.into_iter()
        .map(|(bin, hours)| HoursAt {
            bin,
            hours,
            cycling: Hours::ZERO,
        })
        .collect()
}

fn heat(brief: &Brief, curves: Option<&HeatingCurves>, states: &[State]) -> Vec<HeatAt> {
    let load = &brief.house().heating.load;
    let mut bins: BTreeMap<Bin, HeatAt> = BTreeMap::new();
    for state in states {
        let at = curves.map_or(HeatingAt::Unproven, |curves| curves.at(state.outdoor));
        let degradation = curves.map_or(0.0, |curves| curves.degradation);
        let hour = heating_hour(load.at(state.outdoor), &at, degradation);
        let place = Bin::holding(state.outdoor);
        let bin = bins.entry(place).or_default();
        bin.bin = place;
        let delivered = hour.delivered * state.hours;
        if hour.running == Running::Cycling {
            bin.cycling += delivered;
        } else {
            bin.steady += delivered;
        }
        bin.backup += hour.backup * state.hours;
    }
    bins.into_values().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::explain::example::{brief, house, single_speed, unit};

    fn portrait(unit: &Unit) -> (HeatingPortrait, Judged) {
        let brief = brief(house());
        let judged = brief.judge(unit);
        (HeatingPortrait::of(&brief, unit, &judged), judged)
    }

    fn close(found: f64, expected: f64) {
        assert!(
            (found - expected).abs() < 1e-9 * expected.abs().max(1.0),
            "{found} ≠ {expected}"
        );
    }

    #[test]
    fn bins_add_up_to_the_season() {
        for unit in [unit("a"), single_speed("b")] {
            let (portrait, judged) = portrait(&unit);
            let season = judged.heating.season.unwrap();
            let sum = |of: &dyn Fn(&HeatAt) -> f64| portrait.heat.iter().map(of).sum::<f64>();
            close(sum(&|bin| bin.steady.0 + bin.cycling.0), season.heat_pump.0);
            close(sum(&|bin| bin.cycling.0), season.heat_while_cycling.0);
            close(sum(&|bin| bin.backup.0), season.backup.0);
            let hours: f64 = portrait.hours.iter().map(|bin| bin.hours.0).sum();
            close(hours, season.heating_hours.0);
        }
    }

    // By hand: the maximum is 9.6 kW at -8 °C and 7 kW at -25 °C; the load 9.2 · (15 - T) / 33.
    #[test]
    fn the_band_and_the_load_are_those_that_judge() {
        let (portrait, judged) = portrait(&unit("a"));
        let at = |outdoor: f64| {
            *portrait
                .band
                .iter()
                .find(|point| point.outdoor == Celsius(outdoor))
                .unwrap()
        };
        assert_eq!(at(-8.0).maximum, Some(Kilowatts(9.6)));
        assert_eq!(at(-8.0).minimum, Some(Kilowatts(2.4)));
        close(at(-16.0).maximum.unwrap().0, 9.6 - 8.0 * 2.6 / 17.0);
        assert_eq!(at(-26.0).maximum, None);
        assert_eq!(portrait.unproven, Some((Celsius(-26.0), Celsius(-25.0))));
        let (balance, load) = portrait.balance_point.unwrap();
        assert_eq!(Some(balance), judged.heating.balance_point.temperature());
        close(load.0, 9.2 * (15.0 - balance.0) / 33.0);
        close(at(balance.0).maximum.unwrap().0, load.0);
        let (first, last) = (portrait.load[0], portrait.load[portrait.load.len() - 1]);
        close(first.1.0, 9.2 * 41.0 / 33.0);
        assert_eq!(last, (Celsius(15.0), Kilowatts::ZERO));
    }

    #[test]
    fn below_its_limit_a_unit_delivers_nothing_and_nothing_is_unproven_there() {
        let (portrait, _) = portrait(&single_speed("b"));
        let at_limit: Vec<_> = portrait
            .band
            .iter()
            .filter(|point| point.outdoor == Celsius(-10.0))
            .collect();
        assert_eq!(at_limit.len(), 2);
        assert_eq!(at_limit[0].maximum, Some(Kilowatts::ZERO));
        assert!(at_limit[1].maximum > Some(Kilowatts(9.0)));
        assert!(portrait.band.iter().all(|point| point.minimum.is_none()));
        assert_eq!(portrait.unproven, None);
    }

    #[test]
    fn a_unit_without_heating_points_leaves_all_to_backup() {
        let mut unit = unit("a");
        unit.points.clear();
        let (portrait, _) = portrait(&unit);
        assert!(portrait.band.is_empty());
        assert_eq!(portrait.unproven, Some((Celsius(-26.0), Celsius(15.0))));
        assert!(
            portrait
                .heat
                .iter()
                .all(|bin| bin.steady.0 + bin.cycling.0 == 0.0)
        );
    }
}
