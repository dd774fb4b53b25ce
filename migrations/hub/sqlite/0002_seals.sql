-- Whose a series is. Keys and signatures are Ed25519; what a seal covers is in the
-- docs of the notebook's module `seal`.

-- The public key of a membership, given once. A phone of an older version has none.
ALTER TABLE device ADD COLUMN key BLOB;

-- The membership that may add to a series, and the key that seals it. Series from
-- before have neither until somebody adds to them. A moved branch goes on with the
-- seals of the series it parted from, after its number and its link there.
ALTER TABLE series ADD COLUMN owner BLOB REFERENCES device (id);
ALTER TABLE series ADD COLUMN key BLOB;
ALTER TABLE series ADD COLUMN origin BLOB;
ALTER TABLE series ADD COLUMN origin_seq INTEGER;
ALTER TABLE series ADD COLUMN origin_link BLOB;

-- One covers its series up to its number; link is the digest of the series there.
CREATE TABLE seal (
    series    INTEGER NOT NULL REFERENCES series (id),
    seq       INTEGER NOT NULL CHECK (seq > 0),
    signature BLOB NOT NULL,
    link      BLOB NOT NULL,
    PRIMARY KEY (series, seq)
) STRICT, WITHOUT ROWID;
