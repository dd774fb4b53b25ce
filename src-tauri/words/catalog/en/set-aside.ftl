### Entries that do not count, and why.

title = Set aside
intro = These entries do not count. They are kept as they came, and everything else counts as before.
nothing = Nothing is set aside: every entry counts.

# $count (Number)
link =
    Set aside: { $count ->
        [one] { $count } entry
       *[other] { $count } entries
    }

# $count (Number)
link-ahead =
    Not counted on other devices: { $count ->
        [one] { $count } entry
       *[other] { $count } entries
    }

own-title = The clock of this device was ahead

# $count (Number)
own-text =
    { $count ->
        [one] { $count } entry of this device counts here, but waits on every other device. Check the clock, then record it again.
       *[other] { $count } entries of this device count here, but wait on every other device. Check the clock, then record them again.
    }

# $who (String)
waiting-title = Waiting: { $who }

waiting-text = Made while the clock of that device was ahead. Each counts once its time comes.

# $at (Instant)
due = Counts from { MOMENT($at) }

again = Record again now

# $count (Number)
done =
    { $count ->
        [one] 1 entry was recorded again and counts now.
       *[other] { $count } entries were recorded again and count now.
    }

this-device = this device
other-device = another device
rest-title = Why the others do not count

# $at (Instant)
made = Recorded { MOMENT($at) }

# $place (Number)
part = part { $place } of it

unreadable = This version of the app cannot read it. Update the app; what a newer one can read will count.
out-of-bounds = A value in it cannot be right. Ask for it to be recorded again.

# $what (String)
out-of-bounds-in = A value in it cannot be right ({ $what }). Ask for it to be recorded again.

waiting = It waits until its time comes.
told-again = Its time was too far ahead. It was recorded again and counts there; nothing is missing.

# $rows (Number)
# $total (Number)
shown = The latest { $rows } of { $total } are shown.
