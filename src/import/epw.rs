//! Reads an EPW weather file: eight header lines, then a row of 35 fields for every record.

use std::collections::BTreeMap;

use super::calendar::{Calendar, Coverage};
use super::epw_header::{EpwHeader, read_header};
use super::epw_row::{Row, read_row};
use super::problem::{Problem, Problems};
use super::weather_humidity::{HumidityAccount, Moist};
use crate::climate::{Climate, Record, Station};
use crate::quantity::{Celsius, Hours, Pascals, counted};

/// Lines of the header.
const HEADER_LINES: usize = 8;

/// Reads an EPW file.
///
/// - `file`  what the user calls the file, for messages
/// - `bytes`  its content, ISO 8859-1 or UTF-8
/// - `key`  what the catalog will call the climate
/// - returns a climate whose notes say what was missing, left out, averaged or taken from elsewhere
///
/// A row without a dry bulb is left out. A record of several whole years is weighted to a mean year.
///
/// # Errors
/// Every problem found, with line and field.
///
/// # Source
/// The EPW data dictionary, as published with the US Department of Energy's weather files.
pub fn read_epw(file: &str, bytes: &[u8], key: &str) -> Result<Climate, Problems> {
    let text = decoded(bytes);
    let lines: Vec<&str> = text.lines().collect();
    let mut problems = Problems::default();
    let header = read_header(file, &lines, &mut problems);
    if !problems.is_empty() {
        // Rows behind a header that is none would repeat the same news thousands of times.
        return Err(problems);
    }
    let mut rows = Vec::with_capacity(8784);
    for (index, line) in lines.iter().enumerate().skip(HEADER_LINES) {
        if !line.trim().is_empty() {
            rows.extend(read_row(file, index + 1, line, &mut problems));
        }
    }
    if rows.is_empty() && problems.is_empty() {
        problems.push(Problem::new(
            file,
            "no rows",
            "rows of weather behind the header",
        ));
    }
    check_repetition(file, &rows, header.records_per_hour, &mut problems);
    let coverage = coverage(&rows, header.records_per_hour);
    if problems.is_empty() && coverage.years > 1 && coverage.missing_hours > 0.1 * 8760.0 {
        let hours = coverage.hours * f64::from(coverage.years);
        let problem = Problem::new(
            file,
            format!("{hours} hours"),
            "one year, or several whole years",
        );
        problems.push(
            problem.with_hint(
                "an average over years of which some lack months would favour the others",
            ),
        );
    }
    problems.or(())?;
    Ok(climate(header, key, &rows, &coverage))
}

/// The text; bytes that are not UTF-8 are ISO 8859-1, in which every byte is its own code point.
fn decoded(bytes: &[u8]) -> String {
    match std::str::from_utf8(bytes) {
        Ok(text) => text.strip_prefix('\u{feff}').unwrap_or(text).to_owned(),
        Err(_) => bytes.iter().copied().map(char::from).collect(),
    }
}

/// Notes every row that stands for an hour which its year already has.
fn check_repetition(file: &str, rows: &[Row], records_per_hour: u32, problems: &mut Problems) {
    let mut seen: BTreeMap<(u16, u8, u8, u8), (u32, usize)> = BTreeMap::new();
    for row in rows {
        let (count, first) = seen
            .entry((row.year, row.month, row.day, row.hour))
            .or_insert((0, row.line));
        *count += 1;
        if *count > records_per_hour {
            let found = format!(
                "{}/{}/{} hour {} once more",
                row.year, row.month, row.day, row.hour
            );
            let expected = format!("each hour once (line {first} has it)");
            let expected = if records_per_hour == 1 {
                expected
            } else {
                format!("{records_per_hour} records an hour (line {first} has the first)")
            };
            problems.push(Problem::new(file, found, expected).on_line(row.line));
        }
    }
}

fn coverage(rows: &[Row], records_per_hour: u32) -> Coverage {
    let mut calendar = Calendar::default();
    for row in rows {
        calendar.count((row.month, row.day, row.hour));
    }
    calendar.coverage(records_per_hour)
}

fn climate(header: EpwHeader, key: &str, rows: &[Row], coverage: &Coverage) -> Climate {
    let hours = Hours(1.0 / f64::from(header.records_per_hour * coverage.years));
    let mut account = HumidityAccount::new(header.elevation);
    let mut without_dry_bulb = Vec::new();
    let mut records = Vec::with_capacity(rows.len());
    for row in rows {
        let Some(outdoor) = row.dry_bulb.map(Celsius) else {
            without_dry_bulb.push(row.line);
            continue;
        };
        let moist = Moist {
            relative_humidity: row.relative_humidity.map(|percent| percent / 100.0),
            dew_point: row.dew_point.map(Celsius),
            pressure: row.pressure.map(Pascals),
        };
        let humidity_ratio = account.humidity_ratio(outdoor, moist);
        records.push(Record {
            month: row.month,
            day: row.day,
            hour: row.hour,
            hours,
            outdoor,
            humidity_ratio,
        });
    }
    let mut notes = header.notes;
    notes.extend(coverage.notes());
    if let Some(first) = without_dry_bulb.first() {
        let count = counted(without_dry_bulb.len(), "row", "rows");
        notes.push(format!(
            "{count} without a dry bulb left out, the first at line {first}"
        ));
    }
    notes.extend(account.notes());
    let station = Station {
        key: key.to_owned(),
        name: header.name,
        source: header.source,
        elevation: header.elevation,
        design: header.design,
    };
    Climate::from_records(station, records, notes)
}
