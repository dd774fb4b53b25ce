"""The same posterior by NUTS (numpyro), the stops' effects sampled one by one: a check of
sample.py, and the peer in the bench.

    python nuts.py --time 25          # seconds to fit one walk of 25 (or 200) heads
    python nuts.py --check "one stop" # its answer beside that in fixture.json
"""

import argparse
import json
import pathlib
import time

import numpyro

numpyro.enable_x64()

import jax
import jax.numpy as jnp
import numpy as np
import numpyro.distributions as dist
from jax.scipy.special import logsumexp
from numpyro.diagnostics import effective_sample_size, split_gelman_rubin
from numpyro.infer import MCMC, NUTS

import model as m
from cases import CASES, READINGS
from sample import answer

# Table of likelihoods: means 3 units apart, spreads 4 % apart; linear between.
MEAN_STEP, LOG_STEP = 3.0, 0.04
TABLE_MEANS = np.arange(m.MEAN_FROM - 700.0, m.MEAN_TO + 400.0, MEAN_STEP)
TABLE_LOGS = np.log(m.HEAD_MEDIAN) + np.arange(-3.5 * m.HEAD_LOG_SD, 3.5 * m.HEAD_LOG_SD, LOG_STEP)


def prepare(stops):
    """Tables of the kinds read, and how often each stop has each; padded to common sizes, so
    that most cases share one compilation."""
    stops = [stop for stop in stops if stop]
    full = [[(r, 100 if p is None else p) for r, p in stop] for stop in stops]
    kinds = sorted({kind for stop in full for kind in stop},
                   key=lambda kind: (READINGS.index(kind[0]), kind[1]))
    pairs = [(s, k, stop.count(kind)) for s, stop in enumerate(full)
             for k, kind in enumerate(kinds) if kind in stop]
    large = len(stops) > 8 or len(pairs) > 48 or len(kinds) > 24
    room_stops, room_pairs, room_kinds = (20, 200, 48) if large else (8, 48, 24)
    table = np.ones((room_kinds, len(m.SPANS), len(TABLE_LOGS), len(TABLE_MEANS)))
    for k, (reading, percent) in enumerate(kinds):
        for i, (span, _) in enumerate(m.SPANS):
            table[k, i] = m.likelihood(*m.terms_of(reading, percent, span), TABLE_MEANS[None, :],
                                     np.exp(TABLE_LOGS)[:, None])
    pairs = np.array(pairs + [(0, 0, 0)] * (room_pairs - len(pairs)))
    return {"table": jnp.asarray(table), "stop": jnp.asarray(pairs[:, 0]), "kind": jnp.asarray(pairs[:, 1]),
            "count": jnp.asarray(pairs[:, 2], dtype=float), "stops": jnp.zeros(room_stops)}, room_stops


def looked_up(data, means, sigma):
    """Likelihood of every pair (stop, kind) at `means` (pairs x lags): pairs x lags x spans."""
    y = jnp.clip((jnp.log(sigma) - TABLE_LOGS[0]) / LOG_STEP, 0.0, len(TABLE_LOGS) - 1.001)
    x = jnp.clip((means - TABLE_MEANS[0]) / MEAN_STEP, 0.0, len(TABLE_MEANS) - 1.001)
    j, i = jnp.floor(y).astype(int), jnp.floor(x).astype(int)
    fy, fx = y - j, (x - i)[:, :, None]
    k = data["kind"][:, None, None]
    span = jnp.arange(len(m.SPANS))[None, None, :]
    at = lambda dj, di: data["table"][k, span, j + dj, i[:, :, None] + di]
    return ((1 - fy) * ((1 - fx) * at(0, 0) + fx * at(0, 1)) + fy * ((1 - fx) * at(1, 0) + fx * at(1, 1)))


def log_weights(data, stop_means, sigma):
    """Log likelihood with prior weight of every span and shape: spans x shapes."""
    means = stop_means[data["stop"]][:, None] - jnp.array(m.LAGS)
    on_time = looked_up(data, means[:, :1], sigma)[:, 0]
    p = looked_up(data, means, jnp.hypot(sigma, m.LATE_SPREAD))
    rows = []
    for late, lag, weight in m.SHAPES:
        shares = [late * (1 - m.PATCH), late * (1 + m.PATCH)] if late > 0 else [0.0]
        by_share = []
        for share in shares:
            heads = data["count"][:, None] * jnp.log((1 - share) * on_time + share * p[:, m.LAGS.index(lag)])
            by_share.append(jax.ops.segment_sum(heads, data["stop"], num_segments=stop_means.shape[0]))
        stops = logsumexp(jnp.stack(by_share), axis=0) - np.log(len(shares))
        rows.append(stops.sum(0) + np.log(weight))
    spans = jnp.log(jnp.array([weight for _, weight in m.SPANS]))
    return jnp.stack(rows, axis=1) + spans[:, None]


def model(data):
    mean = numpyro.sample("mean", dist.Uniform(m.MEAN_FROM, m.MEAN_TO))
    head = numpyro.sample("head", dist.LogNormal(np.log(m.HEAD_MEDIAN), m.HEAD_LOG_SD))
    stop = numpyro.sample("stop", dist.LogNormal(np.log(m.STOP_MEDIAN), m.STOP_LOG_SD))
    with numpyro.plate("stops", data["stops"].shape[0]):
        effect = numpyro.sample("effect", dist.Normal(0.0, 1.0))
    weights = log_weights(data, mean + stop * effect, head)
    numpyro.factor("heads", logsumexp(weights))
    numpyro.deterministic("part", jax.nn.softmax(weights.ravel()))


def fit(stops, seed, warmup, samples, chains):
    data, room = prepare(stops)
    rng = np.random.default_rng(seed)
    # Chains begin at ages of the heads read, far apart.
    guess = np.median([np.mean(np.clip(m.class_interval(r, 168.0), -400, 1350)) for stop in stops for r, _ in stop])
    starts = {"mean": guess + 60 * rng.standard_normal(chains), "head": np.full(chains, 80.0),
              "stop": np.full(chains, 40.0), "effect": np.zeros((chains, room))}
    unconstrained = [numpyro.infer.util.unconstrain_fn(model, (data,), {}, {k: v[i] for k, v in starts.items()})
                     for i in range(chains)]
    mcmc = MCMC(NUTS(model, target_accept_prob=0.85), num_warmup=warmup, num_samples=samples,
                num_chains=chains, chain_method="sequential", progress_bar=False)
    mcmc.run(jax.random.PRNGKey(seed), data, init_params=jax.tree.map(lambda *xs: np.stack(xs), *unconstrained))
    draws = {k: np.asarray(v) for k, v in mcmc.get_samples(group_by_chain=True).items()}
    names = ("mean", "head", "stop")
    print(f"R-hat {max(split_gelman_rubin(draws[k]) for k in names):.4f}, "
          f"effective draws {min(effective_sample_size(draws[k]) for k in names):.0f}", flush=True)
    flat = {k: v.reshape(-1, *v.shape[2:]) for k, v in draws.items()}
    return flat["mean"], flat["head"], flat["stop"], flat["part"].reshape(-1, len(m.SPANS), len(m.SHAPES))


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--time", type=int, choices=[25, 200])
    parser.add_argument("--check")
    arguments = parser.parse_args()
    if arguments.time:
        stops = CASES["soft dough" if arguments.time == 25 else "200 heads at 20 stops"]
        begun = time.perf_counter()
        answer(*fit(stops, 1, 1000, 1000, 4))
        print(f"{time.perf_counter() - begun:.1f}")
    else:
        found = answer(*fit(CASES[arguments.check], 1, 700, 1500, 3))
        fixture = json.loads(pathlib.Path(__file__).with_name("fixture.json").read_text())
        known = next(case for case in fixture["cases"] if case["name"] == arguments.check)
        for stage, quantiles in found["reached"].items():
            print(f"{stage:12}", np.round(quantiles, 3), np.round(known["reached"][stage], 3))
        print("position    ", np.round(found["position"], 3), np.round(known["position"], 3))


if __name__ == "__main__":
    main()
