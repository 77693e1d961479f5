//! `overwinter explain`, `compare`, `pick`, `completions` and `man`.

use std::path::{Path, PathBuf};

use super::demo_catalog::Demo;
use assert_cmd::Command;
use overwinter::catalog::{Catalog, WrittenPoint};
use overwinter::equipment::{Form, Mode, Model, Point, Source, SourceId, SourceKind, Speed};
use overwinter::quantity::{Celsius, Kilowatts};
use tempfile::{TempDir, tempdir};

/// A name that would act on a terminal or a page, if it were let.
const HOSTILE: &str = "<script>alert(1)</script>\u{1b}[2J\u{202e}=cmd|x";

const HOUSE: &str = r#"
name = "Larch Row <b>(invented)</b>"
[indoor]
heating = "21 °C"
cooling = "24 °C"
humidity_limit = 0.60
[heating]
design_outdoor = "-18 °C"
design_load = "7.9 kW"
zero_load_outdoor = "15 °C"
[cooling]
design_outdoor = "32 °C"
design_sensible = "5.1 kW"
zero_load_outdoor = "19 °C"
[moisture]
people_and_activities = "10 kg/d"
infiltration = "12 L/s"
ventilation = "35 L/s"
latent_recovery = 0.5
[site]
altitude = "200 m"
"#;

/// A catalog of invented units with a house beside it.
struct Place {
    folder: TempDir,
}

impl Place {
    fn new() -> Self {
        let folder = tempdir().unwrap();
        std::fs::write(folder.path().join("house.toml"), HOUSE).unwrap();
        let place = Self { folder };
        let mut catalog = Catalog::create(&place.path("catalog.db")).unwrap();
        let mut writing = catalog.write().unwrap();
        let (source, _) = writing.put_source(&invented_source()).unwrap();
        for (key, scale) in [("larch-36", 1.0), ("fir-48", 1.4), (HOSTILE, 0.8)] {
            let (unit, _) = writing.put_model(&model(key, source), None).unwrap();
            writing
                .put_points(unit, &mut points(scale, source))
                .unwrap();
        }
        writing.commit().unwrap();
        place
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn run(&self, command: &str, arguments: &[&str]) -> Command {
        let mut run = Command::cargo_bin("overwinter").expect("the program is built");
        run.env_clear()
            .args([command])
            .arg("--catalog")
            .arg(self.path("catalog.db"))
            .args(arguments);
        run
    }

    fn with_house(&self, command: &str, arguments: &[&str]) -> Command {
        let house = self.path("house.toml");
        let mut all = vec![house.to_str().unwrap()];
        all.extend(arguments);
        self.run(command, &all)
    }
}

fn invented_source() -> Source {
    Source {
        key: "invented".into(),
        title: "Invented points".into(),
        publisher: None,
        year: None,
        reference: None,
        licence: None,
        kind: SourceKind::Invented,
        note: None,
    }
}

fn model(key: &str, source: SourceId) -> Model {
    Model::new(key, Form::Ducted, source)
}

fn points(scale: f64, source: SourceId) -> Vec<WrittenPoint> {
    let rows = [
        (Mode::Heating, Speed::Minimum, -25.0, 1.6, 1.9),
        (Mode::Heating, Speed::Minimum, 8.0, 3.2, 4.6),
        (Mode::Heating, Speed::Maximum, -25.0, 7.0, 1.7),
        (Mode::Heating, Speed::Maximum, 8.0, 11.5, 3.4),
        (Mode::Cooling, Speed::Minimum, 28.0, 2.6, 5.6),
        (Mode::Cooling, Speed::Minimum, 35.0, 2.4, 4.4),
        (Mode::Cooling, Speed::Maximum, 28.0, 9.6, 3.6),
        (Mode::Cooling, Speed::Maximum, 35.0, 9.0, 2.9),
    ];
    rows.into_iter()
        .map(|(mode, speed, outdoor, capacity, cop)| WrittenPoint {
            point: Point {
                mode,
                speed,
                outdoor: Celsius(outdoor),
                indoor_dry_bulb: None,
                indoor_wet_bulb: None,
                capacity: Kilowatts(capacity * scale),
                power: Kilowatts(capacity * scale / cop),
                sensible_heat_ratio: (mode == Mode::Cooling).then_some(0.75),
                airflow: None,
                fan_basis: None,
                frost_basis: None,
                source,
            },
            as_written: None,
        })
        .collect()
}

fn stdout(mut run: Command) -> String {
    let done = run.assert().success();
    String::from_utf8(done.get_output().stdout.clone()).unwrap()
}

fn refused(mut run: Command) -> String {
    let done = run.assert().code(2);
    assert!(done.get_output().stdout.is_empty());
    String::from_utf8(done.get_output().stderr.clone()).unwrap()
}

fn acts(text: &str) -> bool {
    text.contains(['\u{1b}', '\u{202e}'])
}

#[test]
fn an_explanation_comes_in_every_form_and_fits_the_terminal() {
    let place = Place::new();
    let text = stdout(place.with_house("explain", &["larch-36"]));
    assert!(text.contains("HEATING: Does the unit carry the house through the winter?"));
    // By hand: 7.0 + 4.5 · 7/33 = 7.955 kW at -18 °C.
    assert!(text.contains("= 7.955 kW"), "{text}");
    assert!(text.contains("No climate is given, so no winter is summed."));
    assert!(text.lines().all(|line| line.chars().count() <= 80));

    let markdown = stdout(place.with_house("explain", &["larch-36", "--format", "markdown"]));
    assert!(markdown.starts_with("# larch-36 in Larch Row &lt;b&gt;"));
    let page = stdout(place.with_house("explain", &["larch-36", "--format", "html"]));
    assert!(page.starts_with("<!DOCTYPE html>") && page.contains("Larch Row &lt;b&gt;"));
    let data = stdout(place.with_house("explain", &["larch-36", "--format", "json"]));
    let data: serde_json::Value = serde_json::from_str(&data).unwrap();
    assert_eq!(data["unit"], "larch-36");
    assert_eq!(data["topics"].as_array().map(Vec::len), Some(4));
}

#[test]
fn a_topic_may_be_asked_for_alone() {
    let place = Place::new();
    let text = stdout(place.with_house("explain", &["larch-36", "--topic", "criteria"]));
    assert!(text.contains("CRITERIA:") && !text.contains("HEATING:"));
    assert!(
        text.contains("Accepted: every requirement is shown to hold."),
        "{text}"
    );
}

#[test]
fn a_mistyped_unit_finds_its_nearest_key() {
    let place = Place::new();
    let error = refused(place.with_house("explain", &["larch-63"]));
    assert_eq!(
        error,
        "error: no unit `larch-63` in the catalog\nhint: did you mean `larch-36`?\n"
    );
    let error = refused(place.with_house("compare", &["larch-36", "fir-84"]));
    assert!(error.ends_with("hint: did you mean `fir-48`?\n"), "{error}");
}

#[test]
fn without_a_terminal_a_missing_unit_is_named() {
    let demo = Demo::new();
    for command in ["explain", "humidity", "pick"] {
        let error = demo.refuses(&[command, "house.toml"]);
        assert!(
            error.starts_with("error: the argument UNIT is missing\nhint: "),
            "{command}: {error}"
        );
    }
}

#[test]
fn with_a_climate_the_seasons_are_explained_and_compared() {
    let demo = Demo::new();
    let text = demo.prints(&["explain", "house.toml", "birch-8"]);
    for words in [
        "Seasonal COP",
        "Share of the cooling hours in which it cycles",
        "Supplemental dehumidification in a year",
        "Heating hours by outdoor temperature",
    ] {
        assert!(text.contains(words), "{words}");
    }
    // The explanation ends in the figures of the short list.
    let data = demo.json(&["explain", "house.toml", "birch-8", "--format", "json"]);
    let list = demo.command(&["shortlist", "house.toml", "--format", "json"]);
    let list = { list }.output().unwrap();
    let list: serde_json::Value = serde_json::from_slice(&list.stdout).unwrap();
    let judged = ["accepted", "rejected", "undecided"]
        .iter()
        .flat_map(|group| list[group].as_array().unwrap())
        .find(|unit| unit["unit"] == "birch-8")
        .unwrap();
    let step = data["topics"][0]["parts"]
        .as_array()
        .unwrap()
        .iter()
        .find(|part| part["step"]["symbol"] == "SCOP")
        .unwrap();
    assert_eq!(
        step["step"]["result"]["value"],
        judged["heating"]["seasonal_cop"]
    );
    let table = demo.prints(&["compare", "house.toml", "birch-8", "elm-12", "cedar-10"]);
    assert!(table.contains("electricity a year"), "{table}");
    assert!(
        table.lines().all(|line| line.chars().count() <= 80),
        "{table}"
    );
}

#[test]
fn units_stand_side_by_side_and_the_best_is_marked() {
    let place = Place::new();
    let table = stdout(place.with_house("compare", &["larch-36", "fir-48"]));
    let row = |name: &str| {
        let found = table.lines().find(|line| line.starts_with(name));
        found.unwrap_or_else(|| panic!("no row {name} in {table}"))
    };
    // By hand: 7.955 kW and 1.4 times that.
    let words: Vec<&str> = row("capacity at design").split_whitespace().collect();
    assert_eq!(words[words.len() - 2..], ["7.95", "*11.14"]);
    assert!(row("sensible minimum").contains('*'));
    assert!(row("price").contains("not published"));
    assert!(table.contains("* best of the row; "), "{table}");
    assert!(table.contains("Source: Invented"), "{table}");
    assert!(table.ends_with("Electrical and refrigerant work is for the licensed.\n"));

    let data = stdout(place.with_house("compare", &["larch-36", "fir-48", "--format", "json"]));
    let data: serde_json::Value = serde_json::from_str(&data).unwrap();
    let rows = data["rows"].as_array().unwrap();
    let capacity = rows
        .iter()
        .find(|row| row["name"] == "capacity_at_design_kw")
        .unwrap();
    assert_eq!(capacity["best"], serde_json::json!(["fir-48"]));

    let csv = stdout(place.with_house("compare", &["larch-36", "fir-48", "--format", "csv"]));
    assert!(
        csv.starts_with("figure,larch-36,fir-48,best\nverdict,accepted,"),
        "{csv}"
    );
    assert!(csv.contains("\nprice,,,\n"));
}

#[test]
fn a_hostile_unit_name_does_no_harm() {
    let place = Place::new();
    for format in ["text", "markdown", "html"] {
        let shown = stdout(place.with_house("explain", &[HOSTILE, "--format", format]));
        assert!(!acts(&shown), "{format}");
        assert!(format == "text" || !shown.contains("<script>"));
    }
    let data = stdout(place.with_house("explain", &[HOSTILE, "--format", "json"]));
    assert!(!data.contains('\u{1b}'));
    let table = stdout(place.with_house("compare", &[HOSTILE, "larch-36"]));
    assert!(!acts(&table));
    // A name that is not in the catalog comes back cleaned, and not at its whole length.
    let long = format!("\u{1b}[2J{}", "w".repeat(10_000));
    let error = refused(place.with_house("explain", &[&long]));
    assert!(!acts(&error) && error.len() < 2_000, "{error}");
}

#[test]
fn completions_know_the_commands_for_each_shell() {
    let place = Place::new();
    for shell in ["bash", "zsh", "fish"] {
        let script = stdout(place.run("completions", &[shell]));
        for word in ["explain", "compare", "turndown", "markdown"] {
            assert!(script.contains(word), "{shell}: {word}");
        }
    }
    place.run("completions", &["powershell"]).assert().code(2);
}

#[test]
fn the_manual_is_printed_or_written_a_page_a_command() {
    let place = Place::new();
    let page = stdout(place.run("man", &[]));
    assert!(page.contains(".TH overwinter 1"), "{page}");
    let folder = place.path("man");
    let _ = stdout(place.run("man", &["--out", folder.to_str().unwrap()]));
    let pages = |name: &str| -> String {
        std::fs::read_to_string(Path::new(&folder).join(name)).expect(name)
    };
    assert!(pages("overwinter-explain.1").contains("worked calculation"));
    assert!(pages("overwinter-compare.1").contains("side by side"));
    let file = place.path("house.toml");
    let error = refused(place.run("man", &["--out", file.to_str().unwrap()]));
    assert!(
        error.starts_with("error: cannot write manual pages into"),
        "{error}"
    );
}

// 80 columns: a help whose own line breaks are kept must not be wrapped again.
#[test]
fn help_with_lists_fits_a_terminal_of_eighty_columns() {
    let demo = super::demo_catalog::Demo::new();
    for command in ["quotes", "cost", "switchover"] {
        let help = demo.prints(&[command, "--help"]);
        let (prose, _) = help.split_once("Usage:").unwrap();
        let lines: Vec<&str> = prose.lines().skip_while(|line| !line.is_empty()).collect();
        assert!(lines.len() > 5, "{help}");
        for pair in lines.windows(2) {
            assert!(pair[0].chars().count() <= 80, "{}", pair[0]);
            // A line stops short only at the end of a paragraph or of a list.
            let (first, next) = (pair[0], pair[1]);
            let is_prose = |line: &str| !line.is_empty() && !line.starts_with(' ');
            if is_prose(first) && is_prose(next) {
                let word = next.split(' ').next().unwrap();
                assert!(first.len() + 1 + word.len() > 74, "{command}: {first}");
            }
        }
    }
}
