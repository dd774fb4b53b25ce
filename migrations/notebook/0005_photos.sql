-- Photos: what the log says of them, and where their files are. The files lie
-- beside the notebook, each under the SHA-256 of its bytes.

CREATE TABLE photo (
    id          BLOB    NOT NULL PRIMARY KEY,
    planting    BLOB,
    walk        BLOB,                                 -- none for a photo of the planting
    stop        BLOB,
    head        BLOB,                                 -- none for a photo of the stop
    name        BLOB,                                 -- SHA-256 of the file
    bytes       INTEGER,
    width       INTEGER,                              -- pixels, as it is to be seen
    height      INTEGER,
    taken       TEXT,                                 -- local date and time by the camera
    caption     TEXT,
    recorded_ms INTEGER,
    offset_min  INTEGER,
    removed     INTEGER NOT NULL DEFAULT 0,
    made_hlc    INTEGER,
    made_device BLOB,
    made_seq    INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX photo_by_planting ON photo (planting);
CREATE INDEX photo_by_walk ON photo (walk);
CREATE INDEX photo_by_name ON photo (name);

-- What this device knows of the files; never exchanged.
CREATE TABLE photo_file (
    name   BLOB    NOT NULL PRIMARY KEY CHECK (length(name) = 32),
    on_hub INTEGER NOT NULL DEFAULT 0,                -- 1: the hub holds it whole
    freed  INTEGER NOT NULL DEFAULT 0                 -- 1: its room was freed; fetched again on request only
) STRICT, WITHOUT ROWID;
