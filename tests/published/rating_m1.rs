//! HSPF2 and SEER2 against worked cases of US 10 CFR 430 Subpart B Appendix M1, bin by bin.
//!
//! `checked` in `data/m1_cases.json`: results of the rating sheet for the appendix (two-capacity), as recorded in a public
//! repository, and two cases with an exact answer. `independent`: variable-speed cases computed from the appendix's
//! equations by another program; they check the arithmetic, not the reading of the appendix.

use overwinter::rating::m1::{
    BTU_PER_WH_RATING_SHEET, BTU_PER_WH_STANDARD_2026, COOLING_BINS, CoolingSeason, CutOut,
    FullSpeedAt47, HeatingConditions, HeatingSeason, Regime, Region, Steady, TwoCapacityCooling,
    TwoCapacityHeating, VariableSpeedCooling, VariableSpeedHeating, cooling_season, heating_season,
};
use serde_json::Value;

/// Agreement asked for: the recorded results carry 14 digits.
const TOLERANCE: f64 = 1e-9;

fn cases(group: &str, prefix: &str) -> Vec<Value> {
    let all: Value =
        serde_json::from_str(include_str!("data/m1_cases.json")).expect("published data");
    let found: Vec<Value> = all[group]
        .as_array()
        .expect("published data")
        .iter()
        .filter(|case| text(&case["id"]).starts_with(prefix))
        .cloned()
        .collect();
    assert!(!found.is_empty(), "no case {prefix} in {group}");
    found
}

fn text(value: &Value) -> &str {
    value.as_str().expect("published data")
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("published data")
}

fn rows(case: &Value) -> &[Value] {
    case["trace"].as_array().map_or(&[], Vec::as_slice)
}

fn assert_close(found: f64, expected: &Value, what: &str) {
    let expected = number(expected);
    let allowed = TOLERANCE * expected.abs().max(1e-3);
    assert!(
        (found - expected).abs() <= allowed,
        "{what}: {found} instead of {expected}"
    );
}

fn test_point(inputs: &Value, name: &str) -> Option<Steady> {
    let pair = inputs.get(name)?.as_array()?;
    Some(Steady::new(number(&pair[0]), number(&pair[1])))
}

fn region(case: &Value) -> Region {
    match text(&case["region"]) {
        "IV" => Region::IV,
        "V" => Region::V,
        other => panic!("region {other}"),
    }
}

fn conditions(case: &Value, inputs: &Value) -> HeatingConditions {
    let btu_per_wh = case["btu_per_Wh"]
        .as_f64()
        .unwrap_or(BTU_PER_WH_STANDARD_2026);
    assert!([BTU_PER_WH_RATING_SHEET, BTU_PER_WH_STANDARD_2026].contains(&btu_per_wh));
    HeatingConditions {
        region: region(case),
        design_capacity_btu_h: test_point(inputs, "A2")
            .expect("published data")
            .capacity_btu_h,
        cut_out: case["T_off"].as_f64().map(|off_f| CutOut {
            off_f,
            on_f: case["T_on"].as_f64().unwrap_or(off_f),
        }),
        defrost_credit: case["fdef"].as_f64().unwrap_or(1.0),
        btu_per_wh,
    }
}

fn regime_name(regime: Regime) -> [&'static str; 4] {
    match regime {
        Regime::Cycling => ["1", "I", "", ""],
        Regime::Between => ["2", "II", "II-low", "II-high"],
        Regime::Full => ["4", "III", "", ""],
    }
}

fn assert_regime(regime: Regime, row: &Value, what: &str) {
    let case = row["case"].to_string().replace('"', "");
    assert!(
        regime_name(regime).contains(&case.as_str()),
        "{what}: {regime:?} instead of case {case}"
    );
}

fn assert_heating_trace(season: &HeatingSeason, case: &Value) {
    let expected = rows(case);
    for (bin, row) in season.bins.iter().zip(expected) {
        let what = format!("{} at {} °F", case["id"], bin.outdoor_f);
        assert_close(bin.outdoor_f, &row["T_F"], &what);
        assert_close(bin.fraction, &row["n_frac"], &what);
        assert_close(bin.load_btu_h, &row["BL"], &what);
        assert_close(bin.running_share, &row["delta"], &what);
        assert_close(bin.compressor_w, &row["e_wt_W"], &what);
        assert_close(bin.resistance_w, &row["rh_wt_W"], &what);
        assert_regime(bin.regime, row, &what);
    }
    if !expected.is_empty() {
        assert_eq!(season.bins.len(), expected.len(), "bins of {}", case["id"]);
    }
}

fn assert_heating_sums(season: &HeatingSeason, case: &Value, sums: &Value) {
    let what = case["id"].to_string();
    assert_close(season.hspf2(), &sums["HSPF2"], &what);
    if sums.get("load").is_some() {
        assert_close(season.load_btu_h(), &sums["load"], &what);
        assert_close(season.compressor_w(), &sums["comp"], &what);
        assert_close(season.resistance_w(), &sums["res"], &what);
    }
}

#[test]
fn two_capacity_heating_matches_the_rating_sheet_bin_by_bin() {
    let cases = cases("checked", "hspf2_two_capacity");
    assert_eq!(cases.len(), 4);
    for case in &cases {
        let inputs = &case["inputs_BtuH_W"];
        let at = |name| test_point(inputs, name);
        let system = TwoCapacityHeating {
            h01: at("H01").expect("published data"),
            h11: at("H11").expect("published data"),
            h21: at("H21"),
            h31: at("H31").expect("published data"),
            h12: at("H12").expect("published data"),
            h22: at("H22"),
            h32: at("H32").expect("published data"),
            h42: at("H42"),
            degradation: number(&case["cdh_low"]),
        };
        let season = heating_season(&system, &conditions(case, inputs));
        for row in rows(case) {
            let outdoor_f = number(&row["T_F"]);
            let what = format!("{} at {outdoor_f} °F", case["id"]);
            assert_close(
                system.low_at(outdoor_f).capacity_btu_h,
                &row["q_low"],
                &what,
            );
            assert_close(
                system.full_at(outdoor_f).capacity_btu_h,
                &row["q_full"],
                &what,
            );
            assert_close(system.low_at(outdoor_f).power_w, &row["P_low"], &what);
            assert_close(system.full_at(outdoor_f).power_w, &row["P_full"], &what);
        }
        assert_heating_trace(&season, case);
        assert_heating_sums(&season, case, &case["expected"]);
    }
}

fn variable_speed(case: &Value, inputs: &Value) -> VariableSpeedHeating {
    let at = |name| test_point(inputs, name);
    VariableSpeedHeating {
        h01: at("H01").expect("published data"),
        h11: at("H11").expect("published data"),
        h1n: at("H1N").expect("published data"),
        h12: at("H12").map_or(FullSpeedAt47::Estimated, FullSpeedAt47::Tested),
        h2v: at("H2V").expect("published data"),
        h22: at("H22"),
        h32: at("H32").expect("published data"),
        h42: at("H42"),
        degradation: case["cd"].as_f64().unwrap_or(0.25),
    }
}

#[test]
fn constant_efficiency_without_losses_rates_at_that_efficiency_and_a_lock_out_at_resistance() {
    for case in cases("checked", "invariant") {
        let inputs = &case["inputs_BtuH_W"];
        let season = heating_season(&variable_speed(&case, inputs), &conditions(&case, inputs));
        assert_heating_sums(&season, &case, &case["expected"]);
    }
}

#[test]
fn variable_speed_heating_matches_an_independent_computation_bin_by_bin() {
    let cases: Vec<Value> = [cases("independent", "vs_IV"), cases("independent", "vs_V_")].concat();
    assert_eq!(cases.len(), 6);
    for case in &cases {
        let inputs = &case["inputs"];
        let system = variable_speed(case, inputs);
        for row in rows(case) {
            let outdoor_f = number(&row["T_F"]);
            let what = format!("{} at {outdoor_f} °F", case["id"]);
            assert_close(
                system.low_at(outdoor_f).capacity_btu_h,
                &row["q_low"],
                &what,
            );
            assert_close(
                system.intermediate_at(outdoor_f).capacity_btu_h,
                &row["q_int"],
                &what,
            );
            assert_close(
                system.full_at(outdoor_f).capacity_btu_h,
                &row["q_full"],
                &what,
            );
            assert_close(system.low_at(outdoor_f).power_w, &row["P_low"], &what);
            assert_close(
                system.intermediate_at(outdoor_f).power_w,
                &row["P_int"],
                &what,
            );
            assert_close(system.full_at(outdoor_f).power_w, &row["P_full"], &what);
        }
        let season = heating_season(&system, &conditions(case, inputs));
        assert_heating_trace(&season, case);
        assert_heating_sums(&season, case, &case["result"]);
    }
}

fn assert_cooling(season: &CoolingSeason, case: &Value, sums: &Value) {
    assert_eq!(season.bins.len(), rows(case).len());
    for (bin, row) in season.bins.iter().zip(rows(case)) {
        let what = format!("{} at {} °F", case["id"], bin.outdoor_f);
        assert_close(bin.outdoor_f, &row["T_F"], &what);
        assert_close(bin.load_btu_h, &row["BL"], &what);
        assert_close(bin.removed_btu_h, &row["q_wt"], &what);
        assert_close(bin.power_w, &row["e_wt"], &what);
        assert_regime(bin.regime, row, &what);
    }
    let what = case["id"].to_string();
    assert_close(season.seer2(), &sums["SEER2"], &what);
    assert_close(season.removed_btu_h(), &sums["q"], &what);
    assert_close(season.power_w(), &sums["e"], &what);
}

#[test]
fn two_capacity_cooling_matches_the_rating_sheet_bin_by_bin() {
    for case in cases("checked", "seer2_two_capacity") {
        let at = |name| test_point(&case["inputs_BtuH_W"], name).expect("published data");
        let system = TwoCapacityCooling {
            a2: at("A2"),
            b2: at("B2"),
            b1: at("B1"),
            f1: at("F1"),
            degradation: number(&case["cdc_low_effective"]),
        };
        assert_cooling(&cooling_season(&system), &case, &case["expected"]);
    }
}

#[test]
fn variable_speed_cooling_matches_an_independent_computation_bin_by_bin() {
    for case in cases("independent", "vs_seer2") {
        let at = |name| test_point(&case["inputs"], name).expect("published data");
        let system = VariableSpeedCooling {
            a2: at("A2"),
            b2: at("B2"),
            ev: at("EV"),
            b1: at("B1"),
            f1: at("F1"),
            degradation: 0.25,
        };
        assert_cooling(&cooling_season(&system), &case, &case["result"]);
    }
}

/// Sums of the appendix's table of generalized climatic regions, added by hand.
#[test]
fn heating_fractions_do_not_sum_to_one_and_cooling_fractions_do() {
    let sums = [0.709, 0.596, 0.705, 0.757, 0.802, 0.681];
    for (region, expected) in Region::ALL.into_iter().zip(sums) {
        let sum: f64 = region.bins().map(|(_, fraction)| fraction).sum();
        assert!((sum - expected).abs() < 1e-9, "{region:?}: {sum}");
    }
    let cooling: f64 = COOLING_BINS.iter().map(|(_, fraction)| fraction).sum();
    assert!((cooling - 1.0).abs() < 1e-9);
}
