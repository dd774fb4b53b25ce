-- A seal of what this device knows of a photo's file, so that one bit turned on the
-- disk never says that the hub holds a photo which is here alone. A row without a
-- seal, or with one that does not fit, counts as nothing known.
ALTER TABLE photo_file ADD COLUMN seal BLOB;
