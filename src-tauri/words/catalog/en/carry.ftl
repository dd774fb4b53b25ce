### Files out of the notebook and in again, and the field sheet.

title = Export
which = What do you want to export?

kinds-title =
    .notebook = The whole notebook
    .heads = Heads
    .plantings = Plantings
    .weather = Weather
    .stops = Stops on a map

kinds-text =
    .notebook = One zip file with everything: to keep safe, or to move to a new phone.
    .heads = A CSV table, one head per row.
    .plantings = A CSV table, one planting per row.
    .weather = A CSV table, one day per row.
    .stops = GeoJSON, for a map program.

make = Export
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

save = Save
share = Share
share-refused = The other app did not take the file. Save it instead.
saved-at = Saved at
private = The file holds names, positions and notes. Give it only to people who may have them.
in-title = Import a notebook
in-intro = Choose the zip file that the other phone exported. You see what it holds before anything is saved; what this notebook already has stays.

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

parted = This device and its copy went on separately; both parts are kept.
settings = The settings of the other phone are imported too, because this notebook is empty.
bring-in = Import
brought-in = The notebook is imported.
nothing-new = Everything in this file is already here; there is nothing to import.
sheet-open = Field sheet for the grower
sheet = Field sheet
sheet-intro = One page to print or send: the stage and how sure it is, what comes next, and what is not known.
sheet-no-walk = Not walked yet: the sheet will say so, and show dates from weather alone.
sheet-language = Language of the sheet
paper = Paper

papers =
    .letter = Letter
    .a4 = A4

sheet-make = Make the field sheet
