"""The room in convex pieces, each under one plane of the top and over one triangle of the subfloor.

What lies below a level of a convex piece is convex itself, and so hangs together: places that are high can then be
told apart exactly.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from evenbed.engine.bed import Mortar
from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Plane, Ring, box_of, edges_of, turn_of
from evenbed.engine.ground import Ground
from evenbed.engine.region import ON_LINE, Region, split_by_line
from evenbed.engine.touching import regions_of_room

NEAR = 1e-6  # mm: how much thicker than the level a piece is still looked at closely
STRAIGHT = 1e-6  # mm²: a corner that turns right by less is straight but for rounding


@dataclass(frozen=True)
class Piece:
    """A convex anticlockwise part of the room, and by how much the bed over it is thicker than it must be, mm."""

    ring: Ring
    spare: Plane
    heights: tuple[float, ...]

    @property
    def least(self) -> float:
        """The least spare thickness, found at a corner."""
        return min(self.heights)


def pieces_below(mortar: Mortar, minimum: float, level: float) -> tuple[Piece, ...]:
    """What of the room has less spare thickness than `level` somewhere, in convex pieces.

    `minimum` is the least thickness in force; both in mm.
    """
    thin = (part.piece for part in mortar.room_parts if part.low - minimum < level + NEAR)
    cut = ((_piece(mortar, p.ring, p.triangle, p.cell, minimum), p.triangle) for p in thin)
    low = [(piece, n) for piece, n in cut if piece.least < level]
    hollow = {n for piece, n in low if not _is_convex(piece.ring)}
    whole = (piece for piece, n in low if n not in hollow)
    parts = (_piece(mortar, ring, n, m, minimum) for ring, n, m in _parts_of(mortar, sorted(hollow)))
    return (*whole, *(piece for piece in parts if piece.least < level))


def _piece(mortar: Mortar, ring: Ring, triangle: int, cell: int, minimum: float) -> Piece:
    thickness = mortar.thickness_of(triangle, cell)
    spare = Plane(thickness.a - minimum, thickness.b, thickness.c)
    return Piece(ring, spare, tuple(spare.over(ring)))


def _parts_of(mortar: Mortar, triangles: list[int]) -> Iterator[tuple[Ring, int, int]]:
    """What of the room lies in some triangles, in convex rings, each under one cell of the top."""
    ground = mortar.ground
    rooms = regions_of_room(ground.figure.outer, ground.figure.holes) if triangles else ()
    parts = ((n, ring) for n in triangles for ring in _convex_parts(ground, n, rooms))
    return ((ring, n, m) for n, whole in parts for m, ring in _in_cells(mortar, whole))


def _in_cells(mortar: Mortar, ring: Ring) -> Iterator[tuple[int, Ring]]:
    box = box_of(ring)
    for m, edge in enumerate(mortar.top.edges):
        part = edge.part_of(ring, box)
        if part:
            yield m, part


def _convex_parts(ground: Ground, n: int, rooms: tuple[Region, ...]) -> Iterator[Ring]:
    """What of the room lies in one triangle, in convex rings."""
    inside = rooms
    for p, q in edges_of(ground.triangles[n][0]):
        inside, _ = split_by_line(inside, p, (q[0] - p[0], q[1] - p[1]))
    for region in inside:
        yield from _convex(region)


def _convex(region: Region) -> Iterator[Ring]:
    """A region cut at every corner that turns into it; holes have nothing but such corners."""
    for before, at in _inward_corners(region):
        sides = split_by_line((region,), at, (at[0] - before[0], at[1] - before[1]))
        if all(sides):
            for part in (part for side in sides for part in side):
                yield from _convex(part)
            return
    yield region.outer


def _inward_corners(region: Region) -> Iterator[tuple[Point, Point]]:
    for ring in region.rings:
        for n, at in enumerate(ring):
            if turn_of(ring[n - 1], at, ring[(n + 1) % len(ring)]) < -STRAIGHT:
                yield ring[n - 1], at


def _is_convex(ring: Ring) -> bool:
    """True for an anticlockwise ring that never turns right and never runs back along itself."""
    corners = [at for n, at in enumerate(ring) if math.dist(at, ring[n - 1]) > ON_LINE]
    return len(corners) > 2 and all(_turns_left(corners[n - 2], corners[n - 1], at) for n, at in enumerate(corners))


def _turns_left(p: Point, q: Point, r: Point) -> bool:
    """True where the way from p over q to r turns left or goes straight on."""
    turn = turn_of(p, q, r)
    onward = (q[0] - p[0]) * (r[0] - q[0]) + (q[1] - p[1]) * (r[1] - q[1])
    return turn > STRAIGHT or (turn >= -STRAIGHT and onward > 0.0)
