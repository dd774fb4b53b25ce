-- What working as a crew adds.

-- Two scouts without signal may each make a planting for the same sorghum. Said
-- to be one, both are shown as one, with the walks of both; ids stay, so that it
-- can be taken back.
ALTER TABLE planting ADD COLUMN merged_into BLOB;     -- as it was last said; none: a planting of its own
ALTER TABLE planting ADD COLUMN shown_as    BLOB;     -- where that leads in the end; none: itself
CREATE INDEX planting_by_shown_as ON planting (shown_as) WHERE shown_as IS NOT NULL;

-- Branches of a copied device's series that were moved to series of their own:
-- change 1 of `series` was change `first` of `device`. What the branch's changes
-- say about its own numbers is read through this.
CREATE TABLE moved_series (
    series BLOB    NOT NULL CHECK (length(series) = 16),
    device BLOB    NOT NULL CHECK (length(device) = 16),
    first  INTEGER NOT NULL CHECK (first >= 1),
    PRIMARY KEY (series, device, first)
) STRICT, WITHOUT ROWID;
