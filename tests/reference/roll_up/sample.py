"""Fits every case by importance sampling and writes fixture.json beside this file.

    python -m venv /somewhere/outside && /somewhere/outside/bin/pip install -r requirements.txt
    /somewhere/outside/bin/python sample.py                # all cases, to fixture.json
    /somewhere/outside/bin/python sample.py --only "one"   # prints cases of that name only

Draws of (mean, head spread, stop spread) from the prior, then, wiser, from a wide normal around
what the first draws found mixed with the prior; each weighted by its exact prior times
likelihood over its density. Spans and kinds of lateness are carried along as weights, the
stops' effects are integrated on a fine line. nuts.py samples them instead, for a check.
"""

import argparse
import json
import pathlib
import platform
from importlib.metadata import version

import numpy as np
from scipy.optimize import brentq
from scipy.special import ndtr, ndtri

import model as m
from cases import CASES, READINGS

SEED = 20260314
STAGES = ["boot", "heading", "half_bloom", "milk", "soft_dough", "hard_dough", "black_layer"]
QUANTILES = [0.05, 0.5, 0.95]

STEP = 6.0
LINE = np.arange(m.MEAN_FROM - 204.0, m.MEAN_TO + 204.0, STEP)
LONGEST = int(max(m.LAGS) / STEP)
LATE_LINE = np.concatenate([LINE[0] - STEP * np.arange(LONGEST, 0, -1), LINE])


def stage_mark(stage, span):
    return {"boot": -span / 2 - m.BOOT_BEFORE_BLOOM, "heading": -span / 2 - m.HEADING_BEFORE_BLOOM,
            "half_bloom": -span / 2, "milk": m.MARKS["liquid"], "soft_dough": m.MARKS["pliable"],
            "hard_dough": m.MARKS["dented"], "black_layer": m.MARKS["dark_spot"]}[stage]


def reached(past, spread, late, lag):
    return (1 - late) * ndtr(past / spread) + late * ndtr((past - lag) / np.hypot(spread, m.LATE_SPREAD))


def behind_of_middle_head(spread, late, lag):
    """How far the middle head of a population is behind its mean."""
    if late == 0:
        return np.zeros_like(spread)
    grid = np.geomspace(spread.min() * 0.99, spread.max() * 1.01, 60)
    exact = [brentq(lambda x: reached(x, s, late, lag) - 0.5, -1.0, lag + 1.0) for s in grid]
    return np.interp(spread, grid, exact)


def position(age, span):
    ages = [stage_mark(s, span) for s in ("boot", "half_bloom", "soft_dough", "hard_dough", "black_layer")]
    return np.interp(age, ages, [5.0, 6.0, 7.0, 8.0, 9.0])


def weighted_quantiles(values, weights):
    order = np.argsort(values)
    below = np.cumsum(weights[order])
    return [float(values[order][min(np.searchsorted(below, q * below[-1]), len(order) - 1)])
            for q in QUANTILES]


def answer(mean, head, stop, parts):
    """Quantiles of the shares reached and of the position, over draws, spans and shapes."""
    spread = np.hypot(head, stop)
    shares = {stage: [] for stage in STAGES}
    positions, weights = [], []
    for i, (span, _) in enumerate(m.SPANS):
        for j, (late, lag, _) in enumerate(m.SHAPES):
            for stage in STAGES:
                shares[stage].append(reached(mean - stage_mark(stage, span), spread, late, lag))
            positions.append(position(mean - behind_of_middle_head(spread, late, lag), span))
            weights.append(parts[:, i, j])
    weights = np.concatenate(weights)
    return {"reached": {stage: weighted_quantiles(np.concatenate(v), weights) for stage, v in shares.items()},
            "position": weighted_quantiles(np.concatenate(positions), weights)}


class Walk:
    """The heads of a walk, and their likelihood for given unknowns."""

    def __init__(self, stops):
        full = [[(r, 100 if p is None else p) for r, p in stop] for stop in stops if stop]
        self.kinds = sorted({kind for stop in full for kind in stop},
                            key=lambda kind: (READINGS.index(kind[0]), kind[1]))
        self.counts = np.array([[stop.count(kind) for kind in self.kinds] for stop in full], dtype=float)
        self.terms = [[m.terms_of(*kind, span) for span, _ in m.SPANS] for kind in self.kinds]

    def by_stop_mean(self, head):
        """Log likelihood of each stop's heads along LINE: stops x spans x shapes x line."""
        def table(spread):
            return np.array([[m.likelihood(*terms, LATE_LINE, spread) for terms in row] for row in self.terms])

        on_time, late_table = table(head)[:, :, LONGEST:], table(np.hypot(head, m.LATE_SPREAD))
        result = []
        for late, lag, _ in m.SHAPES:
            behind = int(lag / STEP)
            delayed = late_table[:, :, LONGEST - behind: len(LATE_LINE) - behind]
            shares = [late * (1 - m.PATCH), late * (1 + m.PATCH)] if late > 0 else [0.0]
            logs = [np.tensordot(self.counts, np.log((1 - s) * on_time + s * delayed), 1) for s in shares]
            result.append(np.logaddexp.reduce(logs, axis=0) - np.log(len(shares)))
        return np.stack(result, axis=2)

    def log_likelihood(self, head, means, stops):
        """For one head spread and draws of the mean and the stop spread: draws x spans x shapes."""
        logs = self.by_stop_mean(head)
        top = logs.max(axis=3, keepdims=True)
        kernel = np.exp(-0.5 * ((LINE[None] - means[:, None]) / stops[:, None]) ** 2)
        kernel /= kernel.sum(axis=1, keepdims=True)
        flat = np.exp(logs - top).reshape(-1, len(LINE))
        integrals = np.log(kernel @ flat.T + 1e-300).reshape(len(means), *logs.shape[:3])
        return (integrals + top[None, ..., 0]).sum(axis=1)


LOG_PRIOR = (np.log([weight for _, weight in m.SPANS])[:, None]
             + np.log([weight for _, _, weight in m.SHAPES])[None, :])


def log_normal(x, mean, sd):
    return -0.5 * ((x - mean) / sd) ** 2 - np.log(sd)


def log_prior(means, log_heads, log_stops):
    inside = (means >= m.MEAN_FROM) & (means <= m.MEAN_TO)
    return np.where(inside, log_normal(log_heads, np.log(m.HEAD_MEDIAN), m.HEAD_LOG_SD)
                    + log_normal(log_stops, np.log(m.STOP_MEDIAN), m.STOP_LOG_SD), -np.inf)


def fit(stops, seed, spreads=(80, 500), draws=80):
    rng = np.random.default_rng(seed)
    walk = Walk(stops)

    def run(log_heads, means, log_stops, log_density):
        likelihood = np.array([walk.log_likelihood(np.exp(h), mu, np.exp(s))
                               for h, mu, s in zip(log_heads, means, log_stops)])
        all_heads = np.broadcast_to(log_heads[:, None], means.shape)
        outer = log_prior(means, all_heads, log_stops) - log_density
        logs = (likelihood + LOG_PRIOR + outer[:, :, None, None]).reshape(-1, *LOG_PRIOR.shape)
        weights = np.exp(logs - logs.max())
        return means.ravel(), all_heads.ravel(), log_stops.ravel(), weights / weights.sum()

    def even_normals(count):
        """Standard normal numbers, one from each of `count` equal parts of the bell."""
        return ndtri((rng.permutation(count) + rng.random(count)) / count)

    def from_prior(count, low, high):
        log_heads = np.log(m.HEAD_MEDIAN) + m.HEAD_LOG_SD * even_normals(count)
        means = rng.uniform(low, high, (count, draws))
        log_stops = np.log(m.STOP_MEDIAN) + m.STOP_LOG_SD * rng.standard_normal((count, draws))
        return log_heads, means, log_stops

    # Where the mean can be at all, roughly: a coarse line at middling spreads.
    coarse = np.linspace(m.MEAN_FROM, m.MEAN_TO, 97)
    logs = np.logaddexp.reduce((np.array([walk.log_likelihood(h, coarse, np.full(97, 60.0)) for h in (50.0, 100.0, 160.0)])
                                + LOG_PRIOR).transpose(1, 0, 2, 3).reshape(97, -1), axis=1)
    likely = coarse[logs > logs.max() - 14]
    low, high = max(likely[0] - 60, m.MEAN_FROM), min(likely[-1] + 60, m.MEAN_TO)
    log_heads, means, log_stops = from_prior(spreads[0], low, high)
    density = log_normal(log_heads, np.log(m.HEAD_MEDIAN), m.HEAD_LOG_SD)[:, None] \
        + log_normal(log_stops, np.log(m.STOP_MEDIAN), m.STOP_LOG_SD)
    first = run(log_heads, means, log_stops, density)

    # Second round: a wide normal around the first, one fifth from the prior.
    x = np.stack(first[:3])
    w = first[3].sum(axis=(1, 2))
    center = x @ w
    spread = (x - center[:, None]) * w @ (x - center[:, None]).T * 2.0 + np.diag([25.0, 0.01, 0.01])
    slope = spread[[0, 2], 1] / spread[1, 1]
    rest = spread[np.ix_([0, 2], [0, 2])] - np.outer(slope, slope) * spread[1, 1]
    count = spreads[1]
    wise = rng.random(count) > 0.2
    prior_heads, prior_means, prior_stops = from_prior(count, low, high)
    log_heads = np.where(wise, center[1] + np.sqrt(spread[1, 1]) * even_normals(count), prior_heads)
    base = center[[0, 2]] + (log_heads - center[1])[:, None] * slope
    pairs = base[:, None] + rng.standard_normal((count, draws, 2)) @ np.linalg.cholesky(rest).T
    wise_pair = rng.random((count, draws)) > 0.2
    means = np.where(wise_pair, pairs[..., 0], prior_means)
    log_stops = np.where(wise_pair, pairs[..., 1], prior_stops)
    heads_density = np.log(0.8 * np.exp(log_normal(log_heads, center[1], np.sqrt(spread[1, 1])))
                           + 0.2 * np.exp(log_normal(log_heads, np.log(m.HEAD_MEDIAN), m.HEAD_LOG_SD)))
    off = np.stack([means, log_stops], axis=-1) - base[:, None]
    squares = np.einsum("...i,ij,...j", off, np.linalg.inv(rest), off)
    uniform = ((means >= low) & (means <= high)) / (high - low)
    pair_density = np.log(0.8 * np.exp(-0.5 * squares) / (2 * np.pi * np.sqrt(np.linalg.det(rest)))
                          + 0.2 * uniform * np.exp(log_normal(log_stops, np.log(m.STOP_MEDIAN), m.STOP_LOG_SD))
                          / np.sqrt(2 * np.pi))
    second = run(log_heads, means, log_stops, heads_density[:, None] + pair_density)
    w = second[3].sum(axis=(1, 2))
    by_head = w.reshape(count, draws).sum(axis=1)
    diagnostics = {"effective_draws": float(1 / np.sum(w**2)), "effective_head_spreads": float(1 / np.sum(by_head**2))}
    return (second[0], np.exp(second[1]), np.exp(second[2]), second[3]), diagnostics


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--only")
    arguments = parser.parse_args()
    cases = []
    for number, (name, stops) in enumerate(CASES.items()):
        if arguments.only and arguments.only not in name:
            continue
        draws, diagnostics = fit(stops, SEED + number)
        case = {"name": name, "heads": stops, **answer(*draws), "seed": SEED + number, **diagnostics}
        cases.append(case)
        print(name, {k: round(v) for k, v in diagnostics.items()},
              "soft dough", np.round(case["reached"]["soft_dough"], 3), "position", np.round(case["position"], 3), flush=True)
    if arguments.only:
        return
    versions = {name: version(name) for name in ("numpy", "scipy")}
    fixture = {"made_by": "sample.py", "python": platform.python_version(), "versions": versions,
               "quantiles": QUANTILES, "cases": cases}
    path = pathlib.Path(__file__).with_name("fixture.json")
    path.write_text(json.dumps(fixture, indent=1) + "\n")


if __name__ == "__main__":
    main()
