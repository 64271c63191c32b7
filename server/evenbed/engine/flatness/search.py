"""A straightedge laid on the bed at every place in every direction: where it stands open most, and rocks most.

    worst_lying(surface, length)          -> Worst(gap, hump), each a Found or None where there is none
    worst_on(surface, start, end, length) -> the same along one line alone, exact
    beyond_lying(surface, length, limit)  -> the same where they are beyond a limit, quick where nothing is

Along one line the answer is exact (`hull`). Over all lines gap and hump change smoothly while the three places (rest,
gap, rest) stay on their edges, and are best where the line meets corners of the triangles or the straightedge's whole
length is taken up. So the search goes along lines through two readings in reach of each other, through one in several
directions where few are in reach, and across each edge; the best of them are turned about each of the three places
and shifted until nothing more is won (`improve`). A line whose heights or bends cannot come near the best is left at
once.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain

from evenbed.engine.document.places import Point
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.courses import Courses, Laid, courses_over
from evenbed.engine.flatness.hull import Rest, worst_of_both, worst_over, worst_under
from evenbed.engine.flatness.improve import Lying, Under
from evenbed.engine.flatness.lines import Pair, most_lines
from evenbed.engine.geometry import between

POOL = 20  # lines kept to be improved
ALMOST = 0.82  # of a limit: a line that begins with less does not come to it
WORTH = 0.7  # of the best so far: a line that begins with less is not kept
ENOUGH = 0.25  # of the lines through two readings, where the bed is beyond its limit already
NEARLY = 0.95  # of a limit: where the best is less after the first turns, it does not come to it by finer ones
STAGES = ((0.02, 0.003, POOL, 0.5), (0.00125, 0.0005, 8, 0.93), (0.0003, 1e-7, 2, 0.99))
"""First and last turn, radians; how many of the best lines are improved so far, and how much of the best by now a
line must have."""
ALIKE = 0.04  # of the straightedge's length, between two places, and
ALIKE_TURN = 0.15  # radians, between two lines, below which they are improved to the same
KEPT = 8  # surfaces and lengths


@dataclass(frozen=True)
class Found:
    """A straightedge where it lies: the gap (or the hump's height), where it is, and the two places it rests on."""

    gap: float
    at: Point
    first: Point
    second: Point


@dataclass(frozen=True)
class Worst:
    """The largest gap and the highest hump under one length of straightedge.

    `is_reduced`: there are so many readings that not every line through two of them was looked at.
    """

    gap: Found | None
    hump: Found | None
    is_reduced: bool = False


class _Pool:
    """The best lines so far over one set of heights."""

    def __init__(self, length: float, least: float) -> None:
        """No line with less than `least` is kept."""
        self.alike = ALIKE * length
        self.kept: list[Lying] = []
        self.least = self.above = least

    @property
    def best(self) -> float:
        """The largest gap of all."""
        return self.kept[0].gap if self.kept else 0.0

    def take(self, lying: Lying) -> None:
        """Keep a line among the best; of several that hardly differ, the best."""
        same = [one for one in self.kept if _are_alike(one, lying, self.alike)]
        if any(one.gap >= lying.gap for one in same):
            return
        self.kept = sorted([one for one in self.kept if one not in same] + [lying], key=lambda one: -one.gap)[:POOL]
        last = self.kept[-1].gap if len(self.kept) == POOL else 0.0
        self.above = max(self.least, last, WORTH * self.kept[0].gap)

    def replace(self, lying: Lying, better: Lying) -> None:
        """Put a line in the place of the one it was improved from."""
        self.kept = [one for one in self.kept if one is not lying]
        self.take(better)


Sides = tuple[tuple[Under, _Pool], tuple[Under, _Pool]]


def _are_alike(one: Lying, other: Lying, near: float) -> bool:
    turned = one.line.way.dx * other.line.way.dy - one.line.way.dy * other.line.way.dx
    return math.dist(one.at, other.at) < near and abs(turned) < ALIKE_TURN


def worst_lying(surface: BedSurface, length: float, limit: float = math.inf) -> Worst:
    """The largest gap and the highest hump under a straightedge of a length (mm, over 0), anywhere on the bed.

    Lines are cut at walls and cutouts; a straightedge longer than a stretch lies on the whole stretch. Once something
    is over `limit` (mm) fewer lines are looked at: the bed is beyond it already.
    """
    return _kept(surface, length, limit)


@lru_cache(maxsize=KEPT)
def _kept(surface: BedSurface, length: float, limit: float) -> Worst:
    if not surface.triangles:
        return _along_the_readings(surface, length)
    sides, is_reduced = _searched(surface, length, 0.0, limit)
    found = []
    for under, pool in sides:
        for stage in STAGES:
            _improve(under, pool, *stage)
        found.append(found_from(pool.kept[0]) if pool.kept else None)
    return Worst(found[0], found[1], is_reduced)


def beyond_lying(surface: BedSurface, length: float, limit: float) -> tuple[list[Found], list[Found]]:
    """Gaps and humps beyond a limit, the worst first, at some places each; none where the search finds none.

    Lines that are far within it are left at once, and what is beyond it is not followed to where it is worst. The bed
    has triangles.
    """
    gaps, humps = (_beyond(*side, limit) for side in _searched(surface, length, ALMOST * limit, limit)[0])
    return gaps, humps


def _beyond(under: Under, pool: _Pool, limit: float) -> list[Found]:
    for first, last, count, worth in STAGES:
        if not pool.kept or pool.kept[0].gap > limit:
            break
        _improve(under, pool, first, last, count, worth)
        if pool.kept[0].gap < NEARLY * limit:
            break
    return [found_from(one) for one in pool.kept if one.gap > limit]


def _searched(surface: BedSurface, length: float, least: float, limit: float) -> tuple[Sides, bool]:
    """The best lines that begin with no less than `least`, hardly improved yet; True where some were left out."""
    sides, courses = _sides(surface, length, least), courses_over(surface, length)
    for laid in chain(courses.first, courses.askew):
        _lay(laid, sides)
    for under, pool in sides:
        _improve(under, pool, *STAGES[0][:2], 1, 1.0)
    is_cut = _lay_through_two(courses, sides, most_lines(surface, length), limit)
    return sides, courses.is_reduced or is_cut


def _sides(surface: BedSurface, length: float, least: float) -> Sides:
    """The bed as it lies, for gaps, and upside down, for humps."""
    flat = surface.flattened
    down = tuple(-z for z in flat)
    return (
        (Under(surface, flat, length), _Pool(length, least)),
        (Under(surface, down, length), _Pool(length, least)),
    )


def _lay(laid: Laid, sides: Sides) -> None:
    (under, pool), (_, upside_down) = sides
    for profile in laid[1].profiles(under.heights):
        rests = worst_of_both(profile, under.length, pool.above, upside_down.above)
        for rest, taking in zip(rests, (pool, upside_down), strict=True):
            if rest is not None:
                taking.take(Lying(laid[0], rest))


def _lay_through_two(courses: Courses, sides: Sides, most: int, limit: float) -> bool:
    """Lay along the lines through the pairs that can still win, those that stand out most first; True if cut short.

    What is kept by then grows, so that less and less can win.
    """
    heights = sides[0][0].heights
    high, low = max(heights), min(heights)
    enough = most - int(ENOUGH * most)
    ordered = sorted(courses.pairs, key=lambda pair: -abs(heights[pair[0]]) - abs(heights[pair[1]]))
    for pair in ordered:
        least = min(pool.above for _, pool in sides)
        if _is_worth(pair, heights, high - least, low + least):
            most -= 1
            if most < 0 or (most < enough and any(pool.best > limit for _, pool in sides)):
                return True
            for laid in courses.through(pair):
                _lay(laid, sides)
    return False


def _is_worth(pair: Pair, heights: Sequence[float], high: float, low: float) -> bool:
    """False where neither reading is high enough to be rested on, nor low enough to be open over."""
    first, second = heights[pair[0]], heights[pair[1]]
    return max(first, second) > low or min(first, second) < high


def _improve(under: Under, pool: _Pool, first: float, last: float, count: int, worth: float) -> None:
    """Improve the best lines by turns from `first` to `last`, those that have so much of the best by now."""
    for lying in pool.kept[:count]:
        if lying.gap < worth * pool.kept[0].gap:
            return
        if all(lying is not one for one in pool.kept):
            continue  # another came to the same
        better = under.improved(lying, first, last)
        if better is not lying:
            pool.replace(lying, better)


def found_from(lying: Lying) -> Found:
    """Where a straightedge lies."""
    way, rest = lying.line.way, lying.rest
    return Found(rest.gap, way.at(rest.at), way.at(rest.first), way.at(rest.second))


def worst_on(surface: BedSurface, start: Point, end: Point, length: float) -> Worst:
    """The largest gap and the highest hump along one line from start to end, exact."""
    found = []
    for lay in (worst_under, worst_over):
        rests = [lay(knots, length) for knots in surface.profile(start, end)]
        best = max((rest for rest in rests if rest is not None), key=lambda rest: rest.gap, default=None)
        found.append(None if best is None else _on_the_way(best, start, end))
    return Worst(found[0], found[1])


def _on_the_way(rest: Rest, start: Point, end: Point) -> Found:
    whole = math.dist(start, end)
    at, first, second = (between(start, end, t / whole) for t in (rest.at, rest.first, rest.second))
    return Found(rest.gap, at, first, second)


def _along_the_readings(surface: BedSurface, length: float) -> Worst:
    """Readings that all stand on one line tell of that line alone; one, or none, tells of nothing."""
    places = surface.mesh.places
    return worst_on(surface, places[0], places[-1], length) if len(places) > 2 else Worst(None, None)
