-- What dates rest on beside weather and walks: users' heat sets, which set and
-- which station count where, and the maturity class of a hybrid.

-- A user's heat set. Base, upper limit, method and tables are one value, so that
-- two edits never leave the limits of one beside the table of the other.
CREATE TABLE heat_set (
    id      BLOB    NOT NULL PRIMARY KEY,
    scale   TEXT,                                     -- JSON: name, source, unit, base, upper, method, tables
    removed INTEGER NOT NULL DEFAULT 0
) STRICT, WITHOUT ROWID;

-- What holds for the whole notebook, in one row with the id 0.
CREATE TABLE whole_notebook (
    id       BLOB NOT NULL PRIMARY KEY,
    heat_set TEXT                                     -- code of a published set, or id of a user's
) STRICT, WITHOUT ROWID;

ALTER TABLE hybrid ADD COLUMN maturity TEXT;          -- early | medium_early | medium | medium_late | late
ALTER TABLE hybrid ADD COLUMN heat_set TEXT;          -- as above
ALTER TABLE planting ADD COLUMN heat_set TEXT;        -- as above
ALTER TABLE field ADD COLUMN station TEXT;            -- for its plantings that name none
