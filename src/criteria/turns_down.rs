//! The unit turns down far enough in cooling: it does not cycle in too large a share of the hours with a call.
//!
//! ## Why it matters
//! Below its minimum a unit runs in short bursts; with the fan running on, what the coil has caught goes back into the
//! room, and the house is cool and clammy.
//!
//! ## Source
//! The limit is our default, no source; the case of cycling below the minimum speed is common practice.

use super::season_share::{ShareOutcome, curves_in_season, judge_share, percentages};
use super::{AskCode, Case, Findings, Reason};
use crate::climate::State;
use crate::cooling::{CoolingCurves, CoolingState, Room, Running, cooling_state};
use crate::house::CoolingLoadLine;
use crate::quantity::{Celsius, Hours, Kilowatts, UnitSystem};

/// The load lies below the unit's minimum in too large a share of the cooling hours.
#[derive(Debug)]
struct CyclesInCooling {
    share: f64,
    largest: f64,
    hours: Hours,
    design: Celsius,
    minimum_sensible: Option<Kilowatts>,
    load_at_design: Kilowatts,
    cycles_below: Option<Celsius>,
    needed: Option<NeededMinimum>,
    humid_hours: Option<Hours>,
}

/// The minimum that would keep within the limit, at the outdoor temperature that decides, and the unit's own there.
#[derive(Clone, Copy, Debug, PartialEq)]
struct NeededMinimum {
    outdoor: Celsius,
    sensible: Kilowatts,
    /// At the room's humidity in that state; `None` where the unit does not cycle there.
    own: Option<Kilowatts>,
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
        let [share, largest] = percentages(self.share, self.largest);
        let mut text = format!(
            "cycles in {share} % of the cooling hours ({:.0} h a year; limit {largest} %)",
            self.hours.0,
        );
        if let Some(minimum) = self.minimum_sensible {
            text += &format!(
                ": at {} its minimum removes {} sensible heat, the load there is {}",
                units.temperature(self.design),
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
        let Some(needed) = self.needed else {
            return "a lower minimum".to_owned();
        };
        let mut text = format!(
            "a minimum of {} sensible or less at {} outdoors",
            units.power(needed.sensible),
            units.temperature(needed.outdoor)
        );
        if let Some(own) = needed.own {
            text += &format!("; its own is {} there", units.power(own));
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
    let Some(curves) = curves_in_season(case, &season, findings) else {
        return;
    };
    let known = season.known;
    let Some(cycling) = known.and_then(|known| known.cycling_hours) else {
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
                design: cooling.load.design_outdoor,
                minimum_sensible: figures.minimum_sensible,
                load_at_design: cooling.load.design_sensible,
                cycles_below: cycles_below(&cooling.load, curves, case.room),
                needed: needed_minimum(case, curves, states, largest * season.cooling_hours.0),
                humid_hours: humidity.map(|humidity| humidity.humid_hours),
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
/// relative humidity: the hottest published one where it cycles up to there; `None` where it never does, or a coil is
/// unknown.
#[must_use]
pub fn cycles_below(
    load: &CoolingLoadLine,
    curves: &CoolingCurves,
    room: &Room,
) -> Option<Celsius> {
    let spare = |outdoor: f64| -> Option<f64> {
        let at_room = curves.at(Celsius(outdoor))?.at(room.design_wet_bulb);
        let minimum = at_room
            .minimum
            .coil()?
            .split(room.temperature, room.design, &room.air);
        Some((minimum.sensible - load.at(Celsius(outdoor))).0)
    };
    let mut low = load.zero_load_outdoor.0;
    spare(low).filter(|&spare| spare > 0.0)?;
    let hottest = curves.rating_speeds().maximum().severe_end().0;
    let mut high = hottest.max(low);
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

/// The load below which no more than `hours` of the season lie: a minimum no larger would keep within the limit.
fn needed_minimum(
    case: &Case<'_>,
    curves: &CoolingCurves,
    states: &[State],
    hours: f64,
) -> Option<NeededMinimum> {
    let load = case.house.cooling?.load;
    let mut with_call: Vec<&State> = states
        .iter()
        .filter(|state| state.outdoor > load.zero_load_outdoor)
        .collect();
    with_call.sort_by(|a, b| a.outdoor.0.total_cmp(&b.outdoor.0));
    let mut below = 0.0;
    let deciding = with_call.into_iter().find(|state| {
        below += state.hours.0;
        below > hours
    })?;
    let sensible = load.at(deciding.outdoor);
    let moisture = case.house.moisture.as_ref();
    let own = match cooling_state(sensible, deciding, curves, case.room, moisture) {
        CoolingState::Runs(operation) if operation.delivery.running == Running::Cycling => {
            Some(sensible / operation.delivery.run_fraction)
        }
        _ => None,
    };
    Some(NeededMinimum {
        outdoor: deciding.outdoor,
        sensible,
        own,
    })
}

#[cfg(test)]
mod tests {
    use super::super::testing::{
        assert_accepted, cooled_house, findings, heated_house, only_question, only_reason, state,
    };
    use super::super::{Criteria, Findings, Requirements};
    use super::*;
    use crate::cooling::CoolingFigures;
    use crate::equipment::testing::unit;
    use crate::equipment::{Speed, Unit};

    fn heats_well() -> Unit {
        unit("u").heats(Speed::Maximum, &[(8.0, 12.0, 3.0), (-18.0, 12.0, 2.0)])
    }

    fn strong() -> Unit {
        heats_well().cools(Speed::Maximum, &[(35.0, 7.0, 3.0, 0.75)])
    }

    /// 2.8 kW at its minimum: more than the 0.8 kW of 22 °C, less than the 3.2 kW of 28 °C.
    fn turning_down() -> Unit {
        strong().cools(Speed::Minimum, &[(35.0, 2.8, 4.0, 0.75)])
    }

    /// So many hours at 22 °C and at 28 °C.
    fn judged(unit: &Unit, mild: f64, warm: f64) -> Findings {
        let states = [state(mild, 22.0, 8.0), state(warm, 28.0, 8.0)];
        findings(&cooled_house(), Some(&states), &Criteria::default(), unit)
    }

    #[test]
    fn cycling_in_just_the_share_that_is_allowed_passes() {
        assert_accepted(&judged(&turning_down(), 70.0, 30.0));
    }

    // By hand: 0.4 (T - 20) kW reach the minimum's sensible capacity S at T = 20 + S/0.4. A minimum of 0.8 kW would run
    // through the hours at 22 °C.
    #[test]
    fn cycling_in_a_little_more_fails_and_says_from_where_and_what_would_do() {
        let (house, unit) = (cooled_house(), turning_down());
        let found = judged(&unit, 71.0, 29.0);
        let curves = CoolingCurves::of(&unit).unwrap();
        let cooling = house.cooling.unwrap();
        let figures = CoolingFigures::at_design(&cooling, Some(&curves), &Room::of(&house), None);
        let minimum = figures.minimum_sensible.unwrap().0;
        assert!(minimum > 0.75 * 2.8 && minimum < 2.8);
        let from = 20.0 + minimum / 0.4;
        let reason = (
            "cycles_in_cooling",
            format!(
                "cycles in 71 % of the cooling hours (71 h a year; limit 70 %): at 32.0 °C its minimum removes {minimum:.2} kW sensible heat, the load there is 4.80 kW; it cycles from {from:.1} °C down"
            ),
            // One point: the minimum is the same at every outdoor temperature.
            format!(
                "a minimum of 0.80 kW sensible or less at 22.0 °C outdoors; its own is {minimum:.2} kW there"
            ),
        );
        assert_eq!(only_reason(&found), reason);
        assert_eq!(
            (found.reasons[0].value(), found.reasons[0].limit()),
            (Some(0.71), Some(0.70))
        );
        assert_eq!(found.reasons[0].unit(), "share");
        let kept = findings(
            &house,
            Some(&[state(71.0, 22.0, 8.0), state(29.0, 28.0, 8.0)]),
            &Criteria::default(),
            &strong().cools(Speed::Minimum, &[(35.0, 0.8, 4.0, 0.75)]),
        );
        assert_accepted(&kept);
    }

    // By hand: the load is 0.4 (T - 20) kW hotter than the design day too, and reaches the minimum's sensible capacity S
    // at T = 20 + S/0.4; below 32 °C it does not.
    #[test]
    fn a_unit_that_cycles_on_the_design_day_does_so_up_to_where_the_load_line_meets_its_minimum() {
        let house = cooled_house();
        let (cooling, room) = (house.cooling.unwrap(), Room::of(&house));
        let unit = heats_well().cools(
            Speed::Maximum,
            &[(25.0, 7.0, 3.0, 0.75), (45.0, 7.0, 3.0, 0.75)],
        );
        let curves = CoolingCurves::of(&unit).unwrap();
        let figures = CoolingFigures::at_design(&cooling, Some(&curves), &room, None);
        let minimum = figures.minimum_sensible.unwrap();
        assert!(minimum > cooling.load.design_sensible);
        let below = cycles_below(&cooling.load, &curves, &room).unwrap();
        assert!((below.0 - (20.0 + minimum.0 / 0.4)).abs() < 1e-6);
        let unit = heats_well().cools(
            Speed::Maximum,
            &[(25.0, 70.0, 3.0, 0.75), (45.0, 70.0, 3.0, 0.75)],
        );
        let curves = CoolingCurves::of(&unit).unwrap();
        let below = cycles_below(&cooling.load, &curves, &room);
        assert_eq!(below, Some(Celsius(45.0)));
    }

    #[test]
    fn a_single_speed_is_its_own_minimum() {
        assert_eq!(
            only_reason(&judged(&strong(), 71.0, 29.0)).0,
            "cycles_in_cooling"
        );
    }

    #[test]
    fn an_unpublished_minimum_is_asked_for_and_not_guessed() {
        let question =
            "capacity, input, sensible heat ratio and airflow at the minimum speed in cooling";
        let unknown = strong().cools(Speed::Rated, &[(35.0, 5.0, 3.5, 0.75)]);
        let found = judged(&unknown, 0.0, 100.0);
        assert_eq!(only_question(&found), ("minimum_cooling", question));
        let criteria = Criteria {
            requirements: Requirements {
                cooling_design: false,
                ..Requirements::default()
            },
            ..Criteria::default()
        };
        let states = [state(100.0, 28.0, 8.0)];
        let found = findings(&cooled_house(), Some(&states), &criteria, &heats_well());
        let question = "cooling capacity, input, sensible heat ratio and airflow at maximum and minimum speed up to 32.0 °C; nothing is published for cooling";
        assert_eq!(only_question(&found), ("capacity_at_design", question));
    }

    #[test]
    fn hours_hotter_than_anything_published_are_asked_about_where_they_decide() {
        let hot = |mild: f64, hot: f64| {
            let states = [
                state(mild, 22.0, 8.0),
                state(100.0 - mild - hot, 28.0, 8.0),
                state(hot, 36.0, 8.0),
            ];
            findings(
                &cooled_house(),
                Some(&states),
                &Criteria::default(),
                &turning_down(),
            )
        };
        assert_accepted(&hot(60.0, 10.0));
        let question = "cooling capacity at outdoor temperatures above 35.0 °C";
        assert_eq!(
            only_question(&hot(60.0, 11.0)),
            ("capacity_at_design", question)
        );
    }

    #[test]
    fn a_ratio_that_no_coil_can_have_leaves_cycling_unknown() {
        let inconsistent = strong().cools(Speed::Minimum, &[(35.0, 2.8, 4.0, 0.98)]);
        let found = judged(&inconsistent, 0.0, 100.0);
        let (code, text) = only_question(&found);
        assert_eq!(code, "sensible_heat_ratio");
        assert!(
            text.contains("minimum cooling point at 35.0 °C") && text.contains("too high"),
            "{text}"
        );
    }

    #[test]
    fn nothing_is_judged_without_a_climate_without_cooling_or_without_a_limit() {
        let states = [state(100.0, 22.0, 8.0)];
        let criteria = Criteria::default();
        assert_accepted(&findings(&cooled_house(), None, &criteria, &strong()));
        assert_accepted(&findings(
            &heated_house(),
            Some(&states),
            &criteria,
            &strong(),
        ));
        let requirements = Requirements {
            max_cooling_cycling_share: 1.0,
            ..Requirements::default()
        };
        let criteria = Criteria {
            requirements,
            ..Criteria::default()
        };
        assert_accepted(&findings(
            &cooled_house(),
            Some(&states),
            &criteria,
            &strong(),
        ));
    }
}
