"""Where the top of bed bends along a rail, and which stretches of the rail a straight strip can follow."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Plane, between
from evenbed.engine.region import Interval

TRULY = 0.05  # mm that the top would be out if a bend were left out: less is none; nobody reads it
STEP_ASIDE = 0.5  # mm before and behind a step of the top, where its two stations stand
MOST_BEND = 0.5  # mm that a strip may lie beside the top where that bends; common practice, no source
NO_LENGTH = 1e-6  # mm: rounding
PlanePieces = Sequence[tuple[float, float, Plane]]
"""Which planes of the top a straight way passes, each from which share of the way to which."""
_Corner = tuple[float, float]  # mm along, height


@dataclass(frozen=True)
class Break:
    """A place where the top bends along a rail: `bend` is by how much its slope changes, `step` its jump in mm."""

    along: float
    bend: float
    step: float


def breaks_along(start: Point, end: Point, pieces: PlanePieces) -> tuple[Break, ...]:
    """Every place between two points where the top truly bends or steps, in order.

    Between neighbouring breaks the top is straight to within `TRULY`; where planes meet in a fan, those bends are
    kept that it takes. A step nearer to an end than `STEP_ASIDE` is left out.
    """
    size = math.dist(start, end)
    flights = [_without_slight_bends(flight) for flight in _flights(start, end, pieces)]
    found = [each for flight in flights for each in _bends(flight)]
    found += (_step(one, other) for one, other in pairwise(flights))
    inside = (each for each in found if not each.step or STEP_ASIDE < each.along < size - STEP_ASIDE)
    return tuple(sorted(inside, key=lambda each: each.along))


def runs_of(size: float, breaks: Sequence[Break], strip: float) -> tuple[Interval, ...]:
    """The stretches of a rail of `size` mm that strips of length `strip` can follow, in order: the fewest.

    Wherever a strip lies within one, the breaks under it bend the top by no more than `MOST_BEND` from straight. Each
    goes on over as many breaks as it can; at a step it ends.
    """
    steps = [each.along for each in breaks if each.step]
    starts = [0.0, *(along + STEP_ASIDE for along in steps)]
    ends = [*(along - STEP_ASIDE for along in steps), size]
    whole = (run for run in zip(starts, ends, strict=True) if run[1] - run[0] > NO_LENGTH)
    return tuple(part for run in whole for part in _parted(run, breaks, strip))


def _parted(run: Interval, breaks: Sequence[Break], strip: float) -> Iterator[Interval]:
    inside = [each for each in breaks if run[0] + NO_LENGTH < each.along < run[1] - NO_LENGTH]
    ends = [*(each.along for each in inside), run[1]][1:]
    start, passed = run[0], list[Break]()
    for each, end in zip(inside, ends, strict=True):
        passed.append(each)
        if _off_straight((start, end), passed, strip) > MOST_BEND:
            yield start, each.along
            start, passed = each.along, []
    yield start, run[1]


def _off_straight(run: Interval, breaks: Sequence[Break], strip: float) -> float:
    """The most that breaks inside a run take a strip off straight, wherever it lies; rather too much than too little.

    Each counts with what it does to the strip that it bends most, together with all that one strip can cover.
    """
    off = [abs(each.bend) * _lever(each.along - run[0], run[1] - each.along, strip) for each in breaks]
    sums = [
        math.fsum(by for other, by in zip(breaks[n:], off[n:], strict=True) if other.along - each.along < strip)
        for n, each in enumerate(breaks)
    ]
    return max(sums, default=0.0)


def _lever(before: float, behind: float, strip: float) -> float:
    """The most that a bend of 1 with so much rail before and behind it takes a strip over it off straight, mm.

    A chord that begins p before a bend and ends q behind it passes it at p q / (p + q).
    """
    if before + behind <= strip:
        return before * behind / (before + behind)
    p = min(max(strip / 2.0, strip - behind), before)
    return p * (strip - p) / strip


def _flights(start: Point, end: Point, pieces: PlanePieces) -> Iterable[list[_Corner]]:
    """The line of the top as corners (mm along, height), parted where it steps."""
    size = math.dist(start, end)
    flights: list[list[_Corner]] = []
    for a, b, plane in pieces:
        if (b - a) * size > NO_LENGTH:
            first, last = (a * size, plane.at(*between(start, end, a))), (b * size, plane.at(*between(start, end, b)))
            if flights and abs(flights[-1][-1][1] - first[1]) <= TRULY:
                flights[-1].append(last)
            else:
                flights.append([first, last])
    return flights


def _without_slight_bends(corners: list[_Corner]) -> list[_Corner]:
    """The corners without which the line would be out by more than `TRULY` somewhere (Douglas and Peucker)."""
    if len(corners) < 3:
        return corners
    off = [abs(_off_chord(corners[0], corners[-1], corner)) for corner in corners[1:-1]]
    if max(off) <= TRULY:
        return [corners[0], corners[-1]]
    n = off.index(max(off)) + 1
    return _without_slight_bends(corners[: n + 1])[:-1] + _without_slight_bends(corners[n:])


def _off_chord(first: _Corner, last: _Corner, corner: _Corner) -> float:
    share = (corner[0] - first[0]) / (last[0] - first[0])
    return corner[1] - (first[1] + share * (last[1] - first[1]))


def _bends(corners: list[_Corner]) -> Iterator[Break]:
    slopes = [_slope(p, q) for p, q in pairwise(corners)]
    for corner, (before, behind) in zip(corners[1:-1], pairwise(slopes), strict=True):
        yield Break(corner[0], behind - before, 0.0)


def _step(before: list[_Corner], behind: list[_Corner]) -> Break:
    slopes = _slope(*before[-2:]), _slope(*behind[:2])
    return Break(behind[0][0], slopes[1] - slopes[0], behind[0][1] - before[-1][1])


def _slope(p: _Corner, q: _Corner) -> float:
    return (q[1] - p[1]) / (q[0] - p[0])
