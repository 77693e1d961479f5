//! Keeps climates: their states, by month too, and the hourly record where it is kept.

use rusqlite::{Connection, OptionalExtension, Row, params};

use super::write::Writing;
use super::{Catalog, CatalogError, Change};
use crate::climate::{Climate, DesignTemperatures, MonthlyState, Record, State};
use crate::import::nearest;
use crate::quantity::{Celsius, Hours, HumidityRatio, Metres};

impl Catalog {
    /// Every climate's key and name, in the order of keys.
    ///
    /// # Errors
    /// [`CatalogError`] where the file cannot be read.
    pub fn climates(&self) -> Result<Vec<(String, String)>, CatalogError> {
        let read = || {
            self.connection
                .prepare_cached("SELECT key, name FROM climate ORDER BY key")?
                .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
                .collect::<rusqlite::Result<Vec<_>>>()
        };
        read().map_err(|error| self.error(error))
    }

    /// The climate with this key.
    ///
    /// # Errors
    /// [`CatalogError::NotFound`] with a near key where there is none; else where the file cannot be read.
    pub fn climate(&self, key: &str) -> Result<Climate, CatalogError> {
        match find(&self.connection, key).map_err(|error| self.error(error))? {
            Some(climate) => Ok(climate),
            None => {
                let climates = self.climates()?;
                let nearest = nearest(key, climates.iter().map(|(key, _)| key.as_str()));
                Err(CatalogError::NotFound {
                    what: "climate",
                    key: key.to_owned(),
                    nearest: nearest.map(str::to_owned),
                })
            }
        }
    }
}

impl Writing<'_> {
    /// Stores a climate under its key, in place of any other.
    ///
    /// # Errors
    /// Where the file cannot be written to.
    pub fn put_climate(&mut self, climate: &Climate) -> Result<Change, CatalogError> {
        let there = self.checked(find(self.connection(), &climate.key))?;
        let change = match &there {
            Some(there) if there == climate => return Ok(Change::Unchanged),
            Some(_) => Change::Replaced,
            None => Change::New,
        };
        self.remove_climate(&climate.key)?;
        self.checked(insert(self.connection(), climate))?;
        self.mark_changed();
        Ok(change)
    }

    /// Removes a climate; `false` where there is none with that key.
    ///
    /// # Errors
    /// Where the file cannot be written to.
    pub fn remove_climate(&mut self, key: &str) -> Result<bool, CatalogError> {
        let removed = self
            .connection()
            .execute("DELETE FROM climate WHERE key = ?1", [key]);
        let removed = self.checked(removed)? > 0;
        if removed {
            self.mark_changed();
        }
        Ok(removed)
    }
}

fn find(connection: &Connection, key: &str) -> rusqlite::Result<Option<Climate>> {
    let head = connection
        .prepare_cached(
            "SELECT id, key, name, source, elevation_m, notes, heating_99_6_c, heating_99_c, cooling_0_4_c, \
             cooling_1_c, cooling_2_c FROM climate WHERE key = ?1",
        )?
        .query_row([key], |row| Ok((row.get::<_, i64>(0)?, read_head(row)?)))
        .optional()?;
    let Some((id, mut climate)) = head else {
        return Ok(None);
    };
    let mut states = connection.prepare_cached(
        "SELECT month, hours, outdoor_db_c, humidity_ratio FROM climate_state WHERE climate_id = ?1 \
         ORDER BY month, place",
    )?;
    let mut rows = states.query([id])?;
    while let Some(row) = rows.next()? {
        let state = State {
            hours: Hours(row.get(1)?),
            outdoor: Celsius(row.get(2)?),
            humidity_ratio: row.get::<_, Option<f64>>(3)?.map(HumidityRatio),
        };
        match row.get(0)? {
            0 => climate.states.push(state),
            month => climate.monthly.push(MonthlyState { month, state }),
        }
    }
    climate.hourly = connection
        .prepare_cached(
            "SELECT month, day, hour, hours, outdoor_db_c, humidity_ratio FROM climate_record WHERE climate_id = ?1 \
             ORDER BY place",
        )?
        .query_map([id], |row| {
            Ok(Record {
                month: row.get(0)?,
                day: row.get(1)?,
                hour: row.get(2)?,
                hours: Hours(row.get(3)?),
                outdoor: Celsius(row.get(4)?),
                humidity_ratio: row.get::<_, Option<f64>>(5)?.map(HumidityRatio),
            })
        })?
        .collect::<rusqlite::Result<_>>()?;
    Ok(Some(climate))
}

fn read_head(row: &Row<'_>) -> rusqlite::Result<Climate> {
    let temperature = |column: usize| row.get(column).map(|value: Option<f64>| value.map(Celsius));
    let notes: String = row.get(5)?;
    Ok(Climate {
        key: row.get(1)?,
        name: row.get(2)?,
        source: row.get(3)?,
        elevation: row.get::<_, Option<f64>>(4)?.map(Metres),
        states: Vec::new(),
        monthly: Vec::new(),
        hourly: Vec::new(),
        design: DesignTemperatures {
            heating_99_6: temperature(6)?,
            heating_99: temperature(7)?,
            cooling_0_4: temperature(8)?,
            cooling_1: temperature(9)?,
            cooling_2: temperature(10)?,
        },
        notes: notes.lines().map(str::to_owned).collect(),
    })
}

fn insert(connection: &Connection, climate: &Climate) -> rusqlite::Result<()> {
    let celsius = |temperature: Option<Celsius>| temperature.map(|t| t.0);
    let design = climate.design;
    connection
        .prepare_cached(
            "INSERT INTO climate (key, name, source, elevation_m, notes, heating_99_6_c, heating_99_c, cooling_0_4_c, \
             cooling_1_c, cooling_2_c) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
        )?
        .execute(params![
            climate.key,
            climate.name,
            climate.source,
            climate.elevation.map(|height| height.0),
            climate.notes.join("\n"),
            celsius(design.heating_99_6),
            celsius(design.heating_99),
            celsius(design.cooling_0_4),
            celsius(design.cooling_1),
            celsius(design.cooling_2),
        ])?;
    let id = connection.last_insert_rowid();
    let mut state = connection.prepare_cached(
        "INSERT INTO climate_state (climate_id, month, place, hours, outdoor_db_c, humidity_ratio) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
    )?;
    let yearly = climate.states.iter().map(|state| (0, state));
    let monthly = climate
        .monthly
        .iter()
        .map(|monthly| (monthly.month, &monthly.state));
    for (
        place,
        (
            month,
            State {
                hours,
                outdoor,
                humidity_ratio,
            },
        ),
    ) in yearly.chain(monthly).enumerate()
    {
        let humidity_ratio = humidity_ratio.map(|w| w.0);
        let place = i64::try_from(place).unwrap_or(i64::MAX);
        state.execute(params![
            id,
            month,
            place,
            hours.0,
            outdoor.0,
            humidity_ratio
        ])?;
    }
    let mut hourly = connection.prepare_cached(
        "INSERT INTO climate_record (climate_id, place, month, day, hour, hours, outdoor_db_c, humidity_ratio) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
    )?;
    for (place, record) in climate.hourly.iter().enumerate() {
        hourly.execute(params![
            id,
            i64::try_from(place).unwrap_or(i64::MAX),
            record.month,
            record.day,
            record.hour,
            record.hours.0,
            record.outdoor.0,
            record.humidity_ratio.map(|w| w.0),
        ])?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_climate_is_read_back_as_it_was_stored() {
        let mut catalog = Catalog::in_memory().unwrap();
        let state = |hours, t, w: Option<f64>| State {
            hours: Hours(hours),
            outdoor: Celsius(t),
            humidity_ratio: w.map(HumidityRatio),
        };
        let climate = Climate {
            key: "larch-valley".to_owned(),
            name: "Larch Valley, invented".to_owned(),
            source: "invented".to_owned(),
            elevation: Some(Metres(205.0)),
            states: vec![state(8000.0, -4.25, Some(0.0021)), state(760.0, 31.0, None)],
            monthly: vec![
                MonthlyState {
                    month: 1,
                    state: state(744.0, -9.0, Some(0.0015)),
                },
                MonthlyState {
                    month: 7,
                    state: state(744.0, 22.0, Some(0.0115)),
                },
            ],
            hourly: vec![Record {
                month: 12,
                day: 31,
                hour: 24,
                hours: Hours(1.0),
                outdoor: Celsius(-3.5),
                humidity_ratio: None,
            }],
            design: DesignTemperatures {
                heating_99: Some(Celsius(-16.5)),
                ..DesignTemperatures::default()
            },
            notes: vec![
                "two years averaged".to_owned(),
                "three hours missing".to_owned(),
            ],
        };
        let mut writing = catalog.write().unwrap();
        assert_eq!(writing.put_climate(&climate).unwrap(), Change::New);
        assert_eq!(writing.put_climate(&climate).unwrap(), Change::Unchanged);
        writing.commit().unwrap();
        assert_eq!(catalog.climate("larch-valley").unwrap(), climate);

        let shorter = Climate {
            hourly: Vec::new(),
            ..climate
        };
        let mut writing = catalog.write().unwrap();
        assert_eq!(writing.put_climate(&shorter).unwrap(), Change::Replaced);
        writing.commit().unwrap();
        assert_eq!(catalog.climate("larch-valley").unwrap(), shorter);
        let error = catalog.climate("larch-valey").unwrap_err();
        assert_eq!(error.hint().unwrap(), "did you mean `larch-valley`?");
    }
}
