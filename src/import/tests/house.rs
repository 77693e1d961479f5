//! What the reading of a house accepts, and what it says of everything else.

use crate::house::{ClimateReference, Fan, Figure};
use crate::import::read_house;

const ROW: &str = r#"name = "Larch Row, end unit"
[indoor]
heating = "22 °C"
cooling = "24 °C"
humidity_limit = 0.60
[heating]
design_outdoor = "-18 °C"
design_load = "9.2 kW"
zero_load_outdoor = "15 °C"
must_run_to = "-25 °C"
reserve = 0.0
[cooling]
design_outdoor = "32 °C"
design_sensible = "5.1 kW"
zero_load_outdoor = "19 °C"
fan = "auto"
[moisture]
people_and_activities = "10 kg/d"
infiltration = "12 L/s"
ventilation = "35 L/s"
latent_recovery = 0.5
[site]
altitude = "200 m"
climate = "chicago-ohare"
[energy]
electricity_price = 0.14
electricity_price_source = "a bill"
electricity_price_year = 2026
fuel_efficiency = 0.95
"#;

#[test]
fn a_ventilator_of_which_nothing_is_said_holds_no_moisture_back() {
    let house = read_house("row.toml", &ROW.replace("latent_recovery = 0.5\n", "")).unwrap();
    assert_eq!(house.moisture.unwrap().latent_recovery, 0.0);
    for needed in ["people_and_activities", "infiltration", "ventilation"] {
        let text = ROW.replace(needed, "# ");
        let error = read_house("row.toml", &text).unwrap_err().to_string();
        assert!(
            error.contains(&format!("moisture.{needed}: found nothing")),
            "{error}"
        );
    }
}

#[test]
fn text_that_is_no_toml_is_told_of_alone() {
    for (sound, broken, place) in [
        ("[heating]", "[heating", "row.toml:6:9: found \"[heating\""),
        (
            "= \"9.2 kW\"",
            "=",
            "row.toml:8:14: found \"design_load =\"",
        ),
        ("end unit\"", "end unit", "row.toml:1:"),
    ] {
        let error = read_house("row.toml", &ROW.replace(sound, broken)).unwrap_err();
        assert_eq!(error.len(), 1, "{error}");
        assert!(error.to_string().starts_with(place), "{error}");
    }
}

#[test]
fn a_whole_house_is_read() {
    let house = read_house("row.toml", ROW).unwrap();
    assert_eq!(house.name, "Larch Row, end unit");
    assert_eq!(house.heating.load.design_outdoor.0, -18.0);
    assert_eq!(house.heating.must_run_to.map(|t| t.0), Some(-25.0));
    assert_eq!(house.cooling.map(|cooling| cooling.fan), Some(Fan::Auto));
    assert!(
        (house
            .moisture
            .unwrap()
            .people_and_activities
            .litres_per_day()
            - 10.0)
            .abs()
            < 1e-12
    );
    assert_eq!(
        house.climate,
        Some(ClimateReference::Catalog("chicago-ohare".into()))
    );
    let price = Figure::from_source(0.14, "a bill", 2026);
    assert_eq!(house.energy.unwrap().electricity_price, Some(price));
}

#[test]
fn the_humidity_limit_is_60_percent_where_none_is_given() {
    let without = ROW.replace("humidity_limit = 0.60\n", "");
    assert_ne!(without, ROW);
    let house = read_house("row.toml", &without).unwrap();
    assert_eq!(house.indoor.humidity_limit, 0.60);
}

#[test]
fn the_same_house_in_inch_pound_units_with_a_byte_order_mark_and_crlf_is_the_same() {
    let inch_pound = ROW
        .replace("\"-18 °C\"", "\"-0.4 °F\"")
        .replace("\"9.2 kW\"", "\"31.391703 kBtu/h\"")
        .replace("\"35 L/s\"", "\"74.1608 cfm\"")
        .replace("\"200 m\"", "\"656.168 ft\"")
        .replace('\n', "\r\n");
    let house = read_house("row.toml", &format!("\u{feff}{inch_pound}")).unwrap();
    let metric = read_house("row.toml", ROW).unwrap();
    assert!((house.heating.load.design_outdoor.0 + 18.0).abs() < 1e-9);
    assert!((house.heating.load.design_load.0 - 9.2).abs() < 1e-5);
    assert!(
        (house.moisture.unwrap().ventilation.0 - metric.moisture.unwrap().ventilation.0).abs()
            < 1e-4
    );
    assert!((house.altitude().0 - 200.0).abs() < 1e-4);
}

#[test]
fn plain_numbers_are_in_the_units_that_the_program_computes_in() {
    let plain = ROW
        .replace("\"-18 °C\"", "-18")
        .replace("\"9.2 kW\"", "9.2")
        .replace("\"10 kg/d\"", "10");
    assert_eq!(read_house("row.toml", &plain), read_house("row.toml", ROW));
}

#[test]
fn sections_that_may_be_left_out_may_be_left_out() {
    let start = ROW.find("[cooling]").unwrap();
    let site = ROW.find("[site]").unwrap();
    let energy = ROW.find("[energy]").unwrap();
    let house = read_house(
        "row.toml",
        &format!("{}{}", &ROW[..start], &ROW[site..energy]),
    )
    .unwrap();
    assert!(house.cooling.is_none() && house.moisture.is_none() && house.energy.is_none());
}

/// Changes the house in one place and gives the message.
#[track_caller]
fn changed(from: &str, to: &str) -> String {
    assert!(ROW.contains(from), "{from} is not in the house");
    read_house("row.toml", &ROW.replacen(from, to, 1))
        .unwrap_err()
        .to_string()
}

#[test]
fn every_mistake_is_named_where_it_stands() {
    let temperature = "expected a temperature (°C, °F, K)";
    let cases: &[(&str, &str, &str)] = &[
        (
            "\"9.2 kW\"",
            "\"9 °C\"",
            "row.toml:8:15: heating.design_load: found \"9 °C\", expected a power (kW, W, Btu/h, kBtu/h, ton)",
        ),
        (
            "\"9.2 kW\"",
            "\"warm\"",
            "row.toml:8:15: heating.design_load: found \"warm\", expected a power (kW, W, Btu/h, kBtu/h, ton)",
        ),
        (
            "\"9.2 kW\"",
            "true",
            "row.toml:8:15: heating.design_load: found true, expected a power (kW, W, Btu/h, kBtu/h, ton)",
        ),
        (
            "\"9.2 kW\"",
            "nan",
            "row.toml:8:15: heating.design_load: found nan, expected a finite number",
        ),
        (
            "\"9.2 kW\"",
            "inf",
            "row.toml:8:15: heating.design_load: found inf, expected a finite number",
        ),
        (
            "\"9.2 kW\"",
            "1e999",
            "row.toml:8:15: heating.design_load: found 1e999, expected a finite number",
        ),
        (
            "\"9.2 kW\"",
            "0",
            "row.toml:8:15: heating.design_load: found 0, expected a load above 0 kW",
        ),
        (
            "\"9.2 kW\"",
            "\"-3 kW\"",
            "row.toml:8:15: heating.design_load: found \"-3 kW\", expected a load above 0 kW",
        ),
        (
            "\"5.1 kW\"",
            "0.0",
            "row.toml:14:19: cooling.design_sensible: found 0.0, expected a load above 0 kW",
        ),
        (
            "design_load = \"9.2 kW\"\n",
            "",
            "row.toml:6:1: heating.design_load: found nothing, expected a power (kW, W, Btu/h, kBtu/h, ton)",
        ),
        (
            "\"-18 °C\"",
            "\"15 °C\"",
            "row.toml:7:18: heating.design_outdoor: found \"15 °C\", expected a temperature colder than zero_load_outdoor (\"15 °C\")",
        ),
        (
            "\"-18 °C\"",
            "\"-18 kW\"",
            &format!("row.toml:7:18: heating.design_outdoor: found \"-18 kW\", {temperature}"),
        ),
        (
            "\"-18 °C\"",
            "-218",
            "row.toml:7:18: heating.design_outdoor: found -218, expected an outdoor temperature from -90 to 60 °C\n  hint: a number without a unit is in °C; write \"0 °F\" for Fahrenheit",
        ),
        (
            "\"15 °C\"",
            "\"23 °C\"",
            "row.toml:9:21: heating.zero_load_outdoor: found \"23 °C\", expected a temperature no warmer than the house is heated to (22 °C)",
        ),
        (
            "\"-25 °C\"",
            "\"-10 °C\"",
            "row.toml:10:15: heating.must_run_to: found \"-10 °C\", expected a temperature no warmer than design_outdoor (\"-18 °C\")",
        ),
        (
            "reserve = 0.0",
            "reserve = 10",
            "row.toml:11:11: heating.reserve: found 10, expected a share of the design load from 0 to 2\n  hint: a tenth above the design load is written 0.10 or \"10 %\"",
        ),
        (
            "\"32 °C\"",
            "\"19 °C\"",
            "row.toml:13:18: cooling.design_outdoor: found \"19 °C\", expected a temperature warmer than zero_load_outdoor (\"19 °C\")",
        ),
        (
            "\"auto\"",
            "\"on\"",
            "row.toml:16:7: cooling.fan: found \"on\", expected \"auto\" or \"continuous\"",
        ),
        (
            "\"22 °C\"",
            "70",
            "row.toml:3:11: indoor.heating: found 70, expected an indoor temperature from 5 to 40 °C\n  hint: a number without a unit is in °C; write \"70 °F\" for Fahrenheit",
        ),
        (
            "0.60",
            "60",
            "row.toml:5:18: indoor.humidity_limit: found 60, expected a relative humidity above 0 and at most 1\n  hint: 60 % relative humidity is written 0.60 or \"60 %\"",
        ),
        (
            "0.60",
            "0",
            "row.toml:5:18: indoor.humidity_limit: found 0, expected a relative humidity above 0 and at most 1\n  hint: 60 % relative humidity is written 0.60 or \"60 %\"",
        ),
        (
            "\"12 L/s\"",
            "-1",
            "row.toml:19:16: moisture.infiltration: found -1, expected a flow that is not negative",
        ),
        (
            "\"12 L/s\"",
            "\"12 L/d\"",
            "row.toml:19:16: moisture.infiltration: found \"12 L/d\", expected an airflow (L/s, cfm, m3/h)",
        ),
        (
            "latent_recovery = 0.5",
            "latent_recovery = 1.5",
            "row.toml:21:19: moisture.latent_recovery: found 1.5, expected a share from 0 to 1\n  hint: a ventilator without moisture recovery has 0",
        ),
        (
            "\"200 m\"",
            "\"200 °C\"",
            "row.toml:23:12: site.altitude: found \"200 °C\", expected a length (m, ft)",
        ),
        (
            "\"200 m\"",
            "12000",
            "row.toml:23:12: site.altitude: found 12000, expected a height above sea level from -500 to 6000 m",
        ),
        (
            "climate = \"chicago-ohare\"",
            "climate = \"chicago-ohare\"\nclimate_file = \"x.epw\"",
            "row.toml:25:16: site.climate_file: found \"x.epw\", expected either `climate` or `climate_file`, not both\n  hint: leave one of the two out",
        ),
        (
            "climate = \"chicago-ohare\"",
            "climate = 5",
            "row.toml:24:11: site.climate: found 5, expected the name of a climate in the catalog, in quotes",
        ),
        (
            "0.95",
            "95",
            "row.toml:29:19: energy.fuel_efficiency: found 95, expected an efficiency above 0 and at most 1.2\n  hint: 95 % is written 0.95 or \"95 %\"",
        ),
        (
            "0.14",
            "-0.14",
            "row.toml:26:21: energy.electricity_price: found -0.14, expected a price per kWh that is not negative",
        ),
        (
            "year = 2026",
            "year = 26",
            "row.toml:28:26: energy.electricity_price_year: found 26, expected a year",
        ),
        (
            "\"a bill\"",
            "3",
            "row.toml:27:28: energy.electricity_price_source: found 3, expected where the number comes from, in quotes",
        ),
        (
            "design_load",
            "desing_load",
            "row.toml:8:1: heating.desing_load: found an unknown name, expected a key of [heating]\n  hint: did you mean `design_load`?",
        ),
        (
            "[cooling]",
            "[coolign]",
            "row.toml:12:2: coolign: found an unknown name, expected a section or key\n  hint: did you mean `cooling`?",
        ),
        (
            "reserve = 0.0",
            "sauna = 0.0",
            "row.toml:11:1: heating.sauna: found an unknown name, expected a key of [heating]\n  hint: known here: design_outdoor, design_load, zero_load_outdoor, must_run_to, reserve",
        ),
        (
            "name = \"Larch Row, end unit\"",
            "name = \"\"",
            "row.toml:1:8: name: found nothing, expected the house's name, in quotes",
        ),
        (
            "[site]",
            "[[site]]",
            "row.toml:22:1: site: found [[site]], expected a section [site]",
        ),
    ];
    for (from, to, message) in cases {
        let found = changed(from, to);
        assert!(
            found.contains(message),
            "{from} → {to}\nfound:    {found}\nexpected: {message}"
        );
    }
}

#[test]
fn all_mistakes_are_listed_at_once_in_the_order_of_the_lines() {
    let text = ROW
        .replace("\"22 °C\"", "\"22 kW\"")
        .replace("0.60", "60")
        .replace("\"-18 °C\"", "x")
        .replace("0.5\n", "2\n");
    let problems = read_house("row.toml", &text).unwrap_err();
    let lines: Vec<Option<usize>> = problems.0.iter().map(|problem| problem.line).collect();
    assert_eq!(lines, [Some(3), Some(5), Some(7), Some(7), Some(21)]);
}

#[test]
fn an_empty_file_says_which_sections_it_lacks() {
    let message = read_house("row.toml", "").unwrap_err().to_string();
    assert_eq!(
        message,
        "row.toml: name: found nothing, expected the house's name, in quotes\n\
         row.toml: found no such section, expected a section [indoor]\n\
         row.toml: found no such section, expected a section [heating]"
    );
}

#[test]
fn a_house_without_a_site_or_an_altitude_is_read_and_stands_at_sea_level() {
    let site = "[site]\naltitude = \"200 m\"\nclimate = \"chicago-ohare\"\n";
    let without = read_house("row.toml", &ROW.replace(site, "")).unwrap();
    assert_eq!((without.altitude, &without.climate), (None, &None));
    assert!(without.altitude().0.abs() < 1e-12);
    let climate_only = read_house("row.toml", &ROW.replace("altitude = \"200 m\"\n", "")).unwrap();
    assert_eq!(climate_only.altitude, None);
    assert_eq!(
        climate_only.climate,
        Some(ClimateReference::Catalog("chicago-ohare".into()))
    );
}

#[test]
fn text_that_is_no_toml_is_shown_with_its_place() {
    let message = changed("\"9.2 kW\"", "9.2 kW");
    assert!(
        message.starts_with(
            "row.toml:8:15: found \"design_load = 9.2 kW\", expected a line of TOML\n  hint: "
        ),
        "{message}"
    );
    let message = changed("fan = \"auto\"", "fan = \"auto\"\nfan = \"auto\"");
    assert!(message.starts_with("row.toml:17:1: found \"fan = \"auto\"\", expected a line of TOML\n  hint: duplicate key"), "{message}");
    assert!(read_house("row.toml", "\u{0}\u{1}PNG").is_err());
}
