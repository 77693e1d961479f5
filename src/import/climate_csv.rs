//! Reads a climate from a CSV table: temperature bins with hours, or one row for every hour of a year.

use super::calendar::{Calendar, days_of_month};
use super::climate_columns::{Columns, Humidity};
use super::problem::{Problem, Problems, quoted};
use super::weather_humidity::{HumidityAccount, Moist};
use crate::climate::{Climate, MonthlyState, Record, State, Station, group};
use crate::quantity::{Celsius, Hours, HumidityRatio, Metres, Pascals, counted};

/// Reads a climate table.
///
/// - `file`  what the user calls the file, for messages
/// - `bytes`  its content, UTF-8
/// - `key`  what the catalog will call the climate
///
/// Columns: `outdoor_db_c` or `_f`; humidity, which may be left out, as `humidity_ratio` (kg/kg), `humidity_ratio_g_kg`,
/// `relative_humidity` (0 to 1) or `relative_humidity_percent`, the latter two with `pressure_pa` where it is known.
/// With a column `hours` each row is a bin, with `month` too a bin of that month. With `month`, `day` and `hour` instead,
/// each row is an hour. Lines above the header that begin with `#` may say `# name:`, `# source:` and `# elevation_m:`.
///
/// # Errors
/// Every problem found, with line and column.
pub fn read_climate_csv(file: &str, bytes: &[u8], key: &str) -> Result<Climate, Problems> {
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text.strip_prefix('\u{feff}').unwrap_or(text),
        Err(error) => {
            let line = bytes[..error.valid_up_to()]
                .iter()
                .filter(|&&byte| byte == b'\n')
                .count()
                + 1;
            let problem = Problem::new(
                file,
                "bytes that are not UTF-8 text",
                "a CSV table in UTF-8",
            );
            return Err(problem.on_line(line).into());
        }
    };
    let mut problems = Problems::default();
    let mut station = station(file, text, key, &mut problems);
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .flexible(true)
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let header = match reader.headers() {
        Ok(header) => header.clone(),
        Err(error) => return Err(Problem::new(file, error.to_string(), "a CSV table").into()),
    };
    let header_line =
        usize::try_from(header.position().map_or(1, csv::Position::line)).unwrap_or(1);
    let Some(columns) = Columns::find(file, header_line, &header, &mut problems) else {
        return Err(problems);
    };
    let mut rows = Vec::new();
    for record in reader.records() {
        match record {
            Err(error) => problems.push(Problem::new(file, error.to_string(), "a row of CSV")),
            Ok(record) => {
                let line = record.position().map_or(0, csv::Position::line);
                let line = usize::try_from(line).unwrap_or(0);
                if record.len() == header.len() {
                    rows.extend(read_row(file, line, &columns, &record, &mut problems));
                } else {
                    let found = format!("{} cells", record.len());
                    let expected = format!("{}, as many as the header has", header.len());
                    problems.push(Problem::new(file, found, expected).on_line(line));
                }
            }
        }
    }
    if rows.is_empty() && problems.is_empty() {
        problems.push(Problem::new(
            file,
            "no rows",
            "rows of weather below the header",
        ));
    }
    if columns.hours.is_none() {
        check_repetition(file, &rows, &mut problems);
    }
    problems.or(())?;
    if station.name.is_empty() {
        key.clone_into(&mut station.name);
    }
    Ok(if columns.hours.is_some() {
        binned(station, &columns, &rows)
    } else {
        hourly(station, &rows)
    })
}

/// One row of the table.
struct Row {
    line: usize,
    month: Option<u8>,
    day: u8,
    hour: u8,
    hours: f64,
    outdoor: Option<f64>,
    humidity: Option<f64>,
    humidity_kind: Option<Humidity>,
    pressure: Option<f64>,
}

fn read_row(
    file: &str,
    line: usize,
    columns: &Columns,
    record: &csv::StringRecord,
    problems: &mut Problems,
) -> Option<Row> {
    let before = problems.len();
    let mut number = |column: &super::climate_columns::Column| -> Option<f64> {
        let text = record.get(column.index).unwrap_or_default();
        if text.is_empty() && column.may_be_blank {
            return None;
        }
        let number = text
            .replace('\u{2212}', "-")
            .parse::<f64>()
            .ok()
            .filter(|number| number.is_finite());
        let number = number.map(|number| number * column.factor + column.offset);
        // A hair of room for what converting °F leaves.
        let is_fine = number.is_some_and(|number| {
            number >= column.least - 1e-9
                && number <= column.most + 1e-9
                && (!column.is_whole || number.fract() == 0.0)
        });
        if !is_fine {
            let problem = Problem::new(file, quoted(text), column.expected()).on_line(line);
            problems.push(problem.in_field(column.name.clone()));
        }
        number.filter(|_| is_fine)
    };
    let month = columns.month.as_ref().and_then(&mut number).map(small);
    let day = columns.day.as_ref().and_then(&mut number).map(small);
    let hour = columns.hour.as_ref().and_then(&mut number).map(small);
    let hours = columns.hours.as_ref().and_then(&mut number);
    let outdoor = number(&columns.outdoor);
    let humidity = columns
        .humidity
        .as_ref()
        .and_then(|(_, column)| number(column));
    let pressure = columns.pressure.as_ref().and_then(&mut number);
    if let (Some(month), Some(day), Some(column)) = (month, day, &columns.day) {
        let days = days_of_month(month).unwrap_or(31);
        if day > days {
            let expected = format!("a day of month {month}, 1 to {days}");
            let problem = Problem::new(file, format!("\"{day}\""), expected).on_line(line);
            problems.push(problem.in_field(column.name.clone()));
        }
    }
    (problems.len() == before).then(|| Row {
        line,
        month,
        day: day.unwrap_or(1),
        hour: hour.unwrap_or(1),
        hours: hours.unwrap_or(1.0),
        outdoor,
        humidity,
        humidity_kind: columns.humidity.as_ref().map(|(kind, _)| *kind),
        pressure,
    })
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "whole and within 1 to 31"
)]
fn small(number: f64) -> u8 {
    number as u8
}

impl Row {
    fn humidity_ratio(
        &self,
        outdoor: Celsius,
        account: &mut HumidityAccount,
    ) -> Option<HumidityRatio> {
        match self.humidity_kind? {
            Humidity::Ratio if self.humidity.is_some() => self.humidity.map(HumidityRatio),
            kind => {
                let relative_humidity = self.humidity.filter(|_| kind == Humidity::Relative);
                let pressure = self.pressure.map(Pascals);
                account.humidity_ratio(
                    outdoor,
                    Moist {
                        relative_humidity,
                        dew_point: None,
                        pressure,
                    },
                )
            }
        }
    }
}

/// Name, source and elevation out of the lines that begin with `#`.
fn station(file: &str, text: &str, key: &str, problems: &mut Problems) -> Station {
    let mut station = Station {
        key: key.to_owned(),
        source: file.to_owned(),
        ..Station::default()
    };
    for (index, line) in text
        .lines()
        .enumerate()
        .take_while(|(_, line)| line.starts_with('#'))
    {
        let Some((word, value)) = line.trim_start_matches('#').split_once(':') else {
            continue;
        };
        let value = value.trim();
        match word.trim() {
            "name" => value.clone_into(&mut station.name),
            "source" => value.clone_into(&mut station.source),
            "elevation_m" => match value.parse::<f64>() {
                Ok(metres) if (-500.0..=9000.0).contains(&metres) => {
                    station.elevation = Some(Metres(metres));
                }
                _ => {
                    let problem = Problem::new(file, quoted(value), "a height from -500 to 9000 m");
                    problems.push(problem.on_line(index + 1).in_field("elevation_m"));
                }
            },
            _ => {}
        }
    }
    station
}

fn check_repetition(file: &str, rows: &[Row], problems: &mut Problems) {
    let mut seen = std::collections::BTreeMap::new();
    for row in rows {
        let slot = (row.month, row.day, row.hour);
        if let Some(first) = seen.insert(slot, row.line) {
            let found = format!(
                "{}/{} hour {} once more",
                row.month.unwrap_or(1),
                row.day,
                row.hour
            );
            let expected = format!("each hour of one year once (line {first} has it)");
            problems.push(Problem::new(file, found, expected).on_line(row.line));
        }
    }
}

/// A climate of bins; the rows are its states, in months where the table has them.
fn binned(station: Station, columns: &Columns, rows: &[Row]) -> Climate {
    let mut account = HumidityAccount::new(station.elevation);
    let mut total = 0.0;
    let mut bins: Vec<(u8, State)> = Vec::with_capacity(rows.len());
    for row in rows.iter().filter(|row| row.hours > 0.0) {
        let Some(outdoor) = row.outdoor.map(Celsius) else {
            continue;
        };
        let humidity_ratio = row.humidity_ratio(outdoor, &mut account);
        total += row.hours;
        bins.push((
            row.month.unwrap_or(0),
            State {
                hours: Hours(row.hours),
                outdoor,
                humidity_ratio,
            },
        ));
    }
    let mut notes = account.notes();
    if columns.humidity.is_none() {
        notes.push("no humidity in the table: humidity is not judged with this climate".to_owned());
    }
    if [8760.0, 8766.0, 8784.0]
        .iter()
        .all(|year: &f64| (total - year).abs() > 0.5)
    {
        notes.push(format!(
            "the hours sum to {total}, not to a year; they are taken as they are"
        ));
    }
    let (states, monthly) = if columns.month.is_some() {
        states_of_months(bins)
    } else {
        (states_as_typed(bins), Vec::new())
    };
    Climate {
        key: station.key,
        name: station.name,
        source: station.source,
        elevation: station.elevation,
        states,
        monthly,
        hourly: Vec::new(),
        design: station.design,
        notes,
    }
}

/// The year's states, grouped anew, beside the months' own.
fn states_of_months(mut bins: Vec<(u8, State)>) -> (Vec<State>, Vec<MonthlyState>) {
    bins.sort_by_key(|(month, _)| *month);
    let states = group(
        bins.iter()
            .map(|(_, state)| (state.hours, state.outdoor, state.humidity_ratio)),
    );
    let monthly = bins
        .into_iter()
        .map(|(month, state)| MonthlyState { month, state })
        .collect();
    (states, monthly)
}

/// Bins that somebody typed are kept as they are, coldest first, then driest.
fn states_as_typed(bins: Vec<(u8, State)>) -> Vec<State> {
    let mut states: Vec<State> = bins.into_iter().map(|(_, state)| state).collect();
    let humidity = |state: &State| state.humidity_ratio.map_or(0.0, |w| w.0);
    states.sort_by(|a, b| {
        a.outdoor
            .0
            .total_cmp(&b.outdoor.0)
            .then(humidity(a).total_cmp(&humidity(b)))
    });
    states
}

/// A climate of hours.
fn hourly(station: Station, rows: &[Row]) -> Climate {
    let mut account = HumidityAccount::new(station.elevation);
    let mut calendar = Calendar::default();
    let mut without_dry_bulb = Vec::new();
    let mut records = Vec::with_capacity(rows.len());
    for row in rows {
        let month = row.month.unwrap_or(1);
        calendar.count((month, row.day, row.hour));
        let Some(outdoor) = row.outdoor.map(Celsius) else {
            without_dry_bulb.push(row.line);
            continue;
        };
        let humidity_ratio = row.humidity_ratio(outdoor, &mut account);
        records.push(Record {
            month,
            day: row.day,
            hour: row.hour,
            hours: Hours(1.0),
            outdoor,
            humidity_ratio,
        });
    }
    let mut notes = calendar.coverage(1).notes();
    if let Some(first) = without_dry_bulb.first() {
        let count = counted(without_dry_bulb.len(), "row", "rows");
        notes.push(format!(
            "{count} without a dry bulb left out, the first at line {first}"
        ));
    }
    notes.extend(account.notes());
    if rows.iter().all(|row| row.humidity_kind.is_none()) {
        notes.push("no humidity in the table: humidity is not judged with this climate".to_owned());
    }
    Climate::from_records(station, records, notes)
}
