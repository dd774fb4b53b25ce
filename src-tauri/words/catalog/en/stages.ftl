### Stages, bands and shares. Every number that is a guess is said with its two ends.

# $mid (Number)
# $low (Number)
# $high (Number)
# $reached (String)
heads-at = { CAPITAL(CHANCE($mid)) } of heads { $reached } ({ CHANCE($low) } to { CHANCE($high) }).

# $mid (Number)
# $low (Number)
# $high (Number)
# $stage (String)
grain-at = { CAPITAL(CHANCE($mid)) } of the grain has reached { $stage } ({ CHANCE($low) } to { CHANCE($high) }).

# $kind ('at' | 'past' | 'between' | 'nearing')
# $stage (String)
place-of =
    { $kind ->
        [past] just past { $stage }
        [between] halfway to { $stage }
        [nearing] just short of { $stage }
       *[at] { $stage }
    }

# $next (String)
# $stage (String)
# $chance (Number)
standing-nearing = Nearing { $next } ({ $stage }, { CHANCE($chance) } sure).

# $stage (String)
# $chance (Number)
standing-sure = { CAPITAL($stage) }, { CHANCE($chance) } sure.

# $stage (String)
# $chance (Number)
# $other (String)
# $otherChance (Number)
standing-likely = Likely { $stage } ({ CHANCE($chance) }), else { $other } ({ CHANCE($otherChance) }).

# $stage (String)
# $chance (Number)
# $other (String)
# $otherChance (Number)
standing-split = { CAPITAL($stage) } ({ CHANCE($chance) }) or { $other } ({ CHANCE($otherChance) }).

# $low (Number)
# $high (Number)
# $reached (String)
vaguest-at = Least certain: { CHANCE($low) } to { CHANCE($high) } of heads { $reached }.

nothing-vague = Every share below is known to within 20 percentage points.

# $level (Number)
# $place (String)
band-at = { CHANCE($level) } sure: at { $place }.

# $level (Number)
# $place (String)
band-one = { CHANCE($level) } sure: { $place }.

# $level (Number)
# $low (String)
# $high (String)
band-between = { CHANCE($level) } sure: from { $low } to { $high }.


# $level (Number)
# $stage (String)
band-around = { CHANCE($level) } sure: from just short of { $stage } to just past it.

# $stage (String)
# $band (String)
line-at = { CAPITAL($stage) }. { $band }

# $count (Number)
earlier =
    { $count ->
        [one] One earlier walk is shown fainter below.
       *[other] { $count } earlier walks are shown fainter below.
    }

line-without = Stage line from boot to black layer, with no walk on it yet.

# $stage (String)
reached = have reached { $stage }

reached-bloom = have started to bloom

enough = Enough: your target is met.
no-heads = No heads yet.

# $stops (Number)
# $heads (Number)
# $minutes (Number)
# $width (Number)
more-stops-gain =
    { $stops ->
        [one] { $stops } more stop
       *[other] { $stops } more stops
    } of { $heads } (about { $minutes } min) would narrow the range to { NUMBER($width, maximumFractionDigits: 1) } stages.

more-stops-some = More stops would narrow the range.

# $stops (Number)
# $heads (Number)
# $minutes (Number)
# $width (Number)
more-stops-short =
    { $stops ->
        [one] { $stops } more stop
       *[other] { $stops } more stops
    } of { $heads } (about { $minutes } min) would narrow the range to { NUMBER($width, maximumFractionDigits: 1) } stages, still short of your target.

more-stops-none = More stops would not reach your target today.
