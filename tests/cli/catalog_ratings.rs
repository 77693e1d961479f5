//! `overwinter catalog check`: declared seasonal figures held against their points.

use std::path::Path;

use assert_cmd::Command;
use serde_json::Value;
use tempfile::{TempDir, tempdir};

/// A unit of the built-in catalog whose certified SCOP and SEER follow from its certified points.
const CERTIFIED: &str = "AA001";

/// A catalog with the unit twice: as it is, and with two digits of its COP at +7 °C swapped.
fn catalog_with_a_slip() -> TempDir {
    let folder = tempdir().unwrap();
    let built_in = Path::new(env!("CARGO_MANIFEST_DIR")).join("catalog");
    let files = folder.path().join("files");
    std::fs::create_dir(&files).unwrap();
    std::fs::copy(built_in.join("sources.csv"), files.join("sources.csv")).unwrap();
    for name in ["units.csv", "points.csv"] {
        let text = std::fs::read_to_string(built_in.join(name)).unwrap();
        let (header, rows) = text.split_once('\n').unwrap();
        let own: Vec<&str> = rows
            .lines()
            .filter_map(|row| row.strip_prefix(CERTIFIED))
            .collect();
        let mut copy = format!("{header}\n");
        for row in &own {
            copy += &format!("untouched{row}\n");
        }
        for row in own {
            copy += &format!("mistyped{}\n", row.replace(",1.05,6.56,", ",1.05,5.66,"));
        }
        std::fs::write(files.join(name), copy).unwrap();
    }
    let (code, _) = overwinter(&folder, &["import", files.to_str().unwrap()]);
    assert_eq!(code, 0);
    folder
}

fn overwinter(folder: &TempDir, arguments: &[&str]) -> (i32, String) {
    let output = Command::cargo_bin("overwinter")
        .unwrap()
        .arg("--catalog")
        .arg(folder.path().join("catalog.db"))
        .arg("catalog")
        .args(arguments)
        .output()
        .unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    (output.status.code().unwrap(), text)
}

#[test]
fn a_mistyped_point_is_pointed_out_and_an_untouched_entry_is_not() {
    let folder = catalog_with_a_slip();
    let (code, text) = overwinter(&folder, &["check", "untouched", "mistyped"]);
    assert_eq!(code, 0, "a finding is for the reader to judge");
    let line = |unit: &str| {
        text.lines()
            .find(|line| line.starts_with(unit) && line.contains("5.1"))
            .unwrap_or_else(|| panic!("no line for {unit} in\n{text}"))
    };
    assert!(line("mistyped").contains("scop -"), "{text}");
    assert!(!line("untouched").contains('%'), "{text}");
    let place = |unit| text.find(line(unit)).unwrap();
    assert!(
        place("mistyped") < place("untouched"),
        "the slip comes first"
    );
    assert!(
        text.contains(
            "4 declared seasonal figures: 3 agree with their points within 2 %, 1 outside, 0"
        ),
        "{text}"
    );
}

#[test]
fn the_data_forms_carry_declared_and_recomputed_figures_and_what_is_missing() {
    let folder = catalog_with_a_slip();
    let (code, json) = overwinter(&folder, &["check", "--format", "json"]);
    assert_eq!(code, 0);
    let rows: Vec<Value> = serde_json::from_str(&json).unwrap();
    let figure = |unit: &str, name: &str| {
        rows.iter()
            .find(|row| row["unit"] == unit && row["figure"] == name)
            .unwrap_or_else(|| panic!("no {name} of {unit}"))
    };
    let slip = figure("mistyped", "scop");
    assert_eq!(slip["code"], "rating_outside");
    assert_eq!(slip["declared"], 5.1);
    let (highest, tolerance) = (
        slip["highest"].as_f64().unwrap(),
        slip["tolerance"].as_f64().unwrap(),
    );
    assert!(highest < 5.1 * (1.0 - tolerance), "{slip}");
    assert_eq!(figure("mistyped", "seer")["code"], "rating_agrees");
    assert_eq!(figure("untouched", "scop")["code"], "rating_agrees");
    // Declared for the warmer season only: no point at -7 °C.
    let missing = figure("AA011", "scop");
    assert_eq!(missing["code"], "rating_points_missing");
    assert_eq!(
        missing["missing"],
        serde_json::json!(["heating at -7.0 °C, maximum speed"])
    );

    let (_, csv) = overwinter(&folder, &["check", "--format", "csv"]);
    assert_eq!(csv.lines().count(), rows.len() + 1);
    assert!(csv.starts_with("unit,point,code,text,figure,declared,recomputed,"));
    let (_, nothing) = overwinter(&folder, &["check", "--impossible", "--format", "csv"]);
    assert_eq!(nothing.lines().count(), 1, "{nothing}");
}

#[test]
fn the_built_in_units_are_checked_within_80_columns_with_the_missing_points_in_groups() {
    let folder = tempdir().unwrap();
    let (code, text) = overwinter(&folder, &["check"]);
    assert_eq!(code, 0);
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
    assert!(
        text.contains(
            "scop not published: heating at -7.0 °C, maximum speed\n  AA011, AA013, AA015\n"
        ),
        "{text}"
    );
    assert!(text.trim_end().ends_with("recomputed."), "{text}");
}
