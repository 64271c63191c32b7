"""Each spot's own height: the mean of its points about their densest level, strays left out.

Of several dense levels in one spot the lowest counts: what stands on a floor lies above it.
"""

from dataclasses import dataclass

import numpy as np

from evenbed.scans.cloud import Numbers, Truth, Whole
from evenbed.scans.floor import REACH
from evenbed.scans.heaps import STEP, STEPS, Heaps

WIDE = 5  # heaps to either side of the densest: the first window
NARROW = 3.5  # standard deviations to either side: beyond is a stray
LEAST_NOISE = 0.2  # mm: no scanner is better, and heaps of 2 mm would tell no less
USUAL_NOISE = 3.0  # mm, until it is known
LEAST_POINTS = 3
TELLING = 20  # points in a spot that has a say in the noise
FULL = 0.5  # of the fullest level: a lower one that holds as much is the floor
ROUNDS = 4


@dataclass(frozen=True)
class Spots:
    """By spot: mean place, height above the plane, points that agree on it. `noise` is that of a single point."""

    x: Numbers
    y: Numbers
    height: Numbers
    points: Whole
    noise: float

    @property
    def is_read(self) -> Truth:
        """True where enough points agree."""
        return self.points >= LEAST_POINTS


def spots_of(heaps: Heaps) -> Spots:
    """Every spot's height."""
    noise = _noise(heaps.counts, _densest(heaps.counts, USUAL_NOISE))
    middle = _densest(heaps.counts, noise)
    counts, heights = _with_zero(heaps.counts), _with_zero(heaps.heights)
    height = np.asarray((middle + 0.5) * STEP - REACH, np.float64)
    points = np.zeros(len(middle))
    half = max(NARROW * noise, 1.5 * STEP)
    for _ in range(ROUNDS):
        low = np.clip(np.floor((height - half + REACH) / STEP), 0, STEPS).astype(np.intp)
        high = np.clip(np.ceil((height + half + REACH) / STEP), 0, STEPS).astype(np.intp)
        points = _between(counts, low, high)
        mean: Numbers = _between(heights, low, high) / np.maximum(points, 1)
        height = np.where(points > 0, mean, height)
    return Spots(heaps.x, heaps.y, height, points.astype(np.int64), noise)


def _with_zero(rows: Whole | Numbers) -> Numbers:
    """Sums of each row up to each heap, nothing first."""
    sums = np.zeros((rows.shape[0], rows.shape[1] + 1))
    np.cumsum(rows, axis=1, out=sums[:, 1:])
    return sums


def _between(sums: Numbers, low: Whole, high: Whole) -> Numbers:
    spot = np.arange(len(sums))
    between: Numbers = sums[spot, high] - sums[spot, low]
    return between


def _densest(counts: Whole, noise: float) -> Whole:
    """The heap in the middle of the lowest level that is about as full as the fullest."""
    level = counts.copy()
    for off in range(1, 1 + round(noise / STEP)):
        level[:, off:] += counts[:, :-off]
        level[:, :-off] += counts[:, off:]
    first = np.argmax(level >= FULL * level.max(axis=1, keepdims=True), axis=1)
    following = np.minimum(first[:, None] + np.arange(WIDE + 1), STEPS - 1)
    best = np.argmax(np.take_along_axis(level, following, axis=1), axis=1)
    middle: Whole = np.minimum(first + best, STEPS - 1)
    return middle


def _noise(counts: Whole, middle: Whole) -> float:
    """The standard deviation of a single point: the median over the spots that tell it."""
    noise, half = LEAST_NOISE, float(WIDE)
    for _ in range(ROUNDS):
        reach = np.arange(-int(half), int(half) + 1)
        heap = middle[:, None] + reach
        held = np.take_along_axis(counts, np.clip(heap, 0, STEPS - 1), axis=1) * ((heap >= 0) & (heap < STEPS))
        points = held.sum(axis=1)
        tell = points >= min(TELLING, int(points.max()))
        held, points = held[tell], points[tell]
        mean = (held @ reach) / points
        spread = np.sqrt(np.maximum(0.0, (held @ reach**2) / points - mean**2 - 1 / 12)) * STEP
        noise = max(LEAST_NOISE, float(np.median(spread)))
        half = min(STEPS / 2, max(2.0, NARROW * noise / STEP))
    return noise
