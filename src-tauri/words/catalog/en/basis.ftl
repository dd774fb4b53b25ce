### What dates rest on: stations and their places, heat sets, hybrids and their pace.

change = Change what this is based on

# $planting (String)
title = What { $planting } is based on

title-open = What the dates are based on
station = Weather station
station-text = The app uses the nearest station with weather where positions are known; or choose one.
not-placed = This planting has no position yet: no stop of a walk has one. Distances cannot be given; choose a station.
no-station = No station has weather yet.
leave-to-app = Let the app choose

# $km (Number)
station-distance = { $km } km

# $last (Date)
station-until = to { DATE($last) }

nearest-mark = nearest

# $field (String)
for-field = For all plantings of { $field }

for-field-hint = Plantings with a station of their own keep it.
kept = Saved. The outlook uses it now.

# $name (String)
# $by (String)
uses-now = In use: { $name }, { $by }

chosen-by =
    .planting = set for the planting
    .field = set for the field
    .nearest = nearest
    .only = the only station

place = Position of the station

# $name (String)
place-of = Position of { $name }

place-text = In degrees, as maps give them. With it the app finds the nearest station for a planting.
latitude = Latitude (north above 0)
longitude = Longitude (east above 0)

# $latitude (Number)
# $longitude (Number)
place-known = At { NUMBER($latitude, maximumFractionDigits: 3) }, { NUMBER($longitude, maximumFractionDigits: 3) }

place-unknown = No position yet
here = Use this device’s position
looking = Looking for the position
no-position = This device gives no position here. Type it in, or allow it in the device’s settings.
place-bad = Give the latitude as -90 to 90 and the longitude as -180 to 180.
keep-place = Save this position

sets-title = Heat-unit tables
sets-text = Base, upper limit, method and table belong together and are chosen together. The one chosen here is the default where no hybrid or planting has its own.
heat-set = Heat-unit table
as-wider = Same as the hybrid or the default
as-notebook = Same as the default

# $base (Number)
# $degrees (String)
set-base = Base { NUMBER($base, maximumFractionDigits: 1) } { $degrees }

# $base (Number)
# $upper (Number)
# $degrees (String)
set-limits = Base { NUMBER($base, maximumFractionDigits: 1) } { $degrees }, upper limit { NUMBER($upper, maximumFractionDigits: 1) } { $degrees }

set-unused = Source

# $name (String)
counts-in = Heat counted with “{ $name }”

set-by =
    .planting = set for this planting
    .hybrid = set for the hybrid
    .notebook = default for all plantings
    .default = app default

in-use = Default
use-set = Use as default
edit-set = Edit
new-set = Add a heat-unit table
new-set-title = New heat-unit table
edit-set-title = Edit heat-unit table
remove-set = Delete this table

# $name (String)
set-removed = “{ $name }” was deleted; plantings that used it use the next choice.

# $name (String)
set-restored = “{ $name }” is back.

set-name = Name
set-source = Where the table comes from
set-source-hint = bulletin and year, or your own counts
unit = Unit

units =
    .fahrenheit = °F
    .celsius = °C

base = Base
upper = Upper limit
method = Daily method

methods =
    .both_limits = High lowered to the upper limit, low raised to the base
    .upper_limit_only = High lowered to the upper limit, low as it is
    .plain_mean = Plain mean of high and low

tables = Table

# $at (Number)
column = Maturity class { $at }

column-name = Class
add-column = Add a class
drop-column = Delete this class

mark =
    .emergence = Emergence
    .three_leaf = Three leaves
    .five_leaf = Five leaves
    .growing_point = Growing point
    .flag_leaf = Flag leaf
    .boot = Boot
    .half_bloom = Half bloom
    .soft_dough = Soft dough
    .hard_dough = Hard dough
    .black_layer = Black layer

units-from-planting = Heat units from planting. Half bloom and black layer are needed; the others help.
need-numbers = Give base, upper limit and every mark as a number.
start-from = Start with the numbers of
save-set = Save the table

hybrids-title = Hybrids
hybrids-empty = No hybrid yet. Name one in a planting’s form.

# $count (Number)
hybrid-plantings =
    { $count ->
        [one] 1 planting
       *[other] { $count } plantings
    }

maturity = Maturity class
maturity-text = From the seed guide. It says how much heat half bloom takes before anything is seen in the field.

class-name =
    .early = Early
    .medium_early = Medium-early
    .medium = Medium
    .medium_late = Medium-late
    .late = Late

class-unknown = Not set

# $units (Number)
class-units = half bloom after about { $units } units

days-in-guide = Days to half bloom in the seed guide
days-hint = picks the class; guides differ by a few days (common practice)
pace-title = Pace after half bloom
pace-text = Compared with the published table: 100 needs as much heat as the table says, 105 needs 5 % less.

# $low (Number)
# $high (Number)
pace-published = Table alone: { PERCENT($low) } to { PERCENT($high) }, 80 % sure.

# $plantings (Number)
# $mid (Number)
# $low (Number)
# $high (Number)
pace-learned =
    With what { $plantings ->
        [one] { $plantings } planting
       *[other] { $plantings } plantings
    } here showed: about { PERCENT($mid) } ({ PERCENT($low) } to { PERCENT($high) }).

pace-nothing = No planting of it has shown anything yet; only the table counts.

# $low (Number)
# $high (Number)
pace-next = Its next planting: { PERCENT($low) } to { PERCENT($high) }; plantings of one hybrid differ too.

bloom-title = Heat to half bloom

# $mid (Number)
# $low (Number)
# $high (Number)
bloom-line = About { $mid } units from planting ({ $low } to { $high }).

# $low (Number)
# $high (Number)
bloom-published = Table alone: { $low } to { $high }.

# $mid (Number)
# $low (Number)
# $high (Number)
# $sightings (Number)
planting-pace =
    about { PERCENT($mid) } ({ PERCENT($low) } to { PERCENT($high) }), from { $sightings ->
        [one] 1 walk or bloom date
       *[other] { $sightings } walks or bloom dates
    }

planting-unseen = not walked yet
other-set = counted with another heat-unit table, so it teaches nothing here
chart-label = Pace: the table, what was learned, and each planting
row-published = Table
row-learned = Learned
row-next = Next planting
table-title = As a table
table-what = What
table-low = Low
table-mid = Middle
table-high = High

half-bloom-hint = half of the plants in bloom; sharpens every date
emptied = Not set

step =
    .reading = Reading the file
    .storing = Saving

# $step (String)
# $share (Number)
progress = { $step }: { PERCENT($share) } %

stopping = Stopping: nothing will be saved
stopped-file = Stopped. Nothing from the file was saved.

maturity-of =
    .early = Early hybrid
    .medium_early = Medium-early hybrid
    .medium = Medium hybrid
    .medium_late = Medium-late hybrid
    .late = Late hybrid

maturity-not-known = maturity class of the hybrid not set
