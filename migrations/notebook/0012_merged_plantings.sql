-- Whether any planting was merged into another is asked for each name that is given.
CREATE INDEX planting_by_merged_into ON planting (merged_into) WHERE merged_into IS NOT NULL;
