//! Reads the cells of one row: words and numbers with their limits, noting whatever is wrong.

use super::header::Header;
use super::problems::ProblemList;
use super::rows::Row;
use crate::import::{Problem, nearest, quoted};

/// Where a quantity's column is in this file; `None`: the file has none.
pub(super) type Place = Option<usize>;

/// The cells of one row.
pub(super) struct Cells<'a> {
    pub(super) header: &'a Header,
    pub(super) row: Row<'a>,
    pub(super) problems: &'a mut ProblemList,
    /// What converted cells said, to be kept.
    pub(super) as_written: String,
    sound: bool,
}

/// Which numbers a cell may hold.
#[derive(Clone, Copy)]
pub(super) enum Limits {
    /// Above zero.
    AboveZero,
    /// Zero or above.
    ZeroOrAbove,
    /// From the first to the second.
    Within(f64, f64),
    /// Above 0, at most 1.
    Share,
    /// From 0 to below 1.
    BelowOne,
}

impl Limits {
    fn holds(self, value: f64) -> bool {
        match self {
            Self::AboveZero => value > 0.0,
            Self::ZeroOrAbove => value >= 0.0,
            Self::Within(low, high) => (low..=high).contains(&value),
            Self::Share => value > 0.0 && value <= 1.0,
            Self::BelowOne => (0.0..1.0).contains(&value),
        }
    }

    fn expected(self) -> String {
        match self {
            Self::AboveZero => "a number above zero".to_owned(),
            Self::ZeroOrAbove => "a number, zero or above".to_owned(),
            Self::Within(low, high) => format!("a temperature from {low} to {high} °C"),
            Self::Share => "a number above 0 and at most 1".to_owned(),
            Self::BelowOne => "a number from 0 to below 1".to_owned(),
        }
    }
}

impl<'a> Cells<'a> {
    /// The cells of a row, with its number of cells checked against the header.
    pub(super) fn of(header: &'a Header, row: Row<'a>, problems: &'a mut ProblemList) -> Self {
        let mut cells = Self {
            header,
            row,
            problems,
            as_written: String::new(),
            sound: true,
        };
        if row.len() != header.len() {
            let hint = "a text with a comma in it needs quotation marks around it";
            cells.report(
                None,
                &format!("{} cells", row.len()),
                &format!("{} cells, as the header has", header.len()),
                Some(hint),
            );
        } else if !header.is_fully_named() {
            for place in 0..row.len() {
                if !header.is_named(place) && !row.cell(place).is_empty() {
                    cells.report(
                        Some(place),
                        &quoted(row.cell(place)),
                        "nothing below a column without a name",
                        None,
                    );
                }
            }
        }
        cells
    }

    /// Whether the row has as many cells as the header: else no cell is surely what it seems.
    pub(super) fn is_whole(&self) -> bool {
        self.row.len() == self.header.len()
    }

    /// Whether nothing was wrong with the row so far.
    pub(super) fn is_sound(&self) -> bool {
        self.sound
    }

    /// What converted cells said; `None`: nothing was converted.
    pub(super) fn take_as_written(&mut self, column: Place) -> Option<String> {
        let computed = std::mem::take(&mut self.as_written);
        self.text(column)
            .map(str::to_owned)
            .or((!computed.is_empty()).then_some(computed))
    }

    /// Notes a problem with this row.
    pub(super) fn report(&mut self, place: Place, found: &str, expected: &str, hint: Option<&str>) {
        self.sound = false;
        let mut problem =
            Problem::new(self.problems.file(), found, expected).on_line(self.row.line);
        if let Some(place) = place {
            problem = problem.in_field(self.header.name(place));
        }
        if let Some(hint) = hint {
            problem = problem.with_hint(hint);
        }
        self.problems.push(problem);
    }

    /// A text; `None`: not published.
    pub(super) fn text(&self, place: Place) -> Option<&'a str> {
        place
            .map(|place| self.row.cell(place))
            .filter(|text| !text.is_empty())
    }

    /// A text that must be there.
    pub(super) fn needed_text(&mut self, place: Place, what: &str) -> Option<&'a str> {
        let text = self.text(place);
        if text.is_none() {
            self.report(place, "nothing", what, None);
        }
        text
    }

    /// One of a list of words.
    pub(super) fn word<T>(
        &mut self,
        place: Place,
        read: impl Fn(&str) -> Option<T>,
        words: impl Iterator<Item = &'static str> + Clone,
    ) -> Option<T> {
        let text = self.text(place)?;
        let word = read(text);
        if word.is_none() {
            let near = nearest(text, words.clone()).map(|near| format!("did you mean `{near}`?"));
            self.report(place, &quoted(text), &one_of(words), near.as_deref());
        }
        word
    }

    /// One of a list of words that must be there.
    pub(super) fn needed_word<T>(
        &mut self,
        place: Place,
        read: impl Fn(&str) -> Option<T>,
        words: impl Iterator<Item = &'static str> + Clone,
    ) -> Option<T> {
        if self.text(place).is_none() {
            self.report(place, "nothing", &one_of(words), None);
            return None;
        }
        self.word(place, read, words)
    }

    /// A number in the unit that the program computes in; `None`: not published, or not readable and reported.
    pub(super) fn number(&mut self, place: Place, limits: Limits) -> Option<f64> {
        let text = self.text(place)?;
        let Ok(written) = text.parse::<f64>() else {
            let comma = text.contains(',').then_some("a decimal sign is a point");
            self.report(place, &quoted(text), "a number", comma);
            return None;
        };
        let place_of = place?;
        let conversion = self
            .header
            .column(place_of)
            .and_then(|column| column.conversion);
        // Adding zero turns a negative zero into zero, so that one number has one form.
        let value = conversion.map_or(written, |conversion| (conversion.to_si)(written)) + 0.0;
        if !value.is_finite() {
            self.report(place, &quoted(text), "a finite number", None);
            return None;
        }
        if !limits.holds(value) {
            self.report(place, &quoted(text), &limits.expected(), None);
            return None;
        }
        if let Some((unit, column)) = conversion
            .and_then(|c| c.unit)
            .zip(self.header.column(place_of))
        {
            if !self.as_written.is_empty() {
                self.as_written.push_str("; ");
            }
            for part in [column.quantity, " ", text, " ", unit] {
                self.as_written.push_str(part);
            }
        }
        Some(value)
    }

    /// A number that must be there.
    pub(super) fn needed_number(&mut self, place: Place, limits: Limits) -> Option<f64> {
        if self.text(place).is_none() {
            self.report(place, "nothing", &limits.expected(), None);
            return None;
        }
        self.number(place, limits)
    }
}

fn one_of(words: impl Iterator<Item = &'static str>) -> String {
    let words: Vec<&str> = words.collect();
    match words.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        _ => words.concat(),
    }
}
