//! Laws of the cooling side: balances close, the solver is right, and nothing dries below what its coil can.

use overwinter::climate::State;
use overwinter::cooling::{
    CoolingCurves, CoolingOperation, CoolingState, Room, Running, cooling_season, cooling_state,
    delivery, without_call,
};
use overwinter::equipment::{SpeedsAt, Unit};
use overwinter::house::{Fan, House};
use overwinter::psychrometrics::saturation_humidity_ratio;
use overwinter::quantity::{HumidityRatio, KilogramsPerHour};
use proptest::prelude::*;

use crate::given;

fn curves(unit: &Unit) -> CoolingCurves {
    CoolingCurves::of(unit).expect("cooling points")
}

/// Every state in which the unit runs, with what it comes to.
fn running(
    unit: &CoolingCurves,
    house: &House,
    room: &Room,
    states: &[State],
) -> Vec<(State, CoolingOperation)> {
    let load = house.cooling.expect("a cooled house").load;
    let calls = states
        .iter()
        .filter(|state| state.outdoor > load.zero_load_outdoor);
    calls
        .filter_map(|state| {
            match cooling_state(
                load.at(state.outdoor),
                state,
                unit,
                room,
                house.moisture.as_ref(),
            ) {
                CoolingState::Runs(operation) => Some((*state, operation)),
                CoolingState::Unproven | CoolingState::UnknownCoil => None,
            }
        })
        .collect()
}

fn with_fan(house: &House, fan: Fan) -> House {
    let mut house = house.clone();
    house.cooling.as_mut().expect("a cooled house").fan = fan;
    house
}

/// The moisture balance by plain bisection between dry air and saturation.
fn bisected(unit: &CoolingCurves, house: &House, room: &Room, state: &State) -> f64 {
    let load = house
        .cooling
        .expect("a cooled house")
        .load
        .at(state.outdoor);
    let moisture = house.moisture.expect("moisture");
    let speeds = unit.at(state.outdoor).expect("published").base();
    let outdoor = state.humidity_ratio.expect("recorded");
    let gains_outrun_removal = |indoor: f64| {
        let indoor = HumidityRatio(indoor);
        let delivery = delivery(load, &speeds, unit.degradation, room, indoor).expect("a coil");
        moisture.gain(indoor, outdoor) > room.removal_per_kilowatt() * delivery.latent.0
    };
    let (mut dry, mut wet) = (0.0, room.saturation.0);
    for _ in 0..60 {
        let middle = f64::midpoint(dry, wet);
        if gains_outrun_removal(middle) {
            dry = middle;
        } else {
            wet = middle;
        }
    }
    f64::midpoint(dry, wet)
}

/// Saturated air at the coldest surface of the coils at hand.
fn driest_surface(
    speeds: &SpeedsAt<overwinter::cooling::CoilPerformance>,
    room: &Room,
    indoor: HumidityRatio,
) -> f64 {
    [Some(speeds.minimum), speeds.rated, Some(speeds.maximum)]
        .into_iter()
        .flatten()
        .map(|speed| {
            let coil = speed.coil().expect("a coil");
            let surface = coil.apparatus_dew_point(room.temperature, indoor, &room.air);
            saturation_humidity_ratio(surface, room.pressure).0
        })
        .fold(f64::INFINITY, f64::min)
}

proptest! {
    #![proptest_config(crate::repeatable(64))]

    #[test]
    fn heat_and_moisture_balances_close_in_every_state(
        unit in given::cooling_unit(), house in given::house(), states in given::states()
    ) {
        let (unit, room) = (curves(&unit), Room::of(&house));
        let load = house.cooling.unwrap().load;
        let moisture = house.moisture.unwrap();
        for (state, operation) in running(&unit, &house, &room, &states) {
            let delivery = operation.delivery;
            let carried = delivery.sensible + delivery.shortfall;
            prop_assert!((carried - load.at(state.outdoor)).0.abs() < 1e-9);
            prop_assert!(delivery.latent.0 >= 0.0 && delivery.input.0 >= 0.0 && delivery.shortfall.0 >= 0.0);
            // What is taken from the air, sensible and latent, is the capacity that ran; only a fan that runs on gives some back.
            let speeds = unit.at(state.outdoor).unwrap().base();
            let total = (delivery.sensible + delivery.latent).0;
            let (least, most) = (speeds.minimum.capacity.0, speeds.maximum.capacity.0);
            match delivery.running {
                Running::Flat => prop_assert!((total - most).abs() < 1e-9),
                Running::Modulating => prop_assert!(total > least - 1e-9 && total < most + 1e-9),
                Running::Cycling => {
                    let ran = least * delivery.run_fraction;
                    let gives_back = room.fan == Fan::Continuous;
                    prop_assert!((total - ran).abs() < 1e-9 || gives_back && total < ran);
                }
            }
            let gain = moisture.gain(operation.indoor, state.humidity_ratio.unwrap());
            let excess = (gain - operation.removal).0;
            if operation.indoor == room.saturation {
                prop_assert!(excess >= 0.0, "{excess} kg/h are missing at saturation");
            } else {
                prop_assert!(excess.abs() < 1e-9, "{excess} kg/h at {operation:?}");
            }
        }
    }

    #[test]
    fn indoor_humidity_is_that_of_a_plain_bisection(
        unit in given::cooling_unit(), house in given::house(), states in given::states()
    ) {
        let (unit, room) = (curves(&unit), Room::of(&house));
        for (state, operation) in running(&unit, &house, &room, &states) {
            let expected = bisected(&unit, &house, &room, &state);
            let found = operation.indoor.0;
            prop_assert!((found - expected).abs() < 1e-11, "{found} instead of {expected}");
        }
    }

    #[test]
    fn no_unit_dries_a_house_below_its_coldest_coil_surface(
        unit in given::cooling_unit(), house in given::house(), states in given::states()
    ) {
        let (unit, room) = (curves(&unit), Room::of(&house));
        let moisture = house.moisture.unwrap();
        for (state, operation) in running(&unit, &house, &room, &states) {
            // Where the air exchange alone would bring the house, were nothing removed.
            let undried = state.humidity_ratio.unwrap().0 + moisture.people_and_activities.0 / moisture.air_exchange();
            let speeds = unit.at(state.outdoor).unwrap().base();
            let surface = driest_surface(&speeds, &room, operation.indoor);
            let indoor = operation.indoor.0;
            prop_assert!(indoor >= surface.min(undried).min(room.saturation.0) - 1e-11, "{indoor}, {surface}, {undried}");
            prop_assert!(indoor <= undried + 1e-11);
        }
    }

    #[test]
    fn more_moisture_gain_never_lowers_indoor_humidity(
        unit in given::cooling_unit(), house in given::house(), states in given::states(),
        people in 0.0..0.5, outdoors in 0.0..0.004
    ) {
        let (unit, room) = (curves(&unit), Room::of(&house));
        let mut damper = house.clone();
        damper.moisture.as_mut().unwrap().people_and_activities += KilogramsPerHour(people);
        let damper_states: Vec<State> = states
            .iter()
            .map(|state| State { humidity_ratio: state.humidity_ratio.map(|w| HumidityRatio(w.0 + outdoors)), ..*state })
            .collect();
        let before = running(&unit, &house, &room, &states);
        let after = running(&unit, &damper, &room, &damper_states);
        for ((_, before), (_, after)) in before.iter().zip(&after) {
            prop_assert!(after.indoor.0 >= before.indoor.0 - 1e-11, "{before:?} {after:?}");
            prop_assert!(after.supplemental >= before.supplemental);
        }
    }

    #[test]
    fn a_fan_that_runs_on_never_leaves_a_house_drier(
        unit in given::cooling_unit(), house in given::house(), states in given::states()
    ) {
        let unit = curves(&unit);
        let [auto, continuous] = [Fan::Auto, Fan::Continuous].map(|fan| {
            let house = with_fan(&house, fan);
            running(&unit, &house, &Room::of(&house), &states)
        });
        for ((_, auto), (_, continuous)) in auto.iter().zip(&continuous) {
            prop_assert!(continuous.indoor.0 >= auto.indoor.0 - 1e-11, "{auto:?} {continuous:?}");
        }
    }

    // Only where sensible heat ratio and airflow per capacity are the same at every speed. In general a unit with turndown
    // can be the damper one: a minimum that runs at a high sensible heat ratio dilutes the drying of the higher speeds,
    // and a single speed of a low ratio then removes more water even while it cycles.
    #[test]
    fn one_speed_is_never_drier_than_the_same_unit_with_turndown_and_the_fan_running_on(
        (single, turndown) in given::single_speed_and_turndown(), house in given::house(), states in given::states()
    ) {
        let house = with_fan(&house, Fan::Continuous);
        let room = Room::of(&house);
        let [single, turndown] = [single, turndown].map(|unit| {
            let unit = curves(&unit);
            let moisture = house.moisture.as_ref();
            let outside = without_call(&house, moisture.unwrap(), &room, &states);
            let season = cooling_season(house.cooling.as_ref().unwrap(), Some(&unit), &room, moisture, outside.as_ref(), &states, |_, _| {});
            (running(&unit, &house, &room, &states), season)
        });
        for ((_, single), (_, turndown)) in single.0.iter().zip(&turndown.0) {
            prop_assert!(single.indoor.0 >= turndown.indoor.0 - 1e-11);
        }
        let humid = |season: overwinter::cooling::CoolingSeason| Some(season.known?.humidity?.humid_hours);
        prop_assert!(humid(single.1).is_some());
        prop_assert!(humid(single.1) >= humid(turndown.1));
    }

    #[test]
    fn a_summer_is_the_sum_of_its_states(
        unit in given::cooling_unit(), house in given::house(), states in given::states()
    ) {
        let (unit, room) = (curves(&unit), Room::of(&house));
        let moisture = house.moisture.as_ref();
        let outside = without_call(&house, moisture.unwrap(), &room, &states);
        let season = cooling_season(house.cooling.as_ref().unwrap(), Some(&unit), &room, moisture, outside.as_ref(), &states, |_, _| {});
        let (mut sensible, mut electricity, mut removed, mut hours) = (0.0, 0.0, 0.0, 0.0);
        for (state, operation) in running(&unit, &house, &room, &states) {
            sensible += operation.delivery.sensible.0 * state.hours.0;
            electricity += operation.delivery.input.0 * state.hours.0;
            removed += operation.removal.0 * state.hours.0;
            hours += state.hours.0;
        }
        let known = season.known.unwrap();
        prop_assert!(((season.cooling_hours - season.unproven_hours).0 - hours).abs() < 1e-9 * hours.max(1.0));
        prop_assert!((known.sensible.0 - sensible).abs() < 1e-9 * sensible.max(1.0));
        prop_assert!((known.electricity.0 - electricity).abs() < 1e-9 * electricity.max(1.0));
        if let Some(humidity) = known.humidity {
            prop_assert!((humidity.removed.0 - removed).abs() < 1e-9 * removed.max(1.0));
        }
        let loads: f64 = states
            .iter()
            .filter(|state| unit.at(state.outdoor).is_some())
            .map(|state| house.cooling.unwrap().load.at(state.outdoor).0 * state.hours.0)
            .sum();
        prop_assert!((known.sensible.0 + known.shortfall.0 - loads).abs() < 1e-9 * loads.max(1.0));
    }
}
