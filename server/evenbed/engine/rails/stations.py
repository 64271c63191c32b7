"""Stations: the places along a rail where the ramp's height is given."""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import between
from evenbed.engine.rails.breaks import NO_LENGTH, STEP_ASIDE, Break
from evenbed.engine.rails.rounding import MILLIMETRE, SIXTEENTH, rounded_shims
from evenbed.engine.rails.shapes import Station

Height = Callable[[float, float], float]
_Mark = tuple[float, bool, bool]  # mm along; whether it is a break; whether a step of the top lies right behind it


@dataclass(frozen=True)
class Place:
    """Where a station will stand, before a strip is chosen."""

    at: Point
    along: float
    subfloor: float
    top: float
    is_break: bool

    @property
    def bed(self) -> float:
        """How thick the bed is there, mm; negative where the subfloor stands above its top."""
        return self.top - self.subfloor

    def shim_under(self, strip: float) -> float:
        """The ramp's height under a strip so thick: top less strip less subfloor, in this order and not rounded."""
        return self.top - strip - self.subfloor


def places_along(
    start: Point, end: Point, spacing: float, breaks: Sequence[Break], *, subfloor: Height, top: Height
) -> tuple[Place, ...]:
    """Places at both ends and at breaks, and evenly between these, no further apart than `spacing` mm.

    A step of the top has two, `STEP_ASIDE` before it and as much behind. A line of no length has its two ends.
    """
    size = math.dist(start, end)
    return tuple(
        Place(at, along, subfloor(*at), top(*at), is_break)
        for along, is_break in _filled(list(_marks(size, breaks)), spacing)
        for at in [_at(start, end, along, size)]
    )


def stations_from(places: Sequence[Place], strip: float) -> tuple[Station, ...]:
    """The stations of a rail whose strip is so thick, with shims rounded so that neighbours do not step."""
    shims = [place.shim_under(strip) for place in places]
    sixteenths, millimetres = rounded_shims(shims, SIXTEENTH), rounded_shims(shims, MILLIMETRE)
    rows = zip(places, shims, sixteenths, millimetres, strict=True)
    return tuple(Station(p.at, p.along, p.subfloor, p.top, s, n, mm, p.is_break) for p, s, n, mm in rows)


def _at(start: Point, end: Point, along: float, size: float) -> Point:
    return end if along == size else between(start, end, along / size)


def _marks(size: float, breaks: Sequence[Break]) -> Iterator[_Mark]:
    """Both ends and the breaks between them, in order."""
    marks = [(0.0, False, False)]
    for each in breaks:
        if each.step:
            marks += [(each.along - STEP_ASIDE, True, True), (each.along + STEP_ASIDE, True, False)]
        else:
            marks.append((each.along, True, False))
    yield from sorted(marks)
    yield (size, False, False)


def _filled(marks: Sequence[_Mark], spacing: float) -> Iterator[tuple[float, bool]]:
    """The marks and what stands evenly between them, nothing between the two of a step."""
    yield marks[0][:2]
    for (low, _, is_step), (high, is_break, _) in pairwise(marks):
        count = 1 if is_step else max(1, math.ceil((high - low) / spacing - 1e-9))
        yield from ((low + n / count * (high - low), False) for n in range(1, count))
        if high - low > NO_LENGTH or high == marks[-1][0]:
            yield (high, is_break)
