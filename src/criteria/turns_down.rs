//! The unit turns down far enough in cooling: it does not cycle in too large a share of the hours with a call.
//!
//! ## Why it matters
//! Below its minimum a unit runs in short bursts; with the fan running on, what the coil has caught goes back into the
//! room, and the house is cool and clammy.
//!
//! ## Source
//! The limit is our default, no source; the case of cycling below the minimum speed is common practice.

use super::carries_cooling_design::inconsistent_ratio;
use super::season_share::{ShareOutcome, judge_share};
use super::{AskCode, Case, Findings, Reason};
use crate::climate::State;
use crate::cooling::{CoolingCurves, Room};
use crate::equipment::Turndown;
use crate::house::CoolingLoadLine;
use crate::quantity::{Celsius, Hours, Kilowatts, UnitSystem};

/// The load lies below the unit's minimum in too large a share of the cooling hours.
#[derive(Debug)]
struct CyclesInCooling {
    share: f64,
    largest: f64,
    hours: Hours,
    minimum_sensible: Option<Kilowatts>,
    load_at_design: Kilowatts,
    cycles_below: Option<Celsius>,
    needed_minimum: Option<Kilowatts>,
    humid_hours: Option<Hours>,
    supplemental_peak_l_per_day: Option<f64>,
}

impl Reason for CyclesInCooling {
    fn code(&self) -> &'static str {
        "cycles_in_cooling"
    }

    fn value(&self) -> Option<f64> {
        Some(self.share)
    }

    fn limit(&self) -> Option<f64> {
        Some(self.largest)
    }

    fn unit(&self) -> &'static str {
        "share"
    }

    fn sentence(&self, units: UnitSystem) -> String {
        let mut text = format!(
            "cycles in {:.0} % of the cooling hours ({:.0} h a year; limit {:.0} %)",
            self.share * 100.0,
            self.hours.0,
            self.largest * 100.0
        );
        if let Some(minimum) = self.minimum_sensible {
            text += &format!(
                ": its minimum removes {} sensible heat, the design load is {}",
                units.power(minimum),
                units.power(self.load_at_design)
            );
        }
        if let Some(below) = self.cycles_below {
            text += &format!("; it cycles from {} down", units.temperature(below));
        }
        if let Some(humid) = self.humid_hours {
            text += &format!("; {:.0} h above the humidity limit", humid.0);
        }
        text
    }

    fn remedy(&self, units: UnitSystem) -> String {
        let mut text = match self.needed_minimum {
            Some(minimum) => format!("a minimum of {} sensible or less", units.power(minimum)),
            None => "a lower minimum".to_owned(),
        };
        if let Some(litres) = self
            .supplemental_peak_l_per_day
            .filter(|&litres| litres > 0.0)
        {
            let flow = crate::quantity::KilogramsPerHour(litres / 24.0);
            text += &format!(
                ", or supplemental dehumidification of up to {}",
                units.water_per_day(flow)
            );
        }
        text
    }
}

/// Judges turndown.
pub(super) fn judge(case: &Case<'_>, findings: &mut Findings) {
    let largest = case.criteria.requirements.max_cooling_cycling_share;
    let (Some(cooling), Some(figures), Some(states)) =
        (case.house.cooling, case.cooling_figures, case.states)
    else {
        return;
    };
    let Some(season) = figures.season.filter(|_| largest < 1.0) else {
        return;
    };
    let known = season.known;
    if case
        .cooling
        .is_none_or(|curves| curves.turndown() == Turndown::Unknown)
    {
        findings.unknown(
            AskCode::MinimumCooling,
            "capacity, input, sensible heat ratio and airflow at the minimum speed in cooling",
        );
    }
    if case.cooling.is_some() && known.is_none() {
        findings.unknown(AskCode::SensibleHeatRatio, inconsistent_ratio(case));
    }
    let (Some(curves), Some(cycling)) = (case.cooling, known.and_then(|known| known.cycling_hours))
    else {
        return;
    };
    match judge_share(
        cycling,
        season.unproven_hours,
        season.cooling_hours,
        largest,
    ) {
        ShareOutcome::Holds => {}
        ShareOutcome::Unproven => {
            findings.unknown(AskCode::CapacityAtDesign, beyond_hottest(case, curves))
        }
        ShareOutcome::Fails { share } => {
            let humidity = known.and_then(|known| known.humidity);
            findings.fails(CyclesInCooling {
                share,
                largest,
                hours: cycling,
                minimum_sensible: figures.minimum_sensible,
                load_at_design: cooling.load.design_sensible,
                cycles_below: cycles_below(&cooling.load, curves, case.room),
                needed_minimum: needed_minimum(
                    &cooling.load,
                    states,
                    largest * season.cooling_hours.0,
                ),
                humid_hours: humidity.map(|humidity| humidity.humid_hours),
                supplemental_peak_l_per_day: humidity
                    .map(|humidity| humidity.supplemental_peak.litres_per_day()),
            });
        }
    }
}

/// The question about cooling capacity hotter than the hottest published point.
pub(super) fn beyond_hottest(case: &Case<'_>, curves: &CoolingCurves) -> String {
    let hottest = curves.rating_speeds().maximum().severe_end();
    format!(
        "cooling capacity at outdoor temperatures above {}",
        case.units.temperature(hottest)
    )
}

/// The outdoor temperature from which down the load is below the minimum's sensible capacity, at the set point and 50 %
/// relative humidity; `None` where it never is, or a coil is unknown.
#[must_use]
pub fn cycles_below(
    load: &CoolingLoadLine,
    curves: &CoolingCurves,
    room: &Room,
) -> Option<Celsius> {
    let spare = |outdoor: f64| -> Option<f64> {
        let at_room = curves.at(Celsius(outdoor))?.at(room.wet_bulb(room.design));
        let minimum = at_room
            .minimum
            .coil()?
            .split(room.temperature, room.design, &room.air);
        Some((minimum.sensible - load.at(Celsius(outdoor))).0)
    };
    let mut low = load.zero_load_outdoor.0;
    spare(low).filter(|&spare| spare > 0.0)?;
    let hottest = curves.rating_speeds().maximum().severe_end().0;
    let mut high = load.design_outdoor.0.max(low).min(hottest.max(low));
    if spare(high)? > 0.0 {
        return Some(Celsius(high));
    }
    while high - low > 1e-9 {
        let middle = f64::midpoint(low, high);
        if spare(middle)? > 0.0 {
            low = middle
        } else {
            high = middle
        }
    }
    Some(Celsius(high))
}

/// The load below which no more than `hours` of the season lie: the minimum that would keep within the limit.
fn needed_minimum(load: &CoolingLoadLine, states: &[State], hours: f64) -> Option<Kilowatts> {
    let mut loads: Vec<(f64, f64)> = states
        .iter()
        .filter(|state| state.outdoor > load.zero_load_outdoor)
        .map(|state| (load.at(state.outdoor).0, state.hours.0))
        .collect();
    loads.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut below = 0.0;
    for (kilowatts, hours_here) in loads {
        if below + hours_here > hours {
            return (kilowatts > 0.0).then_some(Kilowatts(kilowatts));
        }
        below += hours_here;
    }
    None
}
