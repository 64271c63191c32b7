"""What a wedge alone shows to be worked over: gaps beyond their limit at places where the work list has nothing."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from evenbed.engine.document.flatness import TOUCH_REACH, MeasuredGap
from evenbed.engine.document.places import Point
from evenbed.engine.flatness.least_work import AIM
from evenbed.engine.flatness.shapes import Work
from evenbed.engine.flatness.worked_flatness import WorkedFlatness
from evenbed.engine.geometry import is_inside, nearest_on_segment


@dataclass(frozen=True)
class WedgeWork:
    """A gap to be closed: where, what stood open and what may, mm, under which length, and how much to fill, mm."""

    at: Point
    gap: float
    limit: float
    length: float
    by: float


def wedge_work_of(found: WorkedFlatness) -> Iterator[WedgeWork]:
    """Gaps beyond their limit, in the order in which they are told, each filled until it is at 4/5 of the limit.

    Left out are those under which something was worked over since, those of which no place is known, and those at a
    place that the work list mends already.
    """
    for measured, told in zip(found.counting_gaps, found.gap_verdicts, strict=True):
        at = _place_of(measured)
        if told.verdict != "beyond" or told.limit is None or at is None:
            continue
        if not any(_is_at(work, at) for work in found.work.work):
            yield WedgeWork(at, told.measured, told.limit, told.length, told.measured - AIM * told.limit)


def _place_of(gap: MeasuredGap) -> Point | None:
    """On the straightedge where it stood open most, else its middle; None: passed over, and no place told."""
    if gap.at is not None:
        return nearest_on_segment(gap.start, gap.end, gap.at)
    (x, y), (u, v) = gap.start, gap.end
    return None if gap.passed_over else ((x + u) / 2.0, (y + v) / 2.0)


def _is_at(work: Work, at: Point) -> bool:
    return math.dist(work.at, at) <= TOUCH_REACH or is_inside(work.polygon, *at)
