//! Laws of the heating side: balance point and season.

use overwinter::equipment::{Mode, Speed, Unit};
use overwinter::heating::{
    BalancePoint, HeatingCurves, HeatingSeason, Running, heating_hour, heating_season,
};
use overwinter::quantity::{Celsius, Hours, Kilowatts};
use proptest::prelude::*;

use crate::given;

fn curves(unit: &Unit) -> HeatingCurves {
    HeatingCurves::of(unit, Celsius(21.0)).expect("heating points")
}

fn near(found: f64, expected: f64) -> bool {
    (found - expected).abs() <= 1e-9 * expected.abs().max(1.0)
}

proptest! {
    #![proptest_config(crate::repeatable(128))]

    #[test]
    fn at_the_balance_point_capacity_is_load_and_above_it_the_load_is_carried(
        points in given::heating_points(Speed::Maximum), load in given::heating_load(),
        limit in prop::option::of(-30.0..5.0)
    ) {
        let mut unit = given::unit("u", points);
        unit.model.operates_to = limit.map(Celsius);
        let unit = curves(&unit);
        let spare = |outdoor: f64| {
            let at = Celsius(outdoor);
            Some((unit.at(at).maximum_capacity()? - load.at(at)).0)
        };
        let found = overwinter::heating::balance_point(&load, &unit);
        let zero = load.zero_load_outdoor.0;
        let coldest = unit.speeds.maximum().severe_end().0;
        let carried_down_to = match found {
            BalancePoint::At(at) => {
                prop_assert!(spare(at.0).unwrap().abs() < 1e-9, "{:?}", spare(at.0));
                let below = spare(at.0 - 1e-6);
                prop_assert!(below.is_none_or(|below| below < 1e-12), "{below:?} below {at:?}");
                prop_assert!(at.0 >= coldest && limit.is_none_or(|limit| at.0 >= limit));
                at.0
            }
            BalancePoint::AtOperatingLimit(at) => {
                prop_assert_eq!(Some(at.0), limit);
                prop_assert_eq!(unit.at(Celsius(at.0 - 1e-6)).maximum_capacity(), Some(Kilowatts::ZERO));
                at.0
            }
            BalancePoint::BelowColdestPoint(at) => {
                prop_assert_eq!(at.0, coldest);
                at.0
            }
            BalancePoint::Unproven => {
                prop_assert!(coldest > zero);
                zero
            }
        };
        for step in 0..=2000 {
            let outdoor = carried_down_to + (zero - carried_down_to) * f64::from(step) / 2000.0;
            let spare = spare(outdoor);
            prop_assert!(
                matches!(found, BalancePoint::Unproven) || spare.is_some_and(|spare| spare > -1e-9),
                "{spare:?} at {outdoor}, {found:?}"
            );
        }
    }

    #[test]
    fn heat_by_the_pump_and_by_the_backup_add_up_to_the_load(
        unit in given::any_unit(), load in given::heating_load(), states in given::states()
    ) {
        let unit = curves(&unit);
        let season = heating_season(&load, Some(&unit), &states);
        prop_assert!(near(season.heat_pump.0 + season.backup.0, season.load.0));
        for state in states.iter().filter(|state| state.outdoor < load.zero_load_outdoor) {
            let hour = heating_hour(load.at(state.outdoor), &unit.at(state.outdoor), unit.degradation);
            prop_assert!(near((hour.delivered + hour.backup).0, hour.load.0));
            prop_assert!(hour.delivered >= Kilowatts::ZERO && hour.backup >= Kilowatts::ZERO && hour.input >= Kilowatts::ZERO);
        }
        let unproven_or_below = season.unproven_hours + season.hours_below_balance;
        prop_assert!(unproven_or_below.0 <= season.heating_hours.0 + 1e-9);
    }

    #[test]
    fn a_year_is_the_sum_of_its_states(
        unit in given::any_unit(), load in given::heating_load(), states in given::states()
    ) {
        let unit = curves(&unit);
        let whole = heating_season(&load, Some(&unit), &states);
        let (mut heat, mut electricity, mut backup, mut hours, mut cycling) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for state in states.iter().filter(|state| state.outdoor < load.zero_load_outdoor) {
            let hour = heating_hour(load.at(state.outdoor), &unit.at(state.outdoor), unit.degradation);
            heat += hour.delivered.0 * state.hours.0;
            electricity += hour.input.0 * state.hours.0;
            backup += hour.backup.0 * state.hours.0;
            hours += state.hours.0;
            if hour.running == Running::Cycling {
                cycling += state.hours.0;
            }
        }
        prop_assert!(near(whole.heat_pump.0, heat) && near(whole.electricity.0, electricity));
        prop_assert!(near(whole.backup.0, backup) && near(whole.heating_hours.0, hours));
        prop_assert!(near(whole.cycling_hours.0, cycling));
        let halves = [&states[..states.len() / 2], &states[states.len() / 2..]]
            .map(|half| heating_season(&load, Some(&unit), half));
        prop_assert!(near(halves[0].electricity.0 + halves[1].electricity.0, whole.electricity.0));
    }

    #[test]
    fn a_unit_of_one_cop_has_that_seasonal_cop(
        points in given::heating_points(Speed::Maximum), turndown in 0.1..0.9, cop in 1.2..5.0,
        load in given::heating_load(), states in given::states()
    ) {
        // The same COP at every point of both speeds, and no loss by cycling.
        let mut both = points.clone();
        for point in &points {
            both.push(given::point(Mode::Heating, Speed::Minimum, point.outdoor.0, point.capacity.0 * turndown, cop));
        }
        for point in &mut both {
            point.power = point.capacity / cop;
        }
        let mut unit = given::unit("u", both);
        unit.model.degradation_heating = Some(0.0);
        // Where the continuation on the mild side is trimmed, by our rule, the COP is no longer the published one.
        let mildest = points.last().expect("points").outdoor;
        let proven: Vec<_> = states.into_iter().filter(|state| state.outdoor <= mildest).collect();
        let season = heating_season(&load, Some(&curves(&unit)), &proven);
        if let Some(found) = season.seasonal_cop() {
            prop_assert!(near(found, cop), "{found} instead of {cop}");
        } else {
            prop_assert_eq!(season.heat_pump.0, 0.0);
        }
    }

    #[test]
    fn a_unit_that_never_runs_leaves_resistance_heat(
        unit in given::any_unit(), load in given::heating_load(), states in given::states()
    ) {
        let mut locked = unit;
        locked.model.operates_to = Some(Celsius(50.0));
        let seasons: [HeatingSeason; 2] = [
            heating_season(&load, Some(&curves(&locked)), &states),
            heating_season(&load, None, &states),
        ];
        for season in seasons {
            prop_assert_eq!(season.backup, season.load);
            prop_assert_eq!((season.heat_pump.0, season.electricity.0), (0.0, 0.0));
            prop_assert_eq!((season.seasonal_cop(), season.cycling_hours), (None, Hours::ZERO));
        }
        // Locked out is proven, nothing published is not.
        prop_assert_eq!(seasons[0].hours_below_balance, seasons[0].heating_hours);
        prop_assert_eq!(seasons[1].unproven_hours, seasons[1].heating_hours);
    }
}
