//! Reads every unit in one ordered pass, on all cores, without keeping more than one unit a core.

use std::ops::Range;
use std::path::Path;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use rusqlite::Connection;

use super::open::open_to_read;
use super::read::revision;
use super::unit_row::{
    MODEL_COLUMN_COUNT, MODEL_COLUMNS, POINT_COLUMN_COUNT, POINT_COLUMNS, read_model, read_point,
};
use super::{Catalog, CatalogError};
use crate::equipment::{Form, Model, SourceId, Unit};

/// Units that a core takes on at a time: few enough that no core waits long for another's last ones.
const UNITS_AT_A_TIME: usize = 2048;

/// How often the readers try to see one and the same content while others write.
const ATTEMPTS: usize = 20;

impl Catalog {
    /// Judges every unit; the answers come in the order of the units' keys.
    ///
    /// Each core has its own connection and walks through units and points side by side, in the order in which they lie
    /// in the file. All of them read the same content, even while another program writes: a reader that sees another
    /// revision than the first lets all of them begin again.
    ///
    /// - `f`  is given each unit once; the memory behind it is used again for the next
    ///
    /// # Errors
    /// [`CatalogError::Damaged`] where a row is not what the schema allows; else where the file cannot be read.
    pub fn judge_all<T: Send>(
        &self,
        f: impl Fn(&Unit) -> T + Sync,
    ) -> Result<Vec<T>, CatalogError> {
        self.judge_on(
            std::thread::available_parallelism().map_or(1, usize::from),
            f,
        )
    }

    /// As [`Catalog::judge_all`], on a stated number of cores.
    ///
    /// # Errors
    /// As [`Catalog::judge_all`].
    pub fn judge_on<T: Send>(
        &self,
        cores: usize,
        f: impl Fn(&Unit) -> T + Sync,
    ) -> Result<Vec<T>, CatalogError> {
        for _ in 0..ATTEMPTS {
            let snapshot = Snapshot::begin(&self.connection).map_err(|error| self.error(error))?;
            let ids = ids(&self.connection).map_err(|error| self.error(error))?;
            let judged = match &self.path {
                Some(path) if cores > 1 && ids.len() > UNITS_AT_A_TIME => {
                    on_many_cores(path, snapshot.revision, &ids, cores, &f)
                }
                _ => judge_range(&self.connection, &ids, 0..ids.len(), &f).map(Some),
            };
            if let Some(judged) = judged.map_err(|error| self.error(error))? {
                let order = key_order(&self.connection, &ids).map_err(|error| self.error(error))?;
                let mut judged: Vec<Option<T>> = judged.into_iter().map(Some).collect();
                return Ok(order
                    .into_iter()
                    .filter_map(|place| judged[place].take())
                    .collect());
            }
        }
        Err(CatalogError::Busy(self.path.clone().unwrap_or_default()))
    }
}

/// A reading transaction: what it sees does not change. Ends when dropped.
struct Snapshot<'c> {
    connection: &'c Connection,
    revision: i64,
}

impl<'c> Snapshot<'c> {
    fn begin(connection: &'c Connection) -> rusqlite::Result<Self> {
        connection.execute_batch("BEGIN DEFERRED")?;
        let mut snapshot = Self {
            connection,
            revision: 0,
        };
        snapshot.revision = revision(connection)?;
        Ok(snapshot)
    }
}

impl Drop for Snapshot<'_> {
    fn drop(&mut self) {
        // Nothing was written: a rollback that fails leaves nothing behind that closing the connection does not end.
        let _ = self.connection.execute_batch("ROLLBACK");
    }
}

/// Every unit's number, in the order in which units lie in the file.
fn ids(connection: &Connection) -> rusqlite::Result<Vec<i64>> {
    connection
        .prepare_cached("SELECT id FROM unit ORDER BY id")?
        .query_map([], |row| row.get(0))?
        .collect()
}

/// The places in `ids` of the units in the order of keys.
fn key_order(connection: &Connection, ids: &[i64]) -> rusqlite::Result<Vec<usize>> {
    connection
        .prepare_cached("SELECT id FROM unit ORDER BY key")?
        .query_map([], |row| {
            let id: i64 = row.get(0)?;
            ids.binary_search(&id)
                .map_err(|_| rusqlite::Error::IntegralValueOutOfRange(0, id))
        })?
        .collect()
}

/// `None`: a reader saw another revision.
fn on_many_cores<T: Send>(
    path: &Path,
    revision: i64,
    ids: &[i64],
    cores: usize,
    f: &(impl Fn(&Unit) -> T + Sync),
) -> rusqlite::Result<Option<Vec<T>>> {
    let next = AtomicUsize::new(0);
    let done: Mutex<Vec<(usize, Vec<T>)>> = Mutex::default();
    let read = || -> rusqlite::Result<bool> {
        let connection = open_to_read(path)?;
        let snapshot = Snapshot::begin(&connection)?;
        if snapshot.revision != revision {
            return Ok(false);
        }
        loop {
            let first = next.fetch_add(UNITS_AT_A_TIME, Ordering::Relaxed);
            if first >= ids.len() {
                return Ok(true);
            }
            let range = first..ids.len().min(first + UNITS_AT_A_TIME);
            let judged = judge_range(&connection, ids, range, f)?;
            if let Ok(mut done) = done.lock() {
                done.push((first, judged));
            }
        }
    };
    let complete = std::thread::scope(|scope| {
        let readers: Vec<_> = (0..cores).map(|_| scope.spawn(read)).collect();
        let mut complete = true;
        for reader in readers {
            match reader.join() {
                Ok(saw_the_same) => complete &= saw_the_same?,
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        Ok::<_, rusqlite::Error>(complete)
    })?;
    let mut done = done.into_inner().unwrap_or_default();
    done.sort_by_key(|(first, _)| *first);
    Ok(complete.then(|| done.into_iter().flat_map(|(_, judged)| judged).collect()))
}

/// Judges the units at these places, walking through units and points side by side.
fn judge_range<T>(
    connection: &Connection,
    ids: &[i64],
    range: Range<usize>,
    f: &impl Fn(&Unit) -> T,
) -> rusqlite::Result<Vec<T>> {
    let places = &ids[range];
    let (Some(first), Some(last)) = (places.first(), places.last()) else {
        return Ok(Vec::new());
    };
    let mut models = connection.prepare_cached(&format!(
        "SELECT {MODEL_COLUMNS}, id FROM unit WHERE id BETWEEN ?1 AND ?2 ORDER BY id"
    ))?;
    let mut points = connection.prepare_cached(&format!(
        "SELECT {POINT_COLUMNS}, unit_id FROM point WHERE unit_id BETWEEN ?1 AND ?2 \
         ORDER BY unit_id, mode, speed, outdoor_db_c, indoor_condition"
    ))?;
    let mut models = models.query([first, last])?;
    let mut points = points.query([first, last])?;
    let mut unit = Unit {
        model: Model::new("", Form::Ducted, SourceId(0)),
        points: Vec::new(),
    };
    let mut judged = Vec::with_capacity(places.len());
    let mut point = points.next()?;
    while let Some(row) = models.next()? {
        let id: i64 = row.get(MODEL_COLUMN_COUNT)?;
        read_model(row, 0, &mut unit.model)?;
        unit.points.clear();
        while let Some(row) = point {
            if row.get::<_, i64>(POINT_COLUMN_COUNT)? != id {
                break;
            }
            unit.points.push(read_point(row, 0)?);
            point = points.next()?;
        }
        judged.push(f(&unit));
    }
    Ok(judged)
}
