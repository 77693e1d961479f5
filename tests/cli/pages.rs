//! `overwinter report` and `overwinter lesson`: what stands on the pages, where they go, and what they must never hold.

use std::path::PathBuf;

use assert_cmd::Command;
use overwinter::catalog::{Catalog, WrittenPoint};
use overwinter::equipment::{Form, Mode, Model, Point, Source, SourceId, SourceKind, Speed};
use overwinter::quantity::{Celsius, Kilowatts};
use serde_json::Value;
use tempfile::{TempDir, tempdir};

/// A name that would act on a page, if it were let.
const HOSTILE: &str =
    "</style></title><script>alert(1)</script>\u{1b}[2J\u{202e}\"'><img src=x onerror=y>";

struct Place {
    folder: TempDir,
}

impl Place {
    /// The built-in catalog with units of these names added, each a scaled invention.
    fn with(names: &[String]) -> Self {
        let place = Self {
            folder: tempdir().unwrap(),
        };
        let mut catalog = Catalog::open_or_create(&place.path("catalog.db")).unwrap();
        let mut writing = catalog.write().unwrap();
        let (source, _) = writing
            .put_source(&Source {
                key: "for-tests".into(),
                title: format!("Invented points {HOSTILE}"),
                publisher: None,
                year: None,
                reference: None,
                licence: None,
                kind: SourceKind::Invented,
                note: None,
            })
            .unwrap();
        for (place, name) in names.iter().enumerate() {
            let (unit, _) = writing
                .put_model(&Model::new(name, Form::Ducted, source), None)
                .unwrap();
            let scale = 1.3 + place as f64 * 0.001;
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

    fn run(&self, command: &str, house: &str, arguments: &[&str]) -> Command {
        let house = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
            .join("examples")
            .join(house);
        let mut run = Command::cargo_bin("overwinter").expect("the program is built");
        run.env_clear()
            .arg(command)
            .arg(house)
            .arg("--catalog")
            .arg(self.path("catalog.db"))
            .args(arguments);
        run
    }

    fn page(&self, command: &str, house: &str, arguments: &[&str]) -> String {
        let mut run = self.run(command, house, arguments);
        let done = run.args(["--date", "2026-01-31"]).assert().success();
        String::from_utf8(done.get_output().stdout.clone()).unwrap()
    }
}

/// A unit that carries the ordinary house at a scale of 1.3 and turns down far.
fn points(scale: f64, source: SourceId) -> Vec<WrittenPoint> {
    let rows = [
        (Mode::Heating, Speed::Minimum, -25.0, 1.6, 1.9),
        (Mode::Heating, Speed::Minimum, 8.0, 2.2, 4.6),
        (Mode::Heating, Speed::Maximum, -25.0, 7.0, 1.7),
        (Mode::Heating, Speed::Maximum, 8.0, 11.5, 3.4),
        (Mode::Cooling, Speed::Minimum, 28.0, 1.6, 5.6),
        (Mode::Cooling, Speed::Minimum, 38.0, 1.4, 4.4),
        (Mode::Cooling, Speed::Maximum, 28.0, 9.6, 3.6),
        (Mode::Cooling, Speed::Maximum, 38.0, 9.0, 2.9),
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

/// The text between two marks, from the first of them on.
fn between<'a>(text: &'a str, before: &str, after: &str) -> Option<&'a str> {
    let (_, rest) = text.split_once(before)?;
    Some(rest.split_once(after)?.0)
}

/// Every figure in a piece of a page: where it comes from, its unit, and what is shown.
fn figures(piece: &str) -> Vec<(&str, &str, &str)> {
    piece
        .split("data-from=\"")
        .skip(1)
        .map(|rest| {
            let (from, rest) = rest.split_once('"').unwrap();
            let unit = between(rest, "data-unit=\"", "\"").unwrap();
            let shown = between(rest, ">", "<").unwrap().trim();
            (from, unit, shown)
        })
        .collect()
}

/// What a name, a sum or a quotient of names comes to in a unit's JSON; `None` where a part of it is not known.
fn value(unit: &Value, from: &str) -> Option<f64> {
    let named = |name: &str| {
        let found = name.split('.').try_fold(unit, |at, key| at.get(key));
        found
            .unwrap_or_else(|| panic!("{name} is not in the JSON"))
            .as_f64()
    };
    if let Some((part, whole)) = from.split_once(" / ") {
        return Some(named(part)? / named(whole)?);
    }
    from.split(" + ")
        .try_fold(0.0, |sum, name| Some(sum + named(name)?))
}

/// Compares what is shown with what the JSON has, up to the rounding that the shown decimals allow.
fn assert_same(unit: &Value, (from, measure, shown): (&str, &str, &str)) {
    let key = &unit["unit"];
    let Some(mut expected) = value(unit, from) else {
        assert_eq!(shown, "?", "{key}: {from}");
        return;
    };
    if measure == "%" || shown.starts_with('+') {
        expected *= 100.0;
    }
    let number = shown.trim_start_matches("below ").trim_start_matches('+');
    let found: f64 = number
        .parse()
        .unwrap_or_else(|_| panic!("{key}: {from} shows {shown}"));
    let decimals = number
        .split_once('.')
        .map_or(0, |(_, decimals)| decimals.len());
    let half = 0.5 * 10_f64.powi(-i32::try_from(decimals).unwrap());
    assert!(
        (found - expected).abs() <= half * (1.0 + 1e-9),
        "{key}: {from} shows {shown}, the JSON has {expected}"
    );
}

#[test]
fn every_figure_of_the_report_is_in_the_json() {
    let place = Place::with(&[]);
    let json: Value = serde_json::from_str(&{
        let mut run = place.run("shortlist", "ordinary-house.toml", &["--format", "json"]);
        String::from_utf8(run.assert().success().get_output().stdout.clone()).unwrap()
    })
    .unwrap();
    let groups = ["accepted", "rejected", "undecided"].map(|group| json[group].as_array().unwrap());
    let units: Vec<&Value> = groups.into_iter().flatten().collect();
    // Two of each kind, so that balance points, question marks and reasons of every sort are met.
    let named: Vec<&str> = groups
        .iter()
        .flat_map(|group| group.iter().take(2).chain(group.iter().rev().take(2)))
        .map(|unit| unit["unit"].as_str().unwrap())
        .collect();
    let page = place.page(
        "report",
        "ordinary-house.toml",
        &["--only", &named.join(",")],
    );

    let list = between(&page, "id=\"list\"", "</section>").unwrap();
    let rows: Vec<&str> = list.split("<tr data-rank=").skip(1).collect();
    assert_eq!(rows.len(), json["accepted"].as_array().unwrap().len());
    for (row, unit) in rows.iter().zip(json["accepted"].as_array().unwrap()) {
        assert!(row.contains(unit["unit"].as_str().unwrap()));
        let found = figures(row);
        assert!(found.len() >= 8, "{found:?}");
        for figure in found {
            assert_same(unit, figure);
        }
    }
    let mut seen = 0;
    let mut unknown = 0;
    for section in page.split("data-figures=\"").skip(1) {
        let key = section.split_once('"').unwrap().0;
        let unit = units.iter().find(|unit| unit["unit"] == key).unwrap();
        let section = section.split_once("</section>").unwrap().0;
        let found = figures(section);
        assert!(found.len() > 20, "{key}: {}", found.len());
        for figure in found {
            assert_same(unit, figure);
            unknown += usize::from(figure.2 == "?");
        }
        seen += 1;
    }
    assert!(seen >= 6, "{seen} sections");
    assert!(unknown > 0, "something that is not known is met as well");
}

/// What would make a page ask for something besides itself, or act.
fn assert_self_contained(page: &str) {
    let namespaces = page.replace("xmlns=\"http://www.w3.org/2000/svg\"", "");
    for asked in [
        "http:",
        "https:",
        "src=",
        "@import",
        "<script",
        "<link",
        "<img",
        "<iframe",
        "javascript:",
        "<object",
    ] {
        assert!(!namespaces.contains(asked), "the page holds {asked}");
    }
    for piece in page.split("url(").skip(1) {
        assert!(piece.starts_with('#'), "a style asks for {}", &piece[..40]);
    }
    assert!(page.starts_with("<!DOCTYPE html>") && page.trim_end().ends_with("</html>"));
}

#[test]
fn pages_ask_for_nothing_but_themselves() {
    let place = Place::with(&[]);
    assert_self_contained(&place.page("report", "well-insulated-house.toml", &[]));
    assert_self_contained(&place.page("lesson", "ordinary-house.toml", &["DEMO larch 12"]));
}

#[test]
fn hostile_names_are_text_on_both_pages() {
    let long = "w".repeat(10_000);
    let place = Place::with(&[HOSTILE.to_owned(), long.clone()]);
    let report = place.page("report", "ordinary-house.toml", &[]);
    let lessons =
        [HOSTILE, long.as_str()].map(|name| place.page("lesson", "ordinary-house.toml", &[name]));
    for page in lessons.iter().chain([&report]) {
        for act in ["<script", "<img", "\u{1b}", "\u{202e}", "onerror=y>"] {
            assert!(!page.contains(act), "the page holds {act:?}");
        }
        assert!(!page.contains(&"w".repeat(500)), "a name floods the page");
        assert_eq!(page.matches("</style>").count(), 1);
        assert_eq!(page.matches("</html>").count(), 1);
    }
    assert!(report.contains("&lt;script&gt;alert(1)&lt;/script&gt;"));
    assert!(report.contains("wwwwwwwwww"));
}

#[test]
fn two_hundred_accepted_units_stay_below_three_megabytes() {
    let names: Vec<String> = (0..200)
        .map(|number| format!("larch {number:03}"))
        .collect();
    let place = Place::with(&names);
    let page = place.page("report", "ordinary-house.toml", &[]);
    assert!(page.matches("data-rank=").count() >= 200);
    assert!(page.len() < 3_000_000, "{} bytes", page.len());
    assert!(page.len() > 500_000, "{} bytes", page.len());
}

#[test]
fn the_same_inputs_make_the_same_page_and_other_inputs_another_fingerprint() {
    let place = Place::with(&[]);
    let make = |house, arguments: &[&str]| place.page("report", house, arguments);
    let first = make("ordinary-house.toml", &[]);
    assert_eq!(first, make("ordinary-house.toml", &[]));
    let prints = |page: &str| {
        let table = between(page, "class=\"scroll plain prints\"", "</table>")
            .unwrap()
            .to_owned();
        let digests: Vec<String> = table
            .split("<td class=\"code\">")
            .skip(1)
            .map(|cell| cell[..64].to_owned())
            .collect();
        digests
    };
    let (one, other) = (
        prints(&first),
        prints(&make("well-insulated-house.toml", &[])),
    );
    assert_eq!(one.len(), 8);
    assert_ne!(one[0], other[0], "another house");
    assert_eq!(
        one[1..7],
        other[1..7],
        "the same catalog, climate and criteria"
    );
    assert_ne!(one[7], other[7], "all together");
    let inch_pound = prints(&make("ordinary-house.toml", &["--units", "ip"]));
    assert_ne!(one[6], inch_pound[6]);
}

#[test]
fn a_page_replaces_a_page_and_nothing_else() {
    let place = Place::with(&[]);
    let file = place.path("page.html");
    let write = |command: &str, unit: &[&str], more: &[&str]| {
        let output = ["-o", file.to_str().unwrap()];
        let mut run = place.run(command, "ordinary-house.toml", unit);
        run.args(output).args(more);
        run
    };
    write("report", &[], &["--date", "2026-01-31"])
        .assert()
        .success()
        .stdout("");
    write("lesson", &["DEMO larch 12"], &[]).assert().success();
    assert!(std::fs::read_to_string(&file).unwrap().contains("Answers"));
    std::fs::write(&file, "my own notes").unwrap();
    let refused = write("report", &[], &[]).assert().code(2);
    let said = String::from_utf8(refused.get_output().stderr.clone()).unwrap();
    assert!(
        said.contains("is there already") && said.contains("--force"),
        "{said}"
    );
    assert_eq!(std::fs::read_to_string(&file).unwrap(), "my own notes");
    write("report", &[], &["--force"]).assert().success();
    assert!(
        std::fs::read_to_string(&file)
            .unwrap()
            .starts_with("<!DOCTYPE html>")
    );
}

#[test]
fn mistakes_are_named() {
    let place = Place::with(&[]);
    let said = |arguments: &[&str], command: &str| {
        let mut run = place.run(command, "ordinary-house.toml", arguments);
        let refused = run.assert().code(2);
        String::from_utf8(refused.get_output().stderr.clone()).unwrap()
    };
    assert!(said(&["--only", "DEMO larch 12,no such unit"], "report").contains("no such unit"));
    assert!(said(&["--date", "yesterday"], "report").contains("yesterday"));
    assert!(said(&[], "lesson").contains("UNIT is missing"));
    let help = {
        let mut run = Command::cargo_bin("overwinter").unwrap();
        let done = run.args(["report", "--help"]).assert().success();
        String::from_utf8(done.get_output().stdout.clone()).unwrap()
    };
    assert!(help.contains("PDF"), "{help}");
}

#[test]
fn a_report_of_named_units_tells_why_they_fail() {
    let place = Place::with(&[]);
    let page = place.page("report", "ordinary-house.toml", &["--only", "DEMO larch 9"]);
    let section = between(&page, "<h2 id=\"unit-1\">", "</section>").unwrap();
    assert!(
        section.contains("Rejected") && section.contains("short"),
        "{section}"
    );
    assert!(!page.contains("id=\"unit-2\""));
    assert!(page.contains("those that were asked for"));
}

#[test]
fn where_no_climate_is_known_the_pages_still_stand() {
    let place = Place::with(&[]);
    let text = std::fs::read_to_string(
        PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("examples/ordinary-house.toml"),
    )
    .unwrap();
    let house = place.path("house.toml");
    std::fs::write(&house, text.replace("climate = \"chicago-ohare\"", "")).unwrap();
    for (command, unit) in [("report", vec![]), ("lesson", vec!["DEMO larch 12"])] {
        let mut run = Command::cargo_bin("overwinter").unwrap();
        let done = run
            .env_clear()
            .arg(command)
            .arg(&house)
            .args(unit)
            .arg("--catalog")
            .arg(place.path("catalog.db"))
            .assert();
        let page = String::from_utf8(done.get_output().stdout.clone()).unwrap();
        assert_self_contained(&page);
        if command == "report" {
            let lead = between(&page, "<p class=\"lead\">", "</p>").unwrap();
            assert!(
                lead.contains("Without a climate no season was judged") && !lead.contains("dry"),
                "{lead}"
            );
        }
        assert!(!page.contains("NaN") && !page.contains("inf"), "{command}");
    }
}
