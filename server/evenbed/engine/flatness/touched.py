"""Places of the bed that were rubbed down or filled up: what was read or measured near them before counts no more."""

from collections.abc import Iterable
from datetime import datetime
from math import dist

from evenbed.engine.cure import moment_from_time
from evenbed.engine.document.flatness import MeasuredGap, Touch
from evenbed.engine.document.levelling import Reading
from evenbed.engine.document.places import Point
from evenbed.engine.geometry import nearest_on_segment

NEAR = 300.0  # mm: about as far as a wood float reaches from the middle of a place (common practice, no source)


def is_near(touch: Touch, at: Point) -> bool:
    """True where working over the touched place may have changed the bed."""
    return dist(touch.at, at) <= NEAR


def is_stale(gap: MeasuredGap, touches: Iterable[Touch]) -> bool:
    """True for a gap under whose straightedge, or beside it, the bed was worked over since it was measured."""
    near = [touch for touch in touches if is_near(touch, nearest_on_segment(gap.start, gap.end, touch.at))]
    return any(_is_before(gap.taken_at, moment_from_time(touch.done_at)) for touch in near)


def _is_before(taken_at: str | None, done: datetime) -> bool:
    return taken_at is None or moment_from_time(taken_at) < done


def stale_readings(readings: Iterable[Reading], touches: Iterable[Touch]) -> frozenset[str]:
    """The ids of the bed's readings whose place was touched after they were taken.

    A reading without a time counts as taken before any touch.
    """
    known = [(touch, moment_from_time(touch.done_at)) for touch in touches]
    return frozenset(
        one.id
        for one in readings
        if one.stage == "bed" and one.at is not None
        for touch, done in known
        if is_near(touch, one.at) and _is_before(one.taken_at, done)
    )
