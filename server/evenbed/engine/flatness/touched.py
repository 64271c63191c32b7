"""Places of the bed that were rubbed down or filled up: what was read or measured near them before counts no more."""

from collections.abc import Iterable, Sequence
from datetime import datetime
from math import dist

from evenbed.engine.cure import moment_from_time
from evenbed.engine.document.flatness import TOUCH_REACH, MeasuredGap, Touch
from evenbed.engine.document.levelling import Reading
from evenbed.engine.document.places import Point
from evenbed.engine.geometry import nearest_on_segment


def is_near(touch: Touch, at: Point) -> bool:
    """True where working over the touched place may have changed the bed."""
    return dist(touch.at, at) <= TOUCH_REACH


def is_stale(gap: MeasuredGap, touches: Iterable[Touch]) -> bool:
    """True for a gap under whose straightedge, or beside it, the bed was worked over since it was measured."""
    near = [touch for touch in touches if is_near(touch, nearest_on_segment(gap.start, gap.end, touch.at))]
    return any(_is_before(gap.taken_at, moment_from_time(touch.done_at)) for touch in near)


def unread_touches(
    touches: Iterable[Touch], read: Sequence[Point], again: Sequence[Point], gaps: Sequence[MeasuredGap]
) -> tuple[Touch, ...]:
    """The touches whose work nobody looked at since: nothing is known of the bed there.

    `read` are places of readings that count, `again` those of stale ones that nobody read again, `gaps` those that
    count. A touch is looked at by a straightedge laid near it since, or passed over the whole bed since, or where
    something was read near it and all that was read there before is read again.
    """
    return tuple(touch for touch in touches if not (_is_read(touch, read, again) or _is_laid_over(touch, gaps)))


def _is_read(touch: Touch, read: Sequence[Point], again: Sequence[Point]) -> bool:
    return any(is_near(touch, at) for at in read) and not any(is_near(touch, at) for at in again)


def _is_laid_over(touch: Touch, gaps: Sequence[MeasuredGap]) -> bool:
    done = moment_from_time(touch.done_at)
    return any(
        is_near(touch, nearest_on_segment(gap.start, gap.end, touch.at))
        or (gap.passed_over and not _is_before(gap.taken_at, done))
        for gap in gaps
    )


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
