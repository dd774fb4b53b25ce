-- Whose a series is. Keys and signatures are Ed25519; what a seal covers is in the
-- docs of the notebook's module `seal`.

-- The public key of a membership, given once. A phone of an older version has none.
ALTER TABLE device ADD COLUMN key BYTEA;

-- The membership that may add to a series, and the key that seals it. Series from
-- before have neither until somebody adds to them. A moved branch goes on with the
-- seals of the series it parted from, after its number and its link there.
ALTER TABLE series ADD COLUMN owner UUID REFERENCES device (id);
ALTER TABLE series ADD COLUMN key BYTEA;
ALTER TABLE series ADD COLUMN origin UUID;
ALTER TABLE series ADD COLUMN origin_seq BIGINT;
ALTER TABLE series ADD COLUMN origin_link BYTEA;

-- One covers its series up to its number; link is the digest of the series there.
CREATE TABLE seal (
    series    BIGINT NOT NULL REFERENCES series (id),
    seq       BIGINT NOT NULL CHECK (seq > 0),
    signature BYTEA NOT NULL,
    link      BYTEA NOT NULL,
    PRIMARY KEY (series, seq)
);
