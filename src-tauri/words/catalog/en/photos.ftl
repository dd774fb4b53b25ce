### Photos of heads, stops and plantings, and the room they take.

title = Photos

# $name (String)
of-planting = Photos of { $name }

# $count (Number)
count =
    { $count ->
        [0] Photos
       *[other] Photos ({ $count })
    }

none = No photos yet. Take one of the planting here; on a walk the camera button takes one of the stop, and Mark one of a head.
camera = Take a photo
choose = Choose a picture

# $stop (Number)
of-stop = Photo of stop { $stop }

# $head (Number)
of-head = Photo of head { $head }

keeping = Saving the photo

# $stop (Number)
kept-stop = The photo of stop { $stop } is saved.

# $head (Number)
kept-head = The photo of head { $head } is saved.

kept = The photo is saved.

offered = The picture holds a position. Is it that of this stop?
use-place = Use its position
leave-place = Do not use it
place-used = The stop has the position of the picture.
the-planting = The planting

# $stop (Number)
stop-shown = Stop { $stop }

# $head (Number)
# $stop (String)
head-shown = Head { $head } of stop { $stop }

# $what (String)
# $on (Date)
shown-on = { $what }, { DATE($on) }

# $what (String)
# $reading (String)
shown-reading = { $what } ({ $reading })

# $what (String)
# $caption (String)
captioned = { $what }: { $caption }

caption = What it shows
keep-caption = Save the caption
caption-kept = Saved.

# $when (String)
taken = Taken { $when }

not-here = This photo is not on this device.
on-hub = It is on the hub.
only-here = Only on this device so far.
fetch = Fetch it at the next exchange
fetching = It will be fetched at the next exchange.
remove = Delete this photo
removed = The photo was deleted.
not-told = Position, owner and camera were removed from the file before it was saved.
storage = Photo storage
no-photos = There are no photos on this device.

# $photos (Number)
# $megabytes (String)
photos-take =
    { $photos ->
        [one] { $photos } photo takes { $megabytes } MB.
       *[other] { $photos } photos take { $megabytes } MB.
    }

# $count (Number)
only-here-count =
    { $count ->
        [0] All of them are on the hub.
        [one] { $count } of them is on this device only and will not be freed.
       *[other] { $count } of them are on this device only and will not be freed.
    }

# $count (Number)
elsewhere =
    { $count ->
        [one] { $count } photo is
       *[other] { $count } photos are
    } not on this device; their small pictures may be.

# $megabytes (String)
free-megabytes = Free { $megabytes } MB

nothing-to-free = Nothing can be freed: only photos that are on the hub may go.
freed = The space is free. The photos are on the hub.
