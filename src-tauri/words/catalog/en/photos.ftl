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

keeping = Keeping the photo

# $stop (Number)
kept-stop = The photo of stop { $stop } is kept.

# $head (Number)
kept-head = The photo of head { $head } is kept.

kept = The photo is kept.

# $why (String)
not-kept = The photo was not kept. { $why }

offered = The picture knows where it was taken. Is that the place of this stop?
use-place = Use its place
leave-place = Leave it
place-used = The stop has the place of the picture.
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
keep-caption = Keep these words
caption-kept = Kept.

# $when (String)
taken = Taken { $when }

not-here = This photo is not on this device.
on-hub = The hub has it.
only-here = Only on this device so far.
fetch = Fetch it at the next exchange
fetching = It will be fetched at the next exchange.
remove = Remove this photo
removed = The photo was removed.
not-told = Place, owner and camera were taken out of the file before it was kept.
storage = Room for photos
no-photos = There are no photos on this device.

# $photos (Number)
# $megabytes (String)
photos-take = { $photos } photos take { $megabytes } MB.

# $count (Number)
only-here-count =
    { $count ->
        [0] The hub holds all of them.
       *[other] { $count } of them { $count ->
            [one] is
           *[other] are
        } on this device only and will not be freed.
    }

# $count (Number)
elsewhere =
    { $count ->
        [one] { $count } photo is
       *[other] { $count } photos are
    } not on this device; their small pictures may be.

# $megabytes (String)
free-megabytes = Free { $megabytes } MB

nothing-to-free = Nothing can be freed: only what the hub holds may go.
freed = The room is free. The photos are on the hub.
