//! `overwinter cost`.

use super::demo_catalog::{Demo, HOUSE};

fn demo(energy: &str) -> Demo {
    let demo = Demo::new();
    demo.write("priced.toml", &format!("{HOUSE}[energy]\n{energy}"));
    demo
}

/// The year of one way of heating with `cedar-10`.
fn way(demo: &Demo, place: usize, name: &str) -> serde_json::Value {
    let answer = demo.json(&["cost", "priced.toml", "cedar-10", "--format", "json"]);
    let way = answer["units"][0]["systems"][place].clone();
    assert_eq!(way["system"], name);
    way
}

fn cost_of_resistance(energy: &str) -> f64 {
    way(&demo(energy), 1, "electric_resistance")["cost"]
        .as_f64()
        .unwrap()
}

// By hand: resistance takes a kWh for a kWh of load; the furnace load / 0.9, with twelve charges; both the unit's cooling.
#[test]
fn resistance_and_furnace_carry_the_houses_load() {
    let demo = demo(
        "electricity_price = 0.2\nfuel_price = 0.05\nfuel_monthly_charge = 10\nfuel_efficiency = 0.9\n\
         electricity_emissions_g = 40\nfuel_emissions_g = 177\n",
    );
    let list = demo.json(&["shortlist", "priced.toml", "--format", "json"]);
    let found = ["accepted", "rejected", "undecided"]
        .iter()
        .flat_map(|group| list[group].as_array().unwrap())
        .find(|unit| unit["unit"] == "cedar-10")
        .unwrap();
    let load = found["heating"]["load_kwh"].as_f64().unwrap();
    let cooling = found["cooling"]["electricity_kwh"].as_f64().unwrap();
    let close = |found: &serde_json::Value, expected: f64| {
        let found = found.as_f64().unwrap();
        assert!((found - expected).abs() < 1e-6, "{found} ≠ {expected}");
    };
    let resistance = way(&demo, 1, "electric_resistance");
    close(&resistance["electricity_kwh"], load + cooling);
    close(&resistance["cost"], 0.2 * (load + cooling));
    let furnace = way(&demo, 2, "fuel_furnace");
    close(&furnace["fuel_kwh"], load / 0.9);
    close(&furnace["cost"], 0.05 * load / 0.9 + 120.0 + 0.2 * cooling);
    close(
        &furnace["emissions_kg"],
        0.177 * load / 0.9 + 0.04 * cooling,
    );
    assert_eq!(furnace["source_energy_kwh"], serde_json::Value::Null);
}

#[test]
fn what_is_not_given_is_said_and_not_assumed() {
    let demo = demo(
        "electricity_price = 0.2\nelectricity_price_source = \"a bill\"\nelectricity_price_year = 2026\n",
    );
    let text = demo.prints(&["cost", "priced.toml", "cedar-10"]);
    assert!(text.contains("not given"), "{text}");
    assert!(
        text.contains("price of electricity: 0.2 money/kWh, a bill, 2026"),
        "{text}"
    );
    let flowed = text.replace("\n  ", " ");
    assert!(
        flowed.contains("nothing is assumed in its place: electricity_emissions_g, electricity_source_factor, fuel_efficiency"),
        "{text}"
    );
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
}

const WINTER: &str = "[[energy.electricity_tier]]\nmonths = \"11-3\"\n";
const SUMMER: &str = "[[energy.electricity_tier]]\nmonths = \"4-10\"\n";
const DAY: &str = "[[energy.electricity_period]]\nname = \"day\"\nhours = \"7-19\"\n";
const NIGHT: &str = "[[energy.electricity_period]]\nname = \"night\"\nhours = \"19-7\"\n";

#[test]
fn the_parts_of_a_tariff_add_up_to_its_flat_price() {
    let flat = cost_of_resistance("electricity_price = 1\n");
    for (one, other) in [(WINTER, SUMMER), (DAY, NIGHT)] {
        let cost = |first: f64, second: f64| {
            cost_of_resistance(&format!("{one}price = {first}\n{other}price = {second}\n"))
        };
        let (only_first, only_second) = (cost(1.0, 0.0), cost(0.0, 1.0));
        assert!((only_first + only_second - flat).abs() < 1e-6 * flat);
        assert!((cost(1.0, 1.0) - flat).abs() < 1e-6 * flat);
        // Winter, and the night with its colder hours, take the larger part of a heated house.
        let larger = if one == WINTER {
            only_first
        } else {
            only_second
        };
        assert!(larger > flat / 2.0, "{only_first} and {only_second}");
    }
}

#[test]
fn a_tariff_by_the_hour_needs_an_hourly_climate() {
    let demo = demo(&format!("{DAY}price = 0.2\n{NIGHT}price = 0.1\n"));
    demo.write("bins.csv", "hours,outdoor_db_c\n4380,-5\n4380,12\n");
    demo.prints(&["climate", "import", "bins.csv"]);
    let text = demo.prints(&["cost", "priced.toml", "cedar-10", "--climate", "bins"]);
    assert!(
        text.replace("\n  ", " ")
            .contains("No cost is computed: the time-of-day tariff asks"),
        "{text}"
    );
}

// By hand: without discount and growth a life of 10 years is the investment and ten equal years.
#[test]
fn a_life_is_the_investment_and_its_years() {
    let demo = demo("currency = \"USD\"\nelectricity_price = 0.2\n");
    let life = [
        "cost",
        "priced.toml",
        "cedar-10",
        "--years",
        "10",
        "--discount",
        "0",
        "--installation",
        "3000",
        "--resistance-investment",
        "0",
    ];
    let answer = demo.json(&[&life[..], &["--format", "json"]].concat());
    let systems = &answer["units"][0]["systems"];
    let number = |place: usize, name: &str| systems[place][name].as_f64().unwrap();
    assert_eq!(number(0, "investment"), 10_000.0);
    assert!((number(0, "lifetime_cost") - 10_000.0 - 10.0 * number(0, "cost")).abs() < 1e-6);
    let compared = &answer["units"][0]["instead_of"][0];
    let saved = number(1, "cost") - number(0, "cost");
    let value = compared["net_present_value"].as_f64().unwrap();
    assert!((value - (10.0 * saved - 10_000.0)).abs() < 1e-6);
    assert_eq!(
        compared["payback_years"],
        compared["discounted_payback_years"]
    );
    let text = demo.prints(&life);
    assert!(text.contains("net present value"), "{text}");
    let mut percent = life;
    percent[6] = "3";
    let refused = demo.refuses(&percent);
    assert!(
        refused.contains("that is 300 % a year") && refused.contains("write 0.03 or \"3 %\""),
        "{refused}"
    );
    percent[6] = "3 %";
    assert!(demo.prints(&percent).contains("at 3.0 % a year discount"));
    let alone = demo.refuses(&["cost", "priced.toml", "--years", "10"]);
    assert!(alone.contains("--discount"), "{alone}");
}

// Both commands tell of the same year: the furnace is never called on, so that no fuel account is paid.
#[test]
fn a_year_costs_the_same_in_cost_and_in_the_short_list() {
    let demo = demo(
        "currency = \"CAD\"\nelectricity_price = 0.2\nfuel_price = 0.05\nfuel_monthly_charge = 14\nfuel_efficiency = 0.9\n",
    );
    demo.write(
        "winter.toml",
        "[requirements]\nmax_cooling_cycling_share = 1.0\nmax_humid_share = 1.0\n",
    );
    let ranked = [
        "shortlist",
        "priced.toml",
        "--criteria",
        "winter.toml",
        "--rank-by",
        "cost",
    ];
    let list = demo.json(&[&ranked[..], &["--format", "json"]].concat());
    let unit = list["accepted"]
        .as_array()
        .unwrap()
        .iter()
        .find(|unit| unit["unit"] == "cedar-10")
        .unwrap();
    let own = way(&demo, 0, "heat_pump_with_resistance");
    assert_eq!(unit["heating"]["backup_kwh"], 0.0);
    assert_eq!(own["fixed_charges"], 0.0);
    let (listed, alone) = (&unit["running"]["annual_cost"], &own["cost"]);
    assert!((listed.as_f64().unwrap() - alone.as_f64().unwrap()).abs() < 1e-9);
    let text = demo.prints(&ranked).replace("\n    ", " ");
    assert!(text.contains("kWh a year is without standby"), "{text}");
    let text = demo.prints(&["cost", "priced.toml", "cedar-10"]);
    assert!(text.contains("with standby"), "{text}");
}
