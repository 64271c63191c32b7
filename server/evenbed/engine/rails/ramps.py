"""Mortar in the ramps under a rail's strips: exact where shims are straight between stations."""

import math
from collections.abc import Sequence
from itertools import pairwise

SIDES = 1.0  # how far a ramp's side runs out for each mm of its height, 45°; common practice, no source


def ramp_volume(alongs: Sequence[float], shims: Sequence[float], width: float) -> float:
    """The mortar under a strip of `width`, m3: as wide as the strip on top, its two sides sloping 1:1.

    At a shim h it is width × h + h² across. `alongs` (mm, ascending) are where `shims` (mm) stand; between them the
    shim is straight, and where it is negative there is no ramp. Fewer than two stations have none.
    """
    spots = zip(alongs, shims, strict=True)
    return math.fsum(_between(y[0] - x[0], x[1], y[1], width) for x, y in pairwise(spots)) / 1e9


def _between(run: float, first: float, last: float, width: float) -> float:
    """∫ width h + SIDES h² over a run on which h goes straight from first to last, mm³; what is below 0 left out."""
    low, high = min(first, last), max(first, last)
    if high <= 0.0:
        return 0.0
    if low < 0.0:
        run, low = run * (high / (high - low)), 0.0
    return run * (width * (low + high) / 2.0 + SIDES * (low * low + low * high + high * high) / 3.0)
