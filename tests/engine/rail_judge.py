"""A judge of rails that knows nothing of the engine's way: what straightedges serve, by shapely, room by room.

A straightedge lies square across two neighbouring rails. It serves what lies between them, if it spans them, and what
lies beyond each of them on the floor as far as it sticks out while its other end keeps its bearing, but no further
than the rails are apart, or it would tip.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import shapely
from shapely import LineString, Polygon
from shapely.affinity import rotate
from tests.engine.rail_cases import Case

Segment = tuple[float, float, float]  # u from, u to, v
NEAR = 1e-6  # mm
GRACE = 1.0  # mm nearer to walls than the inset, so that walls a hair out of parallel cost the plain way no rail
ROOM_FOR_A_RAIL = 300.0  # mm: the shortest rail there is


@dataclass(frozen=True)
class Judged:
    """A floor turned so that rails run along x, with rails on it and what they serve."""

    floor: Polygon
    rails: tuple[Segment, ...]
    served: shapely.Geometry

    @property
    def hand_share(self) -> float:
        """The share of the floor that is left to hand work."""
        return float(1.0 - self.served.area / self.floor.area)


def judged(floor: Polygon, rails: Sequence[Segment], edge: float, bearing: float) -> Judged:
    """What rails (u from, u to, v) serve of a floor, with a straightedge of length `edge`, all in mm."""
    cuts = {u for ring in (floor.exterior, *floor.interiors) for u, _ in ring.coords}
    cuts |= {u for start, end, _ in rails for u in (start, end)}
    parts = [part for slab in pairwise(sorted(cuts)) for part in _served_in(floor, rails, slab, edge, bearing)]
    return Judged(floor, tuple(rails), shapely.union_all(parts))


def _served_in(
    floor: Polygon, rails: Sequence[Segment], slab: tuple[float, float], edge: float, bearing: float
) -> Iterator[shapely.Geometry]:
    start, end = slab
    here = [rail for rail in rails if rail[0] <= start + NEAR and rail[1] >= end - NEAR]
    if end - start < NEAR or len(here) < 2:
        return
    low, high = floor.bounds[1] - 1.0, floor.bounds[3] + 1.0
    for stretch in shapely.get_parts(shapely.intersection(floor, shapely.box(start, low, end, high))):
        if stretch.area == 0.0:
            continue
        _, bottom, _, top = _at_middle(stretch, (start + end) / 2.0)
        vs = sorted({v for _, _, v in here if bottom <= v <= top})
        for a, b in pairwise(vs):
            if b - a <= edge - 2.0 * bearing + NEAR:
                out = min(edge - bearing - (b - a), b - a)
                yield shapely.intersection(stretch, shapely.box(start, a - out, end, b + out))


def _at_middle(stretch: shapely.Geometry, u: float) -> tuple[float, float, float, float]:
    low, high = stretch.bounds[1] - 1.0, stretch.bounds[3] + 1.0
    cut = stretch.intersection(LineString([(u, low), (u, high)]))
    return cut.bounds  # type: ignore[no-any-return]


def turned_floor(floor: Polygon, degrees: float) -> Polygon:
    """The floor as the rails' frame has it."""
    return rotate(floor, -degrees, origin=(0.0, 0.0))


def plain_layout(case: Case) -> Judged:
    """The simple way: along the longest wall, evenly at the widest spacing that fits, wherever a line is free."""
    (shape,) = case.shapes
    (ax, ay), (bx, by) = max(pairwise(shape.exterior.coords), key=lambda wall: math.dist(*wall))
    floor = turned_floor(shape, math.degrees(math.atan2(by - ay, bx - ax)))
    design, inset = case.design, max(case.design.inset, case.design.strip.width / 2.0)
    span = design.straightedge - 2.0 * design.bearing
    free = floor.buffer(GRACE - inset)
    rails = [rail for v in _evenly(floor, inset, span) for rail in _rails_on(free, floor, v)]
    return judged(floor, rails, design.straightedge, design.bearing)


def _evenly(floor: Polygon, inset: float, span: float) -> list[float]:
    low, high = floor.bounds[1] + inset, floor.bounds[3] - inset
    if high <= low:
        return [(low + high) / 2.0]
    count = max(1, math.ceil((high - low) / span - 1e-9))
    return [low + (high - low) * n / count for n in range(count + 1)]


def _rails_on(free: shapely.Geometry, floor: Polygon, v: float) -> Iterator[Segment]:
    line = LineString([(floor.bounds[0] - 1.0, v), (floor.bounds[2] + 1.0, v)])
    for part in shapely.get_parts(free.intersection(line)):
        start, _, end, _ = part.bounds
        if end - start >= ROOM_FOR_A_RAIL:
            yield (start, end, v)
