-- What was seen of ripe grain: moisture readings, seeds on the ground, how it
-- stands, and when it was cut; and the terms that a harvest is weighed by.

-- An observation stands as first told, or as the latest correction says. One
-- whose telling has not arrived yet has no told_hlc and is not shown.
CREATE TABLE observed (
    id               BLOB    NOT NULL PRIMARY KEY,
    planting         BLOB,
    observed_on      TEXT,                            -- civil date
    what             TEXT,                            -- JSON: kind and numbers
    scout            TEXT,
    note             TEXT,
    recorded_ms      INTEGER,
    offset_min       INTEGER,
    told_hlc         INTEGER,                         -- the change that first told it
    told_device      BLOB,
    told_seq         INTEGER,
    corrected        INTEGER NOT NULL DEFAULT 0,      -- whether it says other than first told
    corrected_hlc    INTEGER,                         -- the correction that stands
    corrected_device BLOB,
    corrected_seq    INTEGER,
    removed          INTEGER NOT NULL DEFAULT 0,
    removed_hlc      INTEGER,                         -- the removal or restoring that stands
    removed_device   BLOB,
    removed_seq      INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX observed_by_planting ON observed (planting, observed_on, id);

-- Every value that anyone gave to a term (price, loss a day, discounts...), for
-- one planting or for all. The latest (hlc, device, seq) stands; the others stay
-- visible. A value of null takes the one before it back.
CREATE TABLE harvest_term (
    planting BLOB    NOT NULL CHECK (length(planting) = 16), -- zeros: for all plantings
    name     TEXT    NOT NULL,
    hlc      INTEGER NOT NULL,
    device   BLOB    NOT NULL,
    seq      INTEGER NOT NULL,
    value    TEXT    NOT NULL,                        -- JSON
    PRIMARY KEY (planting, name, hlc, device, seq)
) STRICT, WITHOUT ROWID;
