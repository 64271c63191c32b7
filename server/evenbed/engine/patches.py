"""The room in patches: places all over the floor, each standing for the area round it."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.frame import Frame, frame_at, way_of
from evenbed.engine.geometry import Plane, Ring, box_of, clipped, edges_of, integral_over
from evenbed.engine.outline import Figure

MOST_PATCHES = 110
FINER = 0.8  # of MOST_PATCHES: aimed at first, as walls cut cells in two
MOST_CELLS = 4000  # looked at, most of them outside a room of long thin arms
COARSER = 1.12  # a cell's growth where there are too many
CRUMB = 0.02  # of the usual patch: less area than this needs no place of its own
UNIT, ALONG, ACROSS = Plane(1.0, 0.0, 0.0), Plane(0.0, 1.0, 0.0), Plane(0.0, 0.0, 1.0)


@dataclass(frozen=True)
class Patch:
    """A place, and the area in mm² it stands for."""

    at: Point
    area: float


def patches_of(figure: Figure) -> tuple[Patch, ...]:
    """At most MOST_PATCHES square cells along the longest wall, cut by all walls; their areas are the room's.

    The corners share the area of a room so thin and crooked that no cell has its middle inside.
    """
    frame = frame_at(way_of(*max(edges_of(figure.outer), key=lambda e: math.dist(*e))))
    rings = [frame.turned_ring(ring) for ring in figure.rings]
    room = figure.area * 1e6
    low_u, low_v, high_u, high_v = box_of(rings[0])
    side = math.sqrt(max(room / (FINER * MOST_PATCHES), (high_u - low_u) * (high_v - low_v) / MOST_CELLS))
    while True:
        found = [p for p in _cells(rings, side, frame) if figure.holds(p.at)]
        if len(found) <= MOST_PATCHES:
            break
        side *= COARSER
    found = found or [Patch(corner, 1.0) for corner in figure.outer[:MOST_PATCHES]]
    covered = math.fsum(p.area for p in found)
    return tuple(Patch(p.at, p.area * room / covered) for p in found)


def _cells(rings: Sequence[Ring], side: float, frame: Frame) -> Iterator[Patch]:
    low_u, low_v, high_u, high_v = box_of(rings[0])
    columns, rows = (max(1, math.ceil(length / side - 1e-6)) for length in (high_u - low_u, high_v - low_v))
    wide, high = (high_u - low_u) / columns, (high_v - low_v) / rows
    crumb = CRUMB * math.fsum(integral_over(ring, UNIT) for ring in rings) / MOST_PATCHES
    for row in range(rows):
        strip = [_between(ring, ACROSS, low_v + row * high, high) for ring in rings]
        for column in range(columns):
            parts = [_between(ring, ALONG, low_u + column * wide, wide) for ring in strip]
            yield from _patch(parts, crumb, frame)


def _between(ring: Ring, way: Plane, start: float, width: float) -> Ring:
    """The part of a ring between two lines across `way`."""
    if len(ring) < 3:
        return ()
    kept = clipped(ring, Plane(-start, way.b, way.c))
    return clipped(kept, Plane(start + width, -way.b, -way.c)) if len(kept) > 2 else ()


def _patch(parts: Sequence[Ring], crumb: float, frame: Frame) -> Iterator[Patch]:
    """The patch over a cell's parts, holes counting against it, at its centre of area."""
    area = math.fsum(integral_over(p, UNIT) for p in parts)
    if area > crumb:
        u, v = (math.fsum(integral_over(p, way) for p in parts) / area for way in (ALONG, ACROSS))
        yield Patch(frame.placed(u, v), area)
