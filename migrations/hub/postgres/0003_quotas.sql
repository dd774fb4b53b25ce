-- What each membership has stored, so that no single one can fill a hub. What was
-- stored before this step is counted for nobody.
ALTER TABLE device ADD COLUMN series_made BIGINT NOT NULL DEFAULT 0;
ALTER TABLE device ADD COLUMN bytes_stored BIGINT NOT NULL DEFAULT 0;

-- The membership that first pushed a series.
ALTER TABLE series ADD COLUMN made_by UUID REFERENCES device (id);

-- The membership that began to send a photo.
ALTER TABLE photo ADD COLUMN begun_by UUID REFERENCES device (id);
CREATE INDEX photo_begun_by ON photo (begun_by, size);
