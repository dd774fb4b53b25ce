-- What came and cannot count, kept as it came.

-- The bytes of a change that this version cannot read, as they travelled; none for
-- every other. Such a change has the kind 'unreadable', the clock 0 and no body.
ALTER TABLE change ADD COLUMN raw BLOB;

-- Changes, and facts of changes, that do not count here: a view like the others.
CREATE TABLE set_aside (
    device BLOB    NOT NULL CHECK (length(device) = 16),
    seq    INTEGER NOT NULL CHECK (seq >= 1),
    fact   INTEGER NOT NULL CHECK (fact >= -1),       -- place in the change's body; -1: the whole change
    reason TEXT    NOT NULL,                          -- unreadable | out_of_bounds | waiting | told_again
    what   TEXT    NOT NULL,                          -- the value that breaks a bound; empty for other reasons
    hlc    INTEGER NOT NULL,                          -- of the change
    PRIMARY KEY (device, seq, fact)
) STRICT, WITHOUT ROWID;
CREATE INDEX set_aside_waiting ON set_aside (hlc) WHERE reason = 'waiting';
