"""Where to read the bed next, so that it can be judged: places worked over first, then those farthest from readings.

A place is judged for a straightedge by a reading within a quarter of its length (`coverage`). So places are asked for
one after the other, each the farthest from all that is read or asked for, as long as some length that decides is not
judged on nearly all of the bed. None is nearer to a wall than the first ones: of two rows along it, a few
centimetres apart, the readings would say that the bed drops between them.
"""

import math
from collections.abc import Iterable, Sequence

from evenbed.engine.document.places import Point
from evenbed.engine.flatness.coverage import NEAR, Coverage
from evenbed.engine.flatness.standards import Limit
from evenbed.engine.geometry import between, edges_of, nearest_on_segment
from evenbed.engine.outline import Figure
from evenbed.engine.walk.edges import INSETS

AT_ONCE = 8  # asked for in one go
NEAREST = 75.0  # mm: places nearer to each other than twice that nobody reads (common practice, no source)
READ_AGAIN = 50.0  # mm: a reading so near to a place worked over tells how it is now (common practice, no source)


def can_be_read(limit: Limit) -> bool:
    """Whether readings can judge a straightedge: one of a hand's length is passed over the bed itself."""
    return NEAR * limit.length >= NEAREST


def next_places(
    coverage: Coverage,
    reach: float | None,
    laid: Iterable[tuple[Point, Point]],
    again: Iterable[Point],
    figure: Figure,
) -> tuple[Point, ...]:
    """At most AT_ONCE places, those to be read `again` first.

    `reach` (mm) is how near a reading must be to judge a place, None where the whole bed is judged; `laid` are ways
    along which a straightedge lay that judges what is as near to it; `figure` is the room.
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
    clear = {at: off_the_walls(at, figure) for at in left}
    told = {at: distance for at, distance in left.items() if distance > reach + math.dist(at, clear[at])}
    return (*asked, *_farthest(told, clear, reach, AT_ONCE - len(asked)))


def off_the_walls(at: Point, figure: Figure) -> Point:
    """The place itself, or where it is near to a wall, as far from that as a place by a wall is read."""
    moved = at
    for _ in range(2):  # in a corner from one wall and then from the other
        walls = (nearest_on_segment(*edge, moved) for ring in figure.rings for edge in edges_of(ring))
        wall = min(walls, key=lambda one: math.dist(one, moved))
        apart = math.dist(wall, moved)
        if not 0.0 < apart < INSETS[0]:
            break
        moved = between(wall, moved, INSETS[0] / apart)
    return moved if figure.holds(moved) else at


def _farthest(distances: dict[Point, float], clear: dict[Point, Point], reach: float, count: int) -> list[Point]:
    """One after the other the place farthest from all known ones, clear of walls; with none known one amid all."""
    off, found = dict(distances), list[Point]()
    while off and len(found) < count:
        at, distance = max(off.items(), key=lambda one: one[1])
        if distance <= reach:
            break
        at = clear[at if distance < math.inf else _amid(list(off))]
        found.append(at)
        off = {one: min(known, math.dist(at, one)) for one, known in off.items()}
    return found


def places_to_read_again(touched: Iterable[Point], read: Sequence[Point]) -> list[Point]:
    """Places of stale readings, each once, near which nothing was read since."""
    return [at for at in dict.fromkeys(touched) if all(math.dist(at, one) > READ_AGAIN for one in read)]


def _amid(places: Sequence[Point]) -> Point:
    middle = (math.fsum(x for x, _ in places) / len(places), math.fsum(y for _, y in places) / len(places))
    return min(places, key=lambda at: math.dist(at, middle))
