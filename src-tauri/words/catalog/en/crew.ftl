### The crew: joining, who is in it, exchanging, and what does not agree.

title = Crew

role =
    .owner = Owner
    .scout = Scout
    .reader = Reader

may =
    .owner = records, invites and removes
    .scout = records and sees everything
    .reader = sees everything, records nothing for others

not-in = Several scouts, one set of notes. A crew meets at its own hub; nobody outside sees anything. Without signal everything works as before.
join-title = Join a crew
open = Crew and exchange

you-are-a =
    .owner = You are an owner: you record, invite and remove.
    .scout = You are a scout: you record and see everything.
    .reader = You are a reader: you see everything and record nothing for others.

invitation = Invitation
invitation-hint = the link, or the 20 letters and digits
paste = Paste
scan = Scan the QR code
scan-picture = Picture of the QR code
camera-asked = Allow the camera to read the code. No picture is saved.
camera-shows = What the camera shows
hold-code = Hold the QR code of the invitation in front of the camera.
camera-stop = Stop the camera

camera-not =
    .refused = The camera is not allowed here. Allow it in the settings of the device or the browser, or take a picture of the code, or type the invitation.
    .none = No camera was found here. Choose a picture of the code, or type the invitation.
    .busy = The camera gives no picture; another app may be using it. Close that and try again, choose a picture of the code, or type the invitation.

not-ours = This QR code is not an invitation to a crew. An owner shows the right one under Crew, Invite someone.
no-code = No QR code was found in the picture. Come closer and take it again.
hub = Address of the hub
hub-hint = starts with https://
your-name = Your name
this-device = Name of this device

# $phone (Boolean)
device-guess =
    { $phone ->
        [true] Phone
       *[other] Computer
    }

crew-name = Name of the crew
crew-name-hint = used only with the first code of a hub
crew-name-default = Crew
certificate = The hub has a certificate of its own

# $name (String)
certificate-chosen = Certificate: { $name }

choose-certificate = Choose its PEM file
join = Join
joining = Asking the hub
what-happens = Everything recorded here goes to the crew, and everything of the crew comes here.

exchange-title = Exchange
never = Nothing exchanged yet

# $at (Instant)
last = Last exchange { RECENT($at) }

nothing-waits = up to date

# $heads (Number)
heads-wait =
    { $heads ->
        [one] { $heads } head waits
       *[other] { $heads } heads wait
    }

# $changes (Number)
changes-wait =
    { $changes ->
        [one] { $changes } entry waits
       *[other] { $changes } entries wait
    }

# $heads (Number)
# $photos (Number)
heads-and-photos-wait =
    { $heads ->
        [one] { $heads } head
       *[other] { $heads } heads
    }, { $photos ->
        [one] { $photos } photo wait
       *[other] { $photos } photos wait
    }

# $changes (Number)
# $photos (Number)
changes-and-photos-wait =
    { $changes ->
        [one] { $changes } entry
       *[other] { $changes } entries
    }, { $photos ->
        [one] { $photos } photo wait
       *[other] { $photos } photos wait
    }

# $photos (Number)
photos-wait =
    { $photos ->
        [one] { $photos } photo waits
       *[other] { $photos } photos wait
    }

exchange-now = Exchange now
stop = Stop
looking = Asking the hub

# $done (Number)
# $all (Number)
giving =
    { $done } of { $all ->
        [one] { $all } head
       *[other] { $all } heads
    } sent

# $done (Number)
# $all (Number)
giving-changes =
    { $done } of { $all ->
        [one] { $all } entry
       *[other] { $all } entries
    } sent

# $done (Number)
# $all (Number)
fetching =
    { $done } of { $all ->
        [one] { $all } entry
       *[other] { $all } entries
    } received

# $left (Number)
photos-left =
    { $left ->
        [one] { $left } photo
       *[other] { $left } photos
    } left

no-signal-then = No signal at the last try. It runs by itself once there is; nothing is lost.

# $at (Instant)
next-at = Next try { RECENT($at) }.

itself = Runs by itself where there is signal.
reader-holds = As a reader, what you record stays on this device.

people = People and devices
you = you
this-one = this device

# $at (Instant)
seen = last seen { RECENT($at) }

# $at (Instant)
removed-at = removed { RECENT($at) }

people-no-signal = The list of the crew needs signal.

# $name (String)
change-role = What { $name } may do

remove-device = Remove

# $device (String)
# $person (String)
remove-title = Remove { $device } of { $person }?

remove-text = From now on it can exchange nothing, and it forgets its key the next time it asks. What it gave stays with the crew; what it had not given stays on it.
remove-yes = Remove now
keep = Cancel

# $device (String)
removed-done = { $device } is no longer in the crew.

invite = Invite someone
invite-first = You are the first here. Invite the scouts of your crew.
invite-title = Invitation
invite-role = What they may do
invite-for = For whom
somebody-new = Someone new

# $name (String)
further-device = Another device of { $name }

holds = Valid for

# $minutes (Number)
lasts-minutes = { $minutes } minutes

# $hours (Number)
lasts-hours =
    { $hours ->
        [one] { $hours } hour
       *[other] { $hours } hours
    }

# $days (Number)
lasts-days =
    { $days ->
        [one] { $days } day
       *[other] { $days } days
    }

make-invitation = Make the invitation
qr-code = QR code of the invitation

# $at (Instant)
ends-at = Valid until { RECENT($at) }, for one device, once.

code = Code
copy = Copy the link
copied = The link is copied.
share = Share the link
another = New invitation
open-invitations = Open invitations

# $role (String)
# $ends (Instant)
open-invitation-as = { $role }, until { RECENT($ends) }

withdraw = Withdraw
withdrawn = The invitation is withdrawn.

file-title = From phone to phone by file
file-text = Without a hub, the same exchange goes through a file: write it here, share it any way you like, read it on the other device of the crew.
write-file = Write a file

# $day (String)
file-name = headwalk { $day }.hwx

# $name (String)
file-written = { $name } is written. It holds everything in this notebook, for your crew only.

read-file = Read a file

# $name (String)
reading-file = Reading { $name }

# $fresh (Number)
# $all (Number)
file-read =
    { $fresh } of { $all ->
        [one] { $all } entry
       *[other] { $all } entries
    } in it were new here.

leave = Leave the crew

# $crew (String)
leave-title = Leave { $crew }?

leave-text = This device exchanges no more. Everything in the notebook stays here, and what was given stays with the crew.
leave-waits = What waits here has not been sent yet.
leave-yes = Leave
stay = Stay
left = This device is no longer in a crew.
leave-here = Leave without the hub

# $crew (String)
leave-here-title = Leave { $crew } without its hub?

leave-here-text = Everything in this notebook stays. The hub does not learn that you left, and lists this device until an owner removes it. You can join again with a new code.
leave-unknown-text = Everything in this notebook stays. You can join again with a new code.
leave-here-owner = You are an owner: if the hub still runs, somebody else must be an owner to invite and remove.
leave-here-waits = What waits here goes to the next crew that you join.
unknown-title = The hub does not know this device
unknown-text = Your notebook is safe. The hub may have been set up again, or a sign-in page of this network may answer in its place: try another network, then join with a new code or leave here.
to-crew = Go to crew

left-title = Left out of the exchange
left-text = Everything else was exchanged, and nothing here was changed.
left-of-this = Entries of this device
left-of-other = Entries of another device

# $who (String)
left-of-one = Entries of { $who }

left-why =
    .not_signed = Some came without the signature of the device that writes them.
    .other_key = They are signed with another key than the one this device knows.
    .not_taken = The hub does not take them from this device.
    .incoherent = What the hub says about them does not fit together.

left-do =
    .not_signed = Update the app on that device and exchange there; if this stays, tell an owner.
    .other_key = Tell an owner: a notebook may have been copied, or somebody else writes as that device.
    .not_taken = Let that device exchange with the hub itself.
    .incoherent = Tell whoever runs the hub.

left-do-own = Exchange again; if this stays, tell an owner.
moved-title = This device has a new id

moved-why =
    .written_elsewhere = Another device wrote under the id of this one, as happens after a notebook is copied or an old backup is restored.
    .new_key = This device joined again, and the key it had before is gone.

moved-text = It writes under a new id from now on, and its entries that the hub did not have moved there. Nothing is lost, and there is nothing to do.
moved-seen = Got it

differ-title = Two people gave different values
differ-text = The later one is shown. Choose one, and the others see your choice.
shown-now = shown now

# $at (Instant)
given = given { RECENT($at) }

none = none
yes = yes
no = no

# $value (String)
use = Use { $value }

# $value (String)
keep-value = Keep { $value }

# $field (String)
# $value (String)
settled = { $field }: { $value }

of-its-own = a separate planting

# $what (String)
it-is = It is { $what }

# $name (String)
same-as = the same as { $name }

duplicates-title = Duplicates
duplicates-intro = These plantings look like one that two people added without signal. Merged, they are one planting with the walks of both; you can undo it at any time.
no-duplicates = No two plantings look like one.
may-be-twice = This planting may be a duplicate.
look = Look at it

# $walks (Number)
walks =
    { $walks ->
        [one] { $walks } walk
       *[other] { $walks } walks
    }

# $walks (Number)
# $scouts (String)
walks-by =
    { $walks ->
        [one] { $walks } walk
       *[other] { $walks } walks
    } by { $scouts }

# $name (String)
are-one = Merge: keep { $name }

# $other (String)
# $name (String)
merged = { $other } is now shown as { $name }.

merged-title = Merged into this planting

# $name (String)
take-apart = Undo the merge of { $name }

# $name (String)
apart = { $name } is a separate planting again.
