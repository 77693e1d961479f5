//! Recognises the columns of a climate table by their names, and the unit of each by its suffix.

use super::nearest;
use super::problem::{Problem, Problems, quoted};

/// A column that is read.
pub(super) struct Column {
    /// Its name in the header.
    pub name: String,
    /// Where it stands, counted from 0.
    pub index: usize,
    /// What brings its numbers into the computed unit.
    pub factor: f64,
    /// What is added after the factor.
    pub offset: f64,
    /// Least value, in the computed unit.
    pub least: f64,
    /// Greatest value, in the computed unit.
    pub most: f64,
    /// Whether only whole numbers make sense.
    pub is_whole: bool,
    /// Whether a blank cell is *not recorded* rather than a mistake.
    pub may_be_blank: bool,
}

impl Column {
    /// What a reader is told is expected in its cells, in the column's own unit.
    pub fn expected(&self) -> String {
        let own = |computed: f64| {
            let number = (computed - self.offset) / self.factor;
            (number * 1e6).round() / 1e6
        };
        let kind = if self.is_whole {
            "a whole number"
        } else {
            "a number"
        };
        format!("{kind} from {} to {}", own(self.least), own(self.most))
    }
}

/// How a table gives humidity.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Humidity {
    /// Mass of vapour per mass of dry air.
    Ratio,
    /// Share of saturation.
    Relative,
}

/// The columns of a climate table.
pub(super) struct Columns {
    pub outdoor: Column,
    pub hours: Option<Column>,
    pub month: Option<Column>,
    pub day: Option<Column>,
    pub hour: Option<Column>,
    pub humidity: Option<(Humidity, Column)>,
    pub pressure: Option<Column>,
}

/// Name, factor, offset, least, most.
type Known = (&'static str, f64, f64, f64, f64);

const OUTDOOR: &[Known] = &[
    ("outdoor_db_c", 1.0, 0.0, -90.0, 70.0),
    ("outdoor_db_f", 1.0 / 1.8, -32.0 / 1.8, -90.0, 70.0),
];
const HOURS: &[Known] = &[("hours", 1.0, 0.0, 0.0, 8784.0)];
const MONTH: &[Known] = &[("month", 1.0, 0.0, 1.0, 12.0)];
const DAY: &[Known] = &[("day", 1.0, 0.0, 1.0, 31.0)];
const HOUR: &[Known] = &[("hour", 1.0, 0.0, 1.0, 24.0)];
const HUMIDITY_RATIO: &[Known] = &[
    ("humidity_ratio", 1.0, 0.0, 0.0, 0.1),
    ("humidity_ratio_g_kg", 0.001, 0.0, 0.0, 0.1),
];
const RELATIVE_HUMIDITY: &[Known] = &[
    ("relative_humidity", 1.0, 0.0, 0.0, 1.1),
    ("relative_humidity_percent", 0.01, 0.0, 0.0, 1.1),
];
const PRESSURE: &[Known] = &[("pressure_pa", 1.0, 0.0, 31_000.0, 120_000.0)];

const ALL: [&[Known]; 8] = [
    OUTDOOR,
    HOURS,
    MONTH,
    DAY,
    HOUR,
    HUMIDITY_RATIO,
    RELATIVE_HUMIDITY,
    PRESSURE,
];

impl Columns {
    /// Finds the columns in a header; `None` where a problem was noted.
    pub fn find(
        file: &str,
        line: usize,
        header: &csv::StringRecord,
        problems: &mut Problems,
    ) -> Option<Self> {
        let before = problems.len();
        let names: Vec<String> = header.iter().map(str::to_lowercase).collect();
        let known: Vec<&str> = ALL
            .iter()
            .flat_map(|columns| columns.iter().map(|column| column.0))
            .collect();
        for (index, name) in names.iter().enumerate() {
            let hint = || match nearest(name, known.iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("known columns: {}", known.join(", ")),
            };
            let wrong = if !known.contains(&name.as_str()) {
                Some(("a column of a climate table", Some(hint())))
            } else if names[..index].contains(name) {
                Some(("each column once", None))
            } else {
                None
            };
            if let Some((expected, hint)) = wrong {
                let mut problem = Problem::new(file, quoted(name), expected).on_line(line);
                problem.hint = hint;
                problems.push(problem);
            }
        }
        let mut one = |kinds: &[Known], is_whole: bool, may_be_blank: bool| {
            let mut found = kinds
                .iter()
                .filter_map(|&(name, factor, offset, least, most)| {
                    let index = names.iter().position(|header| header == name)?;
                    let name = name.to_owned();
                    Some(Column {
                        name,
                        index,
                        factor,
                        offset,
                        least,
                        most,
                        is_whole,
                        may_be_blank,
                    })
                });
            let first = found.next();
            if let (Some(first), Some(second)) = (&first, found.next()) {
                let found = format!("{} and {}", first.name, second.name);
                problems.push(Problem::new(file, found, "one of the two columns").on_line(line));
            }
            first
        };
        let hours = one(HOURS, false, false);
        let is_hourly = hours.is_none();
        let outdoor = one(OUTDOOR, false, is_hourly);
        let (month, day, hour) = (
            one(MONTH, true, false),
            one(DAY, true, false),
            one(HOUR, true, false),
        );
        let ratio = one(HUMIDITY_RATIO, false, true);
        let relative = one(RELATIVE_HUMIDITY, false, true);
        let pressure = one(PRESSURE, false, true);
        let mut lacks = |what: &str| {
            problems.push(Problem::new(file, "no such column", what).on_line(line));
        };
        if outdoor.is_none() {
            lacks("a column outdoor_db_c or outdoor_db_f");
        }
        if is_hourly && (month.is_none() || day.is_none() || hour.is_none()) {
            lacks(
                "a column hours (for bins), or the columns month, day and hour (for a year of hours)",
            );
        }
        if !is_hourly && (day.is_some() || hour.is_some()) {
            let problem = Problem::new(
                file,
                "hours beside day or hour",
                "bins with hours, or a year of hours",
            );
            problems.push(problem.on_line(line));
        }
        if ratio.is_some() && relative.is_some() {
            let problem = Problem::new(
                file,
                "a humidity ratio and a relative humidity",
                "one of the two columns",
            );
            problems.push(problem.on_line(line));
        }
        if problems.len() > before {
            return None;
        }
        let humidity = match (ratio, relative) {
            (Some(column), _) => Some((Humidity::Ratio, column)),
            (None, Some(column)) => Some((Humidity::Relative, column)),
            (None, None) => None,
        };
        Some(Self {
            outdoor: outdoor?,
            hours,
            month,
            day,
            hour,
            humidity,
            pressure,
        })
    }
}
