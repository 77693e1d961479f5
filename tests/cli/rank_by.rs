//! `overwinter shortlist --rank-by` cost, emissions and price.

use super::demo_catalog::{Demo, HOUSE};

fn demo() -> Demo {
    let demo = Demo::new();
    demo.write(
        "winter.toml",
        "[requirements]\nmax_cooling_cycling_share = 1.0\nmax_humid_share = 1.0\n",
    );
    demo
}

fn ranked<'a>(house: &'a str, by: &'a str) -> [&'a str; 8] {
    [
        "shortlist",
        house,
        "--criteria",
        "winter.toml",
        "--rank-by",
        by,
        "--format",
        "json",
    ]
}

// By hand: with a flat price and resistance backup the cost is the price times the year's electricity and standby.
#[test]
fn a_flat_price_multiplies_the_years_electricity() {
    let demo = demo();
    let energy =
        "[energy]\ncurrency = \"CAD\"\nelectricity_price = 0.14\nelectricity_emissions_g = 40\n";
    demo.write("priced.toml", &format!("{HOUSE}{energy}"));
    let list = demo.json(&ranked("priced.toml", "cost"));
    let accepted = list["accepted"].as_array().unwrap();
    assert!(accepted.len() >= 3);
    let mut last = 0.0;
    for unit in accepted {
        let number = |side: &str, name: &str| unit[side][name].as_f64().unwrap();
        let electricity = number("heating", "electricity_kwh")
            + number("heating", "backup_kwh")
            + number("heating", "standby_kwh")
            + number("cooling", "electricity_kwh");
        let cost = number("running", "annual_cost");
        assert!((cost - 0.14 * electricity).abs() < 1e-6, "{cost}");
        assert!((number("running", "annual_emissions_kg") - 0.04 * electricity).abs() < 1e-6);
        assert!(cost >= last);
        last = cost;
    }
    let text = demo.prints(&ranked("priced.toml", "emissions")[..6]);
    assert!(text.contains("lowest annual emissions first"), "{text}");
    assert!(text.contains("CO₂"), "{text}");
}

#[test]
fn what_the_house_file_lacks_is_named() {
    let demo = demo();
    let bare = demo.refuses(&ranked("house.toml", "cost"));
    assert!(
        bare.contains("`house.toml` lacks `electricity_price` under [energy]"),
        "{bare}"
    );
    demo.write(
        "fuel.toml",
        &format!(
            "{HOUSE}[energy]\nelectricity_emissions_g = 40\nfuel_price = 0.04\nfuel_efficiency = 0.95\n"
        ),
    );
    let fuel = demo.refuses(&ranked("fuel.toml", "emissions"));
    assert!(
        fuel.contains("lacks `fuel_emissions_g` under [energy]"),
        "{fuel}"
    );
}

#[test]
fn prices_in_two_currencies_are_not_compared() {
    let demo = demo();
    let small = HOUSE.replace("design_load = \"8 kW\"", "design_load = \"5 kW\"");
    demo.write("small.toml", &small);
    let message = demo.refuses(&ranked("small.toml", "price"));
    assert!(message.contains("priced in CAD and in USD"), "{message}");
    demo.write(
        "cad.toml",
        "[requirements]\nmax_cooling_cycling_share = 1.0\nmax_humid_share = 1.0\ncooling_design = false\n\
         [[criterion]]\nvalue = \"currency\"\nequals = \"CAD\"\n",
    );
    let list = demo.json(&[
        "shortlist",
        "small.toml",
        "--criteria",
        "cad.toml",
        "--rank-by",
        "price",
        "--format",
        "json",
    ]);
    let order: Vec<&str> = list["accepted"]
        .as_array()
        .unwrap()
        .iter()
        .map(|unit| unit["unit"].as_str().unwrap())
        .collect();
    assert_eq!(order, ["alder-6", "birch-8"]);
    let by_price = [
        "shortlist",
        "small.toml",
        "--criteria",
        "cad.toml",
        "--rank-by",
        "price",
        "--top",
    ];
    let text = demo.prints(&[&by_price[..], &["1"]].concat());
    assert!(
        text.contains("price CAD") && text.contains("4000"),
        "{text}"
    );
    let none = demo.refuses(&[&by_price[..], &["0"]].concat());
    assert!(none.contains("1 or more"), "{none}");
}
