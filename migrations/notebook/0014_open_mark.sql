-- What tells a notebook that lacks changes it showed as saved.

-- Whether changes may lie in the -wal file beside this one. Set to 'open' in the
-- file itself before the first change after an opening, and to 'closed' when the
-- last program closes it: a copy that says 'open' and has no -wal lacks changes.
CREATE TABLE open_mark (
    one   INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    state TEXT    NOT NULL CHECK (state IN ('open', 'closed'))
) STRICT;
INSERT INTO open_mark (one, state) VALUES (1, 'closed');

-- A seal of this device's id, so that one altered on the disk is noticed. A row
-- without a seal is of an older version and gets one at the next opening.
ALTER TABLE this_device ADD COLUMN seal BLOB;
