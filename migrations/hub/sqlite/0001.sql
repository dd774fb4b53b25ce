-- The crew's hub in one SQLite file. Ids are 16 bytes, instants milliseconds since 1970 (UTC).

CREATE TABLE crew (
    id      BLOB NOT NULL PRIMARY KEY,
    name    TEXT NOT NULL,
    made_at INTEGER NOT NULL
) STRICT;

CREATE TABLE person (
    id      BLOB NOT NULL PRIMARY KEY,
    crew    BLOB NOT NULL REFERENCES crew (id),
    name    TEXT NOT NULL,
    role    TEXT NOT NULL CHECK (role IN ('reader', 'scout', 'owner')),
    made_at INTEGER NOT NULL
) STRICT;
CREATE INDEX person_of_crew ON person (crew);

-- The membership of one phone. Only the hash of its secret is kept.
CREATE TABLE device (
    id         BLOB NOT NULL PRIMARY KEY,
    person     BLOB NOT NULL REFERENCES person (id),
    name       TEXT NOT NULL,
    token_hash BLOB NOT NULL,
    joined_at  INTEGER NOT NULL,
    seen_at    INTEGER NOT NULL,
    removed_at INTEGER
) STRICT;
CREATE INDEX device_of_person ON device (person);

-- One use each. Without a crew it founds one.
CREATE TABLE invitation (
    id        BLOB NOT NULL PRIMARY KEY,
    crew      BLOB REFERENCES crew (id),
    person    BLOB REFERENCES person (id),
    role      TEXT NOT NULL CHECK (role IN ('reader', 'scout', 'owner')),
    code_hash BLOB NOT NULL UNIQUE,
    made_at   INTEGER NOT NULL,
    ends_at   INTEGER NOT NULL,
    used_by   BLOB REFERENCES device (id)
) STRICT;

-- The series of one writer: head is the last number, tag the start of its change's digest.
CREATE TABLE series (
    id     INTEGER NOT NULL PRIMARY KEY,
    crew   BLOB NOT NULL REFERENCES crew (id),
    device BLOB NOT NULL,
    head   INTEGER NOT NULL,
    tag    BLOB NOT NULL,
    UNIQUE (crew, device)
) STRICT;

CREATE TABLE change (
    series      INTEGER NOT NULL REFERENCES series (id),
    seq         INTEGER NOT NULL CHECK (seq > 0),
    received_at INTEGER NOT NULL,
    body        BLOB NOT NULL,
    PRIMARY KEY (series, seq)
) STRICT, WITHOUT ROWID;

-- Photos by the SHA-256 of their bytes; the bytes are in the photo store.
CREATE TABLE photo (
    crew     BLOB NOT NULL REFERENCES crew (id),
    name     BLOB NOT NULL,
    size     INTEGER NOT NULL,
    have     INTEGER NOT NULL,
    whole_at INTEGER,
    PRIMARY KEY (crew, name)
) STRICT, WITHOUT ROWID;
