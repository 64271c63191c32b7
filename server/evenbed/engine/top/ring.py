"""Falls to a round drain: planes between walls that are level and the drain's ring, which is level too.

Each wall has one plane, level along it, down to the place of the ring that looks at the wall's foot (the wall's point
nearest to the drain). Between two such planes a fan of narrow ones falls from the corner to the ring. Let D be the
longest way from a corner to the ring. A wall that stands f D above the ring falls at f or more on every one of these
planes, and along every straight line from the wall to the drain's middle: a place of the ring is nowhere farther from
a wall's line, nor a chord of the ring from its corner, than that corner is from the ring.
"""

import math
from collections.abc import Iterator
from itertools import pairwise

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Plane, Ring, edges_of, plane_through
from evenbed.engine.top.facets import side_of

WIDEST = math.radians(15.0)  # between two corners of the drain's ring, as seen from its middle
ONE_WAY = 1e-6  # radians: nearer directions are one
Part = tuple[Ring, Plane]
"""A convex anticlockwise part of the floor, and its share of the wall's height over the drain: 0 at the ring."""
LEVEL = Plane(0.0, 0.0, 0.0)


def ring_parts(walls: Ring, drain: Point, radius: float) -> tuple[Part, ...]:
    """The parts of a floor whose every wall the drain sees from its front, and reaches with its ring nowhere."""
    rows = [(p, q, _ring_before(p, q, drain, radius)) for p, q in edges_of(walls)]
    parts = tuple(part for p, q, (first, rest) in rows for part in _parts_before(p, q, first, rest))
    middle = tuple(point for _, _, (first, rest) in rows for point in (*first, *rest[1:-1]))
    return parts if radius == 0 else (*parts, (_distinct(middle), LEVEL))


def _distinct(points: Ring) -> Ring:
    """The ring's corners, each once: where one wall's corners end the next one's begin."""
    return tuple(q for p, q in zip((points[-1], *points[:-1]), points, strict=True) if p != q)


def _parts_before(p: Point, q: Point, first: Ring, rest: Ring) -> Iterator[Part]:
    """A wall's own plane, and the fans of its two corners to the ring before and behind the wall's foot."""
    foot = rest[0]
    yield (p, q, foot), plane_through((*p, 1.0), (*q, 1.0), (*foot, 0.0))
    for corner, corners in ((p, first), (q, rest)):
        for a, b in pairwise(corners):
            yield (corner, b, a), plane_through((*corner, 1.0), (*b, 0.0), (*a, 0.0))


def _ring_before(p: Point, q: Point, drain: Point, radius: float) -> tuple[Ring, Ring]:
    """The ring's corners from the direction of p to that of the wall's foot, and from there to that of q."""
    if radius == 0:
        return (drain,), (drain,)
    way = p[0] - drain[0], p[1] - drain[1]
    whole = _turn(way, (q[0] - drain[0], q[1] - drain[1]))
    foot = _turn(way, (q[1] - p[1], p[0] - q[0]))
    foot = foot if ONE_WAY < foot < whole - ONE_WAY else 0.0 if foot <= ONE_WAY else whole
    end = _at(drain, (q[0] - drain[0], q[1] - drain[1]), radius, 0.0)
    first = [_at(drain, way, radius, angle) for angle in _angles(0.0, foot)]
    rest = [_at(drain, way, radius, angle) for angle in _angles(foot, whole)]
    if foot == whole:
        return (*first[:-1], end), (end,)
    return tuple(first), (*rest[:-1], end)


def _turn(way: Point, other: Point) -> float:
    """From one direction to another, radians, anticlockwise positive, at most half a turn either way."""
    return math.atan2(way[0] * other[1] - way[1] * other[0], way[0] * other[0] + way[1] * other[1])


def _angles(first: float, last: float) -> list[float]:
    """From the first to the last, no farther apart than WIDEST; one where they are the same."""
    if first == last:
        return [first]
    steps = math.ceil((last - first) / WIDEST)
    return [first + (last - first) * n / steps for n in range(steps)] + [last]


def _at(drain: Point, way: Point, radius: float, angle: float) -> Point:
    """The ring's point in a direction turned by an angle."""
    size = radius / math.hypot(*way)
    cos, sin = math.cos(angle) * size, math.sin(angle) * size
    return drain[0] + way[0] * cos - way[1] * sin, drain[1] + way[0] * sin + way[1] * cos


def rise_at_wall(p: Point, q: Point, drain: Point, radius: float) -> float:
    """How steep a wall's own plane is, per mm that the wall stands above the ring."""
    _, rest = _ring_before(p, q, drain, radius)
    return 1.0 / side_of(p, q).at(*rest[0])
