"""A straightedge laid all over a bed: how long it takes, beside brute force by numpy and scipy in the same run."""

import math
import random
import time
from collections.abc import Callable

from evenbed.engine.flatness import courses, search
from evenbed.engine.flatness.bed_surface import bed_surface_from
from evenbed.engine.flatness.search import worst_lying
from evenbed.engine.flatness.standards import Limit
from evenbed.engine.flatness.work import work_from
from evenbed.engine.region import Region
from tests.benchmarks.sizes import Sizes
from tests.documents import Spot
from tests.straightedge_judge import Judge

WIDTH, DEPTH = 4000.0, 3000.0
LENGTH = 2000.0
LIMITS = (Limit(3048.0, 3.175, "own"), Limit(609.6, 1.5875, "own"))
RIVALLED = 60  # readings: the rival takes seconds for these


def print_flatness(sizes: Sizes) -> None:
    """Print the time of each number of readings, and the rival's for one of them with what both found."""
    for count in (RIVALLED, *sizes.readings[1:]):
        spots = _spots(count)
        took, worst = _timed(lambda spots=spots: _worst_of(spots))  # type: ignore[misc]
        print(f"straightedge over {count} readings of a bed: {1000.0 * took:.0f} ms, worst gap {worst:.3f} mm")
    for count in (RIVALLED, *sizes.readings[1:]):
        for word, rough in (("a little", 1.0), ("everywhere", 10.0)):
            took, places = _timed(lambda count=count, rough=rough: _work_on(_spots(count, rough)))  # type: ignore[misc]
            print(f"work list of {count} readings, {word} beyond: {1000.0 * took:.0f} ms, {places:.0f} places")
    ours, found = _timed(lambda: _worst_of(_spots(RIVALLED)))
    theirs, sought = _timed(lambda: Judge(_spots(RIVALLED)).worst(LENGTH))
    print(f"brute force over {RIVALLED}: {theirs / ours:.1f} times as long, and found {found - sought:.4f} mm less")


def _spots(count: int, rough: float = 1.0) -> list[Spot]:
    dice = random.Random(count)
    return [(dice.uniform(0, WIDTH), dice.uniform(0, DEPTH), dice.gauss(0, rough)) for _ in range(count)]


def _forget() -> None:
    """Nothing is kept of what was laid before."""
    for kept in (courses._kept, search._kept):
        kept.cache_clear()


def _work_on(spots: list[Spot]) -> int:
    room = Region(((0.0, 0.0), (WIDTH, 0.0), (WIDTH, DEPTH), (0.0, DEPTH)))
    _forget()
    surface = bed_surface_from(spots, (room,))
    return len(work_from(surface, LIMITS, [-math.inf] * surface.spots).work)


def _worst_of(spots: list[Spot]) -> float:
    room = Region(((0.0, 0.0), (WIDTH, 0.0), (WIDTH, DEPTH), (0.0, DEPTH)))
    _forget()
    gap = worst_lying(bed_surface_from(spots, (room,)), LENGTH).gap
    return math.nan if gap is None else gap.gap


def _timed(work: Callable[[], float]) -> tuple[float, float]:
    started = time.process_time()
    found = work()
    return time.process_time() - started, found
