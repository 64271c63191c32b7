"""The ground of the bed: the subfloor within the room's walls, cut exactly, and the spots that can be extreme on it.

Nothing is sampled. Each triangle of the subfloor is cut by the room's true outline, cutouts taken out.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

from evenbed.engine.document.places import Point, Point3
from evenbed.engine.geometry import (
    Box,
    Moments,
    Ring,
    box_of,
    boxes_meet,
    clipped_to_convex,
    crossing_of,
    edges_of,
    is_inside,
    moments_of,
    signed_area,
    turn_of,
)
from evenbed.engine.outline import Figure
from evenbed.engine.surface import Surface
from evenbed.engine.top.facets import CellEdge

ON_THE_EDGE = 1e-6  # mm within which a point of the surface counts as inside the room
ROUNDING = 1e-6  # mm by which what was not read must beat what was
CUTS_KEPT = 4  # tops that end alike are cut once; other ends, as while a drain is moved, take an older one's place


@dataclass(frozen=True)
class Piece:
    """A part of the room, the triangle under it and the cell of the top over it.

    Pieces of cutouts are clockwise rings of their own.
    """

    ring: Ring
    triangle: int
    cell: int

    @cached_property
    def moments(self) -> Moments:
        """What integrals over it are made of."""
        return moments_of(self.ring)


@dataclass(frozen=True)
class Corner:
    """A corner of the floor's pieces under one cell of the top, and the subfloor's z there."""

    at: Point
    cell: int
    subfloor: float


@dataclass(frozen=True)
class Cut:
    """The room cut along the cells of a top: its pieces, and their corners that are floor, once for each cell."""

    pieces: tuple[Piece, ...]
    corners: tuple[Corner, ...]


@dataclass(frozen=True)
class Ground:
    """The subfloor's surface within the room's figure."""

    surface: Surface
    figure: Figure

    @cached_property
    def triangles(self) -> tuple[tuple[Ring, Box], ...]:
        """The corners of each triangle on the drawing, and the box round them."""
        places = [p[:2] for p in self.surface.points]
        rings = [(places[i], places[j], places[k]) for i, j, k in self.surface.triangles]
        return tuple((ring, box_of(ring)) for ring in rings)

    @cached_property
    def room_parts(self) -> tuple[tuple[int, Ring], ...]:
        """Triangle by triangle, the part inside the room; holes come as clockwise rings of their own."""
        return tuple(part for ring in self.figure.rings for part in self.parts_inside(ring))

    def parts_inside(self, ring: Ring) -> Iterator[tuple[int, Ring]]:
        """Each triangle's part inside a ring, in the ring's own sense of turning."""
        whole = box_of(ring)
        walls = [box_of(edge) for edge in edges_of(ring)]
        is_hole = signed_area(ring) < 0
        for n, (corners, box) in enumerate(self.triangles):
            if not boxes_meet(box, whole):
                continue
            if any(boxes_meet(box, wall) for wall in walls):
                part = clipped_to_convex(ring, corners)
                if len(part) > 2:
                    yield n, part
            elif is_inside(ring, *corners[0]):
                yield n, corners[::-1] if is_hole else corners

    def cut_by(self, edges: tuple[CellEdge, ...]) -> Cut:
        """The room's parts cut along the cells of a top; worked out once for tops whose cells end alike."""
        return self._cut_once(edges)

    @cached_property
    def _cut_once(self) -> Callable[[tuple[CellEdge, ...]], Cut]:
        return lru_cache(maxsize=CUTS_KEPT)(self._cut_along)

    def _cut_along(self, edges: tuple[CellEdge, ...]) -> Cut:
        pieces = tuple(self.pieces_of(self.room_parts, edges))
        return Cut(pieces, tuple(self._corners_of(pieces)))

    def _corners_of(self, pieces: Iterable[Piece]) -> Iterator[Corner]:
        """Triangles that meet at a corner differ by rounding alone: the highest of them counts."""
        highest: dict[tuple[Point, int], float] = {}
        for piece in pieces:
            for at, z in zip(piece.ring, self.surface.planes[piece.triangle].over(piece.ring), strict=True):
                known = highest.get((at, piece.cell))
                highest[at, piece.cell] = z if known is None else max(known, z)
        return (Corner(at, cell, z) for (at, cell), z in highest.items() if self.is_floor(at))

    def pieces_of(self, parts: Iterable[tuple[int, Ring]], edges: Sequence[CellEdge]) -> Iterator[Piece]:
        """Parts of triangles cut along the cells of a top."""
        for n, part in parts:
            box = box_of(part)
            for m, edge in enumerate(edges):
                piece = edge.part_of(part, box)
                if piece:
                    yield Piece(piece, n, m)

    def is_floor(self, at: Point) -> bool:
        """True for a piece's corner that is floor: not in a cutout, nor where concave pieces run there and back."""
        if at not in self._floor:
            self._floor[at] = self._is_convex or self.figure.holds(at, ON_THE_EDGE)
        return self._floor[at]

    @cached_property
    def _floor(self) -> dict[Point, bool]:
        return {}

    @cached_property
    def _is_convex(self) -> bool:
        outer = self.figure.outer
        return not self.figure.holes and all(turn_of(outer[n - 2], outer[n - 1], p) >= 0 for n, p in enumerate(outer))

    @cached_property
    def read_spots(self) -> tuple[Point3, ...]:
        """Readings in the room (x, y, z)."""
        made = {*self.surface.estimated, *self.surface.centres}
        read = (p for n, p in enumerate(self.surface.points) if n not in made)
        return tuple(p for p in read if self.figure.holds(p[:2], ON_THE_EDGE))

    @cached_property
    def corner_spots(self) -> tuple[Point3, ...]:
        """Corners of the room where nobody read, at the subfloor's height (x, y, z)."""
        read, standing = {p[:2] for p in self.read_spots}, {p[:2]: p for p in self.surface.points}
        corners = (c for ring in self.figure.rings for c in ring if c not in read)
        return tuple(standing.get(c) or (*c, self.surface.height_at(*c)) for c in corners)

    @property
    def spots(self) -> tuple[Point3, ...]:
        """Subfloor points that can be extreme: readings in the room, and corners of the room."""
        return (*self.read_spots, *self.corner_spots)

    @cached_property
    def wall_spots(self) -> tuple[Point3, ...]:
        """Subfloor points where an edge between two readings crosses a wall."""
        walls = [(box_of(e), e) for ring in self.figure.rings for e in edges_of(ring)]
        found = []
        for p, q in self.surface.edges:
            box = box_of((p[:2], q[:2]))
            near = (wall for wall_box, wall in walls if boxes_meet(box, wall_box))
            crossings = (crossing_of(p[:2], q[:2], *wall) for wall in near)
            found += [on_edge(p, q, at) for at in crossings if at is not None]
        return tuple(found)

    def most(self, measure: Callable[[Point3], float]) -> Point3:
        """The spot that measures most: a reading, unless a corner or a wall's crossing beats it beyond rounding.

        Equal ones are placed by the lowest x, then y, so that the answer does not hang on the order of reading.
        """
        kinds = (self.read_spots, self.corner_spots, self.wall_spots)
        best, *rivals = (min(spots, key=lambda s: (-measure(s), s)) for spots in kinds if spots)
        for rival in rivals:
            best = rival if measure(rival) > measure(best) + ROUNDING else best
        return best

    @cached_property
    def extremes(self) -> tuple[Point3, Point3]:
        """The subfloor's highest and lowest points in the room."""
        return self.most(lambda s: s[2]), self.most(lambda s: -s[2])


def on_edge(p: Point3, q: Point3, at: Point) -> Point3:
    """A place on the edge between two points, at the height the edge has there."""
    share = math.dist(p[:2], at) / math.dist(p[:2], q[:2])
    return at[0], at[1], p[2] + share * (q[2] - p[2])
