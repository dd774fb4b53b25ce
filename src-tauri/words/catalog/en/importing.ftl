### Files of heads and plantings.

title = Bring in a head file or plantings
intro = Heads: a CSV file in UTF-8 with a header: planting, walked_on, stop, reading, share; latitude, longitude, scout, note and flags if you have them. You see what it holds before anything is stored.
intro-plantings = Or a list of plantings: planting, hybrid, planted_on, purpose; field, station, acres or hectares, and half_bloom_on if you have them.
choose = Choose a file
choose-other = Choose another file

# $name (String)
reading = Reading { $name }

# $name (String)
not-text = { $name } is not UTF-8 text. Save it as CSV in UTF-8 and choose it again; nothing was stored.

# $name (String)
unreadable = { $name } could not be read from the device. Choose it again; nothing was stored.

# $name (String)
holds = What { $name } holds

# $heads (Number)
# $stops (Number)
# $walks (Number)
good =
    { $heads } good { $heads ->
        [one] head
       *[other] heads
    } at { $stops ->
        [one] { $stops } stop
       *[other] { $stops } stops
    } of { $walks ->
        [one] { $walks } walk
       *[other] { $walks } walks
    }

# $count (Number)
already =
    { $count } of them { $count ->
        [one] is
       *[other] are
    } in the notebook already and will not be stored twice

# $count (Number)
new-plantings =
    { $count } new { $count ->
        [one] planting
       *[other] plantings
    }

# $count (Number)
refused =
    { $count ->
        [one] { $count } row is
       *[other] { $count } rows are
    } refused

# $count (Number)
first-refused = The first { $count } of them:

# $line (Number)
line = Line { $line }

# $heads (Number)
store =
    Store { $heads ->
        [one] { $heads } head
       *[other] { $heads } heads
    }

swapped-title = Are latitude and longitude swapped?

# $rows (Number)
swapped =
    { $rows ->
        [one] { $rows } row is no place or far from your fields as written, and fits with the two swapped. Nothing is stored before you answer.
       *[other] { $rows } rows are no place or far from your fields as written, and fit with the two swapped. Nothing is stored before you answer.
    }

swap = Swap them
as-written = Keep them as written
will-swap = Latitude and longitude are swapped as this file is stored.
stays-as-written = Latitude and longitude are stored as written.
ask-again = Answer again
nothing-new = Nothing in this file is new; there is nothing to store.

# $count (Number)
good-plantings =
    { $count ->
        [one] { $count } planting
       *[other] { $count } plantings
    }

# $count (Number)
updated-plantings =
    { $count ->
        [one] { $count } is
       *[other] { $count } are
    } here already and will be brought up to date

lists-plantings = What the file does not mention stays as it is.
store-plantings = Store the plantings

# $added (Number)
# $updated (Number)
stored-plantings =
    { $added ->
        [one] { $added } planting
       *[other] { $added } plantings
    } added, { $updated } brought up to date.

stop = Stop
storing = Storing: all of it or nothing

# $heads (Number)
stored =
    Stored { $heads ->
        [one] { $heads } head
       *[other] { $heads } heads
    }.

# $count (Number)
stored-refused =
    { $count } refused { $count ->
        [one] row was
       *[other] rows were
    } left out; the file itself is unchanged.

see = See the plantings
