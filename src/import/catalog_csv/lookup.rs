//! Finds what a row refers to: a source, a unit; and says so where there is none.

use std::collections::HashMap;

use super::cells::{Cells, Place};
use super::problems::ProblemList;
use super::rows::{Row, RowError, RowReader};
use crate::catalog::{CatalogError, Change, UnitId, Writing};
use crate::equipment::SourceId;
use crate::import::{Problem, nearest, quoted};

/// How many unknown keys get a suggestion: looking for one takes a walk through every key.
const SUGGESTIONS: usize = 20;

/// A unit that the import has met.
pub(super) struct KnownUnit {
    pub(super) key: String,
    /// `None`: its row has a problem.
    pub(super) id: Option<(UnitId, SourceId)>,
    /// Where `units.csv` has it; `None`: it is in the catalog only.
    pub(super) line: Option<usize>,
    pub(super) change: Change,
    pub(super) points_written: bool,
}

/// Units and sources that the import has met.
#[derive(Default)]
pub(super) struct Known {
    /// `None`: its row has a problem.
    pub(super) sources: HashMap<String, Option<SourceId>>,
    pub(super) units: Vec<KnownUnit>,
    unit_places: HashMap<String, usize>,
    suggestions: usize,
    /// Whether `sources.csv` could not be read: a source that is not found then says nothing.
    pub(super) sources_unread: bool,
    /// Whether `units.csv` could not be read: likewise.
    pub(super) units_unread: bool,
}

impl Known {
    /// The number of a source; `None` where there is none, which is reported, or where its own row has a problem.
    pub(super) fn source(
        &mut self,
        writing: &Writing<'_>,
        cells: &mut Cells<'_>,
        place: Place,
        key: &str,
    ) -> Result<Option<SourceId>, CatalogError> {
        if let Some(&id) = self.sources.get(key) {
            return Ok(id);
        }
        if let Some(id) = writing.source_id(key)? {
            self.sources.insert(key.to_owned(), Some(id));
            return Ok(Some(id));
        }
        if self.sources_unread {
            return Ok(None);
        }
        let mut keys: Vec<&str> = self.sources.keys().map(String::as_str).collect();
        keys.sort_unstable();
        let near = suggest(&mut self.suggestions, key, &keys);
        cells.report(
            place,
            &quoted(key),
            "a source of sources.csv or of the catalog",
            near.as_deref(),
        );
        Ok(None)
    }

    /// The place of a unit of `units.csv`, if it is one.
    pub(super) fn listed_unit(&self, key: &str) -> Option<usize> {
        self.unit_places.get(key).copied()
    }

    /// Notes a unit, unless one of that key is noted already.
    pub(super) fn note_unit(&mut self, unit: KnownUnit) -> usize {
        let next = self.units.len();
        let place = *self.unit_places.entry(unit.key.clone()).or_insert(next);
        if place == next {
            self.units.push(unit);
        }
        place
    }

    /// The place of a unit of `units.csv` or of the catalog; `None` where there is none, which is reported.
    pub(super) fn unit(
        &mut self,
        writing: &Writing<'_>,
        cells: &mut Cells<'_>,
        place: Place,
        key: &str,
    ) -> Result<Option<usize>, CatalogError> {
        if let Some(place) = self.listed_unit(key) {
            return Ok(Some(place));
        }
        if let Some(id) = writing.unit_id(key)? {
            return Ok(Some(self.note_unit(KnownUnit {
                key: key.to_owned(),
                id: Some(id),
                line: None,
                change: Change::Unchanged,
                points_written: false,
            })));
        }
        if self.units_unread {
            // Its points are still looked at, for their own problems.
            return Ok(Some(self.note_unit(KnownUnit {
                key: key.to_owned(),
                id: None,
                line: None,
                change: Change::Unchanged,
                points_written: false,
            })));
        }
        let keys: Vec<&str> = self.units.iter().map(|unit| unit.key.as_str()).collect();
        let near = suggest(&mut self.suggestions, key, &keys);
        cells.report(
            place,
            &quoted(key),
            "a unit of units.csv or of the catalog",
            near.as_deref(),
        );
        Ok(None)
    }
}

fn suggest(suggestions: &mut usize, key: &str, known: &[&str]) -> Option<String> {
    *suggestions += 1;
    if *suggestions > SUGGESTIONS {
        return None;
    }
    nearest(key, known.iter().copied()).map(|near| format!("did you mean `{near}`?"))
}

/// Reports that an entry stands a second time.
pub(super) fn report_duplicate(cells: &mut Cells<'_>, place: Place, key: &str, line: usize) {
    cells.report(
        place,
        &format!("{} again, after line {line}", quoted(key)),
        "each once",
        None,
    );
}

/// The next row; where the file cannot be read on, that is a problem, and its end.
pub(super) fn next_row<'r, R: std::io::Read>(
    rows: &'r mut RowReader<R>,
    problems: &mut ProblemList,
) -> Option<Row<'r>> {
    match rows.next() {
        Ok(row) => row,
        Err(error) => {
            let problem = row_problem(problems.file(), &error);
            problems.push(problem);
            None
        }
    }
}

/// Why a file cannot be read on.
pub(super) fn row_problem(file: &str, error: &RowError) -> Problem {
    match error {
        RowError::TooLong { line } => Problem::new(
            file,
            "a row of more than a million characters or 512 cells",
            "a row of a table",
        )
        .on_line(*line)
        .with_hint("a quotation mark may be open; nothing after this line was read"),
        RowError::NotText { line } => {
            Problem::new(file, "bytes that are no text", "CSV text in UTF-8")
                .on_line(*line)
                .with_hint("save the table as CSV UTF-8; nothing after this line was read")
        }
        RowError::Io(error) => Problem::new(file, error.to_string(), "a file that can be read"),
    }
}
