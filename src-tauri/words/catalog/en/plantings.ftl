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
empty-text = Add the first planting you look after; its name is enough. If you have heads in a file, bring them in.
import-instead = Bring in a head file or plantings

# $days (Number)
walked = walked { AGO($days) }

due-because =
    .walk_open = A walk is open: carry on
    .overdue = Not walked for more than ten days
    .never_walked = Never walked
    .fresh = Walked lately
    .ripe = At black layer: no more walks for the stage

# $stage (String)
due-for-stage = { CAPITAL($stage) } should be here by now

being-worked-out = Stage is being worked out

# $left (Number)
working-out =
    Working out the stage of { $left ->
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
remove = Remove this planting

# $name (String)
removed = { $name } was removed with its walks.

# $name (String)
restored = { $name } is back.

start-walk = Start a walk
carry-on = Carry on with the open walk
not-walked = Not walked yet. Nothing is known of its stage; about five heads at each of five stops usually say.
season-over = The season is over for this planting: it is at black layer, and no more walks are needed for the stage.
one-head = All of this rests on one head. Another head, some way off, tells much more.
which-answer = Which answer
with-history = With earlier walks
alone = This walk alone

# $odds (String)
contradicts = This walk does not fit the earlier ones ({ $odds } that they still hold). Was it the right planting? Has hail or a mix of hybrids been at work? The earlier walks were left out of this answer.

odds-least = less than 1 chance in 1,000

# $fields (Number)
odds = about 1 chance in { $fields }

shares-title = How far the heads are
heads-tab = Heads
grain-tab = Grain
heads-note = A head is at a stage when at least half of its length shows it or a later one; it is in bloom from its first anther.
grain-note = Grain counts by head length: a head that is pliable halfway down has half of its grain at soft dough.

# $level (Number)
at-level = Every span holds the truth { PERCENT($level) } times in a hundred.

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
table-caption = Share that has reached each stage, in a hundred: middle, and from low to high; and the chance that the planting is at it
table-stage = Stage
table-chance = Chance
how-title = How this is reckoned

how-parts =
    .heads = A head ripens from its top down, over six to seven days. A reading and its share pin the age of a head to a span, not to a point.
    .stops = Heads at one stop are alike, so the model has a spread between stops and one between heads. It weighs every planting that could have shown these heads, and the bands are the middle of what is left.
    .earlier = Earlier walks are moved forward by the heat received since, with room for error, and come in as what was to be expected.
    .sources = The 0-9 scale is that of Vanderlip and Reeves, Agronomy Journal 64:13-16 (1972). Heat from half bloom to soft dough, hard dough and black layer: Kansas State University, Agronomy eUpdate 661 (2025), base 50 °F, upper limit 100 °F. Heading and milk are placed by our own reckoning.

go-on-title = Look at more heads?
walks-title = Walks

# $date (String)
# $scout (String)
walk-on-by = { $date }, { $scout }

no-answer = No answer: open it to see why.
open = open
open-walk = Open this walk
remove-walk = Remove this walk

# $heads (Number)
remove-walk-sure =
    Its { $heads ->
        [one] { $heads } head leaves
       *[other] { $heads } heads leave
    } every answer; the notebook keeps them in its history. There is no button that brings them back.

remove-walk-yes = Remove the walk
keep-walk = Keep it
walk-removed = The walk was removed.
new-title = New planting
edit-title = Edit planting
name = Name
name-hint = as the crew says it
name-needed = Give it a name: it is the one thing needed.
name-taken = There is a planting of that name already.
hybrid = Hybrid
field = Field
farm = Farm
planted-on = Planted on
date-used = Dates used before
clear-date = Not known
grown-for = Grown for

# $unit (String)
area = Area, { $unit }

unit-acres = acres
unit-hectares = hectares
area-bad = Give the area as a number above 0, or leave it empty.
optional = if you know it
save = Save
save-new = Save the planting

# $what (String)
known = Used before: { $what }
