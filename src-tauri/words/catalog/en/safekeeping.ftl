### Backups, checks, and a notebook that does not open.

title = Backup
intro = Everything you record is in one file on this device. A backup is a full copy of it, checked before it counts.
back-up = Back up now
backing-up = Copying the notebook and checking the copy

# $name (String)
made = Backup made and checked: { $name }

last = Last backup
none = There is no backup on this device yet.

# $count (Number)
older =
    { $count ->
        [one] { $count } older; the oldest are replaced by new ones
       *[other] { $count } older; the oldest are replaced by new ones
    }

# $at (Instant)
at = { MOMENT($at) }

# $megabytes (Number)
size = { NUMBER($megabytes, maximumFractionDigits: 1) } MB

where = Where it is
check-title = Is the notebook intact?
check = Check the notebook now
checking = Reading every change of the notebook

# $when (Instant)
# $changes (Number)
checked = Checked { MOMENT($when) }: all { $changes } changes are intact.

never-checked = Not checked yet. It is checked once a day, and after the phone was cut off.
mended = Something shown did not match what was recorded. It was rebuilt from the record; nothing is lost.

# $photos (Number)
photos-whole =
    { $photos ->
        [one] { $photos } photo is intact.
       *[other] { $photos } photos are intact.
    }

# $photos (Number)
photos-damaged =
    { $photos ->
        [one] { $photos } photo was
       *[other] { $photos } photos were
    } damaged and set aside, not deleted. In a crew, exchange with the hub: what it holds comes back.

# $photos (Number)
photos-missing =
    { $photos ->
        [one] { $photos } photo that was on this device is gone. Exchange with the hub, or import a notebook that has it.
       *[other] { $photos } photos that were on this device are gone. Exchange with the hub, or import a notebook that has them.
    }

restore-title = Restore a backup
restore-intro = Choose one. Copy backups off this device from time to time: a lost phone takes its backups with it.

# $when (String)
restore-of = The backup of { $when } will replace the notebook.

restore-means = The notebook as it is now is set aside and kept, nothing is deleted. What you recorded since that backup is not in it; in a crew it comes back with the next exchange, as far as the hub has it.
restore = Restore this backup
restore-not = Cancel
restoring = Checking and restoring the backup

# $changes (Number)
restored =
    The backup is restored, with { $changes ->
        [one] { $changes } change
       *[other] { $changes } changes
    }.

restored-aside = The notebook before it is kept here:
restored-title = The backup is restored
restore-instead = Or restore a backup
restore-instead-means = Saving what can be read keeps more: it uses the backups too. Restore a backup if that did not work. You can import an exported notebook afterwards, under More.
salvage-title = This notebook was saved from a damaged file

# $changes (Number)
# $heads (Number)
kept =
    Kept: { $changes ->
        [one] { $changes } change
       *[other] { $changes } changes
    }, { $heads ->
        [one] { $heads } head
       *[other] { $heads } heads
    } among them.

lost-none = Nothing is known to be lost.

# $changes (Number)
lost =
    Lost: { $changes ->
        [one] { $changes } change
       *[other] { $changes } changes
    }.

# $changes (Number)
# $from (Instant)
# $to (Instant)
lost-between =
    Lost: { $changes ->
        [one] { $changes } change
       *[other] { $changes } changes
    }, recorded between { MOMENT($from) } and { MOMENT($to) }. Look at the walks of that time.

end-unknown = The newest heads may be missing too. Look at your last walk.

# $changes (Number)
unproved =
    { $changes ->
        [one] { $changes } change can be read but could
       *[other] { $changes } changes can be read but could
    } not be verified.

# $changes (Number)
from-backup = { $changes } came from a backup.

settings-lost = The settings were reset; set them again.
set-aside = The damaged file is kept here:
go-on = Go to plantings
open-again = Try again
opening = Opening the notebook
salvage = Save what can be read
go-on-with-this = Continue with what is here
salvaging = Reading the damaged file and writing a new one

trouble-title =
    .damaged = The notebook is damaged
    .incomplete = This notebook lacks saved changes
    .from_newer_app = This notebook is from a newer Headwalk
    .read_only = The notebook cannot be written to
    .disk_full = The device is full
    .unavailable = The notebook cannot be opened

trouble-text =
    .damaged = Its file cannot be read in full. Headwalk can copy every change that can still be read into a new notebook.
    .incomplete = Changes that were shown as saved are missing. It may be a copy made while the notebook was open, or an earlier one. Nothing was changed.
    .from_newer_app = This version does not know everything the notebook may hold, so it has not changed it.
    .read_only = Its file or folder may be read only, so nothing you record would be saved.
    .disk_full = There is no space left to open the notebook. What was saved before is safe.
    .unavailable = Another window of Headwalk may have it, or its folder cannot be reached.

trouble-damaged-steps =
    .step1 = The damaged file is set aside and kept, never deleted.
    .step2 = What only a backup still has is taken from there.
    .step3 = You see what was kept and what was lost.

trouble-incomplete-steps =
    .step1 = If you copied or restored files by hand, put back all of them, then try again.
    .step2 = Or continue with what is here. Backups on this device are used too, and you see what is missing.
    .step3 = In a crew, the next exchange brings back what the hub holds.

trouble-from-newer-app-steps =
    .step1 = Update Headwalk.
    .step2 = Then open it again: everything is there.

trouble-read-only-steps =
    .step1 = Check that the card or disk is not locked.
    .step2 = Check the permissions of the file and of its folder.
    .step3 = Then try again. What was saved before is safe.

trouble-disk-full-steps =
    .step1 = Delete photos, videos or apps that you do not need.
    .step2 = Then try again.

trouble-unavailable-steps =
    .step1 = Close other windows of Headwalk.
    .step2 = Then try again. What was saved before is safe.
