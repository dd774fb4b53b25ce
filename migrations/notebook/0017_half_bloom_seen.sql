-- What was seen on the noted day of half bloom: halfway_down | some_bloom. Notebooks
-- from before this say neither.
ALTER TABLE planting ADD COLUMN half_bloom_seen TEXT;
