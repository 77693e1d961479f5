//! `overwinter quotes`.

use super::demo_catalog::{Demo, HOUSE};

const HEADER: &str = "quote,supplier,unit,share,price,installation,extras,currency,warranty_years,valid_until,note\n";

/// Quotes for the invented house: `cedar-10` carries it, `birch-8` is short, `ceder-10` is not in the catalog.
const ROWS: &str = "\
A,North,cedar-10,,7000,4000,0,CAD,10,2026-12-31,
B,North,birch-8,,5000,4000,0,CAD,10,2026-12-31,
C,South,ceder-10,,6500,4000,0,CAD,10,2026-12-31,
D,South,elm-12,,6000,3000,500,CAD,,2026-08-31,
E,East,alder-6 + birch-8,0.4 + 0.6,9000,6000,0,CAD,10,2026-12-31,
F,East,alder-6 + birch-8,,9000,6000,0,CAD,10,2026-12-31,
G,West,cedar-10,,7000,,,USD,10,2026-12-31,
";

fn demo() -> Demo {
    let demo = Demo::new();
    demo.write(
        "winter.toml",
        "[requirements]\nmax_cooling_cycling_share = 1.0\nmax_humid_share = 1.0\n",
    );
    let energy = "[energy]\ncurrency = \"CAD\"\nelectricity_price = 0.2\n";
    demo.write("priced.toml", &format!("{HOUSE}{energy}"));
    demo.write("quotes.csv", &format!("{HEADER}{ROWS}"));
    demo
}

fn quotes<'a>(more: &[&'a str]) -> Vec<&'a str> {
    let mut all = vec![
        "quotes",
        "priced.toml",
        "quotes.csv",
        "--criteria",
        "winter.toml",
        "--today",
        "2026-09-01",
    ];
    all.extend(more);
    all
}

fn names(group: &serde_json::Value) -> Vec<&str> {
    let quotes = group.as_array().unwrap().iter();
    quotes
        .map(|quote| quote["quote"].as_str().unwrap())
        .collect()
}

// By hand: at -15 °C units give 0.9143 of their nominal kW: alder-6 5.49 for 0.4 of 8 kW, birch-8 7.31 for 0.6 of it.
#[test]
fn quotes_are_judged_and_ordered_by_their_total() {
    let demo = demo();
    let answer = demo.json(&quotes(&["--format", "json"]));
    assert_eq!(names(&answer["accepted"]), ["D", "A", "E", "G"]);
    assert_eq!(names(&answer["undecided"]), ["C", "F"]);
    assert_eq!(names(&answer["rejected"]), ["B"]);
    let [d, a, e, g] = [0, 1, 2, 3].map(|place| &answer["accepted"][place]);
    assert_eq!(d["total"], 9500.0);
    assert_eq!(
        (&d["expired"], &a["expired"]),
        (&true.into(), &false.into())
    );
    assert_eq!(d["not_said"], serde_json::json!(["the warranty"]));
    assert_eq!(e["units"][1]["verdict"], "accepted");
    assert_eq!(g["total"], 7000.0);
    assert_eq!(g["total_is_whole"], false);
    assert_eq!(g["not_said"], serde_json::json!(["installation", "extras"]));
    let reason = &answer["rejected"][0]["units"][0]["reasons"][0];
    assert_eq!(reason["code"], "short_at_design");
}

#[test]
fn a_unit_that_the_catalog_lacks_is_asked_for_and_never_dropped() {
    let demo = demo();
    let answer = demo.json(&quotes(&["--format", "json"]));
    let unit = &answer["undecided"][0]["units"][0];
    assert_eq!(
        (&unit["in_catalog"], &unit["nearest"]),
        (&false.into(), &"cedar-10".into())
    );
    let mut codes: Vec<&str> = unit["ask"]
        .as_array()
        .unwrap()
        .iter()
        .map(|ask| ask["code"].as_str().unwrap())
        .collect();
    codes.sort_unstable();
    codes.dedup();
    // The house names no temperature beyond design, and its criteria ask nothing of the summer.
    assert_eq!(codes, ["capacity_at_design"]);
    let stricter = demo.json(&["quotes", "priced.toml", "quotes.csv", "--format", "json"]);
    let asks = stricter["undecided"]
        .as_array()
        .unwrap()
        .iter()
        .find(|quote| quote["quote"] == "C")
        .unwrap()["units"][0]["ask"]
        .to_string();
    assert!(asks.contains("at maximum and minimum speed"), "{asks}");
}

#[test]
fn units_without_shares_leave_the_quote_undecided() {
    let demo = demo();
    let answer = demo.json(&quotes(&["--format", "json"]));
    let split = &answer["undecided"][1];
    assert_eq!(
        split["not_said"],
        serde_json::json!(["which share of the load each unit serves"])
    );
    assert_eq!(split["units"][0]["reasons"][0]["code"], "short_at_design");
    assert_eq!(split["annual_energy_cost"], serde_json::Value::Null);
    let text = demo.prints(&quotes(&[]));
    assert!(
        text.contains("Each unit is judged against the whole house"),
        "{text}"
    );
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
}

// By hand: with a flat price and resistance backup the cost is the price times the year's electricity and standby, as
// the short list gives them.
#[test]
fn a_years_energy_is_priced_as_the_short_list_counts_it() {
    let demo = demo();
    let answer = demo.json(&quotes(&["--format", "json"]));
    let list = demo.json(&[
        "shortlist",
        "priced.toml",
        "--criteria",
        "winter.toml",
        "--format",
        "json",
    ]);
    let accepted = list["accepted"].as_array().unwrap();
    let unit = accepted
        .iter()
        .find(|unit| unit["unit"] == "cedar-10")
        .unwrap();
    let number = |side: &str, name: &str| unit[side][name].as_f64().unwrap();
    let electricity = number("heating", "electricity_kwh")
        + number("heating", "backup_kwh")
        + number("heating", "standby_kwh")
        + number("cooling", "electricity_kwh");
    let cost = answer["accepted"][1]["annual_energy_cost"]
        .as_f64()
        .unwrap();
    assert!((cost - 0.2 * electricity).abs() < 1e-6, "{cost}");
}

#[test]
fn nothing_accepted_ends_with_code_1() {
    let demo = demo();
    demo.write(
        "quotes.csv",
        &format!("{HEADER}B,North,birch-8,,5000,,,CAD,,,\n"),
    );
    let ended = demo
        .command(&quotes(&[]))
        .assert()
        .code(1)
        .get_output()
        .clone();
    let text = String::from_utf8(ended.stdout).unwrap();
    assert!(text.contains("0 of 1 quote is accepted"), "{text}");
    assert!(text.contains("REJECTED: 1"), "{text}");
}

#[test]
fn every_problem_of_the_file_is_listed_and_nothing_is_printed() {
    let demo = demo();
    demo.write("quotes.csv", "quote,unit,price,valid_until\nA,,x,soon\n");
    let error = demo.refuses(&quotes(&[]));
    for expected in [
        "quotes.csv:2: unit: found nothing",
        "quotes.csv:2: price: found \"x\"",
        "quotes.csv:2: valid_until: found \"soon\"",
    ] {
        assert!(error.contains(expected), "{error}");
    }
}

#[test]
fn a_page_asks_for_nothing_and_runs_nothing() {
    let demo = demo();
    demo.write(
        "quotes.csv",
        &format!("{HEADER}A,<script>alert(1)</script>,cedar-10,,1,2,3,CAD,,,\n"),
    );
    let page = demo.prints(&quotes(&["--format", "html"]));
    assert!(
        page.contains("&lt;script&gt;alert(1)&lt;/script&gt;"),
        "{page}"
    );
    for act in ["<script", "http://", "https://", "src=", "@import", "url("] {
        assert!(!page.contains(act), "{act}");
    }
}
