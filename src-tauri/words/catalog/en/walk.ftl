### The walk screen.

# $stop (Number)
# $stops (Number)
# $heads (Number)
where =
    Stop { $stop } of { $stops } · { $heads ->
        [one] { $heads } head
       *[other] { $heads } heads
    } in all

finish = Finish
reopen = Reopen
finished = This walk is finished. Reopen it to add or change heads.

# $first (String)
# $last (String)
date-cannot-be = The date of this walk cannot be right, so it gives no answer. Its heads are safe; choose a date from { $first } to { $last }.

right-date = Date of this walk
correct-date = Correct the date

# $stops (Number)
# $heads (Number)
too-large = This walk has more than { $stops } stops or { $heads } heads, so it gives no answer. Its heads are all here.

key = Squeeze key
advice = Is it worth walking more?

# $stop (Number)
heads-here = Heads of stop { $stop }

earlier-stop = Earlier stop
later-stop = Later stop

# $reading (String)
# $share (Number)
head-share = { $reading }, { $share } %

# $number (Number)
# $head (String)
head-number = Head { $number }: { $head }

marked = marked
corrected = corrected
saving = not saved yet
unsaved = not saved
share = How far down the head

# $percent (Number)
share-value = { $percent } percent from the top

share-none = not set

# $percent (Number)
percent = { $percent } %

readings = What the top of the head shows

# $reading (String)
explain = What is { $reading }?

hint-both = Slide down the head, then tap what its top shows.
hint-share = Now slide down the head to where that ends.
hint-reading = Now tap what the top shows: that saves it.

# $head (String)
same-again-as = Same again: { $head }

same-again-none = Same again

# $number (Number)
done-editing = Done with head { $number }

# $number (Number)
editing = Changing head { $number }: slide or tap, each change is saved.

undo =
    .head = Undo the last head
    .correction = Undo the last correction
    .removal = Undo the last deletion
    .stop = Undo the last stop
    .photo = Undo the last photo

undone =
    .head = The last head was undone.
    .correction = The last correction was undone.
    .removal = The deleted head is back.
    .stop = The last stop was undone.
    .photo = The last photo was undone.

mark = Mark

# $number (Number)
mark-title = Mark head { $number }

note = Note on this head
next-stop = Next stop
remove-head = Delete head
removed = The head was deleted.

# $heads (Number)
# $why (String)
not-saved =
    { $heads ->
        [0] Not saved yet. { $why }
       *[other] { $heads ->
            [one] { $heads } head is
           *[other] { $heads } heads are
        } not saved. { $why }
    }

unlike = Unlike the earlier walks, so they are left out. Right planting? Hail? Mixed hybrids?
expected = From earlier walks:

# $paces (Number)
# $every (Number)
# $side ('left' | 'right')
which-head =
    { $paces } paces on. Then every { ORDINAL($every) ->
        [1] plant
        [one] { $every }st plant
        [two] { $every }nd plant
        [few] { $every }rd plant
       *[other] { $every }th plant
    } on your { $side ->
        [left] left
       *[right] right
    }: the head your hand meets first, eyes off it.

still-unsaved = Save or delete every head before you finish the walk.
nothing-kept = No head was read, so the walk was not saved.

# $head (String)
saved-head = Saved: { $head }

options = What more walking would gain

# $stops (Number)
# $heads (Number)
option =
    { $stops } more { $stops ->
        [one] stop
       *[other] stops
    } of { $heads }

# $width (String)
# $chance (Number)
# $minutes (String)
option-gains = range { $width } stages wide, stage { $chance } % sure, { $minutes } min

# $width (String)
# $chance (Number)
now = Now: range { $width } stages wide, stage { $chance } % sure.

meets = meets your target
no-options = Read at least one head first.
rests-on = Assuming
