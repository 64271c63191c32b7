"""How near to a reading every place of the bed is, and so which straightedges the readings can tell of.

A straightedge of length L shows a wave of about that length at its full height, and a wave is told by two readings of
each of its lengths: readings half of L apart along a line. So a place is judged for L where a reading stands no
further than L / 4 from it, or where a straightedge at least as long was laid by hand within L / 4 of it. Shorter
waves may hide between readings: whoever doubts them lays a straightedge. A reading behind a wall tells nothing.
"""

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.geometry import Ring, box_of, edges_of, nearest_on_segment, turn_of
from evenbed.engine.outline import Figure

NEAR = 0.25  # of the straightedge's length
PLACES = 2500  # over the box round the room, at least
ENOUGH = 0.95  # of the bed
TAPPED = 50.0  # mm: so near to a wall a reading is tapped on it
Wall = tuple[Point, Point]


@dataclass(frozen=True)
class Coverage:
    """Places evenly over the bed, and how far each is from the nearest reading in straight sight (infinite without).

    `farthest` is the most that any place is from a reading, in sight or not, None without readings.
    """

    places: tuple[Point, ...]
    distances: tuple[float, ...]
    farthest: float | None

    def judged_share(self, length: float, laid: Sequence[tuple[Point, Point]] = ()) -> float:
        """Share of the bed judged for a straightedge of a length; `laid` are the ways where one was laid by hand."""
        reach = NEAR * length
        far = [at for at, distance in zip(self.places, self.distances, strict=True) if distance > reach]
        unread = sum(all(math.dist(nearest_on_segment(p, q, at), at) > reach for p, q in laid) for at in far)
        return 1.0 - unread / len(self.places)


def coverage_of(figure: Figure, surface: BedSurface) -> Coverage:
    """How near to a reading every place of a room's bed is."""
    places = tuple(_places_in(figure))
    nearest = _Nearest(surface.mesh.places[: surface.spots], figure.outer)
    extremes = [*(c for ring in figure.rings for c in ring), *(at for at in _between(surface) if figure.holds(at))]
    distances = tuple(nearest.distance(at) for at in places)
    walls = [] if _is_convex(figure) else [edge for ring in figure.rings for edge in edges_of(ring)]
    farthest = max([*distances, *(nearest.distance(at) for at in extremes)]) if surface.spots else None
    if walls:
        distances = tuple(nearest.distance(at, walls) for at in places)
    return Coverage(places, distances, farthest)


def _places_in(figure: Figure) -> list[Point]:
    """The middles of equal squares over the room, those in it; its first corner where it is thinner than all."""
    low_x, low_y, high_x, high_y = box_of(figure.outer)
    side = math.sqrt((high_x - low_x) * (high_y - low_y) / PLACES)
    columns, rows = (max(1, math.ceil(span / side)) for span in (high_x - low_x, high_y - low_y))
    wide, high = (high_x - low_x) / columns, (high_y - low_y) / rows
    middles = ((low_x + (i + 0.5) * wide, low_y + (j + 0.5) * high) for i in range(columns) for j in range(rows))
    return [at for at in middles if figure.holds(at)] or [figure.outer[0]]


def _between(surface: BedSurface) -> Iterator[Point]:
    """The places as far from three readings as can be: middles of the circles through their corners."""
    yield from surface.mesh.places[surface.spots :]
    for i, j, k in surface.triangles:
        (ax, ay), (bx, by), (cx, cy) = (surface.mesh.places[n] for n in (i, j, k))
        ux, uy, vx, vy = bx - ax, by - ay, cx - ax, cy - ay
        turn, uu, vv = 2.0 * (ux * vy - uy * vx), ux * ux + uy * uy, vx * vx + vy * vy
        yield ax + (vy * uu - uy * vv) / turn, ay + (ux * vv - vx * uu) / turn


class _Nearest:
    """Readings by cells, so that the nearest of thousands is found at once."""

    def __init__(self, places: Sequence[Point], outer: Ring) -> None:
        self.cells: dict[tuple[int, int], list[Point]] = defaultdict(list)
        low_x, low_y, high_x, high_y = box_of((*outer, *places))
        across = math.hypot(high_x - low_x, high_y - low_y)
        self.side = across / math.sqrt(max(1, len(places)))
        self.most = int(across / self.side) + 2
        for x, y in places:
            self.cells[int(x // self.side), int(y // self.side)].append((x, y))

    def distance(self, at: Point, walls: Sequence[Wall] = ()) -> float:
        """How far the nearest reading is that no wall hides; infinite where there is none."""
        if not self.cells:
            return math.inf
        column, row = int(at[0] // self.side), int(at[1] // self.side)
        best, ring = math.inf, 0
        while best > (ring - 1) * self.side and ring <= self.most:
            for cell in _ring(column, row, ring):
                for place in self.cells.get(cell, ()):
                    if math.dist(at, place) < best and not any(_hides(wall, at, place) for wall in walls):
                        best = math.dist(at, place)
            ring += 1
        return best


def _is_convex(figure: Figure) -> bool:
    sides = zip(edges_of(figure.outer), [*figure.outer[2:], *figure.outer[:2]], strict=True)
    return len(figure.rings) == 1 and all(turn_of(p, q, r) >= 0.0 for (p, q), r in sides)


def _hides(wall: Wall, at: Point, place: Point) -> bool:
    """True where a wall stands between; a reading tapped on it, or a hair beyond it, is in sight."""
    p, q = wall
    if turn_of(p, q, at) * turn_of(p, q, place) >= 0.0 or turn_of(at, place, p) * turn_of(at, place, q) >= 0.0:
        return False
    return math.dist(nearest_on_segment(p, q, place), place) > TAPPED


def _ring(column: int, row: int, ring: int) -> Iterator[tuple[int, int]]:
    """The cells so many steps away from one."""
    for i in range(-ring, ring + 1):
        steps = (-ring, ring) if abs(i) < ring else range(-ring, ring + 1)
        for j in dict.fromkeys(steps):
            yield column + i, row + j
