### The squeeze key.

title = Squeeze key
first = Before the first head
intro = A head ripens from the top down. Pinch a kernel at the top: what does it show? Then find how far down the head that goes, and slide to there.
feel = How it feels
mistaken = Mistaken for
next = Look next
which-title = Which head to pick
which = Not the prettiest, nor the ripest. Walk the paces given, count the plants given, and take the head your hand meets first, eyes off it. Picked heads always look riper than the planting is.
start = Start reading heads

entries-feel =
    .boot = The head is still inside the sheath of the flag leaf: a swelling that gives under the fingers, no part of it to be seen.
    .emerging = Part of the head stands out of the sheath; its florets are closed, with no anthers.
    .bloom = Anthers hang out of the florets, from the tip of the head downward: yellow when fresh, dry and rusty after some days.
    .liquid = A kernel pinched between thumb and nail bursts and gives liquid, clear at first and white later.
    .pliable = A kernel squeezes flat like soft dough; little or no liquid comes.
    .dented = A thumbnail leaves a dent, but the kernel will not squeeze flat.
    .dark_spot = Pulled from the head, the kernel shows a dark spot at its base, opposite the germ, where it was attached.

entries-mistaken =
    .boot = A thick stalk without a head. Feel along the sheath: the head is softer and wider than the stalk.
    .emerging = A head that stays partly sheathed for good. If it blooms or has grain, read that, and mark it as partly sheathed.
    .bloom = Emerging, when only the tip has bloomed. One floret with an anther is bloom.
    .liquid = Pliable, when the kernel is half thick. If white liquid still runs, it is liquid.
    .pliable = Liquid, in a plump kernel, or dented, when squeezed with little force. Press until it is flat or will not go.
    .dented = Dark spot, when the kernel has its full color. Color is only a hint: pull the kernel and look at its base.
    .dark_spot = A stain, mold or the shadow of the glume. Rub it; look at kernels side by side.

entries-next =
    .boot = Look for the first tip at the collar of the flag leaf. One tap is enough; boot has no share.
    .emerging = Slide down to where the sheath begins: the part that is out.
    .bloom = Slide down to the lowest floret that has shown an anther, fresh or dry.
    .liquid = Pinch a kernel every finger width, from the top down. Slide to the last one that gives liquid.
    .pliable = From the top down, squeeze until a kernel gives liquid. Slide to the last that went flat without.
    .dented = From the top down, squeeze until a kernel goes flat. Slide to the last that only dents.
    .dark_spot = Pull kernels from the top down. Slide to the last with the spot: the base of the head comes last.

# $reading (String)
drawing = Drawing: { $reading }
