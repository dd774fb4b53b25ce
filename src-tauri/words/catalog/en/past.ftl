### What was changed, two walks side by side, and search.

open = History
title = History

# $name (String)
of = Everything that was changed about { $name }, the latest first.

acts =
    .planting_added = Planting added
    .planting_edited = Planting edited
    .planting_removed = Planting removed
    .planting_restored = Planting brought back
    .walk_started = Walk begun
    .walk_finished = Walk finished
    .walk_reopened = Walk opened again
    .walk_edited = Walk date corrected
    .walk_removed = Walk removed
    .stop_added = Next stop
    .stop_placed = Stop placed
    .head_read = Head read
    .head_corrected = Head corrected
    .head_removed = Head taken out
    .undone = Taken back
    .file_imported = Brought in from a file
    .outlines_imported = Outline brought in
    .outline_removed = Outline taken out
    .photo_added = Photo added
    .photo_captioned = Photo captioned
    .photo_removed = Photo taken out
    .photo_restored = Photo brought back
    .observed = Ripe grain looked at
    .observation_corrected = Observation corrected
    .observation_removed = Observation taken out
    .terms_set = Harvest terms set
    .harvest_undone = Taken back

newer-act = Something that a newer version wrote

fields =
    .name = Name
    .farm = Farm
    .field = Field
    .hybrid = Hybrid
    .planted_on = Planted on
    .half_bloom_on = Half bloom on
    .purpose = Grown for
    .area = Area
    .station = Weather station
    .outline = Outline
    .place = Place
    .caption = Caption
    .finished = Finished
    .removed = Removed
    .number = Number

yes = yes
no = no
nothing = nothing

# $latitude (Number)
# $longitude (Number)
position = { NUMBER($latitude, maximumFractionDigits: 5) }, { NUMBER($longitude, maximumFractionDigits: 5) }

# $note (String)
quoted = “{ $note }”

# $field (String)
# $to (String)
field-set = { $field }: { $to }

# $field (String)
# $to (String)
# $was (String)
field-changed = { $field }: { $to } (was: { $was })

# $on (Date)
walk-of = Walk of { DATE($on) }

# $on (Date)
# $scout (String)
walk-of-by = Walk of { DATE($on) }, { $scout }

# $stop (Number)
stop = Stop { $stop }

photo = A photo

# $count (Number)
heads = { $count } heads

# $to (String)
# $was (String)
head-corrected = { $to } (was: { $was })

# $head (String)
head-out = Out: { $head }

a-head-out = A head, out

# $head (String)
head-back = Back: { $head }

a-head-back = A head, back
you = this device
someone = another device

# $who (String)
# $device (String)
by = { $who }, { $device }

taken-back = taken back since
take-back = Take this back

# $act (String)
# $at (String)
take-back-of = Take this back: { $act }, { $at }

done = Taken back. It stands in the history, and can be taken back too.
older = Show older changes
end = That is where it begins.
empty = Nothing was changed yet.

# $on (String)
open-walk = To the walk of { $on }

compare-open = Compare walks
compare-title = Compare two walks
compare-needs = Two walks with heads are needed. Walk it once more, then come back.
first-walk = One walk
second-walk = The other walk
same-walk = Choose two different walks.

# $on (String)
earlier-walk = Earlier: { $on }

# $on (String)
later-walk = Later: { $on }

# $days (Number)
days =
    { $days ->
        [one] 1 day lies between them.
       *[other] { $days } days lie between them.
    }

gained-title = What changed

# $at (String)
# $mid (Number)
# $low (Number)
# $high (Number)
gained-more = Of 100 heads, about { $mid } more have come to be { $at } (between { $low } and { $high }).

# $at (String)
# $mid (Number)
# $low (Number)
# $high (Number)
gained-fewer = Of 100 heads, about { $mid } fewer are { $at } (between { $low } and { $high }): the walks do not fit.

# $at (String)
# $down (String)
# $up (String)
gained-unknown = Whether more heads are { $at } cannot be told: anything from { $down } to { $up } in a hundred.

# $count (Number)
fewer = { $count } fewer

# $count (Number)
more-heads = { $count } more

no-more = none
gained-none = No share differs enough to speak of.

# $level (Number)
gained-note = Each walk is taken by its own heads alone. Every span holds the truth { PERCENT($level) } times in a hundred.

search-title = Search
search = Search notes, names, hybrids and scouts
search-hint = beginnings of words are enough
search-start = Type a word, or how it begins. Accents and capitals do not matter.

# $text (String)
search-none = Nothing begins with “{ $text }”. Try fewer letters or another word.

# $count (Number)
found =
    { $count ->
        [one] 1 found
       *[other] { $count } found
    }

plantings = Plantings
walks = Walks by scout
notes = Notes on heads

found-by =
    .name = Name
    .hybrid = Hybrid
    .field = Field
    .farm = Farm

# $planting (String)
# $on (String)
# $stop (Number)
note-at = { $planting }, { $on }, stop { $stop }

more = There is more than fits here. Type more letters.
