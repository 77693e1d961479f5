//! What the reading of climate tables accepts, says of what is missing, and refuses.

use std::fmt::Write as _;

use crate::import::read_climate_csv;
use crate::quantity::{Celsius, Hours, HumidityRatio, Metres};
use crate::report::climate_csv::climate_csv;

fn read(text: &str) -> crate::climate::Climate {
    read_climate_csv("c.csv", text.as_bytes(), "c").unwrap()
}

fn refused(text: &str) -> String {
    read_climate_csv("c.csv", text.as_bytes(), "c")
        .unwrap_err()
        .to_string()
}

#[test]
fn bins_typed_by_hand_are_a_climate() {
    let climate = read("outdoor_db_c,hours\n10,4000\n-5,4760\n");
    let states: Vec<(Celsius, Hours)> = climate
        .states
        .iter()
        .map(|state| (state.outdoor, state.hours))
        .collect();
    assert_eq!(
        states,
        [
            (Celsius(-5.0), Hours(4760.0)),
            (Celsius(10.0), Hours(4000.0))
        ]
    );
    assert!(!climate.has_humidity() && climate.monthly.is_empty());
    assert_eq!(climate.name, "c");
    assert_eq!(
        climate.notes,
        ["no humidity in the table: humidity is not judged with this climate"]
    );
}

#[test]
fn bins_in_fahrenheit_with_humidity_percent_and_a_heading_are_too() {
    let climate = read(
        "\u{feff}# name: Our valley\r\n# source: our own thermometer\r\n# elevation_m: 201\r\n\r\n\
         Outdoor_DB_F,Hours,relative_humidity_percent,pressure_pa\r\n\"14\",8760,75,99000\r\n",
    );
    assert_eq!(
        (climate.name.as_str(), climate.source.as_str()),
        ("Our valley", "our own thermometer")
    );
    assert_eq!(climate.elevation, Some(Metres(201.0)));
    assert!((climate.states[0].outdoor.0 + 10.0).abs() < 1e-12);
    // Saturation pressure over ice at -10 °C is 259.9 Pa (ASHRAE Handbook - Fundamentals 2017, chapter 1, table 3).
    let expected = 0.621_945 * 0.75 * 259.9 / (99_000.0 - 0.75 * 259.9);
    assert!((climate.states[0].humidity_ratio.unwrap().0 - expected).abs() < 1e-6);
    assert!(climate.notes.is_empty(), "{:?}", climate.notes);
}

#[test]
fn grams_per_kilogram_and_months_are_understood() {
    let climate =
        read("month,hours,outdoor_db_c,humidity_ratio_g_kg\n1,4380,0.2,3.5\n7,4380,0.4,3.1\n");
    assert_eq!((climate.states.len(), climate.monthly.len()), (1, 2));
    assert!((climate.states[0].outdoor.0 - 0.3).abs() < 1e-12);
    assert!((climate.monthly[0].state.humidity_ratio.unwrap().0 - 0.0035).abs() < 1e-15);
}

#[test]
fn a_part_of_a_year_and_a_missing_pressure_are_said() {
    let climate = read("outdoor_db_c,hours,relative_humidity\n10,4000,0.5\n12,1,\n");
    assert_eq!(
        climate.notes,
        [
            "1 record without humidity: humidity cannot be judged over the whole of this climate",
            "1 record without pressure or elevation: the standard atmosphere's at sea level was taken",
            "the hours sum to 4001, not to a year; they are taken as they are",
        ]
    );
}

fn hours(skip: (u8, u8, u8)) -> String {
    let mut text = String::from("month,day,hour,outdoor_db_c,humidity_ratio\n");
    for (month, days) in (1_u8..).zip([31_u8, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]) {
        for day in 1..=days {
            for hour in (1..=24).filter(|&hour| (month, day, hour) != skip) {
                let _ = writeln!(text, "{month},{day},{hour},{}.5,0.004", month);
            }
        }
    }
    text
}

#[test]
fn a_year_of_hours_keeps_its_dates_and_its_gap() {
    let climate = read(&hours((2, 3, 4)));
    assert_eq!(
        (climate.hours(), climate.hourly.len()),
        (Hours(8759.0), 8759)
    );
    assert_eq!(climate.monthly.len(), 12);
    assert_eq!(
        climate.notes,
        ["1 hour is missing and was not filled: 2/3 hour 4"]
    );
    let blank = hours((0, 0, 0)).replace("\n2,3,4,2.5,", "\n2,3,4,,");
    let climate = read(&blank);
    assert_eq!(climate.hours(), Hours(8759.0));
    assert_eq!(
        climate.notes,
        ["1 row without a dry bulb left out, the first at line 797"]
    );
}

#[test]
fn what_is_written_reads_back_the_same() {
    for text in [
        hours((0, 0, 0)),
        "outdoor_db_c,hours,humidity_ratio\n-3.3,4380,\n0.1,4380,0.0033\n".to_owned(),
    ] {
        let climate = read(&text);
        let again = read(&climate_csv(&climate));
        assert_eq!(
            (&again.name, &again.source, again.elevation),
            (&climate.name, &climate.source, climate.elevation)
        );
        assert_eq!(
            (again.states, again.monthly),
            (climate.states, climate.monthly)
        );
    }
    let bins = read("outdoor_db_c,hours,humidity_ratio\n0.1,8760,0.0033\n");
    assert_eq!(bins.states[0].humidity_ratio, Some(HumidityRatio(0.0033)));
    assert_eq!(
        climate_csv(&bins),
        "# name: c\n# source: c.csv\nhours,outdoor_db_c,humidity_ratio\n8760,0.1,0.0033\n"
    );
}

#[test]
fn every_mistake_is_named_where_it_stands() {
    let bins = "outdoor_db_c,hours\n1,100\n";
    let cases: &[(String, &str)] = &[
        (
            bins.replace("1,100", "warm,100"),
            "c.csv:2: outdoor_db_c: found \"warm\", expected a number from -90 to 70",
        ),
        (
            bins.replace("1,100", "NaN,100"),
            "c.csv:2: outdoor_db_c: found \"NaN\", expected a number from -90 to 70",
        ),
        (
            bins.replace("1,100", "inf,100"),
            "c.csv:2: outdoor_db_c: found \"inf\", expected a number from -90 to 70",
        ),
        (
            bins.replace("1,100", ",100"),
            "c.csv:2: outdoor_db_c: found nothing, expected a number from -90 to 70",
        ),
        (
            bins.replace("1,100", "1,-1"),
            "c.csv:2: hours: found \"-1\", expected a number from 0 to 8784",
        ),
        (
            bins.replace("1,100", "1"),
            "c.csv:2: found 1 cells, expected 2, as many as the header has",
        ),
        (
            bins.replace("_c,hours\n1", "_f,hours\n200"),
            "c.csv:2: outdoor_db_f: found \"200\", expected a number from -130 to 158",
        ),
        (
            bins.replace("hours", "huors"),
            "c.csv:1: found \"huors\", expected a column of a climate table\n  hint: did you mean `hours`?",
        ),
        (
            bins.replace("hours", "sun"),
            "c.csv:1: found \"sun\", expected a column of a climate table\n  hint: known columns: outdoor_db_c, outdoor_db_f, hours, month, day, hour, humidity_ratio, humidity_ratio_g_kg, relative_humidity, relative_humidity_percent, pressure_pa",
        ),
        (
            bins.replace("hours", "outdoor_db_c"),
            "c.csv:1: found \"outdoor_db_c\", expected each column once",
        ),
        (
            bins.replace("hours", "outdoor_db_f"),
            "c.csv:1: found outdoor_db_c and outdoor_db_f, expected one of the two columns",
        ),
        (
            bins.replace("outdoor_db_c", "month"),
            "c.csv:1: found no such column, expected a column outdoor_db_c or outdoor_db_f",
        ),
        (
            "outdoor_db_c,month\n1,1\n".into(),
            "c.csv:1: found no such column, expected a column hours (for bins), or the columns month, day and hour (for a year of hours)",
        ),
        (
            "outdoor_db_c,hours,day\n1,1,1\n".into(),
            "c.csv:1: found hours beside day or hour, expected bins with hours, or a year of hours",
        ),
        (
            "outdoor_db_c,hours,relative_humidity\n1,1,73\n".into(),
            "c.csv:2: relative_humidity: found \"73\", expected a number from 0 to 1.1",
        ),
        (
            "outdoor_db_c,hours,humidity_ratio\n1,1,7.3\n".into(),
            "c.csv:2: humidity_ratio: found \"7.3\", expected a number from 0 to 0.1",
        ),
        (
            "outdoor_db_c,hours,humidity_ratio,relative_humidity\n1,1,0.007,0.5\n".into(),
            "c.csv:1: found a humidity ratio and a relative humidity, expected one of the two columns",
        ),
        (
            "outdoor_db_c,month,day,hour\n1,2,30,1\n".into(),
            "c.csv:2: day: found \"30\", expected a day of month 2, 1 to 29",
        ),
        (
            "outdoor_db_c,month,day,hour\n1,2,1.5,1\n".into(),
            "c.csv:2: day: found \"1.5\", expected a whole number from 1 to 31",
        ),
        (
            "outdoor_db_c,month,day,hour\n1,2,1,1\n2,2,1,1\n".into(),
            "c.csv:3: found 2/1 hour 1 once more, expected each hour of one year once (line 2 has it)",
        ),
        (
            "outdoor_db_c,hours\n".into(),
            "c.csv: found no rows, expected rows of weather below the header",
        ),
        (
            "# elevation_m: high\noutdoor_db_c,hours\n1,1\n".into(),
            "c.csv:1: elevation_m: found \"high\", expected a height from -500 to 9000 m",
        ),
    ];
    for (text, message) in cases {
        assert!(
            refused(text).contains(message),
            "{text}\nfound:    {}\nexpected: {message}",
            refused(text)
        );
    }
    let not_text = read_climate_csv("c.csv", b"outdoor_db_c,hours\n\xff\xfe\0", "c")
        .unwrap_err()
        .to_string();
    assert_eq!(
        not_text,
        "c.csv:2: found bytes that are not UTF-8 text, expected a CSV table in UTF-8"
    );
}
