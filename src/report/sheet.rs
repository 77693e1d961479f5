//! A table of typed cells, written as comma-separated values or as a spreadsheet workbook.

use rust_xlsxwriter::{
    DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Workbook, XlsxError,
};

use serde_json::Value;

use super::cautions::CAUTIONS;
use super::csv_text::csv_text;

/// Longest text that a workbook's cell may hold \[characters\].
const LONGEST_WORKBOOK_TEXT: usize = 32_767;
/// Widest column of a workbook \[characters\]; longer text is wrapped.
const WIDEST_COLUMN: f64 = 60.0;

/// One cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Nothing: not known, or not given.
    Blank,
    /// Words; never run as a formula.
    Text(String),
    /// A number in full precision.
    Number(f64),
}

impl Cell {
    /// A number where it is known and finite.
    #[must_use]
    pub fn number(value: Option<f64>) -> Self {
        value
            .filter(|value| value.is_finite())
            .map_or(Self::Blank, Self::Number)
    }

    /// Words where there are any.
    #[must_use]
    pub fn text(words: impl Into<String>) -> Self {
        let words = words.into();
        if words.is_empty() {
            Self::Blank
        } else {
            Self::Text(words)
        }
    }

    /// A value of an answer; `null` is blank, a list is joined.
    #[must_use]
    pub fn of(value: &Value) -> Self {
        match value {
            Value::Null => Self::Blank,
            Value::Number(number) => Self::number(number.as_f64()),
            Value::String(text) => Self::text(text.as_str()),
            Value::Bool(yes) => Self::text(if *yes { "yes" } else { "no" }),
            Value::Array(items) => {
                let words = items.iter().map(|item| match item {
                    Value::String(text) => text.clone(),
                    other => other.to_string(),
                });
                Self::text(words.collect::<Vec<_>>().join("; "))
            }
            Value::Object(_) => Self::text(value.to_string()),
        }
    }

    /// Words where they are given.
    #[must_use]
    pub fn optional_text(words: Option<&str>) -> Self {
        words.map_or(Self::Blank, Self::text)
    }
}

/// A table to be written for a spreadsheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sheet {
    /// What the table is called; at most 31 characters, none of `[ ] : * ? / \`.
    pub name: &'static str,
    /// Names of the columns, with their units.
    pub header: Vec<String>,
    /// The rows, each as long as the header.
    pub rows: Vec<Vec<Cell>>,
    /// What a reader must know beside the table: a sheet of its own in a workbook, left out of CSV.
    pub notes: Vec<String>,
}

impl Sheet {
    /// A table whose rows name their own columns: the header has every name once, in the order in which they appear, and
    /// a row that lacks one is blank there.
    #[must_use]
    pub fn of_named(name: &'static str, rows: Vec<Vec<(String, Cell)>>) -> Self {
        let mut header: Vec<String> = Vec::new();
        for (column, _) in rows.iter().flatten() {
            if !header.contains(column) {
                header.push(column.clone());
            }
        }
        let rows = rows
            .into_iter()
            .map(|row| {
                let mut cells = vec![Cell::Blank; header.len()];
                for (column, cell) in row {
                    if let Some(place) = header.iter().position(|name| *name == column) {
                        cells[place] = cell;
                    }
                }
                cells
            })
            .collect();
        Self {
            name,
            header,
            rows,
            notes: Vec::new(),
        }
    }

    /// A table of rows that serialise to flat objects: their names become columns, lists of words are joined.
    #[must_use]
    pub fn of_rows(name: &'static str, rows: &[impl serde::Serialize]) -> Self {
        let named = |row| match serde_json::to_value(row) {
            Ok(Value::Object(entries)) => entries
                .into_iter()
                .map(|(name, value)| (name, Cell::of(&value)))
                .collect(),
            _ => Vec::new(),
        };
        Self::of_named(name, rows.iter().map(named).collect())
    }

    /// The table as comma-separated values with a header line; numbers in full precision, what is not known blank.
    #[must_use]
    pub fn csv(&self) -> String {
        let words = |cell: &Cell| match cell {
            Cell::Blank => String::new(),
            Cell::Text(text) => text.clone(),
            Cell::Number(number) => number.to_string(),
        };
        let rows: Vec<Vec<String>> = self
            .rows
            .iter()
            .map(|row| row.iter().map(words).collect())
            .collect();
        csv_text(&self.header, &rows)
    }

    /// The table as a workbook of two sheets: the table with its header kept in view, and the notes.
    ///
    /// Words are written as strings, so that no spreadsheet runs them. `made` is the year, month and day written into the
    /// file's properties; with the same day the same table gives the same bytes.
    ///
    /// # Errors
    /// Where the table is larger than a workbook may be, or `made` is no date.
    pub fn xlsx(&self, made: (u16, u8, u8)) -> Result<Vec<u8>, XlsxError> {
        let mut workbook = Workbook::new();
        let day = ExcelDateTime::from_ymd(made.0, made.1, made.2)?;
        workbook.set_properties(&DocProperties::new().set_creation_datetime(&day));
        let head = Format::new()
            .set_bold()
            .set_text_wrap()
            .set_align(FormatAlign::Top)
            .set_border_bottom(FormatBorder::Thin);
        let words = Format::new()
            .set_text_wrap()
            .set_align(FormatAlign::Top)
            // The text format: what is typed over it stays text too.
            .set_num_format("@");
        let number = Format::new().set_align(FormatAlign::Top);

        let sheet = workbook.add_worksheet();
        sheet.set_name(self.name)?;
        sheet.set_freeze_panes(1, 0)?;
        for (place, name) in (0..).zip(&self.header) {
            sheet.write_string_with_format(0, place, fitted(name), &head)?;
        }
        for (line, row) in (1..).zip(&self.rows) {
            for (place, cell) in (0..).zip(row) {
                match cell {
                    Cell::Number(value) if value.is_finite() => {
                        sheet.write_number_with_format(line, place, *value, &number)?;
                    }
                    Cell::Number(_) | Cell::Blank => {}
                    Cell::Text(text) => {
                        sheet.write_string_with_format(line, place, fitted(text), &words)?;
                    }
                }
            }
        }
        for (place, width) in (0..).zip(self.widths()) {
            sheet.set_column_width(place, width)?;
        }
        if !self.notes.is_empty() {
            let notes = workbook.add_worksheet();
            notes.set_name("notes")?;
            notes.set_column_width(0, 100)?;
            for (line, note) in (0..).zip(&self.notes) {
                notes.write_string_with_format(line, 0, fitted(note), &words)?;
            }
        }
        workbook.save_to_buffer()
    }

    /// A width for each column: its longest cell, within reason.
    fn widths(&self) -> Vec<f64> {
        (0..self.header.len())
            .map(|place| {
                let longest = self
                    .rows
                    .iter()
                    .filter_map(|row| row.get(place))
                    .map(|cell| match cell {
                        Cell::Blank => 0,
                        Cell::Text(text) => text.chars().count(),
                        Cell::Number(_) => 10,
                    })
                    .max()
                    .unwrap_or(0);
                let head = self.header[place].chars().count().min(18);
                let longest = u32::try_from(longest.max(head)).unwrap_or(u32::MAX);
                (f64::from(longest) + 2.0).clamp(8.0, WIDEST_COLUMN)
            })
            .collect()
    }
}

/// What stands beside every table in a workbook: the house, its climate, where the units' numbers come from, cautions.
#[must_use]
pub fn sheet_notes(house: &str, climate: Option<&str>, sources: &[String]) -> Vec<String> {
    let climate = climate.unwrap_or("none, so no season is computed");
    let mut notes = vec![format!("House: {house}"), format!("Climate: {climate}")];
    notes.extend(sources.iter().map(|source| format!("Source: {source}")));
    notes.extend(CAUTIONS.map(str::to_owned));
    notes
}

/// Text that fits a workbook's cell; longer text ends in a visible `…`.
fn fitted(text: &str) -> String {
    if text.encode_utf16().count() <= LONGEST_WORKBOOK_TEXT {
        return text.to_owned();
    }
    let mut room = LONGEST_WORKBOOK_TEXT - 1;
    let mut kept: String = text
        .chars()
        .take_while(|character| {
            let wide = character.len_utf16();
            let fits = wide <= room;
            room = room.saturating_sub(wide);
            fits
        })
        .collect();
    kept.push('…');
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet() -> Sheet {
        Sheet {
            name: "quotes",
            header: vec!["quote".into(), "total".into()],
            rows: vec![
                vec![Cell::text("=1+1"), Cell::Number(-18.5)],
                vec![Cell::text("plain, with a comma"), Cell::Blank],
            ],
            notes: vec!["Invented.".into()],
        }
    }

    #[test]
    fn csv_keeps_numbers_and_disarms_formulas() {
        assert_eq!(
            sheet().csv(),
            "quote,total\n'=1+1,-18.5\n\"plain, with a comma\",\n"
        );
    }

    #[test]
    fn a_workbook_is_the_same_for_the_same_day() {
        let made = (2026, 8, 1);
        let bytes = sheet().xlsx(made).unwrap();
        // Any workbook is a zip archive.
        assert_eq!(bytes[..2], *b"PK");
        assert_eq!(bytes, sheet().xlsx(made).unwrap());
        assert_ne!(bytes, sheet().xlsx((2026, 8, 2)).unwrap());
    }

    #[test]
    fn text_beyond_a_workbooks_cell_is_cut_visibly() {
        let mut sheet = sheet();
        sheet.rows[1][0] = Cell::text("𝕎".repeat(40_000));
        assert!(sheet.xlsx((2026, 8, 1)).is_ok());
        assert!(fitted(&"x".repeat(40_000)).ends_with("x…"));
    }

    #[test]
    fn rows_that_name_their_columns_meet_under_one_header() {
        let row = |cells: &[(&str, f64)]| -> Vec<(String, Cell)> {
            cells
                .iter()
                .map(|&(name, value)| (name.to_owned(), Cell::Number(value)))
                .collect()
        };
        let sheet = Sheet::of_named(
            "a",
            vec![row(&[("x", 1.0)]), row(&[("y", 2.0), ("x", 3.0)])],
        );
        assert_eq!(sheet.csv(), "x,y\n1,\n3,2\n");
    }
}
