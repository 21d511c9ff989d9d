#!/usr/bin/env python3
"""The yearly balance as a NumPy batch: what `benches/year.rs` is measured against.

The same case and the same method, vectorized over variants in chunks: 7 layers, 16 slices, fixed
permeance, two yearly cycles; the lower convex hull by wrapping from node to node, planes that hold
water pinned at saturation, a month split where a plane dries out. One thread.

    python3 -m venv venv && venv/bin/pip install numpy
    venv/bin/python benches/year_batch.py batch 20000
    cargo bench --bench year -- table 400 > table.csv
    venv/bin/python benches/year_batch.py compare table.csv
"""

import os

os.environ.setdefault("OMP_NUM_THREADS", "1")

import platform
import sys
import time

import numpy as np

# Least and greatest m2K/W, least and greatest s_d in m, slices.
LAYERS = [
    (0.05, 0.15, 0.05, 0.6, 1),
    (0.10, 0.20, 0.02, 0.5, 1),
    (1.26, 1.49, 0.05, 0.3, 6),
    (0.06, 0.20, 0.5, 8.0, 1),
    (0.76, 0.99, 0.1, 5.0, 4),
    (0.15, 0.22, 0.01, 0.05, 1),
    (0.26, 0.49, 0.2, 2.0, 2),
]
SWING = np.array([-1.0, -0.9, -0.5, 0.0, 0.5, 0.9, 1.0, 0.9, 0.5, 0.0, -0.5, -0.9])
SECONDS = 86400.0 * np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
RSI, RSE, ROOM = 0.13, 0.04, 20.0
NODES = 1 + sum(layer[4] for layer in LAYERS)


def variants(numbers):
    """Node depths (m2K/W), node s_d as vapor resistance, and the air, by the common formula."""
    state = ((numbers + 1) * 2654435761) & 0xFFFFFFFF

    def between(low, high):
        nonlocal state
        state = (state * 1664525 + 1013904223) & 0xFFFFFFFF
        return low + (high - low) * (state / 4294967296.0)

    between(0.0, 1.0)
    between(0.0, 1.0)
    count = len(numbers)
    depth, z = np.zeros((NODES, count)), np.zeros((NODES, count))
    node = 0
    for r_low, r_high, sd_low, sd_high, slices in LAYERS:
        r, step = between(r_low, r_high), between(sd_low, sd_high) / 2e-10
        for piece in range(1, slices + 1):
            depth[node + piece] = depth[node] + r * piece / slices
            z[node + piece] = z[node] + step * piece / slices
        node += slices
    mean, swing = between(-2.0, 8.0), between(6.0, 16.0)
    return depth, z, mean, swing, between(0.40, 0.65), between(0.70, 0.95)


def saturation(celsius):
    frost = celsius < 0.0
    a, b = np.where(frost, 21.875, 17.269), np.where(frost, 265.5, 237.3)
    return 610.5 * np.exp(a * celsius / (b + celsius))


def gains(z, bound, pinned):
    """Water gained at each node, kg/(m2 s): the convex string, wrapped from pin to pin."""
    count = z.shape[1]
    index = np.arange(NODES)[:, None]
    # The next held node after each one: no bend lies beyond it.
    held = np.where(pinned, index, NODES - 1)
    held[-1] = NODES - 1
    after = np.minimum.accumulate(held[::-1], axis=0)[::-1]
    out = np.zeros((NODES, count))
    columns = np.arange(count)
    at = np.zeros(count, dtype=np.int64)
    while columns.size:
        z_at, p_at = z[at, columns], bound[at, columns]
        end = after[at + 1, columns]
        low, high = int(at.min()) + 1, int(end.max()) + 1
        zs, ps = z[low:high], bound[low:high]
        if columns.size != count:
            zs, ps = zs[:, columns], ps[:, columns]
        run = zs - z_at
        between = index[low:high]
        slope = np.full(run.shape, np.inf)
        np.divide(ps - p_at, run, out=slope, where=(between > at) & (between <= end))
        pick = slope.argmin(axis=0)
        flow = slope[pick, np.arange(columns.size)]
        to = pick + low
        out[at, columns] += flow
        out[to, columns] -= flow
        going = to < NODES - 1
        if going.all():
            at = to
        else:
            at, columns = to[going], columns[going]
    return out


def month(z, bound, water, seconds, condenses):
    """One month for all variants: split as often as a plane dries out."""
    # Without water and without condensation nothing happens.
    active = np.flatnonzero(condenses | (water > 0.0).any(axis=0))
    left = seconds[active]
    z, bound, w = z[:, active], bound[:, active], water[:, active]
    while active.size:
        gain = gains(z, bound, w > 0.0)
        gain[0] = gain[-1] = 0.0
        dries = (w > 0.0) & (gain < 0.0)
        dry = np.full(w.shape, np.inf)
        np.divide(w, -gain, out=dry, where=dries)
        span = np.minimum(dry.min(axis=0), left)
        new = w + gain * span
        new = np.where(w > 0.0, np.where(new > 1e-14 * w, new, 0.0), np.where(gain > 1e-20, new, 0.0))
        water[:, active] = new
        left = left - span
        going = left > 0.0
        active, left = active[going], left[going]
        z, bound, w = z[:, going], bound[:, going], new[:, going]


def chunk(numbers):
    """Peak and year-end water of the second cycle, kg/m2."""
    depth, z, mean, swing, room, outdoors = variants(numbers)
    count = len(numbers)
    outdoor = mean + swing * SWING[:, None]
    flux = (ROOM - outdoor) / (RSI + depth[-1] + RSE)
    bound = saturation(ROOM - flux[:, None, :] * (RSI + depth))
    p_room = room * saturation(np.full(count, ROOM))
    bound[:, 0] = np.minimum(bound[:, 0], p_room)
    bound[:, -1] = np.minimum(bound[:, -1], outdoors * saturation(outdoor))
    slope = (bound[:, -1] - bound[:, 0]) / z[-1]
    wet = (bound[:, :1] + slope[:, None] * z > bound * (1 + 1e-12))[:, 1:-1].any(axis=1)
    starts = wet & ~np.roll(wet, 1, axis=0)
    start = np.where(starts.any(axis=0), starts.argmax(axis=0), 0)
    water = np.zeros((NODES, count))
    peak, columns = np.zeros(count), np.arange(count)
    order = (start + np.arange(12)[:, None]) % 12
    for cycle in range(2):
        for now in order:
            month(z, bound[now, :, columns].T, water, SECONDS[now], wet[now, columns])
            if cycle:
                np.maximum(peak, water.sum(axis=0), out=peak)
    return peak, water.sum(axis=0)


def run(count, size):
    parts = [chunk(np.arange(n, min(n + size, count))) for n in range(0, count, size)]
    return [np.concatenate(column) for column in zip(*parts)]


def main():
    print(f"Python {platform.python_version()}, NumPy {np.__version__}")
    if len(sys.argv) == 3 and sys.argv[1] == "batch":
        count = int(sys.argv[2])
        for size in (250, 500, 1000, 2000, 4000):
            times = []
            for _ in range(5):
                start = time.perf_counter()
                peak, end = run(count, size)
                times.append((time.perf_counter() - start) * 1e6 / count)
            times.sort()
            print(
                f"chunks of {size}: least {times[0]:.2f}, median {times[2]:.2f} us per variant; "
                f"peaks {peak.sum():.6f}, year ends {end.sum():.6f} kg/m2"
            )
    elif len(sys.argv) == 3 and sys.argv[1] == "compare":
        theirs = np.loadtxt(sys.argv[2], delimiter=",")
        ours = np.stack(run(len(theirs), 1000), axis=1)
        off = np.abs(ours - theirs)
        scale = np.maximum(np.abs(theirs), 1e-6)
        wet = int((theirs[:, 0] > 0).sum())
        print(f"{len(theirs)} variants, {wet} of them wet: largest difference {off.max():.3e} kg/m2, "
              f"relative {(off / scale).max():.3e}")
        sys.exit(0 if (off / scale).max() <= 1e-9 else 1)
    else:
        sys.exit(__doc__)


if __name__ == "__main__":
    main()
