//! Two typical years against their published statistics, and the climates built into the program against those years.
//!
//! Source of the weather: NREL Typical Meteorological Year 3 (2008), US public domain, in EPW form. Source of the statistics:
//! bin hours and daily-mean degree days counted from the same files by an independent program, and the station's published
//! statistics (Chicago: 3429 heating degree days below 18 °C, 1743 cooling degree days above 10 °C).

use std::io::Read;

use overwinter::climate::{
    Climate, Record, bin_hours, cooling_degree_days, heating_degree_days, hours_above, hours_below,
    mean_outdoor,
};
use overwinter::import::{built_in_climates, read_epw};
use overwinter::quantity::{Celsius, Hours, Metres};
use overwinter::report::climate_csv::climate_csv;

const CHICAGO: &[u8] = include_bytes!("data/chicago-ohare-tmy3.epw.gz");
const PITTSBURGH: &[u8] = include_bytes!("data/pittsburgh-tmy3.epw.gz");
const BINS: &str = include_str!("data/bin_hours_1c.csv");
const STATISTICS: &str = include_str!("data/weather_statistics.csv");

fn epw(compressed: &[u8], key: &str) -> Climate {
    let mut bytes = Vec::new();
    flate2::read::GzDecoder::new(compressed)
        .read_to_end(&mut bytes)
        .expect("the compressed weather file is whole");
    read_epw(&format!("{key}.epw"), &bytes, key).expect("the weather file is read")
}

fn both() -> [(&'static str, Climate); 2] {
    [
        ("chicago_tmy3", epw(CHICAGO, "chicago-ohare")),
        ("pittsburgh_tmy3", epw(PITTSBURGH, "pittsburgh")),
    ]
}

fn weather(records: &[Record]) -> impl Iterator<Item = (Hours, Celsius)> {
    records.iter().map(|record| (record.hours, record.outdoor))
}

#[test]
fn the_header_gives_station_and_design_temperatures() {
    let climate = epw(CHICAGO, "chicago-ohare");
    assert_eq!(climate.name, "Chicago Ohare Intl Ap, IL, USA");
    assert_eq!(climate.elevation, Some(Metres(201.0)));
    // ASHRAE Handbook - Fundamentals 2009, in the header itself.
    assert_eq!(climate.design.heating_99_6, Some(Celsius(-20.0)));
    assert_eq!(climate.design.heating_99, Some(Celsius(-16.6)));
    assert_eq!(climate.design.cooling_0_4, Some(Celsius(33.3)));
    assert_eq!(climate.design.cooling_1, Some(Celsius(31.6)));
    assert_eq!(climate.design.cooling_2, Some(Celsius(30.1)));
    assert_eq!(
        (climate.hours(), climate.hourly.len()),
        (Hours(8760.0), 8760)
    );
    assert_eq!(
        climate.notes,
        ["design temperatures from the header: Climate Design Data 2009 ASHRAE Handbook"]
    );
}

#[test]
fn chicago_has_its_published_degree_days() {
    let climate = epw(CHICAGO, "chicago-ohare");
    // The station statistics round to whole degree days and sum rounded days: one and a half degree days of room.
    assert!((heating_degree_days(&climate.hourly, Celsius(18.0)) - 3429.0).abs() <= 1.5);
    assert!((cooling_degree_days(&climate.hourly, Celsius(10.0)) - 1743.0).abs() <= 1.5);
}

#[test]
fn every_bin_has_its_hours() {
    let mut rows = csv::Reader::from_reader(BINS.as_bytes());
    let rows: Vec<(f64, f64, f64)> = rows.deserialize().map(Result::unwrap).collect();
    assert!(rows.len() > 55);
    for (column, (name, climate)) in both().iter().enumerate() {
        let bins = bin_hours(&climate.states);
        let mut sum = 0.0;
        for row in &rows {
            let published = [row.1, row.2][column];
            let ours = bins
                .iter()
                .find(|(centre, _)| centre.0 == row.0)
                .map_or(0.0, |(_, hours)| hours.0);
            assert_eq!(ours, published, "{name} at {} °C", row.0);
            sum += published;
        }
        assert_eq!(sum, 8760.0, "{name}: the bins hold the whole year");
    }
}

#[test]
fn every_statistic_agrees_to_its_printed_digits() {
    let mut table = csv::Reader::from_reader(STATISTICS.as_bytes());
    let header = table.headers().unwrap().clone();
    let rows: Vec<csv::StringRecord> = table.records().map(Result::unwrap).collect();
    for (name, climate) in both() {
        let row = rows.iter().find(|row| &row[0] == name).unwrap();
        let published = |column: &str| -> f64 {
            row[header.iter().position(|header| header == column).unwrap()]
                .parse()
                .unwrap()
        };
        let records = &climate.hourly;
        let hourly_degree_days = |base: f64| -> f64 {
            records
                .iter()
                .map(|record| (base - record.outdoor.0).max(0.0) / 24.0)
                .sum()
        };
        let humidity = |record: &Record| record.humidity_ratio.unwrap().0 * 1000.0;
        let least = records
            .iter()
            .map(|record| record.outdoor.0)
            .fold(f64::INFINITY, f64::min);
        let most = records
            .iter()
            .map(|record| record.outdoor.0)
            .fold(f64::NEG_INFINITY, f64::max);
        let checks: &[(&str, f64, f64)] = &[
            ("elev_m", climate.elevation.unwrap().0, 0.0),
            ("mean_T", mean_outdoor(&climate.states).unwrap().0, 5e-4),
            ("min_T", least, 0.0),
            ("max_T", most, 0.0),
            (
                "HDD18_daily",
                heating_degree_days(records, Celsius(18.0)),
                0.051,
            ),
            (
                "CDD18_daily",
                cooling_degree_days(records, Celsius(18.0)),
                0.051,
            ),
            (
                "CDD10_daily",
                cooling_degree_days(records, Celsius(10.0)),
                0.051,
            ),
            ("HDD18_hourly", hourly_degree_days(18.0), 0.051),
            (
                "HDD18_3_hourly",
                hourly_degree_days((65.0 - 32.0) / 1.8),
                0.051,
            ),
            (
                "hours_below_m15",
                hours_below(weather(records), Celsius(-15.0)).0,
                0.0,
            ),
            (
                "hours_below_m8_3",
                hours_below(weather(records), Celsius(-8.3)).0,
                0.0,
            ),
            (
                "hours_below_0",
                hours_below(weather(records), Celsius(0.0)).0,
                0.0,
            ),
            (
                "hours_above_25",
                hours_above(weather(records), Celsius(25.0)).0,
                0.0,
            ),
            (
                "mean_W_gkg",
                records.iter().map(humidity).sum::<f64>() / 8760.0,
                5.1e-5,
            ),
        ];
        for &(column, ours, room) in checks {
            assert!(
                (ours - published(column)).abs() <= room,
                "{name} {column}: {ours} ≠ {}",
                published(column)
            );
        }
        let humid = records.iter().map(humidity).filter(|w| *w > 10.0).count();
        assert_eq!(
            f64::from(u32::try_from(humid).unwrap()),
            published("hours_W_over_10gkg"),
            "{name}"
        );
    }
}

/// To write the built-in files anew from the weather files: `OVERWINTER_WRITE_CLIMATES=1 cargo test --test published`.
#[test]
fn the_built_in_states_are_those_of_the_weather_files() {
    for (_, climate) in both() {
        let path = format!(
            "{}/catalog/climates/{}.csv",
            env!("CARGO_MANIFEST_DIR"),
            climate.key
        );
        let text = climate_csv(&climate);
        if std::env::var_os("OVERWINTER_WRITE_CLIMATES").is_some() {
            std::fs::write(&path, &text).unwrap();
        }
        assert!(
            std::fs::read_to_string(&path).unwrap() == text,
            "{path} is not what its weather file gives"
        );
    }
}

#[test]
fn the_built_in_climates_keep_what_the_weather_files_say() {
    let built_in = built_in_climates().unwrap();
    assert_eq!(built_in.len(), 2);
    for ((_, from_file), climate) in both().iter().zip(&built_in) {
        assert_eq!(climate.key, from_file.key);
        assert_eq!(climate.elevation, from_file.elevation);
        assert_eq!(climate.design, from_file.design);
        assert!(climate.monthly == from_file.monthly, "{}", climate.key);
        assert_eq!(climate.states.len(), from_file.states.len());
        for (ours, theirs) in climate.states.iter().zip(&from_file.states) {
            assert_eq!(ours.hours, theirs.hours);
            // Means of monthly means differ from means of hours by rounding alone.
            assert!((ours.outdoor.0 - theirs.outdoor.0).abs() < 1e-12);
            let (ours, theirs) = (ours.humidity_ratio.unwrap(), theirs.humidity_ratio.unwrap());
            assert!((ours.0 - theirs.0).abs() < 1e-15);
        }
        assert!(climate.source.contains("US public domain"));
    }
}
