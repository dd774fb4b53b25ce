"""Twenty walks, ordinary and ugly, that the independent sampler and the roll-up both answer.

A head is (reading, share in percent); boot has share None.
"""

import numpy as np

READINGS = ["boot", "emerging", "bloom", "liquid", "pliable", "dented", "dark_spot"]

# Age of the topmost kernel at which each reading first shows; only to make up
# plausible heads, the model's own marks are in model.py.
FIRST_SHOWS = [-1e9, -100.0, 0.0, 130.0, 297.0, 747.0, 1107.0]


def head(middle, span, rng, error):
    top = middle + span / 2
    at = max(i for i, first in enumerate(FIRST_SHOWS) if top >= first)
    if at == 0:
        return ("boot", None)
    if at == 1:
        share = (top + 100.0) / 100.0
    else:
        share = (top - FIRST_SHOWS[at]) / span
    share = min(share, 1.0) + error * rng.standard_normal()
    percent = int(np.clip(5 * round(20 * share), 5, 100))
    return (READINGS[at], percent)


def walk(seed, middle, stops, heads, stop_sd=40.0, head_sd=80.0, span=170.0, late=0.0, behind=0.0,
         error=0.05, off=0.0, unequal=False):
    rng = np.random.default_rng(seed)
    result = []
    for _ in range(stops):
        place = middle + stop_sd * rng.standard_normal()
        count = int(rng.integers(1, 2 * heads)) if unequal else heads
        pulled = []
        for _ in range(count):
            age = place + head_sd * rng.standard_normal()
            if rng.random() < late:
                age -= behind
            reading, percent = head(age, span, rng, error)
            if rng.random() < off and reading != "boot":
                at = READINGS.index(reading) + (1 if rng.random() < 0.5 else -1)
                at = int(np.clip(at, 1, 6))
                reading = READINGS[at]
            pulled.append((reading, percent))
        result.append(pulled)
    return result


CASES = {
    "one head": [[("pliable", 50)]],
    "one stop": walk(1, 300, 1, 5),
    "two stops": walk(2, 740, 2, 5),
    "milk to soft dough": walk(3, 230, 5, 5),
    "soft dough": walk(4, 320, 5, 5),
    "whole heads, soft to hard": walk(5, 560, 5, 5),
    "hard dough": walk(6, 760, 5, 5),
    "black layer": walk(7, 1080, 5, 5),
    "eight stops": walk(8, 690, 8, 5),
    "narrow": walk(9, 740, 5, 5, stop_sd=15, head_sd=35),
    "wide": walk(10, 700, 5, 5, stop_sd=70, head_sd=120),
    "two flushes": walk(11, 800, 5, 5, late=0.4, behind=280),
    "few late tillers": walk(12, 780, 8, 5, late=0.2, behind=190),
    "shares misjudged, classes off": walk(13, 730, 5, 5, error=0.12, off=0.15),
    "unequal heads": walk(14, 340, 6, 5, unequal=True),
    "short heads": walk(15, 300, 5, 5, span=110),
    "bloom": walk(16, -30, 5, 5),
    "all boot": [[("boot", None)] * 5] * 5,
    "all ripe": [[("dark_spot", 100)] * 5] * 5,
    "200 heads at 20 stops": walk(17, 735, 20, 10),
}
