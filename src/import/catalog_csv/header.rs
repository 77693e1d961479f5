//! The header line: which column holds which quantity, and in which unit.

use super::rows::Row;
use crate::import::{Problem, nearest, quoted};
use crate::quantity::Celsius;

/// A column that a file may have.
pub(super) struct Column {
    /// Its name in the header.
    pub(super) name: &'static str,
    /// What it holds, by which columns of one quantity in different units are known to be one.
    pub(super) quantity: &'static str,
    /// How its numbers become numbers of the unit that the program computes in; `None`: they are.
    pub(super) conversion: Option<Conversion>,
}

/// How a number in another unit becomes one in the unit that the program computes in.
#[derive(Clone, Copy)]
pub(super) struct Conversion {
    /// The unit as it is written behind a number; `None`: the conversion moves the decimal sign only, and nothing of the
    /// original needs to be kept.
    pub(super) unit: Option<&'static str>,
    /// Converts.
    pub(super) to_si: fn(f64) -> f64,
}

// Exact by definition: 1 Btu(IT) = 1055.05585262 J; 1 ton of refrigeration = 12 000 Btu/h; 1 ft = 0.3048 m.
const KW_PER_BTU_H: f64 = 1_055.055_852_62 / 3_600.0 / 1_000.0;
const LITRES_PER_SECOND_PER_CFM: f64 = 0.3048 * 0.3048 * 0.3048 * 1_000.0 / 60.0;

/// °F to °C.
pub(super) const FAHRENHEIT: Conversion = Conversion {
    unit: Some("°F"),
    to_si: |value| Celsius::from_fahrenheit(value).0,
};
/// W to kW.
pub(super) const WATTS: Conversion = Conversion {
    unit: None,
    to_si: |value| value / 1_000.0,
};
/// Btu/h to kW.
pub(super) const BTU_PER_HOUR: Conversion = Conversion {
    unit: Some("Btu/h"),
    to_si: |value| value * KW_PER_BTU_H,
};
/// Tons of refrigeration to kW.
pub(super) const TONS: Conversion = Conversion {
    unit: Some("ton"),
    to_si: |value| value * 12_000.0 * KW_PER_BTU_H,
};
/// Cubic feet per minute to L/s.
pub(super) const CUBIC_FEET_PER_MINUTE: Conversion = Conversion {
    unit: Some("cfm"),
    to_si: |value| value * LITRES_PER_SECOND_PER_CFM,
};
/// m³/h to L/s.
pub(super) const CUBIC_METRES_PER_HOUR: Conversion = Conversion {
    unit: Some("m3/h"),
    to_si: |value| value / 3.6,
};
/// Energy efficiency ratio in Btu/Wh to COP.
pub(super) const BTU_PER_WATT_HOUR: Conversion = Conversion {
    unit: Some("Btu/Wh"),
    to_si: |value| value * 1_000.0 * KW_PER_BTU_H,
};

/// A column without conversion, named like its quantity.
pub(super) const fn plain(name: &'static str) -> Column {
    Column {
        name,
        quantity: name,
        conversion: None,
    }
}

/// A column in the unit that the program computes in.
pub(super) const fn si(name: &'static str, quantity: &'static str) -> Column {
    Column {
        name,
        quantity,
        conversion: None,
    }
}

/// A column in another unit.
pub(super) const fn other(
    name: &'static str,
    quantity: &'static str,
    conversion: Conversion,
) -> Column {
    Column {
        name,
        quantity,
        conversion: Some(conversion),
    }
}

/// A header that was read: where each quantity's column is.
pub(super) struct Header {
    names: Vec<String>,
    /// By place in the file; `None`: no name stands above it.
    columns: Vec<Option<&'static Column>>,
}

impl Header {
    /// Reads a header line; every problem with it is listed beside it. The header is missing where its problems leave rows
    /// without a meaning: columns that no comma separates, or a required column that is not there.
    ///
    /// - `known`  the columns that the file may have   - `required`  the quantities that it must have
    pub(super) fn read(
        file: &str,
        row: Row<'_>,
        known: &'static [Column],
        required: &[&str],
    ) -> (Option<Self>, Vec<Problem>) {
        let mut problems = Vec::new();
        let mut columns: Vec<Option<&'static Column>> = Vec::new();
        let problem =
            |found: String, expected: String| Problem::new(file, found, expected).on_line(row.line);
        if row.len() == 1 && (row.cell(0).contains(';') || row.cell(0).contains('\t')) {
            let found = quoted(row.cell(0));
            let separated = problem(found, "columns separated by commas".to_owned()).with_hint(
                "save the table as CSV with commas between columns and a point in numbers",
            );
            return (None, vec![separated]);
        }
        for (place, name) in row.cells().enumerate() {
            let column = known
                .iter()
                .find(|column| column.name.eq_ignore_ascii_case(name));
            let earlier = |other: &&Option<&'static Column>| {
                other
                    .zip(column)
                    .is_some_and(|(left, right)| left.quantity == right.quantity)
            };
            match (column, columns.iter().find(earlier)) {
                (Some(column), Some(Some(other))) if other.name == column.name => {
                    problems.push(problem(
                        format!("column `{name}` twice"),
                        "each column once".to_owned(),
                    ));
                }
                (Some(column), Some(Some(other))) => problems.push(problem(
                    format!("columns `{}` and `{name}`", other.name),
                    format!("one column for `{}`", column.quantity),
                )),
                (None, _) if !name.is_empty() => {
                    let unknown = problem(
                        format!("column {}", quoted(name)),
                        "a known column".to_owned(),
                    )
                    .at_column(place_in_line(row, place));
                    let names = known.iter().map(|column| column.name);
                    problems.push(match nearest(name, names.clone()) {
                        Some(near) => unknown.with_hint(format!("did you mean `{near}`?")),
                        None => unknown.with_hint(format!(
                            "the columns are {}",
                            names.collect::<Vec<_>>().join(", ")
                        )),
                    });
                }
                _ => {}
            }
            columns.push(column);
        }
        let mut complete = true;
        for quantity in required {
            if columns
                .iter()
                .flatten()
                .all(|column| column.quantity != *quantity)
            {
                complete = false;
                let names: Vec<String> = known
                    .iter()
                    .filter(|column| column.quantity == *quantity)
                    .map(|column| format!("`{}`", column.name))
                    .collect();
                problems.push(problem(
                    format!("no column for `{quantity}`"),
                    format!("a column {}", names.join(" or ")),
                ));
            }
        }
        let header = complete.then(|| Self {
            names: row.cells().map(str::to_owned).collect(),
            columns,
        });
        (header, problems)
    }

    /// Where a quantity's column is, if the file has one.
    pub(super) fn place(&self, quantity: &str) -> Option<usize> {
        self.columns
            .iter()
            .position(|column| column.is_some_and(|column| column.quantity == quantity))
    }

    /// The column at a place.
    pub(super) fn column(&self, place: usize) -> Option<&'static Column> {
        self.columns.get(place).copied().flatten()
    }

    /// The name above a place, as written.
    pub(super) fn name(&self, place: usize) -> &str {
        self.names.get(place).map_or("", String::as_str)
    }

    /// How many columns the file has.
    pub(super) fn len(&self) -> usize {
        self.columns.len()
    }

    /// Whether something may stand below a place: its column has a name, be it an unknown one, which is a problem told once.
    pub(super) fn is_named(&self, place: usize) -> bool {
        self.names.get(place).is_some_and(|name| !name.is_empty())
    }

    /// Whether every column has a name.
    pub(super) fn is_fully_named(&self) -> bool {
        self.names.iter().all(|name| !name.is_empty())
    }
}

/// The character of the line at which a cell begins, counted from 1, as long as no earlier cell is quoted.
fn place_in_line(row: Row<'_>, place: usize) -> usize {
    row.cells()
        .take(place)
        .map(|cell| cell.chars().count() + 1)
        .sum::<usize>()
        + 1
}
