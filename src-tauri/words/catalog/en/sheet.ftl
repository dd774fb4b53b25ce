### What the field sheet alone says; the rest of it are the messages of the screens.

title = Field sheet
not-walked = Not walked yet, so its stage is not known.

# $heads (Number)
# $stops (Number)
# $on (Date)
walked =
    Walked { DATE($on) }: { $heads ->
        [one] { $heads } head
       *[other] { $heads } heads
    } at { $stops ->
        [one] { $stops } stop
       *[other] { $stops } stops
    }.

# $heads (Number)
# $stops (Number)
# $on (Date)
# $scout (String)
walked-by =
    Walked { DATE($on) } by { $scout }: { $heads ->
        [one] { $heads } head
       *[other] { $heads } heads
    } at { $stops ->
        [one] { $stops } stop
       *[other] { $stops } stops
    }.

# $count (Number)
earlier =
    { $count ->
        [one] One earlier walk is shown fainter under the line.
       *[other] { $count } earlier walks are shown fainter under the line.
    }

heads-reached = Heads that have reached
about = about
between = between

# $why (String)
no-dates = No dates. { $why }

# $window (String)
# $from (Date)
# $to (Date)
# $today (Date)
window-possible-now = { $window }: { SPAN($from, $to, $today) }, possible now

# $earliest (Date)
# $latest (Date)
# $today (Date)
widest = { SPAN($earliest, $latest, $today) } at the widest.

# $count (Number)
more-windows =
    { $count ->
        [one] One more key date is in the app.
       *[other] { $count } more key dates are in the app.
    }

map-title = Where heads were read
unknown-title = What is not known

# $stops (Number)
few-stops =
    { $stops ->
        [one] Only one stop was looked at; the rest of the planting may differ.
       *[other] Only { $stops } stops were looked at; the rest of the planting may differ.
    }

contradicts = This walk does not fit the earlier ones, so they are left out.

# $days (Number)
old-walk = The walk is { $days } days old; the planting has moved on since.

no-positions = Where the stops were: none has a position.

# $on (Date)
weather-until = Weather after { DATE($on) }; past seasons stand in for it.

no-moisture = Grain moisture: it was not measured here. Test it before harvest.
one-planting = Other plantings: this sheet is about this one only.
who-decides = An estimate from heads read by hand, not advice. Labels, local rules and your licensed applicator or crop adviser decide. Test forage before feeding it.

# $on (Date)
# $time (String)
made = Made { DATE($on) }, { $time }

# $on (Date)
# $time (String)
# $by (String)
made-by = Made { DATE($on) }, { $time }, by { $by }
