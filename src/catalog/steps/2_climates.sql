-- A place's weather.
CREATE TABLE climate (
    id INTEGER PRIMARY KEY,
    key TEXT NOT NULL UNIQUE CHECK (key <> ''),
    name TEXT NOT NULL,
    source TEXT NOT NULL,
    elevation_m REAL,
    heating_99_6_c REAL,
    heating_99_c REAL,
    cooling_0_4_c REAL,
    cooling_1_c REAL,
    cooling_2_c REAL,
    notes TEXT NOT NULL DEFAULT '' -- one a line
) STRICT;

-- Hours of like weather in a year (month 0) or in one month (1 to 12), coldest first.
CREATE TABLE climate_state (
    climate_id INTEGER NOT NULL REFERENCES climate (id) ON DELETE CASCADE,
    month INTEGER NOT NULL CHECK (month BETWEEN 0 AND 12),
    place INTEGER NOT NULL,
    hours REAL NOT NULL CHECK (hours > 0),
    outdoor_db_c REAL NOT NULL,
    humidity_ratio REAL CHECK (humidity_ratio >= 0), -- kg of water vapour per kg of dry air
    PRIMARY KEY (climate_id, month, place)
) STRICT, WITHOUT ROWID;

-- The record that the states were made from, in its order, where it is kept.
CREATE TABLE climate_record (
    climate_id INTEGER NOT NULL REFERENCES climate (id) ON DELETE CASCADE,
    place INTEGER NOT NULL,
    month INTEGER NOT NULL CHECK (month BETWEEN 1 AND 12),
    day INTEGER NOT NULL CHECK (day BETWEEN 1 AND 31),
    hour INTEGER NOT NULL CHECK (hour BETWEEN 1 AND 24), -- the hour of the day that the record ends in
    hours REAL NOT NULL CHECK (hours > 0),
    outdoor_db_c REAL NOT NULL,
    humidity_ratio REAL CHECK (humidity_ratio >= 0),
    PRIMARY KEY (climate_id, place)
) STRICT, WITHOUT ROWID;
