### Weather stations: what they hold, files, and days typed in.

title = Weather
empty = No weather yet, so there are no dates. Import a daily file from the nearest station, or type in highs and lows.

# $days (Number)
# $first (Date)
# $last (Date)
holds =
    { $days ->
        [one] { $days } day
       *[other] { $days } days
    }, { DATE($first) } to { DATE($last) }

# $days (Number)
filled =
    { $days ->
        [one] { $days } day filled in from its neighbors, by rule
       *[other] { $days } days filled in from their neighbors, by rule
    }

# $from (Date)
# $to (Date)
gap = No weather from { DATE($from) } to { DATE($to) }

# $count (Number)
more-gaps =
    and { $count ->
        [one] { $count } more gap
       *[other] { $count } more gaps
    }

# $why (String)
refused = Cannot be used as it is: { $why }

bring-in = Import a weather file
type-in = Type in a day
file-intro = A CSV with date, high_f and low_f (or high_c, low_c), and rain_in or rain_mm, humidity and station if you have them; or a GHCN-Daily file. The days ahead are taken from the station’s past years.
station-for-file = Station, if the file names none

# $station (String)
# $rows (Number)
# $first (Date)
# $last (Date)
review =
    { $station }: { $rows ->
        [one] { $rows } day
       *[other] { $rows } days
    }, { DATE($first) } to { DATE($last) }

# $count (Number)
already =
    { $count ->
        [one] { $count } of them is already here
       *[other] { $count } of them are already here
    }

# $count (Number)
found-title = What the checks found ({ $count })

store = Import this weather
stored = The weather is imported; every outlook uses it now.
back = See the stations
station = Station
day = Day
high = High
low = Low
rain = Rain (optional)
keep = Save this day

# $when (String)
# $station (String)
kept = { $when } is saved for { $station }.

need-number = Give the high and the low as numbers.
low-above-high = The low is above the high. Check both.
need-station = Give the station a name: the town, or "my gauge".

# $station (String)
used-here = Weather of { $station }

chosen-how =
    .planting = set for the planting
    .field = set for the field
    .only = the only station

# $km (Number)
chosen-nearest = nearest, { $km } km away
