//! Writes sources, units and points: everything in one transaction, or nothing.

use rusqlite::{OptionalExtension, Transaction, TransactionBehavior, params};

use super::point_rows::insert_points;
use super::read::{SOURCE_COLUMNS, points_of, read_source};
use super::unit_row::{MODEL_COLUMN_COUNT, MODEL_COLUMNS, read_model, with_model_values};
use super::{Access, Catalog, CatalogError};
use crate::equipment::{Form, Model, Point, Source, SourceId};

/// A point, and its numbers as its file wrote them where they were converted.
#[derive(Clone, Debug, PartialEq)]
pub struct WrittenPoint {
    /// The point.
    pub point: Point,
    /// Such as `outdoor_db 5 °F; capacity 24000 Btu/h`; `None`: nothing was converted.
    pub as_written: Option<String>,
}

/// What writing an entry changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Change {
    /// It was there already, exactly so.
    Unchanged,
    /// It took the place of another content under the same key.
    Replaced,
    /// It is new.
    New,
}

/// Stands for one unit within a catalog.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct UnitId(pub i64);

/// A transaction under way. Dropped without [`Writing::commit`], it leaves the catalog as it was.
pub struct Writing<'c> {
    transaction: Transaction<'c>,
    path: Option<&'c std::path::Path>,
    changed: bool,
}

impl Catalog {
    /// Begins to write; waits for another writer to finish.
    ///
    /// # Errors
    /// [`CatalogError::ReadOnly`], or [`CatalogError::Busy`] where another writer does not finish.
    pub fn write(&mut self) -> Result<Writing<'_>, CatalogError> {
        let path = self.path.as_deref();
        if let (Access::ReadOnly, Some(path)) = (self.access, path) {
            return Err(CatalogError::ReadOnly(path.to_path_buf()));
        }
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(|error| CatalogError::from_sql(path, error))?;
        Ok(Writing {
            transaction,
            path,
            changed: false,
        })
    }

    /// Removes a unit and its points.
    ///
    /// # Errors
    /// [`CatalogError::NotFound`] where no unit has exactly that key.
    pub fn remove(&mut self, key: &str) -> Result<(), CatalogError> {
        let mut writing = self.write()?;
        if writing.remove(key)? {
            return writing.commit();
        }
        drop(writing);
        self.unit(key).map(|_| ())
    }
}

impl Writing<'_> {
    /// Stores a source under its key.
    ///
    /// # Errors
    /// Where the file cannot be written to.
    pub fn put_source(&mut self, source: &Source) -> Result<(SourceId, Change), CatalogError> {
        let stored = self.try_put_source(source);
        let (id, change) = self.checked(stored)?;
        self.changed |= change != Change::Unchanged;
        Ok((id, change))
    }

    fn try_put_source(&self, source: &Source) -> rusqlite::Result<(SourceId, Change)> {
        let there = self
            .transaction
            .prepare_cached(&format!(
                "SELECT {SOURCE_COLUMNS} FROM source WHERE key = ?1"
            ))?
            .query_row([&source.key], read_source)
            .optional()?;
        if let Some((id, there)) = &there
            && there == source
        {
            return Ok((*id, Change::Unchanged));
        }
        let id = self
            .transaction
            .prepare_cached(
                "INSERT INTO source (key, title, publisher, year, reference, licence, kind, note) \
                 VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8) \
                 ON CONFLICT (key) DO UPDATE SET title = ?2, publisher = ?3, year = ?4, reference = ?5, \
                 licence = ?6, kind = ?7, note = ?8 RETURNING id",
            )?
            .query_row(
                params![
                    source.key,
                    source.title,
                    source.publisher,
                    source.year,
                    source.reference,
                    source.licence,
                    source.kind.name(),
                    source.note
                ],
                |row| row.get(0).map(SourceId),
            )?;
        Ok((
            id,
            if there.is_some() {
                Change::Replaced
            } else {
                Change::New
            },
        ))
    }

    /// The number of the source with this key, if there is one.
    ///
    /// # Errors
    /// Where the file cannot be read.
    pub fn source_id(&self, key: &str) -> Result<Option<SourceId>, CatalogError> {
        let read = || {
            self.transaction
                .prepare_cached("SELECT id FROM source WHERE key = ?1")?
                .query_row([key], |row| row.get(0).map(SourceId))
                .optional()
        };
        self.checked(read())
    }

    /// The number of the unit with this key and its own source, if there is one.
    ///
    /// # Errors
    /// Where the file cannot be read.
    pub fn unit_id(&self, key: &str) -> Result<Option<(UnitId, SourceId)>, CatalogError> {
        let read = || {
            self.transaction
                .prepare_cached("SELECT id, source_id FROM unit WHERE key = ?1")?
                .query_row([key], |row| {
                    Ok((UnitId(row.get(0)?), SourceId(row.get(1)?)))
                })
                .optional()
        };
        self.checked(read())
    }

    /// Stores a model under its key; its points stay as they are.
    ///
    /// # Errors
    /// Where the file cannot be written to.
    pub fn put_model(
        &mut self,
        model: &Model,
        as_written: Option<&str>,
    ) -> Result<(UnitId, Change), CatalogError> {
        let stored = self.try_put_model(model, as_written);
        let (id, change) = self.checked(stored)?;
        self.changed |= change != Change::Unchanged;
        Ok((id, change))
    }

    fn try_put_model(
        &self,
        model: &Model,
        as_written: Option<&str>,
    ) -> rusqlite::Result<(UnitId, Change)> {
        let mut there = Model::new("", Form::Ducted, SourceId(0));
        let found = self
            .transaction
            .prepare_cached(&format!(
                "SELECT {MODEL_COLUMNS}, id, as_written FROM unit WHERE key = ?1"
            ))?
            .query_row([&model.key], |row| {
                read_model(row, 0, &mut there)?;
                Ok((
                    row.get(MODEL_COLUMN_COUNT)?,
                    row.get(MODEL_COLUMN_COUNT + 1)?,
                ))
            })
            .optional()?;
        let (id, change) = match found {
            Some((id, written)) => {
                let written: Option<String> = written;
                if there == *model && written.as_deref() == as_written {
                    return Ok((UnitId(id), Change::Unchanged));
                }
                (Some(id), Change::Replaced)
            }
            None => (None, Change::New),
        };
        with_model_values(model, |values| {
            let mut all: Vec<&dyn rusqlite::ToSql> = values.to_vec();
            all.push(&as_written);
            let statement = if id.is_some() {
                UPDATE_MODEL.as_str()
            } else {
                INSERT_MODEL.as_str()
            };
            if id.is_some() {
                all.push(&id);
            }
            self.transaction
                .prepare_cached(statement)?
                .execute(all.as_slice())
        })?;
        let id = id.unwrap_or_else(|| self.transaction.last_insert_rowid());
        Ok((UnitId(id), change))
    }

    /// Makes these a unit's points, in place of any others. Sorts them into their order.
    ///
    /// - returns [`Change::New`] where the unit had none
    ///
    /// # Errors
    /// [`CatalogError::DuplicatePoint`] where two points are at the same place; else where the file cannot be written to.
    pub fn put_points(
        &mut self,
        unit: UnitId,
        points: &mut [WrittenPoint],
    ) -> Result<Change, CatalogError> {
        points.sort_by(|left, right| left.point.compare_place(&right.point));
        if points
            .windows(2)
            .any(|pair| pair[0].point.compare_place(&pair[1].point).is_eq())
        {
            let read =
                self.transaction
                    .query_row("SELECT key FROM unit WHERE id = ?1", [unit.0], |row| {
                        row.get(0)
                    });
            return Err(CatalogError::DuplicatePoint(self.checked(read)?));
        }
        let stored = self.try_put_points(unit, points);
        let change = self.checked(stored)?;
        self.changed |= change != Change::Unchanged;
        Ok(change)
    }

    fn try_put_points(&self, unit: UnitId, points: &[WrittenPoint]) -> rusqlite::Result<Change> {
        let there = points_of(&self.transaction, unit.0)?;
        if there == points {
            return Ok(Change::Unchanged);
        }
        if !there.is_empty() {
            self.transaction
                .prepare_cached("DELETE FROM point WHERE unit_id = ?1")?
                .execute([unit.0])?;
        }
        insert_points(&self.transaction, unit, points)?;
        Ok(if there.is_empty() {
            Change::New
        } else {
            Change::Replaced
        })
    }

    /// Removes a unit and its points; `false` where there is none with that key.
    ///
    /// # Errors
    /// Where the file cannot be written to.
    pub fn remove(&mut self, key: &str) -> Result<bool, CatalogError> {
        let removed = self
            .transaction
            .execute("DELETE FROM unit WHERE key = ?1", [key]);
        let removed = self.checked(removed)? > 0;
        self.changed |= removed;
        Ok(removed)
    }

    /// Makes it last. Where nothing changed, the file is not touched.
    ///
    /// # Errors
    /// Where the file cannot be written to; nothing is changed then.
    pub fn commit(self) -> Result<(), CatalogError> {
        let path = self.path;
        let finish = || {
            if !self.changed {
                return self.transaction.rollback();
            }
            self.transaction
                .execute("UPDATE revision SET number = number + 1", [])?;
            self.transaction.commit()
        };
        finish().map_err(|error| CatalogError::from_sql(path, error))
    }

    pub(super) fn connection(&self) -> &rusqlite::Connection {
        &self.transaction
    }

    pub(super) fn mark_changed(&mut self) {
        self.changed = true;
    }

    pub(super) fn checked<T>(&self, result: rusqlite::Result<T>) -> Result<T, CatalogError> {
        result.map_err(|error| CatalogError::from_sql(self.path, error))
    }
}

static INSERT_MODEL: std::sync::LazyLock<String> = std::sync::LazyLock::new(|| {
    let marks: Vec<String> = (1..=MODEL_COLUMN_COUNT + 1)
        .map(|n| format!("?{n}"))
        .collect();
    format!(
        "INSERT INTO unit ({MODEL_COLUMNS}, as_written) VALUES ({})",
        marks.join(", ")
    )
});

static UPDATE_MODEL: std::sync::LazyLock<String> = std::sync::LazyLock::new(|| {
    let marks: Vec<String> = (1..=MODEL_COLUMN_COUNT + 1)
        .map(|n| format!("?{n}"))
        .collect();
    format!(
        "UPDATE unit SET ({MODEL_COLUMNS}, as_written) = ({}) WHERE id = ?{}",
        marks.join(", "),
        MODEL_COLUMN_COUNT + 2
    )
});
