### Stages, bands and shares. Every number that is a guess is said with its two ends.

tenths =
    .t2 = two
    .t3 = three
    .t4 = four
    .t6 = six
    .t7 = seven
    .t8 = eight
    .t9 = nine

# $stage (String)
at = at { $stage }

in-bloom = in bloom

# $low (Number)
# $high (Number)
ends = between { CHANCE($low) } and { CHANCE($high) } in a hundred

# $value (Number)
one-end = { CHANCE($value) } in a hundred

# $many ('hardly' | 'one' | 'half' | 'all' | 'other')
# $tenths (String)
# $at (String)
# $ends (String)
heads-at =
    { $many ->
        [hardly] Hardly any heads are
        [one] About one head in ten is
        [half] About half of the heads are
        [all] Nearly all heads are
       *[other] About { $tenths } heads in ten are
    } { $at } ({ $ends }).

# $many ('hardly' | 'one' | 'half' | 'all' | 'other')
# $tenths (String)
# $at (String)
# $ends (String)
grain-at =
    { $many ->
        [hardly] Hardly any of the grain is
        [one] About one tenth of the grain is
        [half] About half of the grain is
        [all] Nearly all of the grain is
       *[other] About { $tenths } tenths of the grain are
    } { $at } ({ $ends }).

# $kind ('at' | 'past' | 'between' | 'nearing')
# $stage (String)
place-of =
    { $kind ->
        [past] just past { $stage }
        [between] halfway to { $stage }
        [nearing] nearing { $stage }
       *[at] { $stage }
    }

# $stage (String)
# $chance (Number)
standing-sure = At { $stage } ({ CHANCE($chance) } in a hundred).

# $stage (String)
# $chance (Number)
# $other (String)
# $otherChance (Number)
standing-likely = Likely { $stage } ({ CHANCE($chance) } in a hundred), else { $other } ({ CHANCE($otherChance) }).

# $stage (String)
# $chance (Number)
# $other (String)
# $otherChance (Number)
standing-split = { CAPITAL($stage) } or { $other } ({ CHANCE($chance) } and { CHANCE($otherChance) } in a hundred).

# $at (String)
# $low (Number)
# $high (Number)
vaguest-at = Not well known: how many heads are { $at }, anything from { CHANCE($low) } to { CHANCE($high) } in a hundred.

nothing-vague = Every share below is known to within a fifth.

# $level (Number)
# $place (String)
band-at = With { CHANCE($level) } chances in a hundred the planting is at { $place }.

# $level (Number)
# $place (String)
band-one = With { CHANCE($level) } chances in a hundred the planting is { $place }.

# $level (Number)
# $low (String)
# $high (String)
band-between = With { CHANCE($level) } chances in a hundred the planting is between { $low } and { $high }.

# $stage (String)
# $band (String)
line-at = { CAPITAL($stage) }. { $band }

# $count (Number)
earlier =
    { $count ->
        [one] One earlier walk lies fainter below.
       *[other] { $count } earlier walks lie fainter below.
    }

line-without = Stage line from boot to black layer, with no walk on it yet.
enough = Enough: the target is met.
no-heads = No heads yet.

# $stops (Number)
# $heads (Number)
# $minutes (Number)
# $width (Number)
more-stops-gain =
    { $stops ->
        [one] { $stops } more stop
       *[other] { $stops } more stops
    } of { $heads } (about { $minutes } min) would narrow the band to { NUMBER($width, maximumFractionDigits: 1) } stages.

more-stops-some = More stops would narrow the band.

# $stops (Number)
# $heads (Number)
# $minutes (Number)
# $width (Number)
more-stops-short =
    { $stops ->
        [one] { $stops } more stop
       *[other] { $stops } more stops
    } of { $heads } (about { $minutes } min) would narrow the band to { NUMBER($width, maximumFractionDigits: 1) } stages, still short of the target.

more-stops-none = More stops would not reach the target today.
