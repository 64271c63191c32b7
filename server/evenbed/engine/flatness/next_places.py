"""Where to read the bed next, so that it can be judged: places worked over first, then those farthest from readings.

A place is judged for a straightedge by a reading within a quarter of its length (`coverage`). So places are asked for
one after the other, each the farthest from all that is read or asked for, as long as some length that decides is not
judged on nearly all of the bed.
"""

import math
from collections.abc import Iterable, Sequence

from evenbed.engine.document.places import Point
from evenbed.engine.flatness.coverage import Coverage
from evenbed.engine.geometry import nearest_on_segment

AT_ONCE = 8  # asked for in one go
READ_AGAIN = 50.0  # mm: a reading so near to a place worked over tells how it is now (common practice, no source)


def next_places(
    coverage: Coverage, reach: float | None, laid: Iterable[tuple[Point, Point]], again: Iterable[Point]
) -> tuple[Point, ...]:
    """At most AT_ONCE places, those to be read `again` first.

    `reach` (mm) is how near a reading must be to judge a place, None where the whole bed is judged; `laid` are ways
    along which a straightedge lay that judges what is as near to it.
    """
    asked = list(again)[:AT_ONCE]
    if reach is None:
        return tuple(asked)
    ways = list(laid)
    left = {
        at: min([distance, *(math.dist(at, one) for one in asked)])
        for at, distance in zip(coverage.places, coverage.distances, strict=True)
        if distance > reach and all(math.dist(nearest_on_segment(*way, at), at) > reach for way in ways)
    }
    return (*asked, *_farthest(left, reach, AT_ONCE - len(asked)))


def _farthest(distances: dict[Point, float], reach: float, count: int) -> list[Point]:
    """One after the other the place farthest from all known ones; with none known the first is the one amid all."""
    off, found = dict(distances), list[Point]()
    while off and len(found) < count:
        at, distance = max(off.items(), key=lambda one: one[1])
        if distance <= reach:
            break
        at = at if distance < math.inf else _amid(list(off))
        found.append(at)
        off = {one: min(known, math.dist(at, one)) for one, known in off.items()}
    return found


def places_to_read_again(touched: Iterable[Point], read: Sequence[Point]) -> list[Point]:
    """Places of stale readings, each once, near which nothing was read since."""
    return [at for at in dict.fromkeys(touched) if all(math.dist(at, one) > READ_AGAIN for one in read)]


def _amid(places: Sequence[Point]) -> Point:
    middle = (math.fsum(x for x, _ in places) / len(places), math.fsum(y for _, y in places) / len(places))
    return min(places, key=lambda at: math.dist(at, middle))
