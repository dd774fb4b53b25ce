### Ripe grain: how wet, when dry, what waiting costs, what lies on the ground.

open = Grain and harvest
title = Grain and harvest
moisture-title = Moisture

# $mid (Number)
# $low (Number)
# $high (Number)
moisture-now = The grain holds about { NUMBER($mid, maximumFractionDigits: 1) } % today ({ NUMBER($low, maximumFractionDigits: 1) } % to { NUMBER($high, maximumFractionDigits: 1) } %).

# $mid (Number)
# $low (Number)
# $high (Number)
drying-rate = It dries at its own rate of { NUMBER($mid, maximumFractionDigits: 2) } points a day ({ NUMBER($low, maximumFractionDigits: 2) } to { NUMBER($high, maximumFractionDigits: 2) }) in ordinary fall weather.

level-note = The ends hold the truth eight times in ten.
window-reached = is reached

# $from (Date)
# $to (Date)
# $middle (Date)
# $today (Date)
window-span = { SPAN($from, $to, $today) }, around { DATE($middle, $today) }

# $from (Date)
# $today (Date)
# $never (Number)
window-from = from { DATE($from, $today) }; in { $never } of 100 courses not within the days ahead

# $never (Number)
window-unlikely = not within the days ahead in { $never } of 100 courses

# $target (Number)
# $own (Boolean)
at-target =
    { NUMBER($target, maximumFractionDigits: 1) } { $own ->
        [true] %, your target
       *[other] %
    }

own-target = Your target
other-same = The other published constants of equilibrium for sorghum give the same day for your target.

# $days (Number)
other-later = By the other published constants of equilibrium for sorghum your target comes { $days } days later.

# $days (Number)
other-earlier = By the other published constants of equilibrium for sorghum your target comes { $days } days earlier.

other-never = By the other published constants of equilibrium for sorghum your target may not come within the days ahead.

# $seasons (Number)
# $readings (Number)
rests-on =
    Rests on { $readings ->
        [0] no moisture reading
        [one] one day of readings
       *[other] { $readings } days of readings
    } and the weather of { $seasons } past seasons.

no-reading = No moisture reading yet. One reading narrows this more than anything else.

# $on (String)
# $told (Number)
# $expected (Number)
off-by = The reading of { $on } ({ NUMBER($told, maximumFractionDigits: 1) } %) does not fit what was expected ({ NUMBER($expected, maximumFractionDigits: 1) } %): check the meter, or the sample.

# $days (Number)
no-weather = { $days } days had no weather and were taken as ordinary ones.

fan-label = Moisture over the days ahead
fan-hint = Touch the chart to read a day.

# $on (String)
# $mid (Number)
# $low (Number)
# $high (Number)
moisture-on = { $on }: { NUMBER($mid, maximumFractionDigits: 1) } %, between { NUMBER($low, maximumFractionDigits: 1) } % and { NUMBER($high, maximumFractionDigits: 1) } %

table-title = As a table
table-day = Day
table-low = One in ten below
table-mid = Middle
table-high = One in ten above
add-reading = Add a moisture reading
count-ground = Count seeds on the ground
score = Score how it stands
mark-cut = It was cut today
marked = Marked as cut.

# $on (String)
cut = It was cut on { $on }. Nothing is forecast any more; what stands below is as it was that day.

not-cut-after-all = It still stands

# $on (String)
over = The season of this planting is over. What you see is as of { $on }.

money-title = What waiting costs

# $value (Number)
money = { DOLLARS($value) }

# $day (String)
# $net (String)
best-day = Best to begin { $day }: about { $net }.

# $day (Date)
# $from (Date)
# $to (Date)
# $today (Date)
as-good = { DATE($day, $today) } (any day { SPAN($from, $to, $today) } is as good to one percent)

# $amount (String)
# $area (String)
net = { $amount } { $area }

# $amount (String)
# $area (String)
# $low (String)
# $high (String)
net-between = { $amount } { $area }, between { $low } and { $high }

at-the-end = That is the last day looked at; a later one may be better still.

# $from (Date)
# $today (Date)
# $amount (Number)
# $area (String)
# $loses (Number)
waiting-costs = Waiting a week from { DATE($from, $today) } on costs about { DOLLARS($amount) } { $area }; it loses in { CHANCE($loses) } of 100 courses.

# $from (Date)
# $today (Date)
# $amount (Number)
# $area (String)
# $loses (Number)
waiting-gains = Waiting a week from { DATE($from, $today) } on gains about { DOLLARS($amount) } { $area }; it loses in { CHANCE($loses) } of 100 courses.

why =
    .loss_not_known = No day is named: nobody has said or counted what standing loses, and waiting would look free. Count the ground on two days, or give the loss below.
    .not_fit_in_time = The grain is not likely fit to cut within the days ahead.

money-label = Net return by the day that cutting begins

# $on (String)
# $mid (Number)
# $area (String)
# $low (Number)
# $high (Number)
net-on = { $on }: { DOLLARS($mid) } { $area }, between { DOLLARS($low) } and { DOLLARS($high) }

per-acre = an acre
per-hectare = a hectare

# $size (String)
acres-assumed = The planting has no area: { $size } were reckoned with.

what-if-title = What if
what-if-note = Slide: the curve answers at once. Nothing is kept until you say so.
keep-these = Keep these for this planting
lay-aside = Back to what is kept
kept = Kept.
sensitivity-title = What it hangs on
sensitivity-note = Each input alone at its two ends, the others as they are. What not knowing it could cost, most first.

# $amount (String)
regret = not knowing could cost { $amount }

# $low (String)
# $high (String)
swing = net from { $low } to { $high }

guesses-none = Nothing here is a guess.
all-terms = Prices and plan
terms-title = Prices and plan
terms-of-all = These count for all plantings that have no number of their own.

# $name (String)
terms-of-one = These count for { $name }. What it has not of its own is that of all plantings.

terms-for-all = Numbers for all plantings

groups =
    .money = Price and yield
    .outlet = Outlet and dryer
    .standing = What standing loses
    .weather = What weather does to it
    .sample = The grain now
    .machines = Machines
    .seeds = Seeds on the ground

discounts-title = The buyer’s discounts
discounts-note = From the buyer’s own sheet: beyond each limit so much off. The last limit passed counts, alone.
discounts-none = No table yet.

# $factor (String)
# $unit (String)
discount-beyond = { $factor } beyond, { $unit }

# $factor (String)
# $unit (String)
discount-below = { $factor } below, { $unit }

discount-off =
    .us = Cents off a bushel
    .metric = Dollars off a tonne

discount-refused = Refused beyond
add-line = Add a line

# $line (Number)
remove-line = Take out line { $line }

keep-table = Keep this table
table-number = A field holds no number: give the limit and the discount as numbers.
grain-title = What grain is worth
moisture-of-grain = Moisture of the grain

# $value (String)
worth-refused = Worth { $value } before discounts; the buyer’s table refuses it.

# $value (String)
# $net (String)
worth = Worth { $value }; after discounts and fuel { $net }.

# $grade (String)
grade-line = By the factors given it can be { $grade } at best; a licensed inspector grades grain.

grade-unknown = No grade factor was given. Give the test weight and the kernels’ damage to see the grade they allow.

# $factors (String)
grade-missing = Not given, each could lower it: { $factors }.

grade-source = Limits: 7 CFR 810.1404. Moisture is no grade factor.

# $factor (String)
# $value (String)
# $off (String)
discount-line = { $factor } { $value }: { $off } off

# $factor (String)
# $value (String)
discount-refuses = { $factor } { $value }: refused

storage-temp = Temperature of the stored grain

# $answer ('about' | 'more_than' | 'less_than')
# $days (Number)
storage-days =
    It keeps { $answer ->
        [more_than] more than
        [less_than] less than
       *[about] about
    } { $days } days; every day uses some of it up.

storage-source = Allowable storage time for cereals, NDSU Extension.
formulas = Every formula with its numbers
reading-title = Moisture reading
meter = Read with
meter-name = Which meter
meter-name-hint = readings of one meter share its error
meter-error = Its error, points
meter-error-hint = if you know it; else that of its kind counts
day = Day

# $at (Number)
sample = Sample { $at }, %

sample-hint = each from its own spot
more-sample = One more sample
note = Note
keep-reading = Keep the reading
need-percent = Give each sample as a percentage from 3 to 70, or leave it empty.

# $mean (Number)
# $count (Number)
mean = Mean { NUMBER($mean, maximumFractionDigits: 1) } % of { $count }.

readings-title = Readings

# $on (String)
# $mean (Number)
# $count (Number)
reading-line =
    { $on }: { NUMBER($mean, maximumFractionDigits: 1) } % ({ $count ->
        [one] one sample
       *[other] { $count } samples
    })

correct = Correct
remove = Take out
removed = Taken out.
taken = Taken back.
ground-title = Seeds on the ground
ground-note = Lay a frame down at places across the field, not only where it looks bad. Count loose seeds; count whole heads apart.
frame = Frame
frame-other = Other size

# $at (Number)
frame-number = Frame { $at }

# $count (Number)
tap-count = { $count } seeds. Tap for one more

seeds = seeds
tap-hint = tap for each seed
fewer = One less
plus-ten = +10
next-frame = Next frame
heads-on-ground = Whole heads in all frames
heads-hint = one head in a small frame weighs a lot: count heads in a large one
keep-count = Keep the count

# $at (Number)
# $seeds (Number)
frame-done = Frame { $at }: { $seeds }

# $perFoot (String)
# $loss (String)
# $low (String)
# $high (String)
so-far = { $perFoot }: about { $loss } on the ground ({ $low } to { $high }).

# $value (Number)
seeds-per-foot = { NUMBER($value, maximumFractionDigits: 1) } seeds a square foot

# $value (Number)
seeds-per-meter = { $value } seeds a square meter

# $share (Number)
of-crop = { NUMBER($share, maximumFractionDigits: 1) } % of the crop.

# $low (Number)
# $value (Number)
# $high (Number)
loss-a-day = By the first and the last count { NUMBER($value, maximumFractionDigits: 2) } % of the crop is lost a day ({ NUMBER($low, maximumFractionDigits: 2) } to { NUMBER($high, maximumFractionDigits: 2) }). The harvest answer uses it.

one-count = One day’s count says how much lies there, not how fast it falls. Count again in a few days.
ground-source = Conversion: 16 to 21 seeds a square foot are one bushel an acre (Texas Coastal Bend, 2010), from 13,000 to 16,000 seeds a pound.
counts-title = Counts
standing-title = How it stands
lodged = Plants lodged, percent
lodged-hint = lying, or leaning by more than half way
weak = Stalks that give way, percent
weak-hint = push each at arm’s height or pinch its base: does it spring back?
weak-none = Not tried
weathering = Weathering of the grain

weathering-words =
    .score0 = Bright and sound
    .score3 = Dull, some mold
    .score6 = Much mold or sprout
    .score9 = All spoiled

weathering-hint = 0 bright and sound, 9 all spoiled, by eye
keep-score = Keep the score
scores-title = Over time
scores-none = No score yet. Score it on each visit: what changes decides.

# $on (String)
# $lodged (Number)
# $weathering (Number)
score-of = { $on }: { NUMBER($lodged, maximumFractionDigits: 1) } % lodged, weathering { $weathering } of 9

# $on (String)
# $lodged (Number)
# $weathering (Number)
# $weak (Number)
score-with-weak = { $on }: { NUMBER($lodged, maximumFractionDigits: 1) } % lodged, weathering { $weathering } of 9, { NUMBER($weak, maximumFractionDigits: 1) } % weak stalks

# $on (String)
# $heads (Number)
# $lodged (Number)
# $lodgedLow (Number)
# $lodgedHigh (Number)
# $moldy (Number)
# $moldyLow (Number)
# $moldyHigh (Number)
marks-of = { $on }, from { $heads } heads: { CHANCE($lodged) } % on lodged plants ({ CHANCE($lodgedLow) } to { CHANCE($lodgedHigh) }), { CHANCE($moldy) } % moldy ({ CHANCE($moldyLow) } to { CHANCE($moldyHigh) })

legend-lodged = lodged, %
legend-weathering = weathering, 0-9
order-title = Harvest order
order-text = One combine and one dryer for all: the order with the highest sum of mean returns.
order-improved = With so many plantings it is a good order, not surely the best.
order-empty = No planting is ready to be put in order.

# $net (String)
order-sum = All together about { $net }.

# $span (String)
# $net (String)
order-line = { $span }: about { $net } in all

# $amount (String)
given-up = gives up { $amount } by waiting for the others

no-loss = Loss by standing not known: waiting looks free for it.
left-out = Not in the order

# $on (Date)
# $today (Date)
was-cut = cut on { DATE($on, $today) }

not-in-order =
    .not_fit = not likely fit to cut within the days ahead
    .silage = grown for silage
    .over = its season is over

caution =
    .bin = Flowing grain pulls a person under in seconds. Before anyone enters a bin: unloading off and locked out, a harness and a watcher outside, never alone. Training and local rules decide.
    .dryer = Dryers catch fire. Keep them clean and in sight while they run, and know how to cut fuel and fans. The maker’s manual and local rules decide.
    .aid = A harvest aid dries leaves and stalks, not the grain. Whether, when and what: the label and local law decide; check for stalk rot and lodging first.
    .dust = Grain dust harms lungs and can explode: wear a mask, keep sparks away.
    .heat = Out in the heat: drink, rest in shade, and do not count alone far from help.
