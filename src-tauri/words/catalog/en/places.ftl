### Outlines, stops on the ground, and where to stop next.

position =
    .off = Position is off.
    .looking = Finding your position
    .refused = The app may not see your position. Allow it in the device’s settings; you can walk without it.
    .unavailable = No position here. You can walk without it.

# $meters (Number)
meters = { $meters } m

# $feet (Number)
feet = { $feet } ft

# $good (String)
known = Your position is accurate to { $good }.

# $good (String)
# $minutes (Number)
old =
    { $minutes ->
        [one] Your position is { $minutes } minute old (accurate to { $good } then).
       *[other] Your position is { $minutes } minutes old (accurate to { $good } then).
    }

north-letter = N
where-am-i = Find my field

# $name (String)
at = You are at { $name }

# $name (String)
# $length (String)
near = { $name } is { $length } from here

# $name (String)
# $good (String)
may-be-at = You may be at { $name } (position accurate only to { $good })

nothing-near = No planting with a known position is near.
map-title = Where the walks stopped

# $walks (Number)
# $stops (Number)
drawn =
    { $stops ->
        [0] The outline of the planting. No stop has a position yet.
       *[other] { $stops ->
            [one] { $stops } stop
           *[other] { $stops } stops
        } of { $walks ->
            [one] { $walks } walk
           *[other] { $walks } walks
        }, the latest darkest.
    }

no-outline = No outline and no stop with a position yet.
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

all-done = All planned stops are walked. The dashed ones are in reserve.

# $stops (Number)
# $spare (Number)
plan-drawn = The planting from above with { $stops } planned stops in walking order and { $spare } in reserve.

legend = Numbers: planned stops. Check: walked. Dots: where you stopped. Dashed: in reserve. Cross: you.

# $length (String)
# $edge (String)
walk-length = About { $length } from first to last, { $edge } from every edge.

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
plan-edge = Distance from the edges
why-balanced = The stops are drawn at random and spread evenly, so nobody picks the good corner. The same walk keeps its plan.
to-walk = Back to the walk
bring-in = Import the outline from a map file
bring-other = Import another outline
remove-outline = Delete this outline
remove-sure = Delete the outline? Stops and walks stay.
remove-yes = Delete
keep = Cancel
outline-removed = The outline was deleted.
file-title = Import field outlines
file-intro = A map file with fields as polygons: GeoJSON, KML or KMZ, or a shapefile. You see which outline is whose before anything is saved.
file-shape = For a shapefile choose the zip, or the .shp together with its .dbf and its .prj, which says what its numbers mean.

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

already = Already imported, unchanged.
replaces = Replaces the outline that is there.
refused = Cannot be used:
whose = Outline of
nobodys = skip

# $name (String)
field = Field { $name }

# $count (Number)
store =
    Import { $count ->
        [one] { $count } outline
       *[other] { $count } outlines
    }

nothing-to-store = Nothing new to import. Choose a planting for an outline, or another file.

# $count (Number)
stored =
    Imported { $count ->
        [one] { $count } outline
       *[other] { $count } outlines
    }.

# $good (String)
stop-placed = position ±{ $good }

stop-unplaced = no position
