### Files out of the notebook and in again, and the field sheet.

title = Files out
which = What should go out?

kinds-title =
    .notebook = The whole notebook
    .heads = Heads
    .plantings = Plantings
    .weather = Weather
    .stops = Stops on a map

kinds-text =
    .notebook = One zip file with everything: to keep, or to move to a new phone.
    .heads = A CSV table, one head a row.
    .plantings = A CSV table, one planting a row.
    .weather = A CSV table, one day a row.
    .stops = GeoJSON, for a map program.

make = Make the file
making = Making the file

# $name (String)
# $size (String)
made-file = { $name } is ready: { $size }.

# $bytes (Number)
bytes = { $bytes } bytes

# $kilobytes (Number)
kilobytes = { $kilobytes } KB

# $megabytes (Number)
megabytes = { NUMBER($megabytes, maximumFractionDigits: 1) } MB

save = Save it
share = Hand it to another app
share-refused = The other app did not take it. Save it instead.
saved-at = It lies at
private = The file holds names, places and notes. Give it to people who may have them.
in-title = Bring in a notebook
in-intro = Choose the zip file that the other phone made under Files out. You see what it holds before anything is stored. What this notebook has already stays.

# $name (String)
# $at (Instant)
made-at = { $name }, made { MOMENT($at) }

# $changes (Number)
# $devices (Number)
holds =
    { $changes ->
        [one] { $changes } change
       *[other] { $changes } changes
    } of { $devices ->
        [one] { $devices } device
       *[other] { $devices } devices
    }

# $plantings (Number)
# $walks (Number)
# $heads (Number)
fresh =
    New here: { $plantings ->
        [one] { $plantings } planting
       *[other] { $plantings } plantings
    }, { $walks ->
        [one] { $walks } walk
       *[other] { $walks } walks
    }, { $heads ->
        [one] { $heads } head
       *[other] { $heads } heads
    }

# $count (Number)
photos =
    { $count ->
        [one] { $count } photo
       *[other] { $count } photos
    }

parted = This device and its copy went on apart; both parts are kept.
settings = The settings of the other phone come along, because this notebook is empty.
bring-in = Bring it in
brought-in = The notebook is in.
nothing-new = Everything in this file is here already; there is nothing to bring in.
sheet-open = Field sheet for the grower
sheet = Field sheet
sheet-intro = One page to print or send: where the planting stands and how sure that is, what comes next, and what is not known.
sheet-no-walk = Not walked yet: the sheet will say so, and show dates from weather alone.
sheet-language = Language of the sheet
paper = Paper

papers =
    .letter = Letter
    .a4 = A4

sheet-make = Make the field sheet
