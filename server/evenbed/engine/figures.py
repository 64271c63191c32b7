"""Which figures can be a room or a cutout: simple rings with an area, one inside the other without overlap."""

import math
from collections.abc import Iterator, Sequence
from itertools import chain, islice

from evenbed.engine.document.places import Point
from evenbed.engine.exact import Spot, do_cross, snapped, turn
from evenbed.engine.geometry import (
    TOUCHES,
    Ring,
    between,
    box_of,
    boxes_meet,
    distance_to_ring,
    edge_of,
    edges_of,
    is_inside,
    meeting_of,
    signed_area,
    turn_of,
)
from evenbed.engine.problems import BadDocumentError, Problem, problem_at

LEAST_AREA = 1e4  # mm²: a figure smaller than a hand is a slip
MOST_CROSSINGS = 20  # of one ring: a longer list helps nobody


def check_ring(path: str, ring: Ring) -> None:
    """Raise BadDocumentError, its problems under `path`, unless the ring is simple and has an area worth the name."""
    if len(ring) < 3:
        raise BadDocumentError([problem_at(path, "too_few_corners", count=len(ring))])
    spots = [snapped(p) for p in ring]
    found = list(islice(chain(_bad_corners(path, ring, spots), _crossings(path, ring, spots)), MOST_CROSSINGS))
    if not found and abs(signed_area(ring)) < LEAST_AREA:
        found = [problem_at(path, "no_area", area=round(abs(signed_area(ring)), 1))]
    if found:
        raise BadDocumentError(found)


def _bad_corners(path: str, ring: Ring, spots: list[Spot]) -> Iterator[Problem]:
    """Walls without a length, and walls that run back along the one before them."""
    for i, p in enumerate(spots):
        n = (i + 1) % len(spots)
        q, r = spots[n], spots[(i + 2) % len(spots)]
        if p == q:
            yield problem_at(f"{path}[{i}]", "repeated_corner", wall=i, **_place(ring[i]))
        elif turn(p, q, r) == 0 and (q[0] - p[0]) * (r[0] - q[0]) + (q[1] - p[1]) * (r[1] - q[1]) < 0:
            yield problem_at(f"{path}[{n}]", "doubles_back", wall=n, **_place(ring[n]))


def _crossings(path: str, ring: Ring, spots: list[Spot]) -> Iterator[Problem]:
    """Walls that meet others than their neighbours, by exact predicates."""
    walls = list(zip(spots, spots[1:] + spots[:1], strict=True))
    for i, wall in enumerate(walls):
        for j in range(i + 2, len(walls) - (i == 0)):
            if do_cross(*wall, *walls[j]):
                place = _place(_meeting(ring, i, j))
                yield problem_at(f"{path}[{j}]", "walls_cross", wall=j, other=i, **place)


def _meeting(ring: Ring, i: int, j: int) -> Point:
    p, q = edge_of(ring, i)
    share, _ = meeting_of(p, q, *edge_of(ring, j)) or (0.0, 0.0)
    return between(p, q, share)


def _place(at: Point) -> dict[str, float]:
    return {"x": round(at[0], 1), "y": round(at[1], 1)}


def check_cutouts(outer: Ring, cutouts: Sequence[Ring]) -> None:
    """Raise BadDocumentError unless every cutout lies in the outer ring and overlaps no other; all may touch."""
    found = [
        problem_at(f"outline.cutouts[{n}]", "cutout_outside") for n, c in enumerate(cutouts) if not _fits(outer, c)
    ]
    boxes = [box_of(cutout) for cutout in cutouts]
    for n, cutout in enumerate(cutouts):
        near = (m for m in range(n) if boxes_meet(boxes[m], boxes[n]))
        meeting = (m for m in near if _meet(cutouts[m], cutout))
        found += [problem_at(f"outline.cutouts[{n}]", "cutouts_meet", other=m) for m in meeting]
    if found:
        raise BadDocumentError(found)


def _fits(outer: Ring, inner: Ring) -> bool:
    within = all(is_inside(outer, *p) or distance_to_ring(outer, p) < TOUCHES for p in _corners_and_middles(inner))
    return within and not _cross_through(outer, inner)


def _corners_and_middles(ring: Ring) -> list[Point]:
    return [*ring, *(between(p, q, 0.5) for p, q in edges_of(ring))]


def _meet(a: Ring, b: Ring) -> bool:
    return _cross_through(a, b) or _holds_a_middle(a, b) or _holds_a_middle(b, a)


def _cross_through(a: Ring, b: Ring) -> bool:
    return any(_parts(e, f) and _parts(f, e) for e in edges_of(a) for f in edges_of(b))


def _parts(line: tuple[Point, Point], ends: tuple[Point, Point]) -> bool:
    """True where the ends lie on different sides of the line, each by more than a touch."""
    reach = TOUCHES * math.dist(*line)
    sides = turn_of(*line, ends[0]), turn_of(*line, ends[1])
    return min(sides) < -reach and max(sides) > reach


def _holds_a_middle(a: Ring, b: Ring) -> bool:
    """True where a corner or an edge's middle of b lies properly inside a, or the two are the same place."""
    spots = _corners_and_middles(b)
    inside = any(is_inside(a, *p) and distance_to_ring(a, p) > TOUCHES for p in spots)
    return inside or all(distance_to_ring(a, p) < TOUCHES for p in spots)
