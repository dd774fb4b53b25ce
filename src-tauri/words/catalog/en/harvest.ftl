### Ripe grain: how wet, when dry, what waiting costs, what lies on the ground.

open = Grain and harvest
title = Grain and harvest
moisture-title = Moisture

# $mid (Number)
# $low (Number)
# $high (Number)
moisture-now = Grain moisture about { NUMBER($mid, maximumFractionDigits: 1) } % today ({ NUMBER($low, maximumFractionDigits: 1) } % to { NUMBER($high, maximumFractionDigits: 1) } %).

# $mid (Number)
# $low (Number)
# $high (Number)
drying-rate = This planting dries { NUMBER($mid, maximumFractionDigits: 2) } points a day ({ NUMBER($low, maximumFractionDigits: 2) } to { NUMBER($high, maximumFractionDigits: 2) }) in ordinary fall weather.

level-note = The ranges are 80 % sure.
window-reached = reached

# $from (Date)
# $to (Date)
# $middle (Date)
# $today (Date)
window-span = { SPAN($from, $to, $today) }, middle date { DATE($middle, $today) }

# $from (Date)
# $today (Date)
# $never (Number)
window-from = from { DATE($from, $today) }; not within the days ahead in { $never } % of simulated seasons

# $never (Number)
window-unlikely = not within the days ahead in { $never } % of simulated seasons

# $target (Number)
# $own (Boolean)
at-target =
    { NUMBER($target, maximumFractionDigits: 1) } { $own ->
        [true] %, your target
       *[other] %
    }

other-same = The other published constants for sorghum give the same day for your target.

# $days (Number)
other-later =
    With the other published constants for sorghum your target comes { $days ->
        [one] { $days } day
       *[other] { $days } days
    } later.

# $days (Number)
other-earlier =
    With the other published constants for sorghum your target comes { $days ->
        [one] { $days } day
       *[other] { $days } days
    } earlier.

other-never = With the other published constants for sorghum your target may not come within the days ahead.

# $seasons (Number)
# $readings (Number)
rests-on =
    Based on { $readings ->
        [0] no moisture reading
        [one] one day of readings
       *[other] { $readings } days of readings
    } and the weather of { $seasons } past seasons.

no-reading = No moisture reading yet. One reading narrows this more than anything else.

# $on (String)
# $told (Number)
# $expected (Number)
off-by = The reading of { $on } ({ NUMBER($told, maximumFractionDigits: 1) } %) is far from what was expected ({ NUMBER($expected, maximumFractionDigits: 1) } %). Check the meter or the sample.

# $days (Number)
no-weather = { $days } days had no weather and were taken as ordinary.

fan-label = Moisture over the days ahead
fan-hint = Touch the chart to read a day.

# $on (String)
# $mid (Number)
# $low (Number)
# $high (Number)
moisture-on = { $on }: { NUMBER($mid, maximumFractionDigits: 1) } % ({ NUMBER($low, maximumFractionDigits: 1) } % to { NUMBER($high, maximumFractionDigits: 1) } %)

table-title = As a table
table-day = Day
table-low = 10 % chance below
table-mid = Middle
table-high = 10 % chance above
add-reading = Add a moisture reading
count-ground = Count seeds on the ground
score = Rate standability
mark-cut = Harvested today
marked = Marked as harvested.

# $on (String)
cut = Harvested on { $on }. What you see below is as of that day.

not-cut-after-all = Not harvested yet

# $on (String)
over = The season of this planting is over. What you see is as of { $on }.

money-title = What waiting costs

# $value (Number)
money = { DOLLARS($value) }

# $day (String)
# $net (String)
best-day = Best to start { $day }: about { $net }.

# $day (Date)
# $from (Date)
# $to (Date)
# $today (Date)
as-good = { DATE($day, $today) } (any day { SPAN($from, $to, $today) } is within 1 %)

# $amount (String)
# $area (String)
net = { $amount } { $area }

# $amount (String)
# $area (String)
# $low (String)
# $high (String)
net-between = { $amount } { $area } ({ $low } to { $high })

at-the-end = That is the last day looked at; a later one may be better still.

# $from (Date)
# $today (Date)
# $amount (Number)
# $area (String)
# $loses (Number)
waiting-costs = Waiting a week from { DATE($from, $today) } costs about { DOLLARS($amount) } { $area }; it loses money in { CHANCE($loses) } of simulated seasons.

# $from (Date)
# $today (Date)
# $amount (Number)
# $area (String)
# $loses (Number)
waiting-gains = Waiting a week from { DATE($from, $today) } gains about { DOLLARS($amount) } { $area }; it loses money in { CHANCE($loses) } of simulated seasons.

why =
    .loss_not_known = No day is given: the field loss is not set or counted, and waiting would look free. Count the ground on two days, or set the loss below.
    .wet_grain_cost_not_known = No day is given: the cost of wet grain is not set, and cutting wet would look free. Set how your buyer charges for it.
    .not_fit_in_time = The grain will probably not be fit to harvest within the days ahead.

money-label = Net return by the day harvest starts

# $on (String)
# $mid (Number)
# $area (String)
# $low (Number)
# $high (Number)
net-on = { $on }: { DOLLARS($mid) } { $area } ({ DOLLARS($low) } to { DOLLARS($high) })

per-acre = an acre
per-hectare = a hectare

# $size (String)
acres-assumed = The planting has no area set: { $size } were assumed.

what-if-title = What if
what-if-note = Slide: the curve answers at once. Nothing is saved until you tap Save.
keep-these = Save these for this planting
lay-aside = Back to what is saved
kept = Saved.
sensitivity-title = What matters most
sensitivity-note = Each input alone at its two ends, the others as they are; what not knowing it could cost, highest first.

# $amount (String)
regret = not knowing could cost { $amount }

# $low (String)
# $high (String)
swing = net from { $low } to { $high }

guesses-none = Nothing here is assumed.
all-terms = Prices and plan
terms-title = Prices and plan
terms-of-all = These count for every planting that has no number of its own.

# $name (String)
terms-of-one = These count for { $name }. Anything not set here uses the setting for all plantings.

terms-for-all = Numbers for all plantings

groups =
    .money = Price and yield
    .outlet = Outlet and dryer
    .standing = Field losses
    .weather = Weather damage
    .sample = Grain quality now
    .machines = Machines
    .seeds = Seeds on the ground

wet-title = Wet grain
wet-set = Set the cost of wet grain

wet-not-known = The cost of wet grain is not set. No harvest day is given until it is.
wet-by-weight = A buyer who pays by weight takes off only what the moisture table says. No harvest day is given without its lines.

# $least (Number)
wet-shrink-note = Buyers commonly take 1.2 % to 1.5 % a point (common practice; see your buyer’s sheet). Water alone is { NUMBER($least, maximumFractionDigits: 2) } %.

wet-table-note = Fill in the moisture lines from your buyer’s sheet below.
wet-energy-note = For a charge you do not know: 0.022 gallon of propane per bushel and point, fuel and fans (NDSU Extension), or as much heat from another fuel.

# $what (String)
# $unit (String)
wet-field = { $what }, { $unit }

# $what (String)
# $unit (String)
wet-field-optional = { $what }, { $unit }, if there is one

wet-need-number = Give each number as a number above zero.

# $typed (Number)
# $least (Number)
wet-pays-for-water = { NUMBER($typed, maximumFractionDigits: 2) } % a point pays for water. Use { NUMBER($least, maximumFractionDigits: 2) } % or more.

# $most (Number)
wet-too-much = A shrink above { $most } % a point cannot be. Check the buyer’s sheet.

wet-pay-title = What you are paid
wet-pay-note = Compare with your buyer’s ticket before you save.

# $moisture (Number)
# $pay (String)
# $off (Number)
wet-pay = { NUMBER($moisture, maximumFractionDigits: 1) } %: { $pay } as cut, { NUMBER($off, maximumFractionDigits: 1) } % of the weight off

# $moisture (Number)
wet-pay-refused = { NUMBER($moisture, maximumFractionDigits: 1) } %: refused by the table

wet-save = Save for wet grain

discounts-title = The buyer’s discounts
discounts-note = From your buyer’s sheet: how much comes off beyond each limit. Only the last limit passed counts.
discounts-none = No table yet.

# $factor (String)
# $unit (String)
discount-beyond = { $factor } beyond, { $unit }

# $factor (String)
# $unit (String)
discount-below = { $factor } below, { $unit }

discount-off =
    .us = Cents off per bushel
    .metric = Dollars off per tonne

discount-refused = Refused beyond
add-line = Add a line

# $line (Number)
remove-line = Delete line { $line }

keep-table = Save this table
table-number = A field has no number. Give the limit and the discount as numbers.
grain-title = What grain is worth
moisture-of-grain = Moisture of the grain

# $value (String)
worth-refused = Worth { $value } before discounts; the buyer’s table refuses it.

# $value (String)
# $net (String)
worth = Worth { $value }; after discounts and drying { $net }.

# $grade (String)
grade-line = By the factors given, the grade can be { $grade } at best; a licensed inspector grades grain.

grade-unknown = No grade factor is set. Give the test weight and the kernel damage to see the grade they allow.

# $factors (String)
grade-missing = Not set, and each could lower it: { $factors }.

grade-source = Limits: 7 CFR 810.1404. Moisture is not a grade factor.

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
    } { $days } days at this temperature; every day uses some of that up.

storage-source = Allowable storage time for cereals, NDSU Extension.
formulas = Every formula with its numbers
reading-title = Moisture reading
meter = Measured with
meter-name = Which meter
meter-name-hint = readings of one meter share its error
meter-error = Its error, points
meter-error-hint = optional; else the usual error of its kind counts
day = Day

# $at (Number)
sample = Sample { $at }, %

sample-hint = each from its own spot
more-sample = Add a sample
reading-hints-title = Getting a reading you can trust

# $cold (String)
reading-hints-cold = Many meters err with grain below about { $cold }. Seal a cold sample, let it warm to room temperature, then test. No microwave (NDSU Extension).

reading-hints =
    .tillers = Tillers’ grain is wetter. Have as much of it in the sample as the combine will take (common practice).
    .mix = Take grain from several plants, mix it, test it three times and enter all three.
    .buyer = Check your meter against the buyer’s meter, which decides the pay. Enter readings of the buyer’s meter under its own name: each meter has its own error.
    .wet = Above 25 %, take any reading as an estimate (NDSU Extension, of corn).

note = Note
keep-reading = Save the reading
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
remove = Delete
removed = Deleted.
taken = Undone.
ground-title = Seeds on the ground
ground-note = Lay a frame down at places across the field, not only where it looks bad. Count loose seeds; count whole heads separately.
frame = Frame
frame-other = Other size

# $at (Number)
frame-number = Frame { $at }

# $count (Number)
tap-count = { $count } seeds. Tap for one more

tap-hint = tap for each seed
fewer = One fewer
plus-ten = +10
next-frame = Next frame
heads-on-ground = Whole heads in all frames
heads-hint = one head in a small frame weighs a lot: count heads in a large one
keep-count = Save the count

# $at (Number)
# $seeds (Number)
frame-done = Frame { $at }: { $seeds }

# $perFoot (String)
# $loss (String)
# $low (String)
# $high (String)
so-far = { $perFoot }: about { $loss } on the ground ({ $low } to { $high }).

# $value (Number)
seeds-per-foot = { NUMBER($value, maximumFractionDigits: 1) } seeds per square foot

# $value (Number)
seeds-per-meter = { $value } seeds per square meter

# $share (Number)
of-crop = { NUMBER($share, maximumFractionDigits: 1) } % of the crop.

# $low (Number)
# $value (Number)
# $high (Number)
loss-a-day = From the first and the last count, { NUMBER($value, maximumFractionDigits: 2) } % of the crop is lost a day ({ NUMBER($low, maximumFractionDigits: 2) } % to { NUMBER($high, maximumFractionDigits: 2) } %). The harvest answer uses it.

one-count = One count says how much has dropped, not how fast. Count again in a few days.
ground-source = Conversion: 16 to 21 seeds per square foot are one bushel per acre (Texas Coastal Bend, 2010), from 13,000 to 16,000 seeds per pound.
counts-title = Counts
standing-title = Standability
lodged = Plants lodged, percent
lodged-hint = lying flat, or leaning more than 45 degrees
weak = Weak stalks, percent
weak-hint = push each at arm’s length or pinch its base: does it spring back?
weak-none = Not tested
weathering = Grain weathering

weathering-words =
    .score0 = Bright and sound
    .score3 = Dull, some mold
    .score6 = Much mold or sprout
    .score9 = All spoiled

weathering-hint = 0 bright and sound, 9 all spoiled, by eye
keep-score = Save the rating
scores-title = Over time
scores-none = No rating yet. Rate it on each visit: the change matters.

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
marks-of = { $on }, from { $heads } heads: { CHANCE($lodged) } on lodged plants ({ CHANCE($lodgedLow) } to { CHANCE($lodgedHigh) }), { CHANCE($moldy) } moldy ({ CHANCE($moldyLow) } to { CHANCE($moldyHigh) })

legend-lodged = lodged, %
legend-weathering = weathering, 0-9
order-title = Harvest order
order-text = One combine and one dryer for all: the order with the highest total return.
order-improved = With this many plantings it is a good order, but maybe not the best.
order-empty = No planting is ready for harvest.

# $net (String)
order-sum = All together about { $net }.

# $span (String)
# $net (String)
order-line = { $span }: about { $net } in total

# $amount (String)
given-up = gives up { $amount } by waiting for the others

no-wet-cost = Cost of wet grain not set: cutting wet looks free for this planting.
no-loss = Field loss not set: waiting looks free for this planting.
left-out = Not in the order

# $on (Date)
# $today (Date)
was-cut = harvested on { DATE($on, $today) }

not-in-order =
    .not_fit = probably not fit to harvest within the days ahead
    .silage = grown for silage
    .over = its season is over

caution =
    .bin = Flowing grain buries a person in seconds. Before anyone enters a bin: unloading off and locked out, a harness and a watcher outside, never alone. Training and local rules decide.
    .dryer = Dryers catch fire. Keep them clean and in sight while they run, and know how to cut fuel and fans. The maker’s manual and local rules decide.
    .dust = Grain dust harms lungs and can explode: wear a mask, keep sparks away.
    .heat = Out in the heat: drink, rest in shade, and do not count alone far from help.
