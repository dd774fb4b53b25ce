-- The crew's hub in PostgreSQL. Instants are milliseconds since 1970 (UTC).

CREATE TABLE crew (
    id      UUID NOT NULL PRIMARY KEY,
    name    TEXT NOT NULL,
    made_at BIGINT NOT NULL
);

CREATE TABLE person (
    id      UUID NOT NULL PRIMARY KEY,
    crew    UUID NOT NULL REFERENCES crew (id),
    name    TEXT NOT NULL,
    role    TEXT NOT NULL CHECK (role IN ('reader', 'scout', 'owner')),
    made_at BIGINT NOT NULL
);
CREATE INDEX person_of_crew ON person (crew);

-- The membership of one phone. Only the hash of its secret is kept.
CREATE TABLE device (
    id         UUID NOT NULL PRIMARY KEY,
    person     UUID NOT NULL REFERENCES person (id),
    name       TEXT NOT NULL,
    token_hash BYTEA NOT NULL,
    joined_at  BIGINT NOT NULL,
    seen_at    BIGINT NOT NULL,
    removed_at BIGINT
);
CREATE INDEX device_of_person ON device (person);

-- One use each. Without a crew it founds one.
CREATE TABLE invitation (
    id        UUID NOT NULL PRIMARY KEY,
    crew      UUID REFERENCES crew (id),
    person    UUID REFERENCES person (id),
    role      TEXT NOT NULL CHECK (role IN ('reader', 'scout', 'owner')),
    code_hash BYTEA NOT NULL UNIQUE,
    made_at   BIGINT NOT NULL,
    ends_at   BIGINT NOT NULL,
    used_by   UUID REFERENCES device (id)
);

-- The series of one writer: head is the last number, tag the start of its change's digest.
CREATE TABLE series (
    id     BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    crew   UUID NOT NULL REFERENCES crew (id),
    device UUID NOT NULL,
    head   BIGINT NOT NULL,
    tag    BYTEA NOT NULL,
    UNIQUE (crew, device)
);

CREATE TABLE change (
    series      BIGINT NOT NULL REFERENCES series (id),
    seq         BIGINT NOT NULL CHECK (seq > 0),
    received_at BIGINT NOT NULL,
    body        BYTEA NOT NULL,
    PRIMARY KEY (series, seq)
);

-- Photos by the SHA-256 of their bytes; the bytes are in the photo store.
CREATE TABLE photo (
    crew     UUID NOT NULL REFERENCES crew (id),
    name     BYTEA NOT NULL,
    size     BIGINT NOT NULL,
    have     BIGINT NOT NULL,
    whole_at BIGINT,
    PRIMARY KEY (crew, name)
);
