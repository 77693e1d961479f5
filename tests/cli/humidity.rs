//! `overwinter humidity`.

use super::demo_catalog::{Demo, HOUSE};

fn sum(rows: &serde_json::Value, name: &str) -> f64 {
    rows.as_array()
        .unwrap()
        .iter()
        .map(|row| row[name].as_f64().unwrap())
        .sum()
}

#[test]
fn the_rows_add_up_to_the_season_that_the_short_list_judges() {
    let demo = Demo::new();
    let answer = demo.json(&["humidity", "house.toml", "birch-8", "--format", "json"]);
    let list = demo.command(&["shortlist", "house.toml", "--format", "json"]);
    let list = { list }.output().unwrap();
    let list: serde_json::Value = serde_json::from_slice(&list.stdout).unwrap();
    let judged = ["accepted", "rejected"]
        .iter()
        .flat_map(|group| list[group].as_array().unwrap())
        .find(|unit| unit["unit"] == "birch-8")
        .unwrap();
    let season = &judged["cooling"];
    let (with, without) = (&answer["with_call"], &answer["without_call"]);
    let close = |found: f64, expected: &serde_json::Value| {
        let expected = expected.as_f64().unwrap();
        assert!(
            (found - expected).abs() < 1e-9 * expected.max(1.0),
            "{found} ≠ {expected}"
        );
    };
    for name in [
        "cooling_hours",
        "sensible_kwh",
        "electricity_kwh",
        "cycling_hours",
        "humid_hours",
        "moisture_removed_kg",
    ] {
        close(sum(with, name), &season[name]);
    }
    close(
        sum(without, "humid_hours"),
        &season["humid_hours_without_call"],
    );
    close(
        sum(with, "dehumidification_l") + sum(without, "dehumidification_l"),
        &season["dehumidification_l_per_year"],
    );
    assert!(sum(with, "humid_hours") > 0.0);
}

#[test]
fn by_default_the_set_point_and_two_kelvin_colder_are_compared() {
    let demo = Demo::new();
    let answer = demo.json(&["humidity", "house.toml", "birch-8", "--format", "json"]);
    let rooms: Vec<f64> = answer["comparison"]
        .as_array()
        .unwrap()
        .iter()
        .map(|room| room["indoor_c"].as_f64().unwrap())
        .collect();
    assert_eq!(rooms, [22.0, 24.0]);
    let other = demo.json(&[
        "humidity",
        "house.toml",
        "birch-8",
        "--at",
        "23,75.2 °F",
        "--format",
        "json",
    ]);
    assert_eq!(other["comparison"][0]["indoor_c"], 23.0);
    assert_eq!(
        other["comparison"][1]["mean_rh"],
        answer["comparison"][1]["mean_rh"]
    );
}

#[test]
fn the_table_says_what_it_does_not_count() {
    let demo = Demo::new();
    let text = demo.prints(&["humidity", "house.toml", "dogwood-10-narrow"]);
    assert!(text.contains("WITH A CALL FOR COOLING"), "{text}");
    assert!(text.contains("WITHOUT A CALL"), "{text}");
    assert!(text.contains("The sensible load line stays as the house gives it"));
    assert!(
        text.contains("Colder and clammier: at 22.0 °C instead of 24.0 °C"),
        "{text}"
    );
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
}

#[test]
fn csv_has_every_indoor_temperature_and_both_kinds_of_hours() {
    let demo = Demo::new();
    let text = demo.prints(&["humidity", "house.toml", "birch-8", "--format", "csv"]);
    let mut lines = text.lines();
    assert!(
        lines
            .next()
            .unwrap()
            .starts_with("indoor_c,call,outdoor_c,hours,")
    );
    for beginning in ["24,yes,", "24,no,", "22,yes,", "22,no,"] {
        assert!(
            text.lines().any(|line| line.starts_with(beginning)),
            "{beginning}"
        );
    }
}

#[test]
fn what_is_missing_is_named() {
    let demo = Demo::new();
    assert_eq!(
        demo.refuses(&["humidity", "house.toml", "birch-9"]),
        "error: no unit `birch-9` in the catalog\nhint: did you mean `birch-8`?\n"
    );
    let (before, after) = HOUSE.split_once("[moisture]").unwrap();
    let site = after.split_once("[site]").unwrap().1;
    demo.write("dry.toml", &format!("{before}[site]{site}"));
    let message = demo.refuses(&["humidity", "dry.toml", "birch-8"]);
    assert!(
        message.contains("`dry.toml` has no [moisture] section"),
        "{message}"
    );
    let message = demo.refuses(&["humidity", "house.toml", "birch-8", "--at", "72"]);
    assert!(message.contains("from 5 to 40 °C"), "{message}");
}

#[test]
fn the_sources_of_the_unit_are_named_and_invented_ones_say_so() {
    let demo = Demo::new();
    for command in [
        &["humidity", "house.toml", "birch-8"][..],
        &["compare", "house.toml", "birch-8", "elm-12"],
        &[
            "whatif",
            "house.toml",
            "--sensible",
            "3,5",
            "--unit",
            "birch-8",
        ],
    ] {
        let text = demo.prints(command);
        let (_, foot) = text
            .split_once("Source: Invented for a test (invented)\n")
            .unwrap_or_else(|| panic!("no source in {text}"));
        assert!(foot.contains("This is not a load calculation"), "{foot}");
    }
}
