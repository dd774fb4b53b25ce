### Outlines, stops on the ground, and where to stop next.

position =
    .off = The position is not being looked for.
    .looking = Looking for your position
    .refused = This app may not see your position. Allow it in the settings of the device; walking works without.
    .unavailable = No position to be had here. Walking works without.

# $meters (Number)
meters = { $meters } m

# $feet (Number)
feet = { $feet } ft

# $good (String)
known = Your position is good to { $good }.

# $good (String)
# $minutes (Number)
old =
    Your position is { $minutes ->
        [one] { $minutes } minute
       *[other] { $minutes } minutes
    } old (good to { $good } then).

north-letter = N
where-am-i = Which planting am I at?

# $name (String)
at = You are at { $name }

# $name (String)
# $length (String)
near = { $name } is { $length } from here

# $name (String)
# $good (String)
may-be-at = You may be at { $name } (position good to { $good } only)

nothing-near = No planting with a known place is near.
map-title = Where the walks stopped

# $walks (Number)
# $stops (Number)
drawn =
    { $stops ->
        [0] The outline of the planting. No stop has a place yet.
       *[other] { $stops ->
            [one] { $stops } stop
           *[other] { $stops } stops
        } of { $walks ->
            [one] { $walks } walk
           *[other] { $walks } walks
        }, the latest darkest.
    }

no-outline = No outline and no placed stop yet.
where-to-stop = Where to stop

# $stop (Number)
# $stops (Number)
next-is = Next: stop { $stop } of { $stops }

toward =
    .n = north
    .ne = northeast
    .e = east
    .se = southeast
    .s = south
    .sw = southwest
    .w = west
    .nw = northwest

# $stop (Number)
# $length (String)
# $paces (Number)
# $toward (String)
way-to-stop = Stop { $stop }: { $length } ({ $paces } paces) { $toward }

# $stop (Number)
you-are-there = You are at stop { $stop }.

all-done = All planned stops are walked. The dashed places are in reserve.

# $stops (Number)
# $spare (Number)
plan-drawn = The planting from above with { $stops } planned stops in walking order and { $spare } places in reserve.

legend = Numbers: planned stops. A check: walked. Dots: where you stopped. Dashed: in reserve. Cross: you.

# $length (String)
# $edge (String)
walk-length = About { $length } from the first to the last, { $edge } off every edge.

no-plan = No plan inside the outline:

# $rows (Number)
# $paces (Number)
paced-intro = No outline here, so count from the corner where you enter: { $rows } rows across, { $paces } paces along them.

# $at (Number)
stop = Stop { $at }:

# $rows (Number)
rows-on = { $rows } rows on

# $rows (Number)
rows-back = { $rows } rows back

# $paces (Number)
paces-up = { $paces } paces up the row

# $paces (Number)
paces-down = { $paces } paces back down the row

rows = Rows across
paces = Paces along the rows
plan-stops = Stops of a plan
plan-edge = Kept off the edges
why-balanced = The places are drawn by chance and spread evenly, so that no one picks the good corner. The same walk keeps its plan.
to-walk = Back to the walk
bring-in = Bring in the outline from a map file
bring-other = Bring in another outline
remove-outline = Remove this outline
remove-sure = Remove the outline? Stops and walks stay.
remove-yes = Remove
keep = Keep it
outline-removed = The outline was removed.
file-title = Bring in outlines of fields
file-intro = A map file with fields as polygons: GeoJSON, KML or KMZ, or a shapefile. You see which outline is whose before anything is stored.
file-shape = Of a shapefile choose the zip, or the .shp together with its .dbf and its .prj, which says what its numbers mean.

# $name (String)
# $outlines (Number)
holds =
    { $name } holds { $outlines ->
        [one] { $outlines } outline
       *[other] { $outlines } outlines
    }

no-targets = There is no planting yet to give an outline to. Add the plantings first.

# $at (Number)
nameless = Outline { $at }

# $corners (String)
corners = { $corners } points

already = Already in the notebook just so.
replaces = Takes the place of the outline that is there.
refused = Cannot be used:
whose = Outline of
nobodys = leave out

# $name (String)
field = Field { $name }

# $count (Number)
store =
    Store { $count ->
        [one] { $count } outline
       *[other] { $count } outlines
    }

nothing-to-store = Nothing new to store: give an outline to a planting, or choose another file.

# $count (Number)
stored =
    Stored { $count ->
        [one] { $count } outline
       *[other] { $count } outlines
    }.

# $good (String)
stop-placed = placed ±{ $good }

stop-unplaced = no place
