"""The roll-up's model as its documentation states it, written anew: priors, and what a reading
says of a head's age once the head's own effect is integrated out (normal times normal, in
closed form). Nothing is shared with the Rust code but the documented numbers below.
"""

import numpy as np
from scipy.special import ndtr

from cases import READINGS

# Ages (heat units) --------------------------------------------------------------------
MARKS = {"bloom": 0.0, "liquid": 130.0, "pliable": 297.0, "dented": 747.0, "dark_spot": 1107.0}
BOOT_BEFORE_BLOOM, HEADING_BEFORE_BLOOM, EMERGENCE = 247.0, 130.0, 100.0
SPANS = [(120.0, 0.3), (168.0, 0.4), (224.0, 0.3)]
# (share late, lag, prior weight); at half of the stops the share is PATCH less, at half more
LATE = [(0.17, 216.0), (0.17, 312.0)] + [(s, lag) for s in (0.31, 0.45) for lag in (120.0, 216.0, 312.0)]
SHAPES = [(0.0, 0.0, 1 / 3)] + [(s, lag, 2 / 3 / 8) for s, lag in LATE]
PATCH = 0.2
# Late heads are not late by one lag: standard deviation around it.
LATE_SPREAD = 45.0
MEAN_FROM, MEAN_TO = -624.0, 1680.0
HEAD_MEDIAN, HEAD_LOG_SD = 80.0, 0.4
STOP_MEDIAN, STOP_LOG_SD = 40.0, 0.6
# Reading errors -----------------------------------------------------------------------
SHARE_ERROR, SEEN_WHOLE, HALF_STEP = 0.06, 0.75, 0.025
CLASS_ERROR, BLUNDER = 0.025, 0.002
EARLY_BLUR, BOOT_BLUR = 40.0, 60.0

def density(z):
    return np.exp(-0.5 * z * z) / np.sqrt(2 * np.pi)


LAGS = sorted({lag for _, lag, _ in SHAPES})
FAR = 1e5


class Terms:
    """A likelihood as a sum of terms.

    steps:  c * max(0, Phi((m - a) / s(v)) - Phi((m - b) / s(w))), s(v) = sqrt(sigma^2 + v^2)
    bumps:  c / s(v)^p * phi((m - a) / s(v)) * P(age < cut | age seen as a with blur v)
    """

    def __init__(self):
        self.steps, self.bumps, self.constant = [], [], 0.0


def next_mark(reading):
    later = READINGS[READINGS.index(reading) + 1:]
    return MARKS[later[0]] if later else FAR


def whole_interval(reading, span):
    a = MARKS[reading] + span * (0.5 - HALF_STEP)
    b = next_mark(reading) - span * (0.5 - HALF_STEP)
    if b - a < 0.2 * span:
        a, b = (a + b) / 2 - 0.1 * span, (a + b) / 2 + 0.1 * span
    return a, b


def class_interval(reading, span):
    if reading == "boot":
        return -span / 2 - BOOT_BEFORE_BLOOM, -span / 2 - HEADING_BEFORE_BLOOM
    if reading == "emerging":
        return -span / 2 - HEADING_BEFORE_BLOOM, -span / 2
    return MARKS[reading] - span / 2, next_mark(reading) - span / 2


def add_as_read(terms, factor, reading, percent, span):
    """The share `percent` when the class is `reading`."""
    unknown = 0.5 if percent == 100 else 1.0
    if reading == "boot":
        terms.steps.append((factor * unknown, -span / 2 - BOOT_BEFORE_BLOOM, BOOT_BLUR,
                            -span / 2 - HEADING_BEFORE_BLOOM, EARLY_BLUR))
    elif reading == "emerging":
        age = -span / 2 - HEADING_BEFORE_BLOOM + EMERGENCE * percent / 100
        height, power = (1.0, 0.0) if percent == 100 else (EMERGENCE, 1.0)
        terms.bumps.append((factor * height, age, EARLY_BLUR, power, FAR))
    else:
        a, b = whole_interval(reading, span)
        blur = SHARE_ERROR * span
        if percent == 100:
            terms.steps.append((factor, a, blur, b, blur))
            terms.steps.append((-factor * (1 - SEEN_WHOLE), a + blur, 0.0, b, 0.0))
        else:
            q = percent / 100
            age = MARKS[reading] + span * (q - 0.5)
            terms.bumps.append((factor * span, age, blur, 1.0, a))
            height = (1 - SEEN_WHOLE) * 2 / SHARE_ERROR * density((q - 1) / SHARE_ERROR)
            terms.steps.append((factor * float(height), a, 0.0, b, 0.0))


def terms_of(reading, percent, span):
    terms = Terms()
    percent = 100 if percent is None else percent
    at = READINGS.index(reading)
    unknown = 0.5 if percent == 100 else 1.0
    add_as_read(terms, 1 - CLASS_ERROR - BLUNDER, reading, percent, span)
    neighbors = [READINGS[i] for i in (at - 1, at + 1) if 0 <= i < len(READINGS)]
    for truth in neighbors:
        share = CLASS_ERROR / len(neighbors) / 2
        add_as_read(terms, share, truth, percent, span)
        a, b = class_interval(truth, span)
        terms.steps.append((share * unknown, a, SHARE_ERROR * span, b, SHARE_ERROR * span))
    terms.constant = BLUNDER * unknown / 7
    return terms.steps, terms.bumps, terms.constant


def likelihood(steps, bumps, constant, mean, sigma):
    """One kind's likelihood; `mean` and `sigma` broadcast."""
    total = constant
    for c, a, v, b, w in steps:
        total = total + c * np.maximum(0.0, ndtr((mean - a) / np.sqrt(sigma**2 + v**2))
                                       - ndtr((mean - b) / np.sqrt(sigma**2 + w**2)))
    for c, a, v, p, cut in bumps:
        s = np.sqrt(sigma**2 + v**2)
        among = mean + sigma**2 / s**2 * (a - mean)
        total = total + c / s**p * density((mean - a) / s) * ndtr((cut - among) / (v * sigma / s))
    return np.maximum(total, 1e-30)
