### What dates rest on: stations and their places, heat sets, hybrids and their pace.

change = Change what it rests on

# $planting (String)
title = What { $planting } rests on

title-open = What the dates rest on
station = Weather station
station-text = The nearest station with weather is taken, where places are known; or choose one.
not-placed = Where this planting lies is not known: no stop of a walk has a position. So distances cannot be given; choose a station.
no-station = No station holds weather yet.
leave-to-app = Leave it to the app

# $km (Number)
station-distance = { $km } km

# $last (Date)
station-until = to { DATE($last) }

nearest-mark = nearest

# $field (String)
for-field = For all plantings of { $field }

for-field-hint = Those that name a station themselves keep it.
kept = Kept. The outlook uses it now.

# $name (String)
# $by (String)
uses-now = In use: { $name }, { $by }

chosen-by =
    .planting = named by the planting
    .field = chosen for the field
    .nearest = the nearest
    .only = the only one held

place = Place of the station

# $name (String)
place-of = Place of { $name }

place-text = In degrees, as maps give them. With it the app finds the nearest station of a planting.
latitude = Latitude (north above 0)
longitude = Longitude (east above 0)

# $latitude (Number)
# $longitude (Number)
place-known = At { NUMBER($latitude, maximumFractionDigits: 3) }, { NUMBER($longitude, maximumFractionDigits: 3) }

place-unknown = No place yet
here = Take this device’s position
looking = Looking for the position
no-position = This device gives no position here. Type it in, or allow it in the device’s settings.
place-bad = Give the latitude as -90 to 90 and the longitude as -180 to 180.
keep-place = Keep this place

sets-title = Heat sets
sets-text = Base, upper limit, way of counting and table belong together and are only ever chosen together. The one chosen here counts where no hybrid or planting has its own.
heat-set = Heat set
as-wider = As chosen for the hybrid or the notebook
as-notebook = As chosen for the notebook

# $base (Number)
# $degrees (String)
set-base = Base { NUMBER($base, maximumFractionDigits: 1) } { $degrees }

# $base (Number)
# $upper (Number)
# $degrees (String)
set-limits = Base { NUMBER($base, maximumFractionDigits: 1) } { $degrees }, upper limit { NUMBER($upper, maximumFractionDigits: 1) } { $degrees }

set-unused = Source

# $name (String)
counts-in = Heat counted by “{ $name }”

set-by =
    .planting = chosen for this planting
    .hybrid = chosen for the hybrid
    .notebook = chosen for the notebook
    .default = as nobody chose another

in-use = Counts for the notebook
use-set = Let it count for the notebook
edit-set = Edit
new-set = Add a heat set
new-set-title = New heat set
edit-set-title = Edit heat set
remove-set = Remove this set

# $name (String)
set-removed = “{ $name }” was removed; what went by it goes by the next choice.

# $name (String)
set-restored = “{ $name }” is back.

set-name = Name
set-source = Where its table comes from
set-source-hint = bulletin and year, or your own counts
unit = Unit

units =
    .fahrenheit = °F
    .celsius = °C

base = Base
upper = Upper limit
method = Way of counting a day

methods =
    .both_limits = High lowered to the upper limit, low raised to the base
    .upper_limit_only = High lowered to the upper limit, low as it is
    .plain_mean = Plain mean of high and low

tables = Table

# $at (Number)
column = Maturity class { $at }

column-name = Class
add-column = Add a class
drop-column = Take this class out

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

units-from-planting = Heat units from planting. Half bloom and black layer are needed, the rest helps.
need-numbers = Give base, upper limit and every mark as a number.
start-from = Begin with the figures of
save-set = Save the set

hybrids-title = Hybrids
hybrids-empty = No hybrid yet. A planting’s form names one.

# $count (Number)
hybrid-plantings =
    { $count ->
        [one] 1 planting
       *[other] { $count } plantings
    }

# $name (String)
hybrid-open = Pace of { $name }

maturity = Maturity class
maturity-text = From the seed guide. It says how much heat half bloom takes before anything was seen in the field.

class-name =
    .early = Early
    .medium_early = Medium-early
    .medium = Medium
    .medium_late = Medium-late
    .late = Late

class-unknown = Not known

# $units (Number)
class-units = half bloom after about { $units } units

days-in-guide = Days to half bloom in the seed guide
days-hint = picks the class; guides differ by a few days (common practice)
pace-title = Pace after half bloom
pace-text = Against the published table: 100 needs as much heat as the table says, 105 needs 5 % less.

# $low (Number)
# $high (Number)
pace-published = By the table alone: between { PERCENT($low) } and { PERCENT($high) }, eight times in ten.

# $plantings (Number)
# $mid (Number)
# $low (Number)
# $high (Number)
pace-learned =
    With what { $plantings ->
        [one] 1 planting
       *[other] { $plantings } plantings
    } here showed: about { PERCENT($mid) }, between { PERCENT($low) } and { PERCENT($high) }.

pace-nothing = No planting of it has shown anything yet; the table stands alone.

# $low (Number)
# $high (Number)
pace-next = Its next planting: between { PERCENT($low) } and { PERCENT($high) }; plantings of one hybrid differ too.

bloom-title = Heat to half bloom

# $mid (Number)
# $low (Number)
# $high (Number)
bloom-line = About { $mid } units from planting, between { $low } and { $high }.

# $low (Number)
# $high (Number)
bloom-published = By the table alone: between { $low } and { $high }.

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
other-set = counted in another heat set, so it teaches nothing here
chart-label = Pace: the table, what was learned, and each planting
row-published = Table
row-learned = Learned
row-next = Next planting
table-title = As a table
table-what = What
table-low = Low
table-mid = Middle
table-high = High

half-bloom-on = Half bloom seen on
half-bloom-hint = half of the plants in bloom; sharpens every date
emptied = Not known

step =
    .reading = Reading the file
    .storing = Storing it

# $step (String)
# $share (Number)
progress = { $step }: { PERCENT($share) } %

stopping = Stopping: nothing of it is stored
stopped-file = Stopped. Nothing of the file was stored.

maturity-of =
    .early = Early hybrid
    .medium_early = Medium-early hybrid
    .medium = Medium hybrid
    .medium_late = Medium-late hybrid
    .late = Late hybrid

maturity-not-known = maturity class of the hybrid not known
