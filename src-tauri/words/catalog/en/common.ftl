### Words that many screens share.

stage =
    .boot = boot
    .heading = heading
    .half_bloom = half bloom
    .milk = milk
    .soft_dough = soft dough
    .hard_dough = hard dough
    .black_layer = black layer

mark =
    .boot = boot
    .heading = heading
    .half_bloom = half bloom
    .milk = milk
    .soft_dough = soft dough
    .hard_dough = hard dough
    .black_layer = black layer

reading =
    .boot = Boot
    .emerging = Emerging
    .bloom = Bloom
    .liquid = Liquid
    .pliable = Pliable
    .dented = Dented
    .dark_spot = Dark spot

flag =
    .moldy = Moldy
    .sheathed = Partly sheathed
    .bird_fed = Bird-fed
    .sterile_florets = Sterile florets
    .lodged_plant = Plant lodged

problem =
    .no_signal = The hub was not reached. Try again where there is signal.
    .not_trusted = The certificate of the hub is not trusted. Ask the owner whether the hub has one of its own.
    .not_let_in = The hub does not take this code: it was used, has ended, or is mistyped. Ask the owner for a new one.
    .removed = This device was removed from the crew and has forgotten it. Your heads are all here; ask an owner for an invitation.
    .not_allowed = Your role in the crew does not allow this. An owner can change it.
    .hub_busy = The hub has too much to do. Try again in a minute.
    .hub_full = The hub has no more room for this device. Nothing is lost: everything stays here. Ask whoever runs the hub for more room.
    .hub_version = App and hub are of versions that do not fit. Bring both up to date.
    .last_owner = A crew needs an owner with a device. Make somebody else an owner first.
    .not_in_crew = That is not in the crew any more.
    .bad_invitation = This is no invitation. Paste the whole link, or type the 20 letters and digits and the address.
    .bad_exchange_file = This file cannot be read to its end. What was whole in it is kept; have it sent again.
    .other_crew = This file is of another crew. Nothing of it was taken in.
    .no_crew = This device is in no crew. Join one first.
    .in_crew = This device is in a crew already. Leave that one first.
    .no_token = This notebook came from another device, and its key stayed there. Join with a new invitation; the heads are all here.
    .parted = Hub and device hold different things under one number. Nothing was lost; try again.
    .stopped = Stopped; nothing was saved.
    .crew_failed = The notebook did not answer. Try again.
    .bad_input = This cannot be used as it is; nothing was saved. Check what you gave and try again.
    .not_found = This is no longer in the notebook. Go back and open it again.
    .conflict = The notebook has changed and this no longer fits; nothing was saved. Go back and look again.
    .disk_full = The device is full; what was saved before is safe. Free some space and try again.
    .read_only = The notebook can be read but not written; nothing was saved. Check the permissions of its file and folder.
    .unavailable = The notebook cannot be reached right now; what was saved before is safe. Try again.
    .from_newer_app = A newer version of Headwalk wrote this notebook; nothing was changed. Update the app.
    .damaged = The notebook file is damaged; the file itself is kept. Headwalk can save what can still be read.
    .incomplete = This copy of the notebook lacks changes that were shown as saved; nothing was changed. Go on with what it holds, or restore a backup.
    .stranger = This page is from an earlier start of the desk; nothing was changed. Open the address that the desk printed.
    .internal = Headwalk made a mistake; what was saved before is safe. Try again.

technical = Technical details
back = Back
done = Done
undo = Undo
cancel = Cancel
try-again = Try again
close = Close
loading = Reading the notebook
nowhere = There is no such screen.
to-plantings = Go to plantings
main-tabs = Main screens

tabs =
    .plantings = Plantings
    .fortnight = Next 2 weeks
    .more = More

assumption = your assumption

# $what (String)
# $value (String)
change-assumption = { $what }: { $value }, your assumption. Change it

# $what (String)
less = Less: { $what }

# $what (String)
more = More: { $what }

# $value (Number)
percent = { $value } %

under-one = under 1 %
over-ninety-nine = over 99 %
