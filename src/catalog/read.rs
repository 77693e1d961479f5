//! Reads single entries and lists.

use rusqlite::{OptionalExtension, Row};

use super::unit_row::{MODEL_COLUMNS, POINT_COLUMN_COUNT, POINT_COLUMNS, read_model, read_point};
use super::{Catalog, CatalogError, WrittenPoint};
use crate::equipment::{Form, Model, Source, SourceId, SourceKind, Unit};
use crate::import::nearest;

/// How much a catalog holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Counts {
    /// Units.
    pub units: u64,
    /// Performance points.
    pub points: u64,
    /// Sources.
    pub sources: u64,
}

/// What a unit's file said where the catalog holds a converted number.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AsWritten {
    /// Of the declared figures.
    pub model: Option<String>,
    /// Of each point, in the order of [`Unit::points`].
    pub points: Vec<Option<String>>,
}

pub(super) const SOURCE_COLUMNS: &str =
    "id, key, title, publisher, year, reference, licence, kind, note";

pub(super) fn read_source(row: &Row<'_>) -> rusqlite::Result<(SourceId, Source)> {
    let kind: String = row.get(7)?;
    let kind = SourceKind::from_name(&kind).ok_or_else(|| {
        rusqlite::Error::InvalidColumnType(7, "kind".to_owned(), rusqlite::types::Type::Text)
    })?;
    let source = Source {
        key: row.get(1)?,
        title: row.get(2)?,
        publisher: row.get(3)?,
        year: row.get(4)?,
        reference: row.get(5)?,
        licence: row.get(6)?,
        kind,
        note: row.get(8)?,
    };
    Ok((SourceId(row.get(0)?), source))
}

impl Catalog {
    /// How much it holds.
    ///
    /// # Errors
    /// [`CatalogError`] where the file cannot be read.
    pub fn counts(&self) -> Result<Counts, CatalogError> {
        let count = |table: &str| {
            self.connection
                .query_row(&format!("SELECT count(*) FROM {table}"), [], |row| {
                    row.get::<_, i64>(0)
                })
                .map(i64::unsigned_abs)
                .map_err(|error| self.error(error))
        };
        Ok(Counts {
            units: count("unit")?,
            points: count("point")?,
            sources: count("source")?,
        })
    }

    /// Every unit's key, in the order of keys.
    ///
    /// # Errors
    /// [`CatalogError`] where the file cannot be read.
    pub fn keys(&self) -> Result<Vec<String>, CatalogError> {
        let read = || {
            self.connection
                .prepare_cached("SELECT key FROM unit ORDER BY key")?
                .query_map([], |row| row.get(0))?
                .collect::<rusqlite::Result<_>>()
        };
        read().map_err(|error| self.error(error))
    }

    /// The unit with this key.
    ///
    /// # Errors
    /// [`CatalogError::NotFound`] with a near key where there is none; else where the file cannot be read.
    pub fn unit(&self, key: &str) -> Result<Unit, CatalogError> {
        match self.find_unit(key).map_err(|error| self.error(error))? {
            Some((_, unit, _)) => Ok(unit),
            None => Err(self.not_found("unit", key)?),
        }
    }

    /// The unit with this key, and its numbers as its file wrote them.
    ///
    /// # Errors
    /// As [`Catalog::unit`].
    pub fn unit_as_written(&self, key: &str) -> Result<(Unit, AsWritten), CatalogError> {
        match self.find_unit(key).map_err(|error| self.error(error))? {
            Some((_, unit, as_written)) => Ok((unit, as_written)),
            None => Err(self.not_found("unit", key)?),
        }
    }

    /// Every source, in the order of keys.
    ///
    /// # Errors
    /// [`CatalogError`] where the file cannot be read.
    pub fn sources(&self) -> Result<Vec<(SourceId, Source)>, CatalogError> {
        let read = || {
            self.connection
                .prepare_cached(&format!("SELECT {SOURCE_COLUMNS} FROM source ORDER BY key"))?
                .query_map([], read_source)?
                .collect::<rusqlite::Result<_>>()
        };
        read().map_err(|error| self.error(error))
    }

    /// One source.
    ///
    /// # Errors
    /// [`CatalogError::NotFound`] where there is none with that number.
    pub fn source(&self, id: SourceId) -> Result<Source, CatalogError> {
        let read = || {
            self.connection
                .prepare_cached(&format!(
                    "SELECT {SOURCE_COLUMNS} FROM source WHERE id = ?1"
                ))?
                .query_row([id.0], read_source)
                .optional()
        };
        match read().map_err(|error| self.error(error))? {
            Some((_, source)) => Ok(source),
            None => Err(CatalogError::NotFound {
                what: "source",
                key: id.0.to_string(),
                nearest: None,
            }),
        }
    }

    /// How often the content has changed; the same number, the same content.
    ///
    /// # Errors
    /// [`CatalogError`] where the file cannot be read.
    pub fn revision(&self) -> Result<i64, CatalogError> {
        revision(&self.connection).map_err(|error| self.error(error))
    }

    pub(super) fn find_unit(&self, key: &str) -> rusqlite::Result<Option<(i64, Unit, AsWritten)>> {
        let mut model = Model::new("", Form::Ducted, SourceId(0));
        let found = self
            .connection
            .prepare_cached(&format!(
                "SELECT {MODEL_COLUMNS}, id, as_written FROM unit WHERE key = ?1"
            ))?
            .query_row([key], |row| {
                read_model(row, 0, &mut model)?;
                Ok((row.get("id")?, row.get("as_written")?))
            })
            .optional()?;
        let Some((id, as_written)) = found else {
            return Ok(None);
        };
        let mut points = Vec::new();
        let mut as_written = AsWritten {
            model: as_written,
            points: Vec::new(),
        };
        for written in points_of(&self.connection, id)? {
            points.push(written.point);
            as_written.points.push(written.as_written);
        }
        Ok(Some((id, Unit { model, points }, as_written)))
    }

    fn not_found(&self, what: &'static str, key: &str) -> Result<CatalogError, CatalogError> {
        let keys = self.keys()?;
        let nearest = nearest(key, keys.iter().map(String::as_str)).map(str::to_owned);
        Ok(CatalogError::NotFound {
            what,
            key: key.to_owned(),
            nearest,
        })
    }
}

pub(super) fn revision(connection: &rusqlite::Connection) -> rusqlite::Result<i64> {
    connection.query_row("SELECT number FROM revision", [], |row| row.get(0))
}

/// A unit's points in their order.
pub(super) fn points_of(
    connection: &rusqlite::Connection,
    unit: i64,
) -> rusqlite::Result<Vec<WrittenPoint>> {
    connection
        .prepare_cached(&format!(
            "SELECT {POINT_COLUMNS}, as_written FROM point WHERE unit_id = ?1 \
             ORDER BY unit_id, mode, speed, outdoor_db_c, indoor_condition"
        ))?
        .query_map([unit], |row| {
            Ok(WrittenPoint {
                point: read_point(row, 0)?,
                as_written: row.get(POINT_COLUMN_COUNT)?,
            })
        })?
        .collect()
}
