//! `overwinter whatif`.

use super::demo_catalog::{Demo, HOUSE};

// By hand: at -15 °C a unit gives nominal (0.8 + 0.4 · 10/35) = 0.9143 nominal: 5.49, 7.31, 9.14 and 10.97 kW.
#[test]
fn each_design_load_gets_the_smallest_unit_that_carries_it() {
    let demo = Demo::new();
    let answer = demo.json(&[
        "whatif",
        "house.toml",
        "--design-load",
        "5,7 kW,30 kBtu/h,10,11",
        "--format",
        "json",
    ]);
    let rows = answer["rows"].as_array().unwrap();
    let units: Vec<Option<&str>> = rows.iter().map(|row| row["unit"].as_str()).collect();
    assert_eq!(
        units,
        [
            Some("alder-6"),
            Some("birch-8"),
            Some("cedar-10"),
            Some("elm-12"),
            None
        ]
    );
    let number = |row: usize, name: &str| rows[row][name].as_f64().unwrap();
    assert!((number(0, "capacity_at_design_kw") - 6.0 * (0.8 + 0.4 * 10.0 / 35.0)).abs() < 1e-12);
    let gain = &answer["gain_per_kw"];
    assert_eq!(
        (gain["from_kw"].as_f64(), gain["to_kw"].as_f64()),
        (Some(10.0), Some(5.0))
    );
    // One and the same unit at both loads.
    let kept = "annual_electricity_with_largest_unit_kwh";
    let expected = (number(3, kept) - number(0, kept)) / 5.0;
    let found = gain["annual_electricity_same_unit_kwh"].as_f64().unwrap();
    assert!((found - expected).abs() < 1e-9 && found > 0.0);
}

// `alder-6` carries 5 kW of heating, and not the 5 kW of cooling that are asked for too.
#[test]
fn beside_the_smallest_carrier_stands_the_smallest_accepted_in_full() {
    let demo = Demo::new();
    demo.write(
        "winter.toml",
        "[requirements]\nmax_cooling_cycling_share = 1.0\nmax_humid_share = 1.0\n",
    );
    let command = [
        "whatif",
        "house.toml",
        "--criteria",
        "winter.toml",
        "--design-load",
        "5,8",
    ];
    let answer = demo.json(&[&command[..], &["--format", "json"]].concat());
    let row = &answer["rows"][0];
    assert_eq!(
        (row["unit"].as_str(), row["verdict"].as_str()),
        (Some("alder-6"), Some("rejected"))
    );
    assert_eq!(row["accepted_unit"], "birch-8");
    let text = demo.prints(&command);
    assert!(text.contains("accepted in full"), "{text}");
    assert!(
        text.contains("Source: Invented for a test (invented)"),
        "{text}"
    );
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
}

#[test]
fn a_load_that_no_unit_carries_ends_with_code_1() {
    let demo = Demo::new();
    let ended = demo
        .command(&["whatif", "house.toml", "--design-load", "40"])
        .assert();
    let output = ended.code(1).get_output().clone();
    assert!(String::from_utf8(output.stdout).unwrap().contains("none"));
}

#[test]
fn less_sun_means_a_lower_house_ratio_and_more_cycling() {
    let demo = Demo::new();
    let answer = demo.json(&[
        "whatif",
        "house.toml",
        "--sensible",
        "2,3,4,5",
        "--unit",
        "birch-8",
        "--format",
        "json",
    ]);
    let rows = answer["rows"].as_array().unwrap();
    for pair in rows.windows(2) {
        let rises = |name: &str| pair[0][name].as_f64().unwrap() < pair[1][name].as_f64().unwrap();
        assert!(rises("house_shr_at_design") && rises("electricity_kwh"));
        assert!(!rises("cycling_hours") && !rises("humid_hours") && !rises("minimum_to_load"));
    }
    // By hand: the same minimum against 2 and against 5 kW.
    let ratio = |row: usize| rows[row]["minimum_to_load"].as_f64().unwrap();
    assert!((ratio(0) * 2.0 - ratio(3) * 5.0).abs() < 1e-12);
}

#[test]
fn without_a_named_unit_the_best_accepted_one_is_taken() {
    let demo = Demo::new();
    demo.write(
        "winter.toml",
        "[requirements]\nmax_cooling_cycling_share = 1.0\nmax_humid_share = 1.0\n",
    );
    let text = demo.prints(&[
        "whatif",
        "house.toml",
        "--criteria",
        "winter.toml",
        "--sensible",
        "3,5",
    ]);
    assert!(
        text.starts_with("Test house (invented): cedar-10\n"),
        "{text}"
    );
    assert!(text.contains("the house's SHR goes"), "{text}");
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
    demo.write("none.toml", "[requirements]\nmax_humid_share = 0\n");
}

#[test]
fn where_no_unit_is_accepted_every_command_ends_alike() {
    let demo = Demo::new();
    demo.write(
        "priced.toml",
        &format!("{HOUSE}[energy]\nfuel_efficiency = 0.9\n"),
    );
    demo.write("none.toml", "[requirements]\nmax_humid_share = 0\n");
    for command in [
        &["whatif", "priced.toml", "--sensible", "3,5"][..],
        &["cost", "priced.toml"],
        &["switchover", "priced.toml"],
    ] {
        let ended = demo
            .command(&[command, &["--criteria", "none.toml"]].concat())
            .assert()
            .code(1)
            .stdout("");
        let message = String::from_utf8(ended.get_output().stderr.clone()).unwrap();
        assert!(
            message.starts_with("error: no unit of the catalog is accepted for this house\n"),
            "{message}"
        );
    }
}

#[test]
fn exactly_one_sweep_must_be_named() {
    let demo = Demo::new();
    let none = demo.refuses(&["whatif", "house.toml"]);
    assert!(
        none.contains("--design-load <LIST>|--sensible <LIST>"),
        "{none}"
    );
    let two = demo.refuses(&[
        "whatif",
        "house.toml",
        "--design-load",
        "6",
        "--sensible",
        "3",
    ]);
    assert!(two.contains("cannot be used with"), "{two}");
    let zero = demo.refuses(&["whatif", "house.toml", "--design-load", "6,0"]);
    assert!(zero.contains("expected a load above 0 kW"), "{zero}");
}
