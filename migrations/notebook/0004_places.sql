-- Where things are: outlines of fields and plantings, and how old a stop's
-- position was when it was told.

ALTER TABLE stop ADD COLUMN age_s REAL;               -- seconds between the fix and its telling
ALTER TABLE field ADD COLUMN outline TEXT;            -- GeoJSON MultiPolygon, WGS 84
ALTER TABLE planting ADD COLUMN outline TEXT;         -- the same, where it is not the whole field
