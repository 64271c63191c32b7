"""The top of bed as planes side by side: one for a level or leaning top, many where it falls or steps."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from evenbed.engine.document.fields import height
from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Box, Plane, Ring, between, box_of, boxes_meet, clipped, edges_of, left_of

BEYOND = 1e-6  # mm: what lies farther beyond a cell's line has no part of it
SEAM = 1e-12  # share of a way: a gap between two cells that is rounding
Piece = tuple[float, float, Plane]
"""From which share of a way to which one plane holds."""


@dataclass(frozen=True)
class Facet(Plane):
    """One plane of the top, z = a + b x + c y, over its polygon."""

    polygon: tuple[Point, ...] = height(about="Where it holds")


@dataclass(frozen=True)
class CellEdge:
    """Where one cell ends: on the kept side of every line, within the box round what of the room that is."""

    keep: tuple[Plane, ...]
    box: Box

    def part_of(self, ring: Sequence[Point], box: Box) -> Ring:
        """The part of a ring, with the box round it, in the cell; empty where there is none."""
        if not boxes_meet(box, self.box) or self._is_beyond(box):
            return ()
        part = tuple(ring)
        for side in self.keep:
            if len(part) < 3:
                return ()
            part = clipped(part, side)
        return part if len(part) > 2 else ()

    def _is_beyond(self, box: Box) -> bool:
        """True where a box lies wholly on the far side of one line, by more than rounding."""
        low_x, low_y, high_x, high_y = box
        for a, b, c in self._sides:
            if a + b * (high_x if b > 0 else low_x) + c * (high_y if c > 0 else low_y) < -BEYOND:
                return True
        return False

    @cached_property
    def _sides(self) -> tuple[tuple[float, float, float], ...]:
        return tuple((side.a, side.b, side.c) for side in self.keep)


@dataclass(frozen=True)
class Cell:
    """One plane of the top and where it holds: on the kept side of every line of `keep`, which is positive there.

    `keep` gives distances in mm, none where the plane holds everywhere; `polygons` are what of the room that is.
    """

    plane: Plane
    keep: tuple[Plane, ...]
    polygons: tuple[Ring, ...]

    @cached_property
    def edge(self) -> CellEdge:
        """Where the cell ends, whatever its plane."""
        return CellEdge(self.keep, box_of(p for polygon in self.polygons for p in polygon))

    def depth(self, x: float, y: float) -> float:
        """How far inside the cell a place lies, mm; negative outside."""
        return min((side.at(x, y) for side in self.keep), default=math.inf)


@dataclass(frozen=True)
class BedTop:
    """The top of bed. The cells cover the room and meet along straight lines."""

    cells: tuple[Cell, ...]

    @cached_property
    def facets(self) -> tuple[Facet, ...]:
        """The planes as they are told, each with its polygon."""
        rows = ((cell.plane, polygon) for cell in self.cells for polygon in cell.polygons)
        return tuple(Facet(plane.a, plane.b, plane.c, polygon) for plane, polygon in rows)

    def plane_at(self, x: float, y: float) -> Plane:
        """The plane that holds at a place: where cells meet that of the first, beyond all that of the nearest one."""
        for plane, sides in self._kept:
            for a, b, c in sides:
                if a + b * x + c * y < 0:
                    break
            else:
                return plane
        return max(self.cells, key=lambda cell: cell.depth(x, y)).plane

    @cached_property
    def _kept(self) -> tuple[tuple[Plane, tuple[tuple[float, float, float], ...]], ...]:
        """Each cell's plane and the figures of its lines: a place is looked for in all of them, hundreds of times."""
        return tuple((cell.plane, tuple((side.a, side.b, side.c) for side in cell.keep)) for cell in self.cells)

    @cached_property
    def edges(self) -> tuple[CellEdge, ...]:
        """Where each cell ends."""
        return tuple(cell.edge for cell in self.cells)

    def at(self, x: float, y: float) -> float:
        """z of the top."""
        return self.plane_at(x, y).at(x, y)

    def raised(self, by: float) -> "BedTop":
        """The same top, higher by so many mm."""
        rows = ((c.plane, c) for c in self.cells)
        return BedTop(tuple(Cell(Plane(p.a + by, p.b, p.c), c.keep, c.polygons) for p, c in rows))

    def crossings(self, start: Point, end: Point) -> list[float]:
        """At which shares of a straight way lines are crossed along which planes end, in order, each once."""
        found = set()
        for a, b, c in self._lines:
            first, last = a + b * start[0] + c * start[1], a + b * end[0] + c * end[1]
            if first != last and 0.0 <= first / (first - last) <= 1.0:
                found.add(first / (first - last))
        return sorted(found)

    def pieces(self, start: Point, end: Point) -> tuple[Piece, ...]:
        """Which plane holds from where to where on a straight way, from its start to its end, without a gap."""
        chords = sorted((*_chord(sides, start, end), n) for n, (_, sides) in enumerate(self._kept))
        found: list[Piece] = []
        at = 0.0
        for low, high, n in chords:
            if high > max(at, low):
                if low > at + SEAM:
                    found += self._beyond(start, end, at, low)
                    at = low
                found.append((at, high, self._kept[n][0]))
                at = high
        return (*found, *self._beyond(start, end, at, 1.0)) if at < 1.0 else tuple(found)

    def _beyond(self, start: Point, end: Point, low: float, high: float) -> Iterator[Piece]:
        """The pieces of a part of a way that no cell holds: it leads along the room's edge or outside."""
        shares = [low, *(share for share in self.crossings(start, end) if low < share < high), high]
        for a, b in pairwise(shares):
            yield a, b, self.plane_at(*between(start, end, (a + b) / 2))

    @cached_property
    def _lines(self) -> tuple[tuple[float, float, float], ...]:
        return tuple((side.a, side.b, side.c) for side in _lines_of(self.cells))

    @property
    def steepest(self) -> float:
        """The steepest fall of any plane, rise over run."""
        return max(math.hypot(cell.plane.b, cell.plane.c) for cell in self.cells)


def _chord(sides: Iterable[tuple[float, float, float]], start: Point, end: Point) -> tuple[float, float]:
    """From which to which share of a straight way it runs on the kept side of every line (Cyrus and Beck)."""
    low, high = 0.0, 1.0
    for a, b, c in sides:
        first, last = a + b * start[0] + c * start[1], a + b * end[0] + c * end[1]
        if first < 0.0 and last < 0.0:
            return 1.0, 0.0
        if first < 0.0:
            low = max(low, first / (first - last))
        elif last < 0.0:
            high = min(high, first / (first - last))
    return low, high


def whole_room(plane: Plane, outer: Ring) -> BedTop:
    """One plane over the whole room."""
    return BedTop((Cell(plane, (), (outer,)),))


def convex_cell(plane: Plane, polygon: Ring) -> Cell:
    """A plane over a convex anticlockwise polygon."""
    return Cell(plane, tuple(side_of(p, q) for p, q in edges_of(polygon)), (polygon,))


def side_of(p: Point, q: Point) -> Plane:
    """Distance in mm to the left of the line from p to q. Raises ZeroDivisionError where they are one point."""
    side, size = left_of(p, q), math.dist(p, q)
    return Plane(side.a / size, side.b / size, side.c / size)


def _lines_of(cells: Iterable[Cell]) -> tuple[Plane, ...]:
    """Every line along which cells end, once."""
    return tuple(dict.fromkeys(side for cell in cells for side in cell.keep))
