//! Writes a unit's points in few statements: most of an import's time goes into them.
//!
//! A statement of many rows keeps its place in the table between them, so that points in their order are appended; and a
//! cell that is not published is left unbound, which is NULL.

use std::sync::LazyLock;

use rusqlite::{CachedStatement, Connection, ToSql};

use super::unit_row::code_of;
use super::{UnitId, WrittenPoint};
use crate::equipment::{FanBasis, FrostBasis, Mode, Speed};

/// The columns of a row beside the unit's.
const COLUMNS: [&str; 14] = [
    "mode",
    "speed",
    "outdoor_db_c",
    "indoor_condition",
    "indoor_db_c",
    "indoor_wb_c",
    "capacity_kw",
    "power_kw",
    "shr",
    "airflow_l_s",
    "fan_basis",
    "frost_basis",
    "source_id",
    "as_written",
];

/// Statements by their number of rows, longest first; the sizes are ours, and fit the 10 to 40 points of most units.
static INSERTS: LazyLock<[(usize, String); 3]> =
    LazyLock::new(|| [16, 4, 1].map(|rows| (rows, insert(rows))));

fn insert(rows: usize) -> String {
    let row = |row: usize| {
        let marks: Vec<String> = (0..COLUMNS.len())
            .map(|column| format!("?{}", parameter(row, column)))
            .collect();
        format!("(?1, {})", marks.join(", "))
    };
    let rows: Vec<String> = (0..rows).map(row).collect();
    format!(
        "INSERT INTO point (unit_id, {}) VALUES {}",
        COLUMNS.join(", "),
        rows.join(", ")
    )
}

/// The place of a cell among a statement's parameters, of which the first is the unit.
fn parameter(row: usize, column: usize) -> usize {
    2 + row * COLUMNS.len() + column
}

/// Writes the points of a unit that has none.
///
/// - `points`  in their order, no two at one place
pub(super) fn insert_points(
    connection: &Connection,
    unit: UnitId,
    points: &[WrittenPoint],
) -> rusqlite::Result<()> {
    let mut rest = points;
    let mut place = Place::default();
    for (rows, sql) in INSERTS.iter() {
        while let Some((now, later)) = rest.split_at_checked(*rows) {
            // From the cache a statement comes with every parameter NULL.
            let mut statement = connection.prepare_cached(sql)?;
            statement.raw_bind_parameter(1, unit.0)?;
            for (row, point) in now.iter().enumerate() {
                bind(&mut statement, row, point, place.condition_of(point))?;
            }
            statement.raw_execute()?;
            rest = later;
        }
    }
    Ok(())
}

/// Tells indoor conditions at one outdoor temperature apart: 0, 1, 2 ...
#[derive(Default)]
struct Place<'p> {
    before: Option<&'p WrittenPoint>,
    condition: i64,
}

impl<'p> Place<'p> {
    fn condition_of(&mut self, written: &'p WrittenPoint) -> i64 {
        let place = |written: &WrittenPoint| {
            let point = &written.point;
            (point.mode, point.speed, point.outdoor)
        };
        let shared = self
            .before
            .is_some_and(|before| place(before) == place(written));
        self.condition = if shared { self.condition + 1 } else { 0 };
        self.before = Some(written);
        self.condition
    }
}

fn bind(
    statement: &mut CachedStatement<'_>,
    row: usize,
    WrittenPoint { point, as_written }: &WrittenPoint,
    condition: i64,
) -> rusqlite::Result<()> {
    let mut cells = Cells {
        statement,
        next: parameter(row, 0),
    };
    cells.put(Some(code_of(point.mode, Mode::ALL)))?;
    cells.put(Some(code_of(point.speed, Speed::ALL)))?;
    cells.put(Some(point.outdoor.0))?;
    cells.put(Some(condition))?;
    cells.put(point.indoor_dry_bulb.map(|t| t.0))?;
    cells.put(point.indoor_wet_bulb.map(|t| t.0))?;
    cells.put(Some(point.capacity.0))?;
    cells.put(Some(point.power.0))?;
    cells.put(point.sensible_heat_ratio)?;
    cells.put(point.airflow.map(|v| v.0))?;
    cells.put(point.fan_basis.map(|basis| code_of(basis, FanBasis::ALL)))?;
    cells.put(
        point
            .frost_basis
            .map(|basis| code_of(basis, FrostBasis::ALL)),
    )?;
    cells.put(Some(point.source.0))?;
    cells.put(as_written.as_deref())
}

/// The cells of one row, in the order of [`COLUMNS`].
struct Cells<'s, 'c> {
    statement: &'s mut CachedStatement<'c>,
    next: usize,
}

impl Cells<'_, '_> {
    fn put(&mut self, value: Option<impl ToSql>) -> rusqlite::Result<()> {
        if let Some(value) = value {
            self.statement.raw_bind_parameter(self.next, value)?;
        }
        self.next += 1;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::{Catalog, Change};
    use crate::equipment::{Form, Model, Point, Source, SourceId, SourceKind};
    use crate::quantity::{Celsius, Kilowatts, LitresPerSecond};

    /// Points in their order, two indoor conditions at each outdoor temperature, every other cell not published.
    fn points(count: u16, source: SourceId) -> Vec<WrittenPoint> {
        (0..count)
            .map(|place| {
                let published = place % 2 == 1;
                WrittenPoint {
                    point: Point {
                        mode: Mode::Cooling,
                        speed: Speed::Rated,
                        outdoor: Celsius(20.0 + f64::from(place / 2)),
                        indoor_dry_bulb: published.then_some(Celsius(26.7)),
                        indoor_wet_bulb: published.then_some(Celsius(19.4)),
                        capacity: Kilowatts(5.0 + f64::from(place)),
                        power: Kilowatts(1.5),
                        sensible_heat_ratio: published.then_some(0.75),
                        airflow: (!published).then_some(LitresPerSecond(270.0)),
                        fan_basis: published.then_some(FanBasis::Gross),
                        frost_basis: None,
                        source,
                    },
                    as_written: (place % 3 == 0).then(|| format!("capacity {place}")),
                }
            })
            .collect()
    }

    #[test]
    fn any_number_of_points_reads_back_as_written() {
        let mut catalog = Catalog::in_memory().unwrap();
        let mut writing = catalog.write().unwrap();
        let source = Source {
            key: "bench".into(),
            title: "A bench, invented".into(),
            publisher: None,
            year: None,
            reference: None,
            licence: None,
            kind: SourceKind::Invented,
            note: None,
        };
        let (source, _) = writing.put_source(&source).unwrap();
        for count in 0..45 {
            let key = format!("of {count}");
            let model = Model::new(&key, Form::Wall, source);
            let (unit, _) = writing.put_model(&model, None).unwrap();
            let mut written = points(count, source);
            writing.put_points(unit, &mut written).unwrap();
            assert_eq!(
                writing.put_points(unit, &mut written).unwrap(),
                Change::Unchanged,
                "{count} points"
            );
        }
        writing.commit().unwrap();
        assert_eq!(catalog.counts().unwrap().points, (0..45).sum::<u64>());
    }
}
