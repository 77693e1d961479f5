//! Moist-air functions against two reference libraries and the handbook's station statistics.

use overwinter::psychrometrics::{
    dew_point, enthalpy, humidity_ratio_at_relative, humidity_ratio_at_wet_bulb,
    saturation_humidity_ratio, standard_pressure, wet_bulb,
};
use overwinter::quantity::{Celsius, Metres, Pascals};

/// The grid's numeric rows: 380 states from -30 to 50 °C, 10 to 100 % relative humidity, several pressures.
/// Source: PsychroLib 2.5.0 (columns `_ps`) and CoolProp 8.0.0 (columns `_cp`), both from the public package index.
fn grid() -> Vec<Vec<f64>> {
    let text = include_str!("data/psychro_grid.csv");
    let rows: Vec<Vec<f64>> = text
        .lines()
        .skip(1)
        .map(|line| {
            line.split(',')
                .map(|cell| cell.parse().unwrap_or(f64::NAN))
                .collect()
        })
        .collect();
    assert_eq!(rows.len(), 380);
    rows
}

fn assert_relative(found: f64, expected: f64, tolerance: f64, what: &str) {
    let scale = expected.abs().max(1e-12);
    assert!(
        (found - expected).abs() <= tolerance * scale,
        "{what}: {found} instead of {expected}"
    );
}

#[test]
fn humidity_ratio_enthalpy_and_dew_point_agree_with_psychrolib() {
    for row in grid() {
        let (p, t, relative) = (Pascals(row[0]), Celsius(row[1]), row[2] / 100.0);
        let w = humidity_ratio_at_relative(t, relative, p);
        let state = format!("{t:?} {relative} {p:?}");
        assert_relative(w.0, row[3], 1e-6, &format!("humidity ratio at {state}"));
        // PsychroLib's own convergence limit for dew point and wet bulb is 0.001 K; its enthalpy is exact.
        assert!(
            (dew_point(w, p).unwrap().0 - row[5]).abs() < 2e-3,
            "dew point at {state}"
        );
        let h = enthalpy(t, w).0;
        assert!(
            (h - row[6]).abs() <= 1e-6 * row[6].abs() + 1e-6,
            "enthalpy at {state}: {h} instead of {}",
            row[6]
        );
        assert!(
            (wet_bulb(t, w, p).unwrap().0 - row[4]).abs() < 2e-3,
            "wet bulb at {state}"
        );
    }
}

#[test]
fn the_ideal_gas_equations_stay_near_the_real_gas_library() {
    for row in grid() {
        let (p, t, relative) = (Pascals(row[0]), Celsius(row[1]), row[2] / 100.0);
        let w = humidity_ratio_at_relative(t, relative, p);
        // CoolProp has the enhancement factor, which the ideal-gas equations leave out: 0.6 % of humidity ratio, 0.03 K.
        assert_relative(w.0, row[8], 6e-3, "humidity ratio");
        if row[9].is_finite() {
            assert!(
                (wet_bulb(t, w, p).unwrap().0 - row[9]).abs() < 0.03,
                "wet bulb at {t:?} {relative}"
            );
        }
    }
}

#[test]
fn handbook_dew_points_at_four_altitudes_give_the_printed_humidity_ratios() {
    // Source: ASHRAE Handbook - Fundamentals 2017, climatic design conditions, as printed in published station
    // statistics: humidity ratio to 0.1 g/kg for a dew point to 0.1 K, so agreement within 0.1 g/kg is all they allow.
    let mut pairs = 0;
    for line in include_str!("data/handbook_dp_checks.csv").lines().skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let number_after = |name: &str| -> Option<f64> {
            let rest = &cells[2][cells[2].find(name)? + name.len()..];
            rest.split(' ').next()?.parse().ok()
        };
        let printed: f64 = cells[3].parse().unwrap();
        if let Some(altitude) = number_after("z=") {
            assert_relative(standard_pressure(Metres(altitude)).0, printed, 1e-4, line);
        } else {
            let (dew, pressure) = (number_after("DP=").unwrap(), number_after(" P=").unwrap());
            let grams = saturation_humidity_ratio(Celsius(dew), Pascals(pressure)).0 * 1000.0;
            assert!((grams - printed).abs() < 0.1, "{line}: {grams}");
            pairs += 1;
        }
    }
    assert_eq!(pairs, 12);
}

#[test]
fn wet_bulb_and_humidity_ratio_undo_each_other() {
    let p = Pascals(101_325.0);
    for (t, t_star) in [(26.7, 19.4), (35.0, 24.0), (-5.0, -7.0), (10.0, 0.5)] {
        let w = humidity_ratio_at_wet_bulb(Celsius(t), Celsius(t_star), p).unwrap();
        assert!((wet_bulb(Celsius(t), w, p).unwrap().0 - t_star).abs() < 1e-5);
    }
    assert!(humidity_ratio_at_wet_bulb(Celsius(20.0), Celsius(21.0), p).is_err());
    assert!(humidity_ratio_at_wet_bulb(Celsius(50.0), Celsius(5.0), p).is_err());
}
