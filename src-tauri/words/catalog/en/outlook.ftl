### Dates as spans, reasons why one is missing, and the windows that cost money.

title = Outlook
open = Outlook: when will it be ready?

# $name (String)
for-planting = Outlook for { $name }

event =
    .half_bloom = half bloom
    .milk = milk
    .soft_dough = soft dough
    .hard_dough = hard dough
    .black_layer = black layer
    .moisture_20 = grain at 20 %
    .moisture_18 = grain at 18 %
    .moisture_16 = grain at 16 %
    .moisture_14 = grain at 14 %

# $on (Date)
not-planted-yet = It is planted on { DATE($on) }, after the day of this outlook.

nothing-to-start-from = There is no planting date and no walk to start from. Set the date, or walk it once.
no-weather = There is no weather up to today. Import a weather file, or type in the highs and lows.

# $from (Date)
heat-unknown = The weather has a gap from { DATE($from) } on, and no walk comes after it. Fill the gap, or walk it once.

# $on (Date)
weather-ends-early = The weather ends on { DATE($on) }. Import newer days.

no-days-ahead = There is no past season for the days ahead. Import earlier years of the station.

# $chance (Number)
# $horizon (Date)
not-before-freeze = In { $chance } % of simulated seasons it does not come before a killing freeze or { DATE($horizon) }.

before-weather = It came before the weather begins.
no-moisture = Grain moisture is not forecast for this planting.

# $event (String)
# $why (String)
event-lacks = { CAPITAL($event) }: { LOWER($why) }

window =
    .boot_nights = Cold nights at boot
    .bloom_weather = Weather during bloom
    .last_irrigation = Last irrigation
    .silage = Silage cut
    .harvest_aid = Harvest aid
    .freeze = Freeze before black layer
    .prussic_acid = Prussic acid after a freeze
    .nitrate = Nitrate in forage

# $source (String)
source-of = Source: { $source }

sources =
    .cold_sterility = Downes & Marshall 1971; Brooking 1976
    .bloom_heat = Prasad et al. 2015; Singh et al. 2015. For rain no published number was found.
    .last_irrigation_practice = common practice
    .silage_extension = university extension
    .harvest_aid_extension = Texas extension; GRDC 2014
    .freeze_loss = Staggenborg & Vanderlip 1996; Texas extension
    .prussic_acid_extension = Nebraska extension (5 to 7 days); other states (up to two weeks)
    .nitrate_practice = common practice

caution =
    .lines_differ_in_cold = Hybrids differ widely in cold tolerance. Look for empty florets two weeks after bloom.
    .rain_shown_no_loss_claimed = Hybrids differ in heat tolerance, and no loss is claimed from rain. Check seed set.
    .irrigation_local_rules = Soil water, your allocation and local rules decide.
    .test_whole_plant_moisture = Test the moisture of the whole plant before cutting (65 to 70 %).
    .label_and_local_rules_first = The label and local rules come first. A harvest aid dries leaf, stalk and late tillers, not the grain. Check for stalk rot and lodging, treat only what can be cut in time, and ask a licensed applicator or crop adviser.
    .low_ground_freezes_first = Low ground freezes first, and the station may not feel it.
    .test_ask_vet_prussic_acid = Do not graze or green-chop after a freeze; each new freeze starts the wait again. Have the forage tested, and ask your vet and extension office.
    .test_ask_vet_nitrate = Have the forage tested before feeding, and ask your vet and extension office.

# $cold (Number)
# $nights (Number)
# $limit (String)
# $inRow (Number)
found-cold-nights = { $cold } of { $nights } nights were at { $limit } or colder, at most { $inRow } in a row; five in a row made breeding lines sterile.

# $lowest (String)
found-coldest = Coldest night: { $lowest }.

# $chance (Number)
found-chance-of-five = Chance of five in a row by the end: { CHANCE($chance) }.

# $hot (Number)
# $days (Number)
# $limit (String)
# $veryHot (Number)
# $higherLimit (String)
found-hot-days = { $hot } of { $days } days were above { $limit }, { $veryHot } above { $higherLimit }; highs like these around flowering cut seed set.

# $warm (Number)
# $limit (String)
found-warm-days =
    { $warm ->
        [one] { $warm } day
       *[other] { $warm } days
    } had a mean above { $limit }.

# $highest (String)
found-hottest = Hottest: { $highest }.

# $rain (String)
# $days (Number)
found-rain =
    Rain: { $rain } on { $days ->
        [one] { $days } day
       *[other] { $days } days
    }.

# $days (Number)
found-rain-unknown =
    Rain is not known for { $days ->
        [one] { $days } day
       *[other] { $days } days
    }.

# $limit (String)
# $chance (Number)
found-chance-of-very-hot = Chance of a day above { $limit } still to come: { CHANCE($chance) }.

found-last-irrigation = From soft dough on, the water in the soil carries the grain.
found-silage = Silage is cut around soft dough.
found-harvest-aid = Not before black layer and not before the grain is below 30 % moisture, whichever is later.

# $limit (String)
# $on (Date)
found-freeze-was = { $limit } was reached on { DATE($on) }.

# $limit (String)
# $chance (Number)
found-freeze-chance = { $limit } before black layer: { CHANCE($chance) }.

# $limit (String)
# $stage (String)
# $low (Number)
# $high (Number)
found-freeze-loss = { $limit } for four hours at { $stage } cost { NUMBER($low, maximumFractionDigits: 1) } to { NUMBER($high, maximumFractionDigits: 1) } % of the grain weight.

found-no-freeze-loss = For the stage a freeze would most likely meet, no published loss was found.

# $on (Date)
# $least (Date)
# $most (Date)
found-froze = It froze on { DATE($on) }. The shortest published wait ends { DATE($least) }, the longest { DATE($most) }.

found-not-frozen = No freeze so far that still matters.

# $rain (String)
found-rain-three-weeks = Rain of the last three weeks: { $rain }.

# $rain (String)
found-dry-three-weeks = Rain of the last three weeks: { $rain }, which is dry.

next = What comes next

# $event (String)
# $from (Date)
# $to (Date)
# $today (Date)
event-between = { CAPITAL($event) }: { SPAN($from, $to, $today) }

# $event (String)
# $from (Date)
# $today (Date)
event-not-before = { CAPITAL($event) }: not before { DATE($from, $today) }

# $iso (Date)
# $today (Date)
middle = middle date { DATE($iso, $today) }

level-note = Each range of dates is 80 % sure.

# $event (String)
event-undated = { CAPITAL($event) }

# $event (String)
event-passed = { CAPITAL($event) }: passed

# $when (String)
# $low (String)
# $high (String)
between-places = { $when }: from { $low } to { $high }.

touch-hint = Solid: so far. Hatched: ahead. Touch the chart to read a day.
strip-key = Each day from low to high; rain below.
table-title = As a table
table-caption = Dates by event: 10 % chance of coming earlier, middle date, 10 % chance of coming later
table-event = Event
table-early = Early
table-middle = Middle
table-late = Late
windows-title = Key dates

standing =
    .ahead = Ahead
    .may_be_open = Possible now
    .past = Past
    .unknown = No date yet

# $from (Date)
# $to (Date)
# $earliest (Date)
# $latest (Date)
# $today (Date)
window-between = { SPAN($from, $to, $today) }, { SPAN($earliest, $latest, $today) } at the widest

# $window (String)
window-now = { $window }: possible now

# $window (String)
# $earliest (Date)
# $latest (Date)
# $today (Date)
window-dated = { $window }: { SPAN($earliest, $latest, $today) }

# $to (Date)
# $latest (Date)
# $today (Date)
window-until = until { DATE($to, $today) }, { DATE($latest, $today) } at the latest

rests-title = What this is based on

# $sightings (Number)
rests-sightings =
    { $sightings ->
        [one] { $sightings } walk or noted bloom date
       *[other] { $sightings } walks or noted bloom dates
    }

rests-tables = pace from the published tables only

# $plantings (Number)
rests-learned =
    pace also learned from { $plantings ->
        [one] { $plantings } other planting
       *[other] { $plantings } other plantings
    } of the hybrid

# $from (Date)
# $to (Date)
rests-weather = weather from { DATE($from) } to { DATE($to) }

# $from (Date)
# $to (Date)
# $filled (Number)
rests-weather-filled = weather from { DATE($from) } to { DATE($to) }, { $filled } days of it filled in by rule

rests-no-seasons = no past seasons for the days ahead

# $seasons (Number)
rests-seasons = days ahead as in { $seasons } past seasons

# $seasons (Number)
rests-few-seasons = days ahead from only { $seasons } past seasons, with wider ranges

fortnight-title = Next 2 weeks
fortnight-text = Key dates that may come within 14 days, soonest first.
fortnight-empty = No key date within 14 days. Import weather and walk the plantings to see further.

# $count (Number)
fortnight-silent =
    { $count ->
        [one] { $count } planting has no dates:
       *[other] { $count } plantings have no dates:
    }
