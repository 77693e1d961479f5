//! `overwinter switchover` and `overwinter whatif --price-ratio`.

use super::demo_catalog::{Demo, HOUSE};

const ENERGY: &str = "[energy]\ncurrency = \"CAD\"\nelectricity_price = 0.12\nfuel_price = 0.04\nfuel_efficiency = 0.95\n\
     electricity_emissions_g = 40\nfuel_emissions_g = 177\nelectricity_source_factor = 1.96\nfuel_source_factor = 1.01\n";

fn demo() -> Demo {
    let demo = Demo::new();
    demo.write("priced.toml", &format!("{HOUSE}{ENERGY}"));
    demo
}

// Break-even COPs: 0.95 · 3 = 2.85; 0.95 · 40 / 177 = 0.215, below any COP; 0.95 · 1.96 / 1.01 = 1.844 (identities).
#[test]
fn each_measure_has_its_own_switch_over_and_its_least_year() {
    let demo = demo();
    let answer = demo.json(&["switchover", "priced.toml", "cedar-10", "--format", "json"]);
    let rows = answer["units"][0]["measures"].as_array().unwrap();
    let number = |row: usize, name: &str| rows[row][name].as_f64().unwrap();
    for (row, expected) in [(0, 2.85), (1, 0.95 * 40.0 / 177.0), (2, 0.95 * 1.96 / 1.01)] {
        assert!((number(row, "break_even_cop") - expected).abs() < 1e-12);
    }
    assert_eq!(rows[0]["furnace_takes_over"], "at");
    assert_eq!(rows[1]["furnace_takes_over"], "never");
    for (row, measure) in ["cost", "emissions_kg", "source_energy_kwh"]
        .into_iter()
        .enumerate()
    {
        for other in rows {
            assert!(
                number(row, measure) <= other[measure].as_f64().unwrap() + 1e-9,
                "{measure} of {}",
                other["run_for"]
            );
        }
    }
    // The COP at the house's load is the break-even value where the furnace takes over: between the two charted
    // temperatures around it.
    let below = number(0, "furnace_below_c");
    let heat = answer["units"][0]["heat"].as_array().unwrap();
    let warmer = heat
        .iter()
        .find(|at| at["outdoor_c"].as_f64().unwrap() > below + 0.01)
        .unwrap();
    let colder = heat
        .iter()
        .rfind(|at| at["outdoor_c"].as_f64().unwrap() < below - 0.01)
        .unwrap();
    assert!(warmer["cop"].as_f64().unwrap() > 2.85 && colder["cop"].as_f64().unwrap() < 2.85);
}

#[test]
fn a_dearer_kilowatt_hour_brings_the_furnace_in_sooner() {
    let demo = demo();
    let command = [
        "switchover",
        "priced.toml",
        "cedar-10",
        "--price-ratio",
        "1,2,3,9",
    ];
    let answer = demo.json(&[&command[..], &["--format", "json"]].concat());
    let ratios = answer["units"][0]["ratios"].as_array().unwrap();
    let hours: Vec<f64> = ratios
        .iter()
        .map(|row| row["furnace_hours"].as_f64().unwrap())
        .collect();
    assert!(hours.is_sorted() && hours[0] == 0.0, "{hours:?}");
    assert_eq!(ratios[0]["furnace_takes_over"], "never");
    assert_eq!(ratios[3]["furnace_takes_over"], "always");
    // The house's own ratio is 3 : 1.
    assert_eq!(
        ratios[2]["furnace_below_c"],
        answer["units"][0]["measures"][0]["furnace_below_c"]
    );
    let text = demo.prints(&command);
    assert!(text.contains("cost of heat, CAD/kWh"), "{text}");
    assert!(text.contains("costs 3.00 times a kWh of fuel"), "{text}");
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
}

#[test]
fn the_chart_is_drawn_once() {
    let demo = demo();
    let command = ["switchover", "priced.toml", "cedar-10", "--svg", "heat.svg"];
    demo.prints(&command);
    let drawing = std::fs::read_to_string(demo.path("heat.svg")).unwrap();
    assert!(
        drawing.starts_with("<svg") && drawing.contains("switch-over"),
        "{drawing}"
    );
    let again = demo.refuses(&command);
    assert!(again.contains("`heat.svg` is there already"), "{again}");
}

#[test]
fn without_a_furnace_there_is_nothing_to_switch_to() {
    let demo = demo();
    for command in [
        &["switchover", "house.toml"][..],
        &["whatif", "house.toml", "--price-ratio", "3"],
    ] {
        let error = demo.refuses(command);
        assert!(
            error.contains("lacks `fuel_efficiency` under [energy]"),
            "{error}"
        );
    }
}

// By hand: at the ratio of the flip both years are the same.
#[test]
fn the_years_answer_flips_at_the_ratio_that_whatif_names() {
    let demo = demo();
    let sweep = |ratio: &str| {
        demo.json(&[
            "whatif",
            "priced.toml",
            "--price-ratio",
            ratio,
            "--unit",
            "cedar-10",
            "--format",
            "json",
        ])
    };
    let flip = sweep("3")["flip_with_resistance_backup"].as_f64().unwrap();
    let around = sweep(&format!("{},{}", flip * 0.999, flip * 1.001));
    assert_eq!(around["rows"][0]["ahead"], "heat pump");
    assert_eq!(around["rows"][1]["ahead"], "furnace");
    let row = &sweep(&flip.to_string())["rows"][0];
    let side = |name: &str| row[name].as_f64().unwrap();
    assert!((side("heat_pump_fuel_kwh") / side("furnace_fuel_kwh") - 1.0).abs() < 1e-9);
}
