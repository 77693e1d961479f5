//! What a command reads from outside: the catalog, a house, criteria, a climate.

use std::fs;
use std::path::{Path, PathBuf};

use super::error::say;
use super::{App, CliError};
use crate::catalog::{Catalog, CatalogError, ExportError, catalog_path};
use crate::climate::Climate;
use crate::criteria::Criteria;
use crate::house::{ClimateReference, House};
use crate::import::catalog_csv::ImportError;
use crate::import::{Problems, climate_key, read_climate, read_criteria, read_house};
use crate::study::Brief;

impl From<CatalogError> for CliError {
    fn from(error: CatalogError) -> Self {
        let made = if error.is_unusable() {
            Self::catalog(&error)
        } else {
            Self::input(&error)
        };
        match error.hint() {
            Some(hint) => made.hint(hint),
            None => made,
        }
    }
}

impl From<Problems> for CliError {
    fn from(problems: Problems) -> Self {
        Self::input(problems)
    }
}

impl From<ImportError> for CliError {
    fn from(error: ImportError) -> Self {
        match error {
            ImportError::Catalog(error) => error.into(),
            ImportError::Problems { .. } => Self::input(format!(
                "nothing was imported; the files have problems\n{error}"
            )),
        }
    }
}

impl From<ExportError> for CliError {
    fn from(error: ExportError) -> Self {
        match error {
            ExportError::Catalog(error) => error.into(),
            error => Self::input(error),
        }
    }
}

/// Refuses a path in a folder that does not exist: only the platform's own data folder is made.
fn check_folder_of(path: &Path) -> Result<(), CliError> {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() && !folder.is_dir() => {
            Err(CliError::input(format!(
                "cannot create catalog `{}`: its folder does not exist",
                path.display()
            ))
            .hint("check the path, or make the folder first"))
        }
        _ => Ok(()),
    }
}

impl App {
    /// Where the catalog lies: as given, else in the platform's data folder.
    ///
    /// # Errors
    /// Where the platform names no data folder.
    pub fn catalog_place(&self) -> Result<PathBuf, CliError> {
        Ok(catalog_path(self.catalog_path.as_deref())?)
    }

    /// The catalog; a first run creates it from the data built into the program.
    ///
    /// # Errors
    /// Where it cannot be opened or created; where a folder that was named for it does not exist.
    pub fn catalog(&self) -> Result<Catalog, CliError> {
        let path = self.catalog_place()?;
        let is_new = !path.exists();
        if is_new && self.catalog_path.is_some() {
            check_folder_of(&path)?;
        }
        let catalog = Catalog::open_or_create(&path)?;
        if is_new {
            // On standard error, so that a mistyped path is noticed and the answer stays an answer.
            say(&format!(
                "created {} with the built-in data",
                path.display()
            ));
        }
        Ok(catalog)
    }

    /// Reads a weather file; its name without the ending becomes the climate's key.
    ///
    /// # Errors
    /// Where it cannot be read; every problem in it is listed.
    pub fn read_climate_file(&self, path: &Path) -> Result<Climate, CliError> {
        let bytes = fs::read(path).map_err(|error| {
            CliError::input(format!(
                "cannot read the weather file `{}`: {error}",
                path.display()
            ))
        })?;
        let file = path.display().to_string();
        Ok(read_climate(&file, &bytes, &climate_key(&file))?)
    }

    /// Reads a text file.
    ///
    /// # Errors
    /// Where it cannot be read, or is not UTF-8.
    pub fn read_text(&self, what: &str, path: &Path) -> Result<String, CliError> {
        let bytes = fs::read(path).map_err(|error| {
            CliError::input(format!("cannot read {what} `{}`: {error}", path.display()))
        })?;
        String::from_utf8(bytes).map_err(|error| {
            let at = error.utf8_error().valid_up_to();
            CliError::input(format!(
                "cannot read {what} `{}`: byte {} is not UTF-8 text",
                path.display(),
                at + 1
            ))
        })
    }

    /// Reads a house file.
    ///
    /// # Errors
    /// Where it cannot be read; every problem in it is listed.
    pub fn read_house(&self, path: &Path) -> Result<House, CliError> {
        let text = self.read_text("the house file", path)?;
        Ok(read_house(&path.display().to_string(), &text)?)
    }

    /// Reads a criteria file; without one, the built-in requirements at their defaults.
    ///
    /// # Errors
    /// Where it cannot be read; every problem in it is listed.
    pub fn read_criteria(&self, path: Option<&Path>) -> Result<Criteria, CliError> {
        let Some(path) = path else {
            return Ok(Criteria::default());
        };
        let text = self.read_text("the criteria file", path)?;
        Ok(read_criteria(&path.display().to_string(), &text)?)
    }

    /// What units are judged against: a house, its climate, what is asked. Returns the climate's key beside it.
    ///
    /// # Errors
    /// Where a file cannot be read, or the climate is not in the catalog.
    pub fn brief(
        &self,
        catalog: &Catalog,
        house_path: &Path,
        criteria_path: Option<&Path>,
        wanted_climate: Option<&str>,
    ) -> Result<(Brief, Option<String>), CliError> {
        let house = self.read_house(house_path)?;
        let criteria = self.read_criteria(criteria_path)?;
        let climate = self.climate_of(catalog, &house, house_path, wanted_climate)?;
        let brief = Brief::new(house, climate.as_ref(), criteria, self.units);
        Ok((brief, climate.map(|climate| climate.key)))
    }

    /// The climate a house stands in: `wanted` where it is named, else the house's own; `None` where it has none.
    ///
    /// # Errors
    /// Where the climate is not in the catalog, or its file cannot be read.
    pub fn climate_of(
        &self,
        catalog: &Catalog,
        house: &House,
        house_path: &Path,
        wanted: Option<&str>,
    ) -> Result<Option<Climate>, CliError> {
        if let Some(key) = wanted {
            return Ok(Some(catalog.climate(key)?));
        }
        match &house.climate {
            Some(ClimateReference::Catalog(key)) => Ok(Some(catalog.climate(key)?)),
            _ => self.climate_file_of(house, house_path),
        }
    }

    /// The climate of the weather file that a house names; `None` where it names none.
    ///
    /// # Errors
    /// Where it cannot be read.
    pub fn climate_file_of(
        &self,
        house: &House,
        house_path: &Path,
    ) -> Result<Option<Climate>, CliError> {
        let Some(ClimateReference::File(file)) = &house.climate else {
            return Ok(None);
        };
        let beside = house_path.parent().unwrap_or(Path::new("")).join(file);
        self.read_climate_file(&beside).map(Some)
    }
}
