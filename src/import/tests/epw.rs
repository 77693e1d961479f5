//! What the reading of EPW files accepts, says of what is missing, and refuses.

use std::fmt::Write as _;

use crate::import::read_epw;
use crate::quantity::{Celsius, Hours, Metres};

const HEADER: &str = "\
LOCATION,Nowhere,ON,CAN,Invented,000000,43.0,-80.0,-5.0,201.0
DESIGN CONDITIONS,1,Climate Design Data 2009 ASHRAE Handbook,,Heating,1,-20,-16.6,-25.7,Cooling,7,10.5,33.3,23.7,31.6,23,30.1,22.1,Extremes,11.1
TYPICAL/EXTREME PERIODS,0
GROUND TEMPERATURES,0
HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0
COMMENTS 1,an invented year
COMMENTS 2,
DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31
";

const DAYS: [u8; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/// What stands in fields 7 to 10 of a row; `None`: no such row.
type Weather<'a> = dyn Fn(u16, u8, u8, u8) -> Option<String> + 'a;

fn rows(years: &[u16], weather: &Weather<'_>) -> String {
    let mut text = String::new();
    for &year in years {
        for month in 1..=12_u8 {
            let leap_day = u8::from(month == 2 && year % 4 == 0);
            for day in 1..=DAYS[usize::from(month) - 1] + leap_day {
                for hour in 1..=24_u8 {
                    if let Some(weather) = weather(year, month, day, hour) {
                        let _ = writeln!(
                            text,
                            "{year},{month},{day},{hour},0,?9,{weather}{}",
                            ",0".repeat(25)
                        );
                    }
                }
            }
        }
    }
    text
}

const USUAL: &str = "5.0,1.0,75,99000";

fn usual() -> String {
    format!(
        "{HEADER}{}",
        rows(&[2001], &|_, _, _, _| Some(USUAL.into()))
    )
}

/// The usual year with another weather in one hour: January 15, hour 3, which is line 8 + 14 × 24 + 3 = 347.
fn with_one_hour(weather: Option<&str>) -> String {
    let at = |_, month, day, hour| {
        let weather = if (month, day, hour) == (1, 15, 3) {
            weather
        } else {
            Some(USUAL)
        };
        weather.map(str::to_owned)
    };
    format!("{HEADER}{}", rows(&[2001], &at))
}

#[test]
fn a_whole_year_is_read_with_its_station() {
    let climate = read_epw("n.epw", usual().as_bytes(), "nowhere").unwrap();
    assert_eq!(climate.name, "Nowhere, ON, CAN");
    assert_eq!(climate.source, "Invented, station 000000; an invented year");
    assert_eq!(climate.elevation, Some(Metres(201.0)));
    assert_eq!(climate.hours(), Hours(8760.0));
    assert_eq!(
        (
            climate.states.len(),
            climate.monthly.len(),
            climate.hourly.len()
        ),
        (1, 12, 8760)
    );
    assert_eq!(climate.design.heating_99_6, Some(Celsius(-20.0)));
    assert_eq!(climate.design.cooling_2, Some(Celsius(30.1)));
    assert_eq!(
        climate.notes,
        ["design temperatures from the header: Climate Design Data 2009 ASHRAE Handbook"]
    );
    // Saturation pressure at 5 °C is 872.5 Pa (ASHRAE Handbook - Fundamentals 2017, chapter 1, table 3).
    let expected = 0.621_945 * 0.75 * 872.5 / (99_000.0 - 0.75 * 872.5);
    assert!((climate.states[0].humidity_ratio.unwrap().0 - expected).abs() < 1e-6);
}

#[test]
fn what_is_missing_is_said_and_never_filled() {
    let cases: &[(Option<&str>, f64, &str)] = &[
        (
            Some("99.9,1.0,75,99000"),
            8759.0,
            "1 row without a dry bulb left out, the first at line 347",
        ),
        (
            Some(",1.0,75,99000"),
            8759.0,
            "1 row without a dry bulb left out, the first at line 347",
        ),
        (
            None,
            8759.0,
            "1 hour is missing and was not filled: 1/15 hour 3",
        ),
        (
            Some("5.0,1.0,999,99000"),
            8760.0,
            "1 record without relative humidity: taken from the dew point",
        ),
        (
            Some("5.0,99.9,999,99000"),
            8760.0,
            "1 record without humidity: humidity cannot be judged over the whole of this climate",
        ),
        (
            Some("5.0,1.0,75,999999"),
            8760.0,
            "1 record without pressure: the standard atmosphere's at 201 m was taken",
        ),
        (
            Some("5.0,1.0,106,99000"),
            8760.0,
            "1 record above saturation: taken as saturated",
        ),
    ];
    for &(weather, hours, note) in cases {
        let climate = read_epw("n.epw", with_one_hour(weather).as_bytes(), "n").unwrap();
        assert_eq!(climate.hours(), Hours(hours), "{weather:?}");
        assert!(
            climate.notes.iter().any(|found| found == note),
            "{weather:?}: {:?}",
            climate.notes
        );
        assert_eq!(
            climate.has_humidity(),
            weather != Some("5.0,99.9,999,99000")
        );
    }
}

#[test]
fn a_short_year_says_what_it_lacks() {
    let half = |_, month, _, _| (month <= 6).then(|| USUAL.to_owned());
    let text = format!("{HEADER}{}", rows(&[2001], &half));
    let climate = read_epw("n.epw", text.as_bytes(), "n").unwrap();
    assert_eq!(climate.hours(), Hours(4344.0));
    assert_eq!(
        climate.notes.last().map(String::as_str),
        Some("4416 hours are missing and were not filled: 7/1 hour 1 to 12/31 hour 24")
    );
}

#[test]
fn several_whole_years_become_a_mean_year() {
    // By hand: a year at 0 °C and one at 10 °C are half a year each.
    let by_year = |year, _, _, _| Some(format!("{}.0,-5.0,75,99000", (year - 2001) * 10));
    let text = format!("{HEADER}{}", rows(&[2001, 2002], &by_year));
    let climate = read_epw("n.epw", text.as_bytes(), "n").unwrap();
    assert_eq!(climate.hours(), Hours(8760.0));
    let states: Vec<(f64, f64)> = climate
        .states
        .iter()
        .map(|state| (state.outdoor.0, state.hours.0))
        .collect();
    assert_eq!(states, [(0.0, 4380.0), (10.0, 4380.0)]);
    assert_eq!(
        climate.notes.last().map(String::as_str),
        Some("2 years averaged: each hour counts 1/2 and the mean year has 8760 hours")
    );
    let leap = format!(
        "{HEADER}{}",
        rows(&[2000], &|_, _, _, _| Some(USUAL.into()))
    );
    assert_eq!(
        read_epw("n.epw", leap.as_bytes(), "n").unwrap().hours(),
        Hours(8784.0)
    );
}

#[test]
fn a_year_and_a_piece_is_not_averaged() {
    let piece = |year, month, _, _| (year == 2001 || month == 1).then(|| USUAL.to_owned());
    let text = format!("{HEADER}{}", rows(&[2001, 2002], &piece));
    let message = read_epw("n.epw", text.as_bytes(), "n")
        .unwrap_err()
        .to_string();
    assert_eq!(
        message,
        "n.epw: found 9504 hours, expected one year, or several whole years\n  hint: an average over years of which \
         some lack months would favour the others"
    );
}

#[test]
fn records_within_the_hour_share_it() {
    let half_hours = HEADER.replace("DATA PERIODS,1,1", "DATA PERIODS,1,2");
    let twice = |_, _, _, _| Some(USUAL.to_owned());
    let mut text = half_hours;
    for line in rows(&[2001], &twice).lines() {
        let _ = writeln!(text, "{line}\n{line}");
    }
    let climate = read_epw("n.epw", text.as_bytes(), "n").unwrap();
    assert_eq!(
        (climate.hours(), climate.hourly[0].hours),
        (Hours(8760.0), Hours(0.5))
    );
}

#[test]
fn latin_1_utf_8_a_byte_order_mark_crlf_and_a_closing_comma_are_fine() {
    let montreal = usual().replace("Nowhere", "Montréal");
    let latin_1: Vec<u8> = montreal
        .chars()
        .map(|letter| u8::try_from(u32::from(letter)).unwrap_or(b'?'))
        .collect();
    let marked = format!("\u{feff}{}", montreal.replace('\n', "\r\n"));
    let closed = montreal.replace(",0\n", ",0,\n");
    for bytes in [
        &latin_1[..],
        montreal.as_bytes(),
        marked.as_bytes(),
        closed.as_bytes(),
    ] {
        let climate = read_epw("n.epw", bytes, "n").unwrap();
        assert_eq!(
            (climate.name.as_str(), climate.hours()),
            ("Montréal, ON, CAN", Hours(8760.0))
        );
    }
}

#[test]
fn design_conditions_may_be_absent_and_unknown_layouts_are_left_out() {
    let start = usual().find("DESIGN").unwrap();
    let end = usual().find("TYPICAL").unwrap();
    let with = |line: &str| {
        let mut text = usual();
        text.replace_range(start..end, line);
        read_epw("n.epw", text.as_bytes(), "n").unwrap()
    };
    assert!(with("DESIGN CONDITIONS,0\n").notes.is_empty());
    // A layout of our own in which the numbers stand elsewhere.
    let unknown =
        with("DESIGN CONDITIONS,1,An older handbook,,Heating,-20,-16.6,1,Cooling,33,31,30\n");
    assert_eq!(
        unknown.design,
        crate::climate::DesignTemperatures::default()
    );
    assert_eq!(
        unknown.notes,
        [
            "the header's design temperatures (An older handbook) are in a layout that is not known and were left out"
        ]
    );
}

#[test]
fn every_mistake_in_a_row_names_line_and_field() {
    let cases: &[(&str, &str)] = &[
        (
            "cold,1.0,75,99000",
            "n.epw:347: dry bulb (field 7): found \"cold\", expected -90 to 70 °C, or 99.9 where it is missing",
        ),
        (
            "NaN,1.0,75,99000",
            "n.epw:347: dry bulb (field 7): found \"NaN\", expected -90 to 70 °C, or 99.9 where it is missing",
        ),
        (
            "inf,1.0,75,99000",
            "n.epw:347: dry bulb (field 7): found \"inf\", expected -90 to 70 °C, or 99.9 where it is missing",
        ),
        (
            "-140,1.0,75,99000",
            "n.epw:347: dry bulb (field 7): found \"-140\", expected -90 to 70 °C, or 99.9 where it is missing",
        ),
        (
            "5.0,x,75,99000",
            "n.epw:347: dew point (field 8): found \"x\", expected -90 to 70 °C, or 99.9 where it is missing",
        ),
        (
            "5.0,1.0,-3,99000",
            "n.epw:347: relative humidity (field 9): found \"-3\", expected 0 to 110 %, or 999 where it is missing",
        ),
        (
            "5.0,1.0,75,990",
            "n.epw:347: pressure (field 10): found \"990\", expected 31000 to 120000 Pa, or 999999 where it is missing",
        ),
        (
            "5.0,1.0,75",
            "n.epw:347: found 34 fields, expected 35 fields",
        ),
    ];
    for (weather, message) in cases {
        let found = read_epw("n.epw", with_one_hour(Some(weather)).as_bytes(), "n")
            .unwrap_err()
            .to_string();
        assert_eq!(&found, message, "{weather}");
    }
    let row = "2001,1,15,3,0,";
    for (to, message) in [
        (
            "2001,13,15,3,0,",
            "n.epw:347: month (field 2): found \"13\", expected a whole number from 1 to 12",
        ),
        (
            "2001,1,0,3,0,",
            "n.epw:347: day (field 3): found \"0\", expected a whole number from 1 to 31",
        ),
        (
            "2001,4,31,3,0,",
            "n.epw:347: day (field 3): found \"31\", expected a day of month 4, 1 to 30",
        ),
        (
            "2001,1,15,25,0,",
            "n.epw:347: hour (field 4): found \"25\", expected a whole number from 1 to 24",
        ),
        (
            "2001,1,15,1.5,0,",
            "n.epw:347: hour (field 4): found \"1.5\", expected a whole number from 1 to 24",
        ),
        (
            "2001,1,15,2,0,",
            "n.epw:347: found 2001/1/15 hour 2 once more, expected each hour once (line 346 has it)",
        ),
    ] {
        let text = usual().replacen(row, to, 1);
        let found = read_epw("n.epw", text.as_bytes(), "n")
            .unwrap_err()
            .to_string();
        assert_eq!(found, message);
    }
}

#[test]
fn every_bad_row_is_listed() {
    let text = usual().replace("2001,3,", "2001,x,");
    let problems = read_epw("n.epw", text.as_bytes(), "n").unwrap_err();
    assert_eq!(problems.len(), 31 * 24);
}

#[test]
fn a_file_that_is_no_weather_file_is_refused_by_its_header() {
    let hint = "\n  hint: an EPW file begins with eight header lines, LOCATION first";
    let first = |bytes: &[u8]| read_epw("n.epw", bytes, "n").unwrap_err().0[0].to_string();
    assert_eq!(
        first(b""),
        format!("n.epw:1: found nothing, expected the header line LOCATION{hint}")
    );
    assert_eq!(
        first(b"\x89PNG\r\n\x1a\n\0\0"),
        format!("n.epw:1: found \"\u{89}PNG\", expected the header line LOCATION{hint}")
            .replace('\u{89}', "\\u{89}")
    );
    let swapped = usual().replace("GROUND TEMPERATURES", "SOIL");
    assert_eq!(
        first(swapped.as_bytes()),
        format!("n.epw:4: found \"SOIL\", expected the header line GROUND TEMPERATURES{hint}")
    );
    assert_eq!(
        first(HEADER.as_bytes()),
        "n.epw: found no rows, expected rows of weather behind the header"
    );
    let per_hour = usual().replace("PERIODS,1,1", "PERIODS,1,0");
    assert_eq!(
        first(per_hour.as_bytes()),
        "n.epw:8: records per hour (field 3): found \"0\", expected a number of records per hour from 1 to 60"
    );
    let high = usual().replace("201.0", "high");
    assert_eq!(
        first(high.as_bytes()),
        "n.epw:1: elevation (field 10): found \"high\", expected a height from -500 to 9000 m"
    );
}
