-- Seals: signatures by which every notebook knows that a series was written by
-- the device whose series it is. What they cover is in the docs of `seal`.

-- The key that a series was first seen with; another one is refused from then on.
-- A branch that was moved goes on with the seals of the series it parted from:
-- its change 1 was change `origin_seq` + 1 of `origin`, after the link `origin_link`.
CREATE TABLE writer (
    device      BLOB    NOT NULL PRIMARY KEY CHECK (length(device) = 16),
    key         BLOB    NOT NULL CHECK (length(key) = 32),  -- Ed25519, public
    origin      BLOB    CHECK (length(origin) = 16),
    origin_seq  INTEGER CHECK (origin_seq >= 0),
    origin_link BLOB    CHECK (length(origin_link) = 32)
) STRICT, WITHOUT ROWID;

-- One covers the whole series up to its number.
CREATE TABLE seal (
    device    BLOB    NOT NULL CHECK (length(device) = 16),
    seq       INTEGER NOT NULL CHECK (seq >= 1),
    signature BLOB    NOT NULL CHECK (length(signature) = 64),
    link      BLOB    NOT NULL CHECK (length(link) = 32),   -- of the series up to here
    PRIMARY KEY (device, seq)
) STRICT, WITHOUT ROWID;
