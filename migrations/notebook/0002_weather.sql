-- Daily weather by station, as it was read or typed. Cleaning is done when it is
-- used, so that a better rule needs no new import.

-- A station is known by its name, as plantings name it.
CREATE TABLE station (
    name      TEXT NOT NULL PRIMARY KEY,
    latitude  REAL,                                   -- WGS 84, degrees
    longitude REAL,
    hlc       INTEGER NOT NULL,                       -- the change that placed it
    device    BLOB    NOT NULL,
    seq       INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- The latest (hlc, device, seq) that speaks of a day stands.
CREATE TABLE weather_day (
    station  TEXT    NOT NULL,
    date     TEXT    NOT NULL,                        -- civil date
    unit     TEXT    NOT NULL,                        -- f | c
    high     REAL,
    low      REAL,
    rain_in  REAL,                                    -- inches
    humidity REAL,                                    -- mean, percent
    typed    INTEGER NOT NULL,                        -- 1: typed in, 0: from a file
    hlc      INTEGER NOT NULL,
    device   BLOB    NOT NULL,
    seq      INTEGER NOT NULL,
    PRIMARY KEY (station, date)
) STRICT, WITHOUT ROWID;
