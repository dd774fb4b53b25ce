### What was changed, two walks side by side, and search.

open = History
title = History

# $name (String)
of = Every change to { $name }, latest first.

acts =
    .planting_added = Planting added
    .planting_edited = Planting edited
    .planting_removed = Planting deleted
    .planting_restored = Planting restored
    .planting_merged = Plantings merged
    .planting_unmerged = Merged plantings taken apart
    .walk_started = Walk started
    .walk_finished = Walk finished
    .walk_reopened = Walk reopened
    .walk_edited = Walk date corrected
    .walk_removed = Walk deleted
    .walk_restored = Walk restored
    .stop_added = Next stop
    .stop_placed = Stop placed
    .head_read = Head read
    .head_corrected = Head corrected
    .head_removed = Head deleted
    .branch_moved = Changes moved to a series of their own
    .undone = Undone
    .file_imported = Imported from a file
    .weather_imported = Weather imported
    .weather_typed = Weather entered
    .station_placed = Station placed
    .heat_set_saved = Heat-unit table saved
    .heat_set_removed = Heat-unit table deleted
    .heat_set_restored = Heat-unit table restored
    .heat_set_chosen = Heat-unit table chosen
    .hybrid_edited = Hybrid edited
    .field_edited = Field edited
    .outlines_imported = Outline imported
    .outline_removed = Outline deleted
    .photo_added = Photo added
    .photo_captioned = Photo captioned
    .photo_removed = Photo deleted
    .photo_restored = Photo restored
    .observed = Ripe grain checked
    .observation_corrected = Observation corrected
    .observation_removed = Observation deleted
    .terms_set = Harvest terms set
    .harvest_undone = Undone
    .newer = Something that a newer version wrote

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
    .heat_set = Heat-unit table
    .merged_into = Same planting as
    .maturity = Maturity
    .scale = Heat units
    .planting = Planting
    .walked_on = Walked on
    .scout = Scout
    .finished = Finished
    .number = Number
    .place = Place
    .caption = Caption
    .removed = Deleted
    .newer = Something that a newer version wrote

parts =
    .kind = Observed
    .meter = Meter
    .meter_name = Name of the meter
    .meter_error = Error of the meter
    .percents = Moisture, %
    .frame_square_feet = Frame, sq ft
    .seeds = Seeds in each frame
    .heads = Heads on the ground
    .lodged = Lodged, %
    .weak_stalks = Weak stalks, %
    .weathering = Weathering, 0 to 9
    .on = Date
    .scout = Scout
    .note = Note
    .removed = Deleted
    .newer = Something that a newer version wrote

other-term = Outlet, fuel or discounts

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
heads =
    { $count ->
        [one] { $count } head
       *[other] { $count } heads
    }

# $to (String)
# $was (String)
head-corrected = { $to } (was: { $was })

# $head (String)
head-out = Deleted: { $head }

a-head-out = A head, deleted

# $head (String)
head-back = Restored: { $head }

a-head-back = A head, restored
you = this device
someone = another device

# $who (String)
# $device (String)
by = { $who }, { $device }

taken-back = undone since
take-back = Undo this

# $act (String)
# $at (String)
take-back-of = Undo this: { $act }, { $at }

done = Undone. It stays in the history, and can be undone too.
older = Show older changes
end = This is where the history begins.
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
        [one] { $days } day apart.
       *[other] { $days } days apart.
    }

gained-title = What changed

# $mid (Number)
# $low (Number)
# $high (Number)
# $reached (String)
gained-more = About { $mid } % more of the heads { $reached } ({ $low } % to { $high } %).

# $mid (Number)
# $low (Number)
# $high (Number)
# $reached (String)
gained-fewer = About { $mid } % fewer of the heads { $reached } ({ $low } % to { $high } %): the walks do not agree.

# $down (String)
# $up (String)
# $reached (String)
gained-unknown = Not clear whether more heads { $reached }: from { $down } to { $up }.

# $count (Number)
fewer = { $count } % fewer

# $count (Number)
more-heads = { $count } % more

no-more = no change
gained-none = No share changed clearly.

# $level (Number)
gained-note = Each walk is judged by its own heads alone. Each range is { PERCENT($level) } % sure.

search-title = Search
search = Search notes, names, hybrids and scouts
search-hint = the first letters are enough
search-start = Type the first letters of a word. Accents and capitals do not matter.

# $text (String)
search-none = Nothing starts with “{ $text }”. Try fewer letters or another word.

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
