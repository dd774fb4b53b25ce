### List of plantings, the page of one, and the form for one.

title = Plantings
add = Add a planting
search = Find a planting
search-hint = name, hybrid, field

# $count (Number)
found =
    { $count ->
        [one] 1 planting
       *[other] { $count } plantings
    }

none-found = No planting has that in its name, hybrid, field or farm.
empty-title = No plantings yet
empty-text = Add the first planting you look after; its name is enough. If you have heads in a file, import them.
import-instead = Import heads or plantings

# $days (Number)
walked = walked { AGO($days) }

due-because =
    .walk_open = A walk is open: finish it
    .overdue = No walk for more than ten days
    .never_walked = Never walked
    .fresh = Walked recently
    .ripe = At black layer: no more walks needed for the stage

# $stage (String)
due-for-stage = { CAPITAL($stage) } is due by now

being-worked-out = Computing the stage

# $left (Number)
working-out =
    Computing the stage of { $left ->
        [one] { $left } planting
       *[other] { $left } plantings
    }

purpose =
    .grain = Grain
    .silage = Silage
    .seed = Seed

# $when (String)
planted = planted { $when }

# $size (Number)
acres = { NUMBER($size, maximumFractionDigits: 1) } acres

# $size (Number)
hectares = { NUMBER($size, maximumFractionDigits: 1) } ha

edit = Edit
remove = Delete this planting

# $name (String)
removed = { $name } and its walks were deleted.

# $name (String)
restored = { $name } is back.

start-walk = Start a walk
carry-on = Continue the open walk
not-walked = Not walked yet, so its stage is not known. About five heads at each of five stops are usually enough.
season-over = The season is over for this planting: it has reached black layer and needs no more walks for the stage.
one-head = All of this rests on one head. One more, some way off, tells much more.
which-answer = Which answer
with-history = With earlier walks
alone = This walk alone

# $odds (String)
contradicts = This walk does not fit the earlier ones (chance that they still hold: { $odds }), so they are left out. Right planting? Hail? Mixed hybrids?

odds-least = less than 1 in 1,000

# $fields (Number)
odds = about 1 in { $fields }

shares-title = How far the heads are
heads-tab = Heads
grain-tab = Grain
heads-note = A head has reached a stage when at least half of its length shows it or a later one; it blooms from its first anther.
grain-note = Grain counts by head length: when a head is pliable halfway down, half of its grain has reached soft dough.

# $level (Number)
at-level = Each range is { PERCENT($level) } % sure.

# $heads (Number)
# $stops (Number)
from =
    From { $heads ->
        [one] { $heads } head
       *[other] { $heads } heads
    } at { $stops ->
        [one] { $stops } stop
       *[other] { $stops } stops
    }

table-title = As a table
table-caption = Percent of heads that have reached each stage: middle, then low to high; and the chance, in percent, that the planting is at it
table-stage = Stage
table-chance = Chance
how-title = How do we know?

how-parts =
    .heads = A head ripens from its top down, over six to seven days. A reading and its share pin the age of a head to a span, not to a point.
    .stops = Heads at one stop are alike, so the model has one spread between stops and one between heads. It weighs every planting that could have shown these heads; the ranges are the middle of what is left.
    .earlier = Earlier walks are moved forward by the heat received since, with room for error, and count as what was expected.
    .sources = The 0-9 scale is that of Vanderlip and Reeves, Agronomy Journal 64:13-16 (1972). Heat from half bloom to soft dough, hard dough and black layer: Kansas State University, Agronomy eUpdate 661 (2025), base 50 °F, upper limit 100 °F. Heading and milk are placed by our own calculation.

go-on-title = Look at more heads?
walks-title = Walks

# $date (String)
# $scout (String)
walk-on-by = { $date }, { $scout }

no-answer = No answer: open it to see why.
open = open
open-walk = Open this walk
remove-walk = Delete this walk

# $heads (Number)
remove-walk-sure =
    { $heads ->
        [one] Its { $heads } head no longer counts in any answer. You can undo this.
       *[other] Its { $heads } heads no longer count in any answer. You can undo this.
    }

remove-walk-yes = Delete the walk
keep-walk = Cancel
walk-removed = The walk was deleted.
new-title = New planting
edit-title = Edit planting
name = Name
name-hint = what your crew calls it
name-needed = Give it a name; nothing else is required.
name-taken = Another planting already has that name.
date-used = Dates used before
clear-date = Not set

# $unit (String)
area = Area, { $unit }

unit-acres = acres
unit-hectares = hectares
area-bad = Give the area as a number above 0, or leave it empty.
optional = optional
save = Save
save-new = Save the planting

# $what (String)
known = Used before: { $what }
