//! How a model and its points lie in table rows: the columns, and the way there and back.

use rusqlite::types::{Type, ValueRef};
use rusqlite::{Row, ToSql};

use crate::equipment::{FanBasis, Form, FrostBasis, Mode, Model, Point, SourceId, Speed};
use crate::quantity::{Celsius, Kilowatts, LitresPerSecond, Pascals};

/// Columns of `unit` in the order that [`read_model`] reads; the key comes first.
pub(super) const MODEL_COLUMNS: &str = "key, maker, outdoor_model, indoor_model, form, refrigerant, certified, \
     hspf, hspf2, scop, seer, seer2, operates_to_c, airflow_l_s, external_static_pa, sound_db_a, circuit_ampacity_a, \
     standby_w, degradation_heating, degradation_cooling, price, currency, source_id";

/// Number of columns in [`MODEL_COLUMNS`].
pub(super) const MODEL_COLUMN_COUNT: usize = 23;

/// Columns of `point` in the order that [`read_point`] reads.
pub(super) const POINT_COLUMNS: &str = "mode, speed, outdoor_db_c, indoor_db_c, indoor_wb_c, capacity_kw, power_kw, \
     shr, airflow_l_s, fan_basis, frost_basis, source_id";

/// Number of columns in [`POINT_COLUMNS`].
pub(super) const POINT_COLUMN_COUNT: usize = 12;

/// Reads a model from the columns [`MODEL_COLUMNS`] that begin at `first`, keeping the texts' memory.
pub(super) fn read_model(row: &Row<'_>, first: usize, model: &mut Model) -> rusqlite::Result<()> {
    let number = |column: usize| number(row, first + column);
    put_text(&mut model.key, row, first)?;
    put_optional_text(&mut model.maker, row, first + 1)?;
    put_optional_text(&mut model.outdoor_model, row, first + 2)?;
    put_optional_text(&mut model.indoor_model, row, first + 3)?;
    model.form = row
        .get_ref(first + 4)?
        .as_str_or_null()
        .ok()
        .flatten()
        .and_then(Form::from_name)
        .ok_or_else(|| unreadable(row, first + 4))?;
    put_optional_text(&mut model.refrigerant, row, first + 5)?;
    model.certified = code(row, first + 6)?.map(|code| code != 0);
    model.hspf = number(7)?;
    model.hspf2 = number(8)?;
    model.scop = number(9)?;
    model.seer = number(10)?;
    model.seer2 = number(11)?;
    model.operates_to = number(12)?.map(Celsius);
    model.airflow = number(13)?.map(LitresPerSecond);
    model.external_static = number(14)?.map(Pascals);
    model.sound_db_a = number(15)?;
    model.circuit_ampacity_a = number(16)?;
    model.standby_w = number(17)?;
    model.degradation_heating = number(18)?;
    model.degradation_cooling = number(19)?;
    model.price = number(20)?;
    put_optional_text(&mut model.currency, row, first + 21)?;
    model.source = source(row, first + 22)?;
    Ok(())
}

/// Reads a point from the columns [`POINT_COLUMNS`] that begin at `first`.
pub(super) fn read_point(row: &Row<'_>, first: usize) -> rusqlite::Result<Point> {
    let needed =
        |column: usize| number(row, first + column)?.ok_or_else(|| unreadable(row, first + column));
    Ok(Point {
        mode: variant(row, first, Mode::ALL)?.ok_or_else(|| unreadable(row, first))?,
        speed: variant(row, first + 1, Speed::ALL)?.ok_or_else(|| unreadable(row, first + 1))?,
        outdoor: Celsius(needed(2)?),
        indoor_dry_bulb: number(row, first + 3)?.map(Celsius),
        indoor_wet_bulb: number(row, first + 4)?.map(Celsius),
        capacity: Kilowatts(needed(5)?),
        power: Kilowatts(needed(6)?),
        sensible_heat_ratio: number(row, first + 7)?,
        airflow: number(row, first + 8)?.map(LitresPerSecond),
        fan_basis: variant(row, first + 9, FanBasis::ALL)?,
        frost_basis: variant(row, first + 10, FrostBasis::ALL)?,
        source: source(row, first + 11)?,
    })
}

/// The values of a model in the order of [`MODEL_COLUMNS`], for writing.
pub(super) fn with_model_values<T>(model: &Model, f: impl FnOnce(&[&dyn ToSql]) -> T) -> T {
    let form = model.form.name();
    let operates_to = model.operates_to.map(|t| t.0);
    let airflow = model.airflow.map(|v| v.0);
    let external_static = model.external_static.map(|p| p.0);
    let values: [&dyn ToSql; MODEL_COLUMN_COUNT] = [
        &model.key,
        &model.maker,
        &model.outdoor_model,
        &model.indoor_model,
        &form,
        &model.refrigerant,
        &model.certified,
        &model.hspf,
        &model.hspf2,
        &model.scop,
        &model.seer,
        &model.seer2,
        &operates_to,
        &airflow,
        &external_static,
        &model.sound_db_a,
        &model.circuit_ampacity_a,
        &model.standby_w,
        &model.degradation_heating,
        &model.degradation_cooling,
        &model.price,
        &model.currency,
        &model.source.0,
    ];
    f(&values)
}

/// The place of a variant in its list of all, by which tables know it.
pub(super) fn code_of<T: PartialEq>(variant: T, all: &[T]) -> i64 {
    let place = all.iter().position(|other| *other == variant);
    place
        .and_then(|place| i64::try_from(place).ok())
        .unwrap_or(-1)
}

fn variant<T: Copy>(row: &Row<'_>, column: usize, all: &[T]) -> rusqlite::Result<Option<T>> {
    let Some(code) = code(row, column)? else {
        return Ok(None);
    };
    let place = usize::try_from(code).ok();
    match place.and_then(|place| all.get(place)) {
        Some(variant) => Ok(Some(*variant)),
        None => Err(unreadable(row, column)),
    }
}

fn code(row: &Row<'_>, column: usize) -> rusqlite::Result<Option<i64>> {
    match row.get_ref(column)? {
        ValueRef::Null => Ok(None),
        ValueRef::Integer(code) => Ok(Some(code)),
        _ => Err(unreadable(row, column)),
    }
}

fn number(row: &Row<'_>, column: usize) -> rusqlite::Result<Option<f64>> {
    match row.get_ref(column)? {
        ValueRef::Null => Ok(None),
        ValueRef::Real(number) if number.is_finite() => Ok(Some(number)),
        _ => Err(unreadable(row, column)),
    }
}

fn source(row: &Row<'_>, column: usize) -> rusqlite::Result<SourceId> {
    code(row, column)?
        .and_then(|code| u32::try_from(code).ok())
        .map(SourceId)
        .ok_or_else(|| unreadable(row, column))
}

fn put_text(slot: &mut String, row: &Row<'_>, column: usize) -> rusqlite::Result<()> {
    let text = row
        .get_ref(column)?
        .as_str()
        .map_err(|_| unreadable(row, column))?;
    slot.clear();
    slot.push_str(text);
    Ok(())
}

fn put_optional_text(
    slot: &mut Option<String>,
    row: &Row<'_>,
    column: usize,
) -> rusqlite::Result<()> {
    if row.get_ref(column)? == ValueRef::Null {
        *slot = None;
        return Ok(());
    }
    put_text(slot.get_or_insert_default(), row, column)
}

/// A value that the schema does not allow: the file was changed by something that does not keep to it.
fn unreadable(row: &Row<'_>, column: usize) -> rusqlite::Error {
    let found = row
        .get_ref(column)
        .map_or(Type::Null, |value| value.data_type());
    let name = row
        .as_ref()
        .column_name(column)
        .unwrap_or("a column")
        .to_owned();
    rusqlite::Error::InvalidColumnType(column, name, found)
}
