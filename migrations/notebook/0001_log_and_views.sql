-- The notebook's first shape. Two halves:
--   the log (change, series) is the truth, only ever added to;
--   the views are what the log says, filled by the same transaction and
--   rebuilt from it at any time.
-- View tables carry no foreign keys: a change may arrive before the row it
-- names (a correction before its head, a planting before its farm).

-- Marks the file as a Headwalk notebook ("Hwlk").
PRAGMA application_id = 1215786091;

-- The log -------------------------------------------------------------------

-- One change by one device. A device numbers its own changes 1, 2, 3...; a
-- change is never altered and never removed.
CREATE TABLE change (
    arrival      INTEGER NOT NULL PRIMARY KEY, -- order of arrival here; means nothing elsewhere
    device       BLOB    NOT NULL CHECK (length(device) = 16),
    seq          INTEGER NOT NULL CHECK (seq >= 1),
    hlc          INTEGER NOT NULL CHECK (hlc >= 0),   -- hybrid logical clock: ms since 1970 << 16 | count
    recorded_ms  INTEGER NOT NULL,                    -- the writer's wall clock, ms since 1970, UTC
    offset_min   INTEGER NOT NULL,                    -- its offset from UTC, minutes
    received_ms  INTEGER NOT NULL,                    -- when it came to this device, ms since 1970, UTC
    kind         TEXT    NOT NULL,                    -- what the person did; unknown kinds are kept
    body         TEXT    NOT NULL,                    -- JSON: the facts
    digest       BLOB    NOT NULL CHECK (length(digest) = 32), -- SHA-256 over the series up to here
    UNIQUE (device, seq)
) STRICT;

-- How far each series is held without a gap.
CREATE TABLE series (
    device BLOB    NOT NULL PRIMARY KEY CHECK (length(device) = 16),
    head   INTEGER NOT NULL CHECK (head >= 1),        -- highest seq held
    hlc    INTEGER NOT NULL,                          -- highest hlc held
    digest BLOB    NOT NULL CHECK (length(digest) = 32) -- of the change at head
) STRICT, WITHOUT ROWID;

-- This device ---------------------------------------------------------------

CREATE TABLE this_device (
    one   INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    id    BLOB    NOT NULL CHECK (length(id) = 16),
    views INTEGER NOT NULL                            -- version of the code that filled the views
) STRICT;

-- Settings of this device; never exchanged.
CREATE TABLE setting (
    name  TEXT NOT NULL PRIMARY KEY,
    value TEXT NOT NULL                               -- JSON
) STRICT, WITHOUT ROWID;

-- Views ---------------------------------------------------------------------

-- Every value anyone gave to a field of a shared row. The latest (hlc, device,
-- seq) stands; the others stay visible.
CREATE TABLE field_value (
    id       BLOB    NOT NULL,                        -- of the row
    field    TEXT    NOT NULL,
    hlc      INTEGER NOT NULL,
    device   BLOB    NOT NULL,
    seq      INTEGER NOT NULL,
    value    TEXT    NOT NULL,                        -- JSON
    replaces TEXT    NOT NULL,                        -- JSON: the values its writer saw and replaced
    PRIMARY KEY (id, field, hlc, device, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE farm (
    id      BLOB    NOT NULL PRIMARY KEY,
    name    TEXT,
    removed INTEGER NOT NULL DEFAULT 0
) STRICT, WITHOUT ROWID;

CREATE TABLE field (
    id      BLOB    NOT NULL PRIMARY KEY,
    farm    BLOB,
    name    TEXT,
    removed INTEGER NOT NULL DEFAULT 0
) STRICT, WITHOUT ROWID;

CREATE TABLE hybrid (
    id      BLOB    NOT NULL PRIMARY KEY,
    name    TEXT,
    removed INTEGER NOT NULL DEFAULT 0
) STRICT, WITHOUT ROWID;

CREATE TABLE planting (
    id            BLOB    NOT NULL PRIMARY KEY,
    name          TEXT,
    farm          BLOB,
    field         BLOB,
    hybrid        BLOB,
    planted_on    TEXT,                               -- civil date
    half_bloom_on TEXT,                               -- civil date, where somebody noted it
    purpose       TEXT,                               -- grain | silage | seed
    area_size     REAL,
    area_unit     TEXT,                               -- acres | hectares
    station       TEXT,                               -- weather station
    removed       INTEGER NOT NULL DEFAULT 0
) STRICT, WITHOUT ROWID;
CREATE INDEX planting_by_name ON planting (name);

-- A walk, stop or head whose making has not arrived yet (only a later change
-- about it has) has no made_hlc and is not shown.
CREATE TABLE walk (
    id          BLOB    NOT NULL PRIMARY KEY,
    planting    BLOB,
    walked_on   TEXT,                                 -- civil date
    scout       TEXT,
    finished    INTEGER NOT NULL DEFAULT 0,
    removed     INTEGER NOT NULL DEFAULT 0,
    made_hlc    INTEGER,
    made_device BLOB,
    made_seq    INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX walk_by_planting ON walk (planting, walked_on, id);

CREATE TABLE stop (
    id          BLOB    NOT NULL PRIMARY KEY,
    walk        BLOB,
    number      INTEGER,                              -- order within the walk
    label       TEXT,                                 -- as the head file calls it, where that is not the number
    latitude    REAL,                                 -- WGS 84, degrees
    longitude   REAL,
    accuracy_m  REAL,
    removed     INTEGER NOT NULL DEFAULT 0,
    made_hlc    INTEGER,
    made_device BLOB,
    made_seq    INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX stop_by_walk ON stop (walk, number, id);

CREATE TABLE head (
    id               BLOB    NOT NULL PRIMARY KEY,
    stop             BLOB,
    reading          TEXT,
    share            INTEGER,                         -- percent; none for boot
    flags            TEXT,                            -- words with blanks between, in the order of the list
    note             TEXT,
    extra            TEXT,                            -- JSON: further columns of the head file
    recorded_ms      INTEGER,
    offset_min       INTEGER,
    place_in_change  INTEGER,                         -- order among the heads of one change
    read_hlc         INTEGER,                         -- the change that first told it
    read_device      BLOB,
    read_seq         INTEGER,
    corrected        INTEGER NOT NULL DEFAULT 0,      -- whether it says other than first read
    corrected_hlc    INTEGER,                         -- the correction that stands
    corrected_device BLOB,
    corrected_seq    INTEGER,
    removed          INTEGER NOT NULL DEFAULT 0,
    removed_hlc      INTEGER,                         -- the removal or restoring that stands
    removed_device   BLOB,
    removed_seq      INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX head_by_stop ON head (stop);

-- Which changes speak of a planting, a walk, or another shared row: its history.
CREATE TABLE spoken_of (
    id     BLOB    NOT NULL,
    device BLOB    NOT NULL,
    seq    INTEGER NOT NULL,
    PRIMARY KEY (id, device, seq)
) STRICT, WITHOUT ROWID;

-- Kept sums ------------------------------------------------------------------

-- Answers of the model, kept because they take time; may be emptied at any
-- time. A row goes when a head, a walk or anything else it stands on changes.
CREATE TABLE answer (
    walk     BLOB NOT NULL PRIMARY KEY,
    planting BLOB NOT NULL,
    made_by  TEXT NOT NULL,                           -- version and settings of the model
    heads    INTEGER NOT NULL,                        -- that it stands on
    low      REAL,                                    -- band of the position, for lists; none without heads
    mid      REAL,
    high     REAL,
    value    TEXT NOT NULL                            -- JSON: the whole answer
) STRICT, WITHOUT ROWID;
CREATE INDEX answer_by_planting ON answer (planting);
