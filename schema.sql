-- The catalog: performance points of heat pumps, each with its source. One SQLite file.
--
-- A NULL is "not published", never zero. Names carry their units. Code numbers for words are spelled out in the view
-- `performance`, which is what to read from outside.

-- Where numbers come from.
CREATE TABLE source (
    id INTEGER PRIMARY KEY,
    key TEXT NOT NULL UNIQUE CHECK (key <> ''),
    title TEXT NOT NULL,
    publisher TEXT,
    year INTEGER,
    reference TEXT,
    licence TEXT,
    kind TEXT NOT NULL
        CHECK (kind IN ('standard_test', 'laboratory', 'declared', 'quote', 'generic', 'invented')),
    note TEXT
) STRICT;

-- A model and the figures declared for it as a whole.
CREATE TABLE unit (
    id INTEGER PRIMARY KEY,
    key TEXT NOT NULL UNIQUE CHECK (key <> ''),
    maker TEXT,
    outdoor_model TEXT,
    indoor_model TEXT,
    form TEXT NOT NULL CHECK (form IN ('ducted', 'wall', 'floor', 'cassette', 'mixed')),
    refrigerant TEXT,
    certified INTEGER CHECK (certified IN (0, 1)),
    hspf REAL,
    hspf2 REAL,
    scop REAL,
    seer REAL,
    seer2 REAL,
    operates_to_c REAL,
    airflow_l_s REAL CHECK (airflow_l_s > 0),
    external_static_pa REAL,
    sound_db_a REAL,
    circuit_ampacity_a REAL,
    standby_w REAL CHECK (standby_w >= 0),
    degradation_heating REAL CHECK (degradation_heating >= 0 AND degradation_heating < 1),
    degradation_cooling REAL CHECK (degradation_cooling >= 0 AND degradation_cooling < 1),
    price REAL CHECK (price >= 0),
    currency TEXT,
    source_id INTEGER NOT NULL REFERENCES source (id),
    -- The published figures and units of columns that were converted, such as 'operates_to -13 °F'.
    as_written TEXT
) STRICT;

CREATE INDEX unit_source ON unit (source_id);

-- One published performance point. Clustered so that one ordered scan reads every unit's points together.
CREATE TABLE point (
    unit_id INTEGER NOT NULL REFERENCES unit (id) ON DELETE CASCADE,
    mode INTEGER NOT NULL CHECK (mode IN (0, 1)), -- 0 heating, 1 cooling
    speed INTEGER NOT NULL CHECK (speed BETWEEN 0 AND 2), -- 0 minimum, 1 rated, 2 maximum
    outdoor_db_c REAL NOT NULL,
    indoor_condition INTEGER NOT NULL, -- tells indoor conditions at one outdoor temperature apart: 0, 1, 2 ...
    indoor_db_c REAL,
    indoor_wb_c REAL,
    capacity_kw REAL NOT NULL CHECK (capacity_kw > 0),
    power_kw REAL NOT NULL CHECK (power_kw > 0),
    shr REAL CHECK (shr > 0 AND shr <= 1),
    airflow_l_s REAL CHECK (airflow_l_s > 0),
    fan_basis INTEGER CHECK (fan_basis IN (0, 1)), -- 0 net, 1 gross of the indoor fan
    frost_basis INTEGER CHECK (frost_basis IN (0, 1)), -- 0 included, 1 frost_free
    source_id INTEGER NOT NULL REFERENCES source (id),
    -- The published figures and units where numbers were converted, such as 'outdoor_db 5 °F; capacity 24000 Btu/h'.
    as_written TEXT,
    PRIMARY KEY (unit_id, mode, speed, outdoor_db_c, indoor_condition)
) STRICT, WITHOUT ROWID;

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

-- Counts the changes of content, so that several readers can tell whether they read the same content.
CREATE TABLE revision (
    only INTEGER PRIMARY KEY CHECK (only = 1),
    number INTEGER NOT NULL
) STRICT;

INSERT INTO revision (only, number) VALUES (1, 0);

-- Points with every code spelled out.
CREATE VIEW performance AS
SELECT
    unit.key AS unit,
    CASE point.mode WHEN 0 THEN 'heating' ELSE 'cooling' END AS mode,
    CASE point.speed WHEN 0 THEN 'minimum' WHEN 1 THEN 'rated' ELSE 'maximum' END AS speed,
    point.outdoor_db_c,
    point.indoor_db_c,
    point.indoor_wb_c,
    point.capacity_kw,
    point.power_kw,
    point.capacity_kw / point.power_kw AS cop,
    point.shr,
    point.airflow_l_s,
    CASE point.fan_basis WHEN 0 THEN 'net' WHEN 1 THEN 'gross' END AS fan_basis,
    CASE point.frost_basis WHEN 0 THEN 'included' WHEN 1 THEN 'frost_free' END AS frost_basis,
    source.key AS source,
    point.as_written
FROM point
JOIN unit ON unit.id = point.unit_id
JOIN source ON source.id = point.source_id;
