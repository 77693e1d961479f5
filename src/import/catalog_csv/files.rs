//! Which files an import reads: a folder's three, or files named one by one.

use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use super::points::POINT_COLUMNS;
use super::rows::RowReader;
use super::sources::SOURCE_COLUMNS;
use super::units::UNIT_COLUMNS;
use crate::import::{Problem, Problems};

/// A file, or text that stands for one.
#[derive(Clone, Debug)]
pub enum Input {
    /// A file.
    File(PathBuf),
    /// Text compiled into the program.
    Text {
        /// What messages call it.
        name: &'static str,
        /// What it holds.
        text: &'static str,
    },
}

impl Input {
    /// What messages call it.
    #[must_use]
    pub fn name(&self) -> String {
        match self {
            Self::File(path) => path.display().to_string(),
            Self::Text { name, .. } => (*name).to_owned(),
        }
    }

    pub(super) fn open(&self) -> io::Result<Box<dyn Read>> {
        match self {
            Self::File(path) => {
                let file = File::open(path)?;
                if file.metadata()?.is_dir() {
                    return Err(io::Error::new(
                        io::ErrorKind::IsADirectory,
                        "it is a folder",
                    ));
                }
                Ok(Box::new(file))
            }
            Self::Text { text, .. } => Ok(Box::new(text.as_bytes())),
        }
    }
}

/// The files of an import; any may be missing.
#[derive(Clone, Debug, Default)]
pub struct CatalogFiles {
    /// `sources.csv`.
    pub sources: Option<Input>,
    /// `units.csv`.
    pub units: Option<Input>,
    /// `points.csv`.
    pub points: Option<Input>,
}

const NAMES: [&str; 3] = ["sources.csv", "units.csv", "points.csv"];

impl CatalogFiles {
    /// Finds the files that paths stand for: of a folder, those of its three files that are there; of a file, itself, by
    /// its name or, where that says nothing, by its header.
    ///
    /// # Errors
    /// Problems: a path that does not exist, a folder without any of the three, a file that is none of them, two of a kind.
    pub fn find(paths: &[PathBuf]) -> Result<Self, Problems> {
        let mut files = Self::default();
        let mut problems = Problems::default();
        for path in paths {
            if path.is_dir() {
                let there: Vec<PathBuf> = NAMES
                    .iter()
                    .map(|name| path.join(name))
                    .filter(|path| path.exists())
                    .collect();
                if there.is_empty() {
                    problems.push(Problem::new(
                        path.display().to_string(),
                        "a folder without any of them",
                        NAMES.join(", "),
                    ));
                }
                for (place, name) in NAMES.iter().enumerate() {
                    let path = path.join(name);
                    if there.contains(&path) {
                        files.take(place, path, &mut problems);
                    }
                }
            } else if let Err(error) = File::open(path) {
                problems.push(unreadable(path, &error));
            } else if let Some(place) = kind_by_name(path).or_else(|| kind_by_header(path)) {
                files.take(place, path.clone(), &mut problems);
            } else {
                let problem = Problem::new(
                    path.display().to_string(),
                    "a file of another kind",
                    "one of sources.csv, units.csv, points.csv, by its name or its header",
                );
                problems.push(problem);
            }
        }
        problems.or(files)
    }

    fn take(&mut self, place: usize, path: PathBuf, problems: &mut Problems) {
        let slot = match place {
            0 => &mut self.sources,
            1 => &mut self.units,
            _ => &mut self.points,
        };
        if let Some(other) = slot {
            problems.push(Problem::new(
                path.display().to_string(),
                format!("a second {}, after {}", NAMES[place], other.name()),
                "one of each kind",
            ));
        } else {
            *slot = Some(Input::File(path));
        }
    }
}

pub(super) fn unreadable(path: &Path, error: &io::Error) -> Problem {
    let found = match error.kind() {
        io::ErrorKind::NotFound => "no such file".to_owned(),
        _ => error.to_string(),
    };
    Problem::new(path.display().to_string(), found, "a file that can be read")
}

fn kind_by_name(path: &Path) -> Option<usize> {
    let name = path.file_name()?.to_string_lossy().to_lowercase();
    NAMES.iter().position(|kind| name.ends_with(kind))
}

/// The kind whose columns the header names most of, if at least half of what it names.
fn kind_by_header(path: &Path) -> Option<usize> {
    let mut rows = RowReader::new(File::open(path).ok()?);
    let row = rows.next().ok()??;
    let known = [SOURCE_COLUMNS, UNIT_COLUMNS, POINT_COLUMNS].map(|columns| {
        row.cells()
            .filter(|cell| {
                columns
                    .iter()
                    .any(|column| column.name.eq_ignore_ascii_case(cell))
            })
            .count()
    });
    let most = *known.iter().max()?;
    (most * 2 >= row.len()).then(|| known.iter().position(|&count| count == most))?
}
