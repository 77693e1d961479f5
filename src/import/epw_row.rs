//! Reads one row of an EPW weather file.

use super::calendar::days_of_month;
use super::problem::{Problem, Problems, quoted};

/// Fields of a row.
const FIELDS: usize = 35;

/// One row, as far as it is used here; `None`: the file has its code for *missing*, or a blank.
pub(super) struct Row {
    /// Line of the file, counted from 1.
    pub line: usize,
    /// Year of the record; a typical year joins months of several.
    pub year: u16,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month.
    pub day: u8,
    /// Hour of the day that the record ends in, 1 to 24.
    pub hour: u8,
    /// Dry bulb \[°C\].
    pub dry_bulb: Option<f64>,
    /// Dew point \[°C\].
    pub dew_point: Option<f64>,
    /// Relative humidity \[%\].
    pub relative_humidity: Option<f64>,
    /// Station pressure \[Pa\].
    pub pressure: Option<f64>,
}

/// A field that is a measurement, and may be missing.
struct Measurement {
    name: &'static str,
    index: usize,
    least: f64,
    most: f64,
    missing: f64,
    unit: &'static str,
}

const DRY_BULB: Measurement = Measurement {
    name: "dry bulb",
    index: 6,
    least: -90.0,
    most: 70.0,
    missing: 99.9,
    unit: "°C",
};
const DEW_POINT: Measurement = Measurement {
    name: "dew point",
    index: 7,
    least: -90.0,
    most: 70.0,
    missing: 99.9,
    unit: "°C",
};
const RELATIVE_HUMIDITY: Measurement = Measurement {
    name: "relative humidity",
    index: 8,
    least: 0.0,
    most: 110.0,
    missing: 999.0,
    unit: "%",
};
const PRESSURE: Measurement = Measurement {
    name: "pressure",
    index: 9,
    least: 31_000.0,
    most: 120_000.0,
    missing: 999_999.0,
    unit: "Pa",
};

/// Reads one row; `None` where a problem was noted for it.
pub(super) fn read_row(
    file: &str,
    line: usize,
    text: &str,
    problems: &mut Problems,
) -> Option<Row> {
    let fields: Vec<&str> = text.split(',').map(str::trim).collect();
    // Some writers close every row with a comma.
    let closed_by_comma = fields.len() == FIELDS + 1 && fields[FIELDS].is_empty();
    if fields.len() != FIELDS && !closed_by_comma {
        let found = format!("{} fields", fields.len());
        problems.push(Problem::new(file, found, format!("{FIELDS} fields")).on_line(line));
        return None;
    }
    let before = problems.len();
    let mut complain = |index: usize, name: &str, expected: String| {
        let problem = Problem::new(file, quoted(fields[index]), expected).on_line(line);
        problems.push(problem.in_field(format!("{name} (field {})", index + 1)));
    };
    let mut count = |index: usize, name: &str, most: u16| {
        let number = fields[index]
            .parse::<u16>()
            .ok()
            .filter(|number| (1..=most).contains(number));
        if number.is_none() {
            complain(index, name, format!("a whole number from 1 to {most}"));
        }
        number.unwrap_or(1)
    };
    let year = count(0, "year", 9999);
    let month = count(1, "month", 12);
    let day = count(2, "day", 31);
    let hour = count(3, "hour", 24);
    let mut measured = |what: &Measurement| {
        let text = fields[what.index];
        if text.is_empty() {
            return None;
        }
        let number = text.parse::<f64>().ok().filter(|number| number.is_finite());
        match number {
            Some(number) if (number - what.missing).abs() < 1e-6 => None,
            Some(number) if (what.least..=what.most).contains(&number) => Some(number),
            _ => {
                let Measurement {
                    least,
                    most,
                    unit,
                    missing,
                    ..
                } = what;
                let expected =
                    format!("{least} to {most} {unit}, or {missing} where it is missing");
                complain(what.index, what.name, expected);
                None
            }
        }
    };
    let dry_bulb = measured(&DRY_BULB);
    let dew_point = measured(&DEW_POINT);
    let relative_humidity = measured(&RELATIVE_HUMIDITY);
    let pressure = measured(&PRESSURE);
    let small = |number: u16| u8::try_from(number).unwrap_or(u8::MAX);
    let (month, day, hour) = (small(month), small(day), small(hour));
    let days = days_of_month(month).unwrap_or(31);
    if day > days {
        complain(2, "day", format!("a day of month {month}, 1 to {days}"));
    }
    let is_fine = problems.len() == before;
    is_fine.then_some(Row {
        line,
        year,
        month,
        day,
        hour,
        dry_bulb,
        dew_point,
        relative_humidity,
        pressure,
    })
}
