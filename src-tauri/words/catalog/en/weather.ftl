### Weather stations: what they hold, files, and days typed in.

title = Weather
empty = No weather yet. Without it there are no dates: bring in a daily file of the nearest station, or type in highs and lows.

# $days (Number)
# $first (Date)
# $last (Date)
holds = { $days } days, { DATE($first) } to { DATE($last) }

# $days (Number)
filled = { $days } days filled in from their neighbors, by rule

# $from (Date)
# $to (Date)
gap = No weather from { DATE($from) } to { DATE($to) }

# $count (Number)
more-gaps = and { $count } more gaps

# $why (String)
refused = Not usable as it is: { $why }

bring-in = Bring in a weather file
type-in = Type in a day
file-intro = A CSV with date, high_f and low_f (or high_c, low_c), and rain_in or rain_mm, humidity and station if you have them; or a GHCN-Daily file. Past years of the station are what the days ahead are taken from.
station-for-file = Station, where the file names none

# $station (String)
# $rows (Number)
# $first (Date)
# $last (Date)
review = { $station }: { $rows } days, { DATE($first) } to { DATE($last) }

# $count (Number)
already = { $count } of them are here already

# $count (Number)
found-title = What the checks found ({ $count })

store = Store this weather
stored = The weather is stored; every outlook uses it now.
back = See the stations
station = Station
day = Day
high = High
low = Low
rain = Rain (may stay empty)
keep = Keep this day

# $when (String)
# $station (String)
kept = { $when } is kept for { $station }.

need-number = Give the high and the low as numbers.
low-above-high = The low is above the high. Check both.
need-station = Give the station a name: the village, or "my gauge".

# $station (String)
used-here = Weather of { $station }

chosen-how =
    .planting = named by the planting
    .field = chosen for the field
    .only = the only one held

# $km (Number)
chosen-nearest = the nearest, { $km } km off
