//! `overwinter shortlist` with several climates.

use super::demo_catalog::Demo;

/// A demo whose criteria leave the summer aside, so that several units are accepted.
fn winter_only() -> Demo {
    let demo = Demo::new();
    demo.write(
        "winter.toml",
        "[requirements]\nmax_cooling_cycling_share = 1.0\nmax_humid_share = 1.0\n",
    );
    demo
}

const BASE: [&str; 6] = [
    "shortlist",
    "house.toml",
    "--criteria",
    "winter.toml",
    "--climate",
    "lakeside",
];

fn with<'a>(more: &[&'a str]) -> Vec<&'a str> {
    BASE.iter().copied().chain(more.iter().copied()).collect()
}

#[test]
fn a_second_climate_adds_a_section_and_changes_nothing_else() {
    let demo = winter_only();
    let one = demo.prints(&BASE);
    let two = demo.prints(&with(&["--climate", "severe"]));
    assert!(!one.contains("IN OTHER CLIMATES"));
    let begins = two
        .find("\nIN OTHER CLIMATES, judged with lakeside\n")
        .unwrap();
    let ends = two[begins..].find("\n\nREJECTED").unwrap() + begins + 1;
    assert_eq!(format!("{}{}", &two[..begins], &two[ends..]), one);
    assert!(
        two[begins..ends].contains("lakeside -7.8 °C, severe -11.8 °C"),
        "{two}"
    );
    assert!(two.lines().all(|line| line.chars().count() <= 80), "{two}");
}

#[test]
fn the_year_elsewhere_is_the_year_that_a_judgement_there_finds() {
    let demo = winter_only();
    let both = demo.json(&with(&["--climate", "severe", "--format", "json"]));
    let there = demo.json(&[
        "shortlist",
        "house.toml",
        "--criteria",
        "winter.toml",
        "--climate",
        "severe",
        "--format",
        "json",
    ]);
    for unit in both["accepted"].as_array().unwrap() {
        let year = &unit["other_climates"][0];
        let judged = there["accepted"]
            .as_array()
            .unwrap()
            .iter()
            .find(|other| other["unit"] == unit["unit"])
            .unwrap();
        for name in [
            "heating_hours",
            "hours_below_balance",
            "unproven_hours",
            "backup_kwh",
            "seasonal_cop",
        ] {
            assert_eq!(year[name], judged["heating"][name], "{name}");
        }
        // By the climates' construction: 4 K colder all year.
        let colder = unit["heating"]["heating_hours"].as_f64().unwrap();
        assert!(year["heating_hours"].as_f64().unwrap() > colder);
    }
    let one = demo.json(&with(&["--format", "json"]));
    assert!(one["accepted"][0].get("other_climates").is_none());
}

#[test]
fn csv_carries_the_other_climate_in_columns_of_its_name() {
    let demo = winter_only();
    let text = demo.prints(&with(&["--climate", "severe", "--format", "csv"]));
    let header = text.lines().next().unwrap();
    assert!(
        header.contains("severe.heating_hours,severe.hours_below_balance"),
        "{header}"
    );
}
