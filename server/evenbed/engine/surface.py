"""The subfloor: a surface of triangles through every reading, linear in each."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.cells import edge_sides, with_centres
from evenbed.engine.delaunay import Triangle, triangles_from_spots
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.exact import STEPS_PER_MM, Spot, hull_of, snapped, turn
from evenbed.engine.geometry import Plane, edges_of, nearest_on_segment, plane_through, turn_of

BEYOND = 0.01  # mm that a corner may lie outside the readings' hull before it has to be estimated
SLIVER = 2.0 / STEPS_PER_MM  # mm: triangles no higher than this are the snapping's own, along the rim


@dataclass(frozen=True)
class Surface:
    """Points (x, y, z), anticlockwise triangles over them, and which points are no readings.

    `estimated` are outline corners beyond the readings; `centres` are middles of cells whose corners lie on one
    circle. Points stand in the order of their places, so that the order of reading leaves no trace.
    """

    points: tuple[Point3, ...]
    triangles: tuple[Triangle, ...]
    estimated: tuple[int, ...]
    centres: tuple[int, ...]

    @cached_property
    def planes(self) -> tuple[Plane, ...]:
        """The plane of each triangle."""
        return tuple(plane_through(*(self.points[i] for i in t)) for t in self.triangles)

    @cached_property
    def neighbours(self) -> tuple[tuple[int | None, int | None, int | None], ...]:
        """For each triangle the one across its edge 0-1, 1-2 and 2-0, None at the rim."""
        sides = edge_sides(list(self.triangles))
        return tuple(
            (sides.get((t[1], t[0])), sides.get((t[2], t[1])), sides.get((t[0], t[2]))) for t in self.triangles
        )

    @cached_property
    def edges(self) -> tuple[tuple[Point3, Point3], ...]:
        """Every edge between two points, once."""
        pairs = sorted({(min(e), max(e)) for e in edge_sides(list(self.triangles))})
        return tuple((self.points[i], self.points[j]) for i, j in pairs)

    def triangle_at(self, x: float, y: float, start: int = 0) -> int:
        """The triangle holding (x, y), by walking from `start`; beyond the rim, the last one before it."""
        here, steps = start, 0
        while steps <= len(self.triangles):
            onward = self._way_out(here, x, y)
            if onward is None:
                return here
            here, steps = onward, steps + 1
        return max(range(len(self.triangles)), key=lambda n: min(self._sides(n, x, y)))

    def _sides(self, n: int, x: float, y: float) -> tuple[float, float, float]:
        i, j, k = self.triangles[n]
        return self._side(i, j, x, y), self._side(j, k, x, y), self._side(k, i, x, y)

    def _side(self, i: int, j: int, x: float, y: float) -> float:
        """Positive to the left of the edge; exactly opposite from its other side, so that no walk turns back."""
        if i > j:
            return -self._side(j, i, x, y)
        return turn_of(self.points[i][:2], self.points[j][:2], (x, y))

    def _way_out(self, n: int, x: float, y: float) -> int | None:
        crossed = [(side, k) for k, side in enumerate(self._sides(n, x, y)) if side < 0]
        onward = [self.neighbours[n][k] for _, k in sorted(crossed)]
        return next((t for t in onward if t is not None), None)

    def height_at(self, x: float, y: float, start: int = 0) -> float:
        """z of the subfloor at (x, y); beyond the rim, that of its last triangle's nearest place."""
        n = self.triangle_at(x, y, start)
        return self.planes[n].at(*self._nearest_in(n, (x, y)))

    def nearest(self, at: Point) -> Point:
        """The place itself where the surface reaches it, else its last triangle's nearest."""
        return self._nearest_in(self.triangle_at(*at), at)

    def _nearest_in(self, n: int, at: Point) -> Point:
        if min(self._sides(n, *at)) >= 0:
            return at
        corners = [self.points[i][:2] for i in self.triangles[n]]
        return min((nearest_on_segment(p, q, at) for p, q in edges_of(corners)), key=lambda p: math.dist(p, at))


def surface_from(readings: Sequence[Point3], corners: Sequence[Point]) -> Surface:
    """The surface through readings at distinct places, not all on one line, reaching every corner.

    Corners outside the hull of the readings get an estimated height (`estimated_height`); those a hair outside are
    given the height of the rim beside them, carried on at the slope of the whole floor.
    """
    beyond = corners_beyond(readings, corners, BEYOND)
    guessed = {(x, y, estimated_height(readings, (x, y))) for x, y in beyond}
    known = [*readings, *guessed]
    surface = _surface_over(known, guessed)
    beside = corners_beyond(known, corners, 2 * SLIVER)
    if not beside:
        return surface
    lean = fitted_plane(readings)
    return _surface_over([*known, *((*at, _height_beside(surface, lean, at)) for at in beside)], guessed)


def _height_beside(surface: Surface, lean: Plane, at: Point) -> float:
    near = surface.nearest(at)
    return surface.height_at(*near) + lean.at(*at) - lean.at(*near)


def _surface_over(known: Sequence[Point3], guessed: set[Point3]) -> Surface:
    points = sorted(known, key=lambda p: snapped(p[:2]))
    triangles = [t for t in triangles_from_spots([snapped(p[:2]) for p in points]) if not _is_sliver(points, t)]
    with_middles, triangles = with_centres(points, triangles)
    return Surface(
        tuple(with_middles),
        tuple(triangles),
        tuple(i for i, p in enumerate(points) if p in guessed),
        tuple(range(len(points), len(with_middles))),
    )


def _is_sliver(points: Sequence[Point3], triangle: Triangle) -> bool:
    """True where the corners stand on one line, as nearly as places are told apart: it has no area and no plane."""
    p, q, r = (points[i][:2] for i in triangle)
    longest = max(math.dist(p, q), math.dist(q, r), math.dist(r, p))
    return turn_of(p, q, r) <= SLIVER * longest


def corners_beyond(readings: Sequence[Point3], corners: Sequence[Point], margin: float) -> list[Point]:
    """The corners that lie outside the readings' convex hull by more than `margin` mm, each once."""
    hull = hull_of([snapped(p[:2]) for p in readings])
    sides = [(p, q, -margin * STEPS_PER_MM * math.dist(p, q)) for p, q in zip(hull, hull[1:] + hull[:1], strict=True)]
    seen: dict[Spot, Point] = {}
    for corner in corners:
        spot = snapped(corner)
        if any(turn(p, q, spot) < least for p, q, least in sides):
            seen.setdefault(spot, corner)
    return list(seen.values())


def estimated_height(readings: Sequence[Point3], at: Point) -> float:
    """A height foretold from the readings: their least-squares plane, plus what the readings stand off it there.

    The misses of the plane are averaged with weights of one over distance squared, so that near readings count most
    and no slope is carried further than the whole floor's. Tilting all readings tilts the estimate alike.
    """
    plane = fitted_plane(readings)
    weights = [1.0 / ((p[0] - at[0]) ** 2 + (p[1] - at[1]) ** 2) for p in readings]
    misses = [w * (p[2] - plane.at(p[0], p[1])) for w, p in zip(weights, readings, strict=True)]
    return plane.at(*at) + math.fsum(misses) / math.fsum(weights)


def fitted_plane(points: Sequence[Point3]) -> Plane:
    """The least-squares plane of z over (x, y), for points not all on one line."""
    n = len(points)
    mx, my, mz = (math.fsum(p[k] for p in points) / n for k in range(3))
    away = [(x - mx, y - my, z - mz) for x, y, z in points]
    xx, xy, yy = (math.fsum(d[i] * d[j] for d in away) for i, j in ((0, 0), (0, 1), (1, 1)))
    xz, yz = (math.fsum(d[i] * d[2] for d in away) for i in (0, 1))
    det = xx * yy - xy * xy
    b, c = (xz * yy - yz * xy) / det, (yz * xx - xz * xy) / det
    return Plane(mz - b * mx - c * my, b, c)
