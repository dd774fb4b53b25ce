### Files of heads and plantings.

title = Import heads or plantings
intro = Heads: a CSV file in UTF-8 with a header: planting, walked_on, stop, reading, share; latitude, longitude, scout, note and flags if you have them. You see what it holds before anything is saved.
intro-plantings = Or a list of plantings: planting, hybrid, planted_on, purpose; field, station, acres or hectares, and half_bloom_on if you have them.
choose = Choose a file
choose-other = Choose another file

# $name (String)
reading = Reading { $name }

# $name (String)
not-text = { $name } is not UTF-8 text; nothing was saved. Save it as CSV in UTF-8 and choose it again.

# $name (String)
unreadable = { $name } could not be read from the device; nothing was saved. Choose it again.

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
    { $count ->
        [one] { $count } of them is already in the notebook and will not be saved twice
       *[other] { $count } of them are already in the notebook and will not be saved twice
    }

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
    Import { $heads ->
        [one] { $heads } head
       *[other] { $heads } heads
    }

swapped-title = Are latitude and longitude swapped?

# $rows (Number)
swapped =
    { $rows ->
        [one] As written, { $rows } row is no real position or far from your fields; it fits with the two swapped. Nothing is saved before you answer.
       *[other] As written, { $rows } rows are no real position or far from your fields; they fit with the two swapped. Nothing is saved before you answer.
    }

swap = Swap them
as-written = Keep them as written
will-swap = Latitude and longitude will be swapped on import.
stays-as-written = Latitude and longitude will be imported as written.
ask-again = Change the answer
nothing-new = Nothing in this file is new; there is nothing to import.

# $count (Number)
good-plantings =
    { $count ->
        [one] { $count } planting
       *[other] { $count } plantings
    }

# $count (Number)
updated-plantings =
    { $count ->
        [one] { $count } is already here and will be updated
       *[other] { $count } are already here and will be updated
    }

lists-plantings = What the file does not mention stays as it is.
store-plantings = Import the plantings

# $added (Number)
# $updated (Number)
stored-plantings =
    { $added ->
        [one] { $added } planting
       *[other] { $added } plantings
    } added, { $updated } updated.

stop = Stop
storing = Importing: all of it or nothing

# $heads (Number)
stored =
    Imported { $heads ->
        [one] { $heads } head
       *[other] { $heads } heads
    }.

# $count (Number)
stored-refused =
    { $count } refused { $count ->
        [one] row was
       *[other] rows were
    } left out; the file itself is unchanged.

see = Go to plantings
