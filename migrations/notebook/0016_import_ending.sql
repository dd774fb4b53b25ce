-- What brings a large import to its end. Its heads are written in lots that nobody
-- sees, since their walks are not made yet; the bodies of the changes that make
-- those walks are laid here in one transaction, which decides the import, and go
-- from here to the log in lots of their own. After a kill the next opening goes on.
CREATE TABLE import_ending (
    place  INTEGER NOT NULL PRIMARY KEY,              -- order in which they are recorded
    body   TEXT    NOT NULL,                          -- JSON: the facts
    digest BLOB    NOT NULL CHECK (length(digest) = 32) -- SHA-256 of the body
) STRICT;
