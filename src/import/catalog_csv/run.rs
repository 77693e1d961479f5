//! One import from beginning to end.

use std::collections::HashMap;
use std::io::Read;

use super::cells::{Cells, Place};
use super::files::{CatalogFiles, Input, unreadable};
use super::header::{Column, Header};
use super::lookup::{Known, KnownUnit, next_row, report_duplicate, row_problem};
use super::problems::ProblemList;
use super::rows::RowReader;
use super::summary::Summary;
use super::{points, sources, units};
use crate::catalog::{Catalog, CatalogError, Change, Writing, WrittenPoint};
use crate::equipment::SourceId;
use crate::import::{Problem, Problems};

/// Why nothing was imported.
#[derive(Debug, thiserror::Error)]
pub enum ImportError {
    /// The files have problems; the catalog is as it was.
    #[error("{problems}{}", and_more(*.more))]
    Problems {
        /// The problems, in the order of files and lines.
        problems: Problems,
        /// How many more there are than are listed.
        more: usize,
    },
    /// The catalog cannot be written to, or is damaged.
    #[error(transparent)]
    Catalog(#[from] CatalogError),
}

impl From<Problems> for ImportError {
    fn from(problems: Problems) -> Self {
        Self::Problems { problems, more: 0 }
    }
}

fn and_more(more: usize) -> String {
    if more == 0 {
        String::new()
    } else {
        format!("\nand {more} more problems")
    }
}

/// How many units without points are named.
const NAMED_WITHOUT_POINTS: usize = 5;

/// Imports catalog files in one transaction: all rows or none.
///
/// An entry is replaced whole: a unit of `units.csv` takes the place of the unit with its key, and with a `points.csv`
/// its points take the place of the earlier ones. Without a `points.csv` units keep the points that they have. Importing
/// the same files again changes nothing.
///
/// # Errors
/// [`ImportError`]: every problem of the files, or why the catalog cannot be written to. The catalog is as it was.
pub fn import_catalog(catalog: &mut Catalog, files: &CatalogFiles) -> Result<Summary, ImportError> {
    match Import::run(catalog, files, Order::UnitByUnit)? {
        Some(summary) => Ok(summary),
        None => Import::run(catalog, files, Order::Any)?.map_or_else(|| Ok(Summary::default()), Ok),
    }
}

/// In which order the points of units come.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Order {
    /// The points of a unit in one run: they are written as soon as the next unit begins.
    UnitByUnit,
    /// Any: all points are kept in memory first.
    Any,
}

struct Import<'c> {
    writing: Writing<'c>,
    problems: ProblemList,
    summary: Summary,
    known: Known,
}

impl<'c> Import<'c> {
    /// `None`: the points do not come unit by unit.
    fn run(
        catalog: &'c mut Catalog,
        files: &CatalogFiles,
        order: Order,
    ) -> Result<Option<Summary>, ImportError> {
        let mut import = Self {
            writing: catalog.write()?,
            problems: ProblemList::default(),
            summary: Summary::default(),
            known: Known::default(),
        };
        if let Some(input) = &files.sources {
            import.read_sources(input)?;
        }
        if let Some(input) = &files.units {
            import.read_units(input)?;
        }
        if let Some(input) = &files.points {
            match order {
                Order::UnitByUnit => {
                    if !import.read_points_unit_by_unit(input)? {
                        return Ok(None);
                    }
                }
                Order::Any => import.read_points_in_any_order(input)?,
            }
            import.clear_units_without_points()?;
        }
        import.finish().map(Some)
    }

    fn finish(mut self) -> Result<Summary, ImportError> {
        if !self.problems.is_empty() {
            let (problems, more) = self.problems.into_parts();
            return Err(ImportError::Problems { problems, more });
        }
        for unit in &self.known.units {
            self.summary.units.count(unit.change);
        }
        self.writing.commit()?;
        Ok(self.summary)
    }

    fn read_sources(&mut self, input: &Input) -> Result<(), CatalogError> {
        let Some((mut rows, header)) =
            self.begin(input, sources::SOURCE_COLUMNS, sources::REQUIRED)
        else {
            self.known.sources_unread = true;
            return Ok(());
        };
        let places = sources::Places::of(&header);
        let mut lines: HashMap<String, usize> = HashMap::new();
        while let Some(row) = next_row(&mut rows, &mut self.problems) {
            let mut cells = Cells::of(&header, row, &mut self.problems);
            let Some(key) = places.key(&mut cells) else {
                continue;
            };
            if let Some(line) = lines.insert(key.to_owned(), row.line) {
                report_duplicate(&mut cells, header.place("source"), key, line);
            }
            let source = places.read(key, &mut cells);
            let id = match source {
                Some(source) => {
                    let (id, change) = self.writing.put_source(&source)?;
                    self.summary.sources.count(change);
                    Some(id)
                }
                None => None,
            };
            self.known.sources.insert(key.to_owned(), id);
        }
        Ok(())
    }

    fn read_units(&mut self, input: &Input) -> Result<(), CatalogError> {
        let Some((mut rows, header)) = self.begin(input, units::UNIT_COLUMNS, units::REQUIRED)
        else {
            self.known.units_unread = true;
            return Ok(());
        };
        let places = units::Places::of(&header);
        while let Some(row) = next_row(&mut rows, &mut self.problems) {
            let mut cells = Cells::of(&header, row, &mut self.problems);
            let Some(key) = places.key(&mut cells) else {
                continue;
            };
            if let Some(place) = self.known.listed_unit(key) {
                let line = self.known.units[place].line.unwrap_or_default();
                report_duplicate(&mut cells, header.place("unit"), key, line);
            }
            let mut failure = None;
            let mut source_id = |cells: &mut Cells<'_>, place: Place, key: &str| {
                self.known
                    .source(&self.writing, cells, place, key)
                    .unwrap_or_else(|error| {
                        failure = Some(error);
                        None
                    })
            };
            let read = places.read(key, &mut cells, &mut source_id);
            if let Some(error) = failure {
                return Err(error);
            }
            let mut known = KnownUnit {
                key: key.to_owned(),
                id: None,
                line: Some(row.line),
                change: Change::Unchanged,
                points_written: false,
            };
            if let Some((model, as_written)) = read {
                let (id, change) = self.writing.put_model(&model, as_written.as_deref())?;
                known.id = Some((id, model.source));
                known.change = change;
            }
            self.known.note_unit(known);
        }
        Ok(())
    }

    /// `false`: a unit's points come in more than one run.
    fn read_points_unit_by_unit(&mut self, input: &Input) -> Result<bool, CatalogError> {
        let mut current: Option<usize> = None;
        let mut lines = Vec::new();
        let mut pending = Vec::new();
        let complete = self.read_points(input, |import, place, line, point| {
            if current != Some(place) {
                if let Some(done) = current {
                    import.write_points(done, &mut lines, &mut pending)?;
                }
                current = Some(place);
            }
            if import.known.units[place].points_written {
                return Ok(false);
            }
            lines.push(line);
            pending.push(point);
            Ok(true)
        })?;
        if complete && let Some(done) = current {
            self.write_points(done, &mut lines, &mut pending)?;
        }
        Ok(complete)
    }

    fn read_points_in_any_order(&mut self, input: &Input) -> Result<(), CatalogError> {
        let mut by_unit: Vec<(Vec<usize>, Vec<WrittenPoint>)> = Vec::new();
        self.read_points(input, |_, place, line, point| {
            if by_unit.len() <= place {
                by_unit.resize_with(place + 1, Default::default);
            }
            by_unit[place].0.push(line);
            by_unit[place].1.push(point);
            Ok(true)
        })?;
        for (place, (mut lines, mut points)) in by_unit.into_iter().enumerate() {
            if !points.is_empty() {
                self.write_points(place, &mut lines, &mut points)?;
            }
        }
        Ok(())
    }

    /// Hands every sound point to `take`, with its unit's place and its line, until that says `false`.
    fn read_points(
        &mut self,
        input: &Input,
        mut take: impl FnMut(&mut Self, usize, usize, WrittenPoint) -> Result<bool, CatalogError>,
    ) -> Result<bool, CatalogError> {
        let Some((mut rows, header)) = self.begin(input, points::POINT_COLUMNS, points::REQUIRED)
        else {
            return Ok(true);
        };
        let places = points::Places::of(&header);
        let mut last: (String, usize) = (String::new(), 0);
        while let Some(row) = next_row(&mut rows, &mut self.problems) {
            let mut cells = Cells::of(&header, row, &mut self.problems);
            let Some(key) = places.unit(&mut cells) else {
                continue;
            };
            if last.0 != key {
                let found = self
                    .known
                    .unit(&self.writing, &mut cells, places.unit_place(), key)?;
                let Some(place) = found else {
                    continue;
                };
                key.clone_into(&mut last.0);
                last.1 = place;
            }
            // A point of a unit whose own row has a problem is still looked at, for its own problems.
            let unit = self.known.units[last.1].id;
            let unit_source = unit.map_or(SourceId(0), |(_, source)| source);
            let mut failure = None;
            let mut source_id = |cells: &mut Cells<'_>, place: Place, key: &str| {
                self.known
                    .source(&self.writing, cells, place, key)
                    .unwrap_or_else(|error| {
                        failure = Some(error);
                        None
                    })
            };
            let point = places.read(&mut cells, unit_source, &mut source_id);
            if let Some(error) = failure {
                return Err(error);
            }
            let line = row.line;
            if let Some(point) = point {
                self.summary.points += 1;
                if !take(self, last.1, line, point)? {
                    return Ok(false);
                }
            }
        }
        Ok(true)
    }

    /// Writes the points of one unit and empties the lists.
    fn write_points(
        &mut self,
        place: usize,
        lines: &mut Vec<usize>,
        points: &mut Vec<WrittenPoint>,
    ) -> Result<(), CatalogError> {
        self.known.units[place].points_written = true;
        let duplicates = self.report_duplicate_points(lines, points);
        if let Some((id, _)) = self.known.units[place].id
            && !duplicates
        {
            let change = self.writing.put_points(id, points)?;
            let unit = &mut self.known.units[place];
            if unit.change != Change::New && change != Change::Unchanged {
                unit.change = Change::Replaced;
            }
        }
        lines.clear();
        points.clear();
        Ok(())
    }

    fn report_duplicate_points(&mut self, lines: &[usize], points: &[WrittenPoint]) -> bool {
        let mut order: Vec<usize> = (0..points.len()).collect();
        order.sort_by(|&left, &right| {
            points[left]
                .point
                .compare_place(&points[right].point)
                .then(left.cmp(&right))
        });
        let mut any = false;
        for pair in order.windows(2) {
            if points[pair[0]]
                .point
                .compare_place(&points[pair[1]].point)
                .is_eq()
            {
                any = true;
                let problem = Problem::new(
                    self.problems.file(),
                    format!("the point of line {} again", lines[pair[0]]),
                    "one point at a mode, speed, outdoor temperature and indoor condition",
                );
                self.problems.push(problem.on_line(lines[pair[1]]));
            }
        }
        any
    }

    /// Units of `units.csv` that the points file does not mention have no points any more.
    fn clear_units_without_points(&mut self) -> Result<(), CatalogError> {
        for unit in &mut self.known.units {
            let (Some((id, _)), false) = (unit.id, unit.points_written) else {
                continue;
            };
            let change = self.writing.put_points(id, &mut [])?;
            if change != Change::Unchanged && unit.change != Change::New {
                unit.change = Change::Replaced;
            }
            self.summary.units_without_points_count += 1;
            if self.summary.units_without_points.len() < NAMED_WITHOUT_POINTS {
                self.summary.units_without_points.push(unit.key.clone());
            }
        }
        Ok(())
    }

    /// Opens a file and reads its header; `None` where its rows cannot be read.
    fn begin(
        &mut self,
        input: &Input,
        known: &'static [Column],
        required: &[&str],
    ) -> Option<(RowReader<Box<dyn Read>>, Header)> {
        let name = input.name();
        self.problems.begin(&name);
        let mut rows = match input.open() {
            Ok(file) => RowReader::new(file),
            Err(error) => {
                self.problems.push(unreadable(name.as_ref(), &error));
                return None;
            }
        };
        let (header, problems) = match rows.next() {
            Ok(Some(row)) => Header::read(&name, row, known, required),
            Ok(None) => {
                let expected = format!("a header line with {}", required.join(", "));
                (None, vec![Problem::new(&name, "an empty file", expected)])
            }
            Err(error) => (None, vec![row_problem(&name, &error)]),
        };
        problems
            .into_iter()
            .for_each(|problem| self.problems.push(problem));
        header.map(|header| (rows, header))
    }
}
