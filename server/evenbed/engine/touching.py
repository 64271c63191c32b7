"""Regions of a room whose cutouts may touch the walls or each other: a hearth against a wall, adjoining shafts.

Where a cutout's edge runs along a wall the two cancel, and what is left is traced anew. A cutout that reaches from
wall to wall leaves several regions.
"""

import math
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Sequence

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import TOUCHES, Ring, distance_to_ring, edges_of, nearest_on_segment, signed_area
from evenbed.engine.region import Region, regions_from_rings

_Edge = tuple[Point, Point]


def regions_of_room(outer: Sequence[Point], holes: Iterable[Sequence[Point]] = ()) -> tuple[Region, ...]:
    """The regions inside `outer` and outside every hole; rings may run either way round.

    Holes lie in the outer ring and do not overlap; they may touch it and each other along edges or at corners.
    """
    rings = [_turned(tuple(outer), 1.0), *(_turned(tuple(hole), -1.0) for hole in holes)]
    if not _do_touch(rings):
        return (Region(rings[0], tuple(rings[1:])),)
    return tuple(regions_from_rings(traced(_edges_left(_with_shared_corners(rings), _never))))


def regions_joined(parts: Iterable[Region], is_cut: Callable[[Point, Point], bool]) -> tuple[Region, ...]:
    """Regions that lie side by side made one wherever they meet, but for the edges that are cuts."""
    rings = _with_shared_corners([ring for part in parts for ring in part.rings])
    return tuple(regions_from_rings(traced(_edges_left(rings, is_cut))))


def _turned(ring: Ring, way: float) -> Ring:
    return ring if signed_area(ring) * way > 0.0 else ring[::-1]


def _do_touch(rings: list[Ring]) -> bool:
    pairs = ((a, b) for a in rings for b in rings if a is not b)
    return any(distance_to_ring(a, point) <= TOUCHES for a, b in pairs for point in b)


def _with_shared_corners(rings: list[Ring]) -> list[Ring]:
    """The rings with every corner that lies on an edge set into that edge, and near corners made one."""
    corners: list[Point] = []
    for point in (p for ring in rings for p in ring):
        if all(math.dist(point, other) > TOUCHES for other in corners):
            corners.append(point)
    return [tuple(p for edge in edges_of(ring) for p in _corners_along(edge, corners)) for ring in rings]


def _corners_along(edge: _Edge, corners: list[Point]) -> list[Point]:
    """The corners on an edge in its order, its own beginning included and its end left out."""
    a, b = edge
    on = [p for p in corners if math.dist(p, nearest_on_segment(a, b, p)) <= TOUCHES]
    return sorted((p for p in on if math.dist(p, b) > TOUCHES), key=lambda p: math.dist(a, p))


def _never(_a: Point, _b: Point) -> bool:
    return False


def _edges_left(rings: list[Ring], is_cut: Callable[[Point, Point], bool]) -> list[_Edge]:
    """The edges of all rings without those that run both ways and are no cuts."""
    counted = Counter(edge for ring in rings for edge in edges_of(ring))
    return [(a, b) for a, b in counted if counted[(b, a)] == 0 or is_cut(a, b)]


def traced(edges: list[_Edge]) -> list[Ring]:
    """Rings from loose edges that run round areas on their left, keeping to the same area where several meet."""
    onward: dict[Point, list[Point]] = defaultdict(list)
    for a, b in edges:
        onward[a].append(b)
    rings = []
    while any(onward.values()):
        start = next(point for point, ways in onward.items() if ways)
        rings.append(_ring_from(start, onward))
    return rings


def _ring_from(start: Point, onward: dict[Point, list[Point]]) -> Ring:
    ring, before, at = [start], start, onward[start].pop()
    while at != start:
        ring.append(at)
        following = min(onward[at], key=lambda p, a=at, b=before: _clockwise(a, b, p))  # type: ignore[misc]
        onward[at].remove(following)
        before, at = at, following
    return tuple(ring)


def _clockwise(at: Point, back: Point, onward: Point) -> float:
    """How far to turn clockwise at a corner from the way back to the way onward, in (0, 2π]."""
    there = math.atan2(back[1] - at[1], back[0] - at[0])
    then = math.atan2(onward[1] - at[1], onward[0] - at[0])
    return (there - then) % math.tau or math.tau
