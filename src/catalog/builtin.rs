//! The data built into the program, and the first run that makes a catalog of it.

use std::path::{Path, PathBuf};

use etcetera::BaseStrategy;

use super::{Catalog, CatalogError};
use crate::import::built_in_climates;
use crate::import::catalog_csv::{CatalogFiles, ImportError, Input, import_catalog};

/// Names the environment variable that holds the catalog's path.
pub const CATALOG_VARIABLE: &str = "OVERWINTER_CATALOG";

/// The built-in data, as the files that anyone could import.
#[must_use]
pub fn builtin_files() -> CatalogFiles {
    let text = |name, text| Some(Input::Text { name, text });
    CatalogFiles {
        sources: text(
            "catalog/sources.csv",
            include_str!("../../catalog/sources.csv"),
        ),
        units: text("catalog/units.csv", include_str!("../../catalog/units.csv")),
        points: text(
            "catalog/points.csv",
            include_str!("../../catalog/points.csv"),
        ),
    }
}

/// Where the catalog is: the path given, else the environment's, else in the platform's folder for data.
///
/// # Errors
/// [`CatalogError::NoDataFolder`] where the platform names none.
pub fn catalog_path(given: Option<&Path>) -> Result<PathBuf, CatalogError> {
    if let Some(path) = given {
        return Ok(path.to_path_buf());
    }
    if let Some(path) = std::env::var_os(CATALOG_VARIABLE).filter(|path| !path.is_empty()) {
        return Ok(PathBuf::from(path));
    }
    let folders = etcetera::choose_base_strategy().map_err(|_| CatalogError::NoDataFolder)?;
    Ok(folders.data_dir().join("overwinter").join("catalog.db"))
}

impl Catalog {
    /// The built-in data in memory.
    ///
    /// # Errors
    /// [`ImportError`] where the data compiled in cannot be read, which a test rules out.
    pub fn builtin() -> Result<Self, ImportError> {
        let mut catalog = Self::in_memory()?;
        fill(&mut catalog)?;
        Ok(catalog)
    }

    /// Opens a catalog; where there is no file, one is created from the built-in data first.
    ///
    /// The new file is filled under another name and then given its own, so that no other program ever sees half of it.
    ///
    /// # Errors
    /// As [`Catalog::open`], or where the file cannot be created.
    pub fn open_or_create(path: &Path) -> Result<Self, ImportError> {
        if !path.exists() {
            create_builtin(path)?;
        }
        Ok(Self::open(path)?)
    }
}

/// Puts the built-in units, points, sources and climates into an empty catalog.
fn fill(catalog: &mut Catalog) -> Result<(), ImportError> {
    import_catalog(catalog, &builtin_files())?;
    let climates = built_in_climates()?;
    let mut writing = catalog.write()?;
    for climate in &climates {
        writing.put_climate(climate)?;
    }
    Ok(writing.commit()?)
}

fn create_builtin(path: &Path) -> Result<(), ImportError> {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(format!(".new-{}", std::process::id()));
    let unfinished = path.with_file_name(name);
    let result = Catalog::create(&unfinished)
        .map_err(|error| ImportError::Catalog(error.about(path)))
        .and_then(|mut catalog| {
            fill(&mut catalog)?;
            // Closing moves everything from the write-ahead log into the file.
            drop(catalog);
            put_in_place(&unfinished, path).map_err(|error| {
                ImportError::Catalog(CatalogError::Unreachable {
                    path: path.to_path_buf(),
                    verb: "create",
                    reason: error.to_string(),
                })
            })
        });
    // Its name goes; the content stays under the catalog's own name where that worked.
    let _ = std::fs::remove_file(&unfinished);
    result
}

/// Gives a file its own name without ever taking the place of another that appeared meanwhile.
fn put_in_place(unfinished: &Path, path: &Path) -> std::io::Result<()> {
    match std::fs::hard_link(unfinished, path) {
        Ok(()) => Ok(()),
        Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => Ok(()),
        // A file system without second names.
        Err(_) if !path.exists() => std::fs::rename(unfinished, path),
        Err(_) => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::equipment::{Form, Mode, Speed};
    use crate::quantity::Celsius;

    #[test]
    fn the_first_run_creates_a_catalog_and_the_second_opens_it() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("new folder").join("catalog.db");
        let first = Catalog::open_or_create(&path).unwrap();
        let counts = first.counts().unwrap();
        assert_eq!((counts.units, counts.sources), (48, 3));
        drop(first);
        let before = std::fs::read(&path).unwrap();
        assert_eq!(
            Catalog::open_or_create(&path).unwrap().counts().unwrap(),
            counts
        );
        assert_eq!(std::fs::read(&path).unwrap(), before);
        let names: Vec<_> = std::fs::read_dir(path.parent().unwrap())
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .filter(|name| name.contains(".new-"))
            .collect();
        assert_eq!(names, Vec::<String>::new());
    }

    #[test]
    fn a_first_run_that_comes_second_leaves_the_other_ones_catalog() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("catalog.db");
        create_builtin(&path).unwrap();
        let mut other = Catalog::create(&folder.path().join("other.db")).unwrap();
        import_catalog(&mut other, &CatalogFiles::default()).unwrap();
        drop(other);
        // The second to finish finds the first one's file and leaves it.
        put_in_place(&folder.path().join("other.db"), &path).unwrap();
        assert_eq!(Catalog::open(&path).unwrap().counts().unwrap().units, 48);
    }

    // The register's values of one unit, read in its table: AA001.
    #[test]
    fn certified_points_have_the_speeds_that_the_source_note_says() {
        let catalog = Catalog::builtin().unwrap();
        let unit = catalog.unit("AA001").unwrap();
        assert_eq!(unit.model.form, Form::Wall);
        assert_eq!(unit.model.operates_to, Some(Celsius(-15.0)));
        assert_eq!((unit.model.scop, unit.model.seer), (Some(5.1), Some(9.0)));
        let heating: Vec<(f64, Speed, f64)> = unit
            .points
            .iter()
            .filter(|point| point.mode == Mode::Heating)
            .map(|point| (point.outdoor.0, point.speed, point.capacity.0))
            .collect();
        let expected = [
            (12.0, Speed::Minimum, 1.23),
            (2.0, Speed::Rated, 1.64),
            (7.0, Speed::Rated, 1.05),
            (-15.0, Speed::Maximum, 2.69),
            (-7.0, Speed::Maximum, 2.58),
        ];
        assert_eq!(heating, expected);
        // Declared for the warmer season only: its end says nothing of the unit's own limit.
        assert_eq!(catalog.unit("AA022").unwrap().model.operates_to, None);
        assert_eq!(catalog.unit("AA024").unwrap().model.operates_to, None);
        let source = catalog.source(unit.model.source).unwrap();
        assert_eq!(source.licence.as_deref(), Some("CC BY 4.0"));
    }

    // Source: the map itself, capacity_per_nominal and COP at speed 4, -8.33 °C: 0.74892 and 2.73943.
    #[test]
    fn generic_maps_are_scaled_and_end_where_their_lowest_speed_is_usable() {
        let catalog = Catalog::builtin().unwrap();
        let unit = catalog.unit("generic ducted 9 kW").unwrap();
        let at = |speed, outdoor: f64| {
            unit.points.iter().find(|point| {
                (point.mode, point.speed, point.outdoor) == (Mode::Heating, speed, Celsius(outdoor))
            })
        };
        let maximum = at(Speed::Maximum, -8.33).unwrap();
        assert!((maximum.capacity.0 - 9.0 * 0.74892).abs() < 1e-4);
        assert!((maximum.cop() - 2.73943).abs() < 1e-9);
        assert!(at(Speed::Minimum, -8.33).is_some() && at(Speed::Minimum, -15.0).is_none());
        assert!(at(Speed::Maximum, -25.0).is_some());
    }
}
