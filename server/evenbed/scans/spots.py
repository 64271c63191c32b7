"""Each spot's own height: the mean of its points about their densest level, strays left out.

Of several dense levels in one spot the lowest counts: what stands on a floor lies above it.
"""

import math
from dataclasses import dataclass

import numpy as np

from evenbed.scans.cloud import Numbers, Short, Truth, Whole
from evenbed.scans.floor import REACH
from evenbed.scans.heaps import FINE, STEP, STEPS, Heaps

WIDE = 5  # heaps to either side of the densest: the first window
NARROW = 3.5  # standard deviations to either side: beyond is a stray
LEAST_NOISE = 0.2  # mm: no scanner is better, and heaps of 2 mm would tell no less
USUAL_NOISE = 3.0  # mm, until it is known
LEAST_POINTS = 3
TELLING = 20  # points in a spot that has a say in the noise
ENOUGH = 1000  # such spots tell it
FULL = 0.5  # of the fullest level: a lower one that holds as much is the floor
ROUNDS = 3


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
    noise = _noise(heaps)
    height = np.asarray((_densest(heaps.counts, noise) + 0.5) * STEP - REACH, np.float64)
    half = max(NARROW * noise, 1.5 * STEP)
    points = np.zeros(len(height), np.int64)
    for _ in range(ROUNDS):
        points, mean = _about(heaps, height, half)
        height = np.where(points > 0, mean, height)
    return Spots(heaps.x, heaps.y, height, points, noise)


def _about(heaps: Heaps, height: Numbers, half: float) -> tuple[Whole, Numbers]:
    """Points within half a window of a height in each spot, and the mean of their heights."""
    lowest = np.floor((height - half + REACH) / STEP).astype(np.intp)
    heap = lowest[:, None] + np.arange(math.ceil(2 * half / STEP) + 1)
    within = heap * STEP < (height + half + REACH)[:, None]
    counts, over = (held * within for held in _held(heap, heaps.counts, heaps.over))
    points = counts.sum(axis=1)
    sums = (counts * heap).sum(axis=1) * STEP + over.sum(axis=1) / FINE
    return points, sums / np.maximum(points, 1) - REACH


def _held(heap: Whole, *tables: Short | Whole) -> list[Whole]:
    """What some heaps of every spot hold in each table; nothing where there is no such heap."""
    there = np.clip(heap, 0, STEPS - 1)
    place, is_there = there + STEPS * np.arange(len(heap))[:, None], there == heap
    return [rows.ravel().take(place) * is_there for rows in tables]


def _densest(counts: Short, noise: float) -> Whole:
    """The heap in the middle of the lowest level that is about as full as the fullest."""
    level = counts.copy()
    for off in range(1, 1 + round(noise / STEP)):
        level[:, off:] += counts[:, :-off]
        level[:, :-off] += counts[:, off:]
    full = np.ceil(FULL * level.max(axis=1, keepdims=True)).astype(np.int32)
    first = np.argmax(level >= full, axis=1)
    following = np.minimum(first[:, None] + np.arange(WIDE + 1), STEPS - 1)
    best = np.argmax(np.take_along_axis(level, following, axis=1), axis=1)
    middle: Whole = np.minimum(first + best, STEPS - 1)
    return middle


def _noise(heaps: Heaps) -> float:
    """The standard deviation of a single point: the median over some of the spots that tell it."""
    telling = np.flatnonzero(heaps.points >= min(TELLING, int(heaps.points.max())))
    counts = heaps.counts[telling[:: max(1, len(telling) // ENOUGH)]]
    middle = _densest(counts, USUAL_NOISE)
    noise, half = LEAST_NOISE, float(WIDE)
    for _ in range(ROUNDS):
        reach = np.arange(-int(half), int(half) + 1)
        (held,) = _held(middle[:, None] + reach, counts)
        points = np.maximum(held.sum(axis=1), 1)
        mean = (held @ reach) / points
        spread = np.sqrt(np.maximum(0.0, (held @ reach**2) / points - mean**2 - 1 / 12)) * STEP
        noise = max(LEAST_NOISE, float(np.median(spread)))
        half = min(STEPS / 2, max(2.0, NARROW * noise / STEP))
    return noise
