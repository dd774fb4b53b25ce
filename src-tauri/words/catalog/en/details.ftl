### What exactly is wrong with what was given. Names of columns, and words that belong in a file, are written as in the file.

row-too-long = the row is longer than 16 KB: is a closing quote missing?

# $fields (Number)
# $columns (Number)
field-count = the row has { $fields } fields, the header { $columns }: check for a missing or unquoted comma

row-too-short = the line is too short: give every column of the header
not-of-layout = the line is not of this file’s layout

# $column (String)
value-missing = { $column } is empty: every row needs one

# $column (String)
# $most (Number)
name-too-long = { $column } is longer than { $most } characters

# $column (String)
control-character = { $column } holds a control character or line break

# $column (String)
date-missing = { $column } is empty: use a date as YYYY-MM-DD

# $column (String)
# $text (String)
not-a-date = { $column } '{ $text }' is no date: use YYYY-MM-DD

# $column (String)
# $date (String)
# $first (String)
# $last (String)
far-date = { $column } { $date } is outside { $first } to { $last }: check the year

reading-missing = reading is empty: use boot, emerging, bloom, liquid, pliable, dented or dark_spot

# $text (String)
unknown-reading = unknown reading '{ $text }': use boot, emerging, bloom, liquid, pliable, dented or dark_spot

# $text (String)
share-not-whole = share '{ $text }' is no whole number: use a whole percent from 1 to 100

# $share (String)
share-out-of-range = share { $share } is out of range: use a whole percent from 1 to 100

# $reading (String)
share-missing = { $reading } needs a share: a whole percent from 1 to 100

share-on-boot = boot takes no share: leave it empty

# $column (String)
# $text (String)
# $limit (Number)
not-degrees = { $column } '{ $text }' is no position: use degrees from -{ $limit } to { $limit }

# $latitude (String)
swapped = latitude '{ $latitude }' is no latitude, but could be a longitude: if the two columns are swapped, swap their names in the header

# $given (String)
# $missing (String)
position-half = { $given } without { $missing }: give both or none

planting-unnamed = the planting has no name

# $name (String)
# $first (Number)
planting-again = planting '{ $name }' already stands in line { $first }: this line is ignored

# $text (String)
unknown-purpose = purpose '{ $text }' is not known: use grain, silage or seed

# $column (String)
# $text (String)
not-an-area = { $column } '{ $text }' is no area: use a number above 0

# $bloom (String)
# $planted (String)
bloom-before-planting = half_bloom_on { $bloom } is before planted_on { $planted }: check both dates

# $column (String)
# $text (String)
not-a-number = { $column } '{ $text }' is no number

# $element (String)
# $flag (String)
failed-quality = { $element } failed the source’s quality check '{ $flag }': left out
