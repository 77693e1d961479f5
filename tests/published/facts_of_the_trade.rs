//! What every practitioner knows of air-source heat in a cold climate, found again by the heating season.
//! Facts of the trade: common practice, no source. The Chicago bin hours: NREL TMY3 (US public domain, 2008).

use overwinter::climate::State;
use overwinter::equipment::{Curve, SevereSide, SpeedCurves};
use overwinter::heating::{HeatPerformance, HeatingCurves, heating_hour, heating_season};
use overwinter::house::HeatingLoadLine;
use overwinter::quantity::{Celsius, Hours, Kilowatts};

use super::generic_maps;

/// A typical air-source unit: COP 1.5 at -25 °C and 2 at -10 °C, turning down to a quarter at the same COP.
/// Common practice, no source.
fn typical_unit() -> HeatingCurves {
    let curve = |capacity: f64| {
        let at = |outdoor: f64, cop: f64| {
            let performance = HeatPerformance {
                capacity: Kilowatts(capacity),
                power: Kilowatts(capacity / cop),
            };
            (Celsius(outdoor), performance)
        };
        Curve::through(SevereSide::Cold, vec![at(-25.0, 1.5), at(-10.0, 2.0)])
    };
    HeatingCurves {
        speeds: SpeedCurves::resolve(curve(2.5), None, curve(10.0)).expect("two curves"),
        operates_to: None,
        coldest_point: Celsius(-25.0),
        degradation: 0.25,
    }
}

/// An invented house that such a unit carries.
const LOAD: HeatingLoadLine = HeatingLoadLine {
    design_outdoor: Celsius(-20.0),
    design_load: Kilowatts(9.0),
    zero_load_outdoor: Celsius(15.0),
};

fn chicago() -> Vec<State> {
    let text = include_str!("data/bin_hours_1c.csv");
    assert!(text.starts_with("bin_centre_C,chicago_tmy3,"));
    let states: Vec<State> = text
        .lines()
        .skip(1)
        .map(|line| {
            let cells: Vec<f64> = line
                .split(',')
                .map(|cell| cell.parse().expect("published data"))
                .collect();
            State {
                outdoor: Celsius(cells[0]),
                hours: Hours(cells[1]),
                humidity_ratio: None,
            }
        })
        .collect();
    let hours: Hours = states.iter().map(|state| state.hours).sum();
    assert_eq!(hours, Hours(8760.0));
    states
}

#[test]
fn heat_by_a_typical_unit_takes_at_most_two_thirds_of_what_resistance_heat_takes() {
    let unit = typical_unit();
    for outdoor in [-25.0, -22.0, -18.0, -10.0] {
        let speeds = unit.speeds.at(Celsius(outdoor)).expect("published data");
        let share = speeds.maximum.power / speeds.maximum.capacity;
        assert!(share <= 2.0 / 3.0 + 1e-12, "{outdoor}: {share}");
    }
    let season = heating_season(&LOAD, Some(&unit), &chicago());
    assert_eq!(season.backup.0, 0.0);
    assert!(season.electricity.0 <= season.load.0 * 2.0 / 3.0);
}

#[test]
fn most_hours_of_a_chicago_winter_lie_between_minus_5_and_10_degrees_and_run_at_2_25_or_better() {
    let unit = typical_unit();
    let (mut heating, mut between) = (0.0, 0.0);
    for state in chicago() {
        if state.outdoor >= LOAD.zero_load_outdoor {
            continue;
        }
        heating += state.hours.0;
        if state.outdoor < Celsius(-5.0) || state.outdoor > Celsius(10.0) {
            continue;
        }
        between += state.hours.0;
        let hour = heating_hour(
            LOAD.at(state.outdoor),
            &unit.at(state.outdoor),
            unit.degradation,
        );
        let cop = hour.delivered / hour.input;
        // By hand: on the straight line of power, 1/1.5 to 1/2 over 15 K, the COP at -5 °C is 1/(1/2 - 1/18) = 2.25.
        assert!(cop > 2.25 - 1e-12, "{:?}: {cop}", state.outdoor);
    }
    assert!(between > heating / 2.0, "{between} of {heating} h");
}

#[test]
fn the_generic_maps_are_no_worse_than_a_typical_unit_at_their_two_upper_speeds() {
    for row in generic_maps::rows() {
        if row.mode != "heating" || row.speed < 3 {
            continue;
        }
        let least = match row.outdoor {
            -25.0 => 1.5,
            -8.33 => 2.0,
            _ => continue,
        };
        assert!(
            row.cop >= least,
            "{} speed {} at {} °C: {}",
            row.unit,
            row.speed,
            row.outdoor,
            row.cop
        );
    }
}
