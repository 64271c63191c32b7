"""The bed between a grid's heights: over each square four triangles, whose common corner is its heights' mean.

So the engine has it too, for the same heights. Places are in the grid's steps from its first height: u along the
row, v from row to row.
"""

import math

import numpy as np

from evenbed.engine.flatness.cuts import ONE_KNOT, Knots
from evenbed.scans.cloud import Numbers

Place = tuple[float, float]


def height_at(heights: Numbers, u: Numbers, v: Numbers) -> Numbers:
    """The bed's height at places on the grid; NaN where a height that counts there was not read."""
    rows, columns = heights.shape
    left, low = np.minimum(u.astype(np.intp), columns - 2), np.minimum(v.astype(np.intp), rows - 2)
    over, up = u - left, v - low
    first, flat = low * columns + left, heights.ravel()
    corners = [flat.take(first + beside) for beside in (0, 1, columns, columns + 1)]
    rise, lean = over + up - 1.0, over - up
    middle = 0.5 * np.minimum(np.minimum(over, 1.0 - over), np.minimum(up, 1.0 - up))
    shares = (np.maximum(0.0, share) + middle for share in (-rise, lean, -lean, rise))
    a, b, c, d = (np.where(share > 0.0, share * z, 0.0) for share, z in zip(shares, corners, strict=True))
    return np.asarray(a + b + c + d, np.float64)


def profile_through(heights: Numbers, first: Place, second: Place, reach: float) -> tuple[Numbers, Numbers]:
    """The bed along the line through two places: shares of the way from the first to the second, and heights there.

    Every bend of the triangles is in it, from `reach` before the first to `reach` beyond the second (as shares), as
    far as the grid goes.
    """
    (u, v), (across, up) = first, (second[0] - first[0], second[1] - first[1])
    rows, columns = heights.shape
    low, high = -reach, 1.0 + reach
    for start, rise, last in ((u, across, columns - 1), (v, up, rows - 1)):
        if rise:
            ends = sorted((-start / rise, (last - start) / rise))
            low, high = max(low, ends[0]), min(high, ends[1])
    bends = [np.array([low, 0.0, 1.0, high])]
    for start, rise in ((u, across), (v, up), (u + v, across + up), (u - v, across - up)):
        if abs(rise) > ONE_KNOT:
            ends = sorted((start + low * rise, start + high * rise))
            bends.append((np.arange(math.ceil(ends[0]), math.floor(ends[1]) + 1) - start) / rise)
    shares = np.unique(np.concatenate(bends))
    shares = shares[(shares >= low) & (shares <= high)]
    shares = shares[np.r_[True, np.diff(shares) > ONE_KNOT]]
    places = np.clip(u + shares * across, 0.0, columns - 1.0), np.clip(v + shares * up, 0.0, rows - 1.0)
    return shares, height_at(heights, *places)


def read_stretches(along: Numbers, heights: Numbers) -> list[Knots]:
    """The parts of a profile that were read, two knots or more each."""
    is_read = np.isfinite(heights)
    cuts = np.flatnonzero(is_read[1:] != is_read[:-1]) + 1
    parts = zip(np.split(along, cuts), np.split(heights, cuts), strict=True)
    return [(t.tolist(), z.tolist()) for t, z in parts if len(t) > 1 and math.isfinite(z[0])]
