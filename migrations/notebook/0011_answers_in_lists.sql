-- What a list shows of the kept answers, planting by planting: read from the table,
-- each row would bring the page with its whole answer along.
CREATE INDEX answer_in_lists ON answer (planting, walk, made_by, heads, low, mid, high, seal);
