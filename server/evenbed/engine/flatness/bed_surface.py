"""The finished bed as it was read: triangles over its readings, within the room's walls.

Heights are above the designed top, so that what the design itself bends counts as straight. Nothing is carried beyond
the readings: a place outside of them has no height. Readings all on one line make no triangles: then the profile
along that line is all there is.

    bed_surface_from(spots, regions)    -> BedSurface from read places (x, y, height); no spots give an empty one
    surface.with_heights(heights)       -> the same places at other heights (one for each read spot); its mesh is kept
    surface.profile(start, end)         -> list of (distances from start, heights): the line's stretches of read bed
    surface.sigma_of(first, at, second) -> standard error of a gap, from those of the readings
`search.worst_lying(surface, length)` lays a straightedge all over it.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from evenbed.engine.delaunay import Triangle
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.exact import STEPS_PER_MM, hull_of, snapped
from evenbed.engine.flatness.cuts import Knots, cut_to
from evenbed.engine.flatness.mesh import Edge, Mesh, Way, way_through
from evenbed.engine.flatness.parted import parted_triangles
from evenbed.engine.geometry import Plane, Ring, box_of, boxes_meet, crossing_of, edges_of, turn_of
from evenbed.engine.levels_check import are_on_a_line
from evenbed.engine.region import Region, stretches_along
from evenbed.engine.surface import Surface, fitted_plane, surface_from
from evenbed.engine.top.facets import side_of

ONE_PLACE = 1e-6  # mm along a line: nearer ends are one


@dataclass(frozen=True)
class BedSurface:
    """Read spots (x, y, height above the designed top) in the order of their places, and the mesh over them.

    `heights` are those of the mesh's points: the spots, then middles of cells whose corners lie on one circle, each
    at the mean of the spots of its `cells`. `regions` are the areas that the bed fills.
    """

    mesh: Mesh
    heights: tuple[float, ...]
    cells: tuple[tuple[int, ...], ...]
    spots: int
    regions: tuple[Region, ...]
    sigmas: tuple[float, ...]

    @property
    def triangles(self) -> tuple[Triangle, ...]:
        """Triangles as indices of points."""
        return self.mesh.triangles

    @cached_property
    def points(self) -> tuple[Point3, ...]:
        """Places with their heights."""
        return tuple((*at, z) for at, z in zip(self.mesh.places, self.heights, strict=True))

    @cached_property
    def surface(self) -> Surface:
        """The same as a surface that can be asked for its height anywhere."""
        return Surface(self.points, self.triangles, (), tuple(range(self.spots, len(self.points))))

    @cached_property
    def lean(self) -> Plane:
        """The plane that fits the spots best; level where they make no triangles."""
        return fitted_plane(self.points[: self.spots]) if self.triangles else Plane(0.0, 0.0, 0.0)

    @cached_property
    def flattened(self) -> tuple[float, ...]:
        """Heights less that plane: gaps and humps are the same, and rounding less."""
        return tuple(z - self.lean.at(x, y) for x, y, z in self.points)

    def with_heights(self, heights: Sequence[float]) -> "BedSurface":
        """The same places at other heights, one for each spot; middles of cells follow."""
        means = (math.fsum(heights[n] for n in cell) / len(cell) for cell in self.cells)
        return replace(self, heights=(*heights, *means))

    @cached_property
    def levelled(self) -> "BedSurface":
        """The same places, all at the height nought: what hangs on places alone is the same for it."""
        return self.with_heights([0.0] * self.spots)

    def profile(self, start: Point, end: Point) -> list[Knots]:
        """What of a straight line is read bed in the room: distances from its start, and heights there.

        Nothing for a line without a length, or beside the readings.
        """
        length = math.dist(start, end)
        if length <= ONE_PLACE:
            return []
        way = way_through(start, (end[0] - start[0]) / length, (end[1] - start[1]) / length)
        begin = way.along(start)
        inside = stretches_along(self.regions, start, end)
        parts = (
            cut_to([t - begin for t in along], height, low, high)
            for along, height in self._knots_along(way, (begin, begin + length))
            for low, high in inside
        )
        return [one for one in parts if one is not None]

    def _knots_along(self, way: Way, reach: tuple[float, float]) -> list[Knots]:
        if not self.triangles:
            knots = self._knots_on_the_line(way, reach)
            return [] if knots is None else [knots]
        for beside in (way, way._replace(left=way.left + ONE_PLACE), way._replace(left=way.left - ONE_PLACE)):
            edge = self.mesh.edge_among(beside, self.mesh.edges)
            found = [] if edge is None else self.mesh.knots_from(self.heights, beside, edge, reach)
            if found:
                return found
        return []

    def _knots_on_the_line(self, way: Way, reach: tuple[float, float]) -> Knots | None:
        """The profile through readings that stand on one line, where the way runs along them; else None."""
        spots = sorted((way.along(at), z) for at, z in zip(self.mesh.places, self.heights, strict=True))
        if len(spots) < 2 or not are_on_a_line([*self.mesh.places, way.at(spots[0][0]), way.at(spots[-1][0])]):
            return None
        return cut_to([t for t, _ in spots], [z for _, z in spots], *reach)

    def height_at(self, at: Point) -> float | None:
        """Height above the designed top; None beyond the readings."""
        weights = self.weights_at(at)
        return math.fsum(w * self.heights[n] for n, w in weights.items()) if weights else None

    def edges_round(self, at: Point) -> tuple[Edge, ...]:
        """The edges of the triangle that a place is on; none beyond the readings."""
        if not self.triangles:
            return ()
        found = self._triangle_at(at)
        return _edges_round(self.triangles[found]) if _is_on(self.mesh, found, at) else ()

    def _triangle_at(self, at: Point) -> int:
        """The triangle that a place is on, walked to from one near by."""
        side, starts = self._starts
        return self.surface.triangle_at(*at, starts.get((int(at[0] // side), int(at[1] // side)), 0))

    @cached_property
    def _starts(self) -> tuple[float, dict[tuple[int, int], int]]:
        """A triangle in each cell of a grid about as fine as the mesh."""
        low_x, low_y, high_x, high_y = box_of(self.mesh.places)
        side = math.sqrt((high_x - low_x) * (high_y - low_y) / len(self.triangles))
        starts = {}
        for n, triangle in enumerate(self.triangles):
            x, y = (math.fsum(self.mesh.places[m][k] for m in triangle) / 3.0 for k in (0, 1))
            starts[int(x // side), int(y // side)] = n
        return side, starts

    def weights_at(self, at: Point) -> dict[int, float]:
        """By how much each spot counts in the height of a place; none beyond the readings."""
        if not self.triangles:
            return self._weights_on_the_line(at)
        found = self._triangle_at(at)
        nearest = at if _is_on(self.mesh, found, at) else self.surface.nearest(at)
        if math.dist(nearest, at) > 2.0 * ONE_PLACE:
            return {}
        weights: dict[int, float] = {}
        for n, share in _shares(self.mesh, found, nearest):
            for spot, part in self._spots_behind(n):
                weights[spot] = weights.get(spot, 0.0) + share * part
        return weights

    def _weights_on_the_line(self, at: Point) -> dict[int, float]:
        places = self.mesh.places
        for n in range(len(places) - 1):
            length = math.dist(places[n], places[n + 1])
            share = math.dist(places[n], at) / length
            if abs(share * length + math.dist(at, places[n + 1]) - length) <= length / 1000.0:
                return {n: 1.0 - share, n + 1: share}
        return {}

    def _spots_behind(self, point: int) -> list[tuple[int, float]]:
        if point < self.spots:
            return [(point, 1.0)]
        cell = self.cells[point - self.spots]
        return [(n, 1.0 / len(cell)) for n in cell]

    def sigma_of(self, first: Point, at: Point, second: Point) -> float:
        """Standard error of how far `at` lies below the line from first to second: readings err each for itself."""
        length = math.dist(first, second)
        share = math.dist(first, at) / length if length else 0.0
        weights: dict[int, float] = {}
        for place, times in ((first, 1.0 - share), (second, share), (at, -1.0)):
            for n, weight in self.weights_at(place).items():
                weights[n] = weights.get(n, 0.0) + times * weight
        return math.sqrt(math.fsum((w * self.sigmas[n]) ** 2 for n, w in weights.items()))

    @cached_property
    def corners(self) -> tuple[tuple[Point, tuple[Edge, ...]], ...]:
        """Ends of the walls over read bed, and where walls cross edges of the mesh, each with edges round it."""
        return tuple(_corners_of(self.mesh, self.surface)) if self.mesh.walls else ()


def bed_surface_from(
    spots: Sequence[Point3], regions: Sequence[Region], sigmas: Sequence[float] | None = None
) -> BedSurface:
    """The surface through read spots at distinct places, with the standard error of each (1 mm where not told)."""
    errors = dict(zip(spots, sigmas if sigmas is not None else [1.0] * len(spots), strict=True))
    if len(spots) < 3 or are_on_a_line([spot[:2] for spot in spots]):
        ordered = tuple(sorted(spots))
        return _of_points(ordered, Mesh(tuple(p[:2] for p in ordered), ()), (), regions, errors)
    surface = surface_from(spots, ())
    places = tuple(p[:2] for p in surface.points)
    cells = tuple(_round(surface, n) for n in surface.centres)
    walls = _walls_over(places, [ring for region in regions for ring in region.rings])
    parted = parted_triangles(places, surface.triangles, cells, regions) if walls else frozenset()
    return _of_points(surface.points, Mesh(places, surface.triangles, walls, parted), cells, regions, errors)


def _of_points(
    points: tuple[Point3, ...],
    mesh: Mesh,
    cells: tuple[tuple[int, ...], ...],
    regions: Sequence[Region],
    errors: dict[Point3, float],
) -> BedSurface:
    spots = points[: len(points) - len(cells)]
    sigmas = tuple(errors[spot] for spot in spots)
    return BedSurface(mesh, tuple(p[2] for p in points), cells, len(spots), tuple(regions), sigmas)


def _round(surface: Surface, centre: int) -> tuple[int, ...]:
    return tuple(sorted({n for t in surface.triangles if centre in t for n in t} - {centre}))


def _walls_over(places: Sequence[Point], rings: Sequence[Ring]) -> tuple[Ring, ...]:
    """All walls, where any of them runs over what was read; else none, for then no line is cut short."""
    hull = [(x / STEPS_PER_MM, y / STEPS_PER_MM) for x, y in hull_of([snapped(p) for p in places])]
    sides = [side_of(p, q) for p, q in edges_of(hull)]
    runs_over = any(_runs_over(p, q, sides) for ring in rings for p, q in edges_of(ring))
    return tuple(rings) if runs_over else ()


def _runs_over(p: Point, q: Point, sides: Sequence[Plane]) -> bool:
    """True where part of a wall lies further than ONE_PLACE inside of all sides (Cyrus and Beck)."""
    low, high = 0.0, 1.0
    for side in sides:
        first, last = side.at(*p) - ONE_PLACE, side.at(*q) - ONE_PLACE
        if first < 0.0 and last < 0.0:
            return False
        if first < 0.0 or last < 0.0:
            share = first / (first - last)
            low, high = (max(low, share), high) if first < 0.0 else (low, min(high, share))
    return low < high


def _corners_of(mesh: Mesh, surface: Surface) -> Iterator[tuple[Point, tuple[Edge, ...]]]:
    walls = [(p, q, box_of((p, q))) for ring in mesh.walls for p, q in edges_of(ring)]
    for p, _, _ in walls:
        triangle = surface.triangle_at(*p)
        if surface.nearest(p) == p:
            yield p, _edges_round(mesh.triangles[triangle])
    for i, j in mesh.edges:
        a, b = mesh.places[i], mesh.places[j]
        box = box_of((a, b))
        beside = [k for k in (mesh.apex.get((i, j)), mesh.apex.get((j, i))) if k is not None]
        for p, q, wall in walls:
            at = crossing_of(a, b, p, q) if boxes_meet(box, wall) else None
            if at is not None:
                yield at, tuple(e for k in beside for e in _edges_round((i, j, k)))


def _edges_round(triangle: Triangle) -> tuple[Edge, ...]:
    i, j, k = triangle
    return (i, j), (j, k), (k, i)


def _is_on(mesh: Mesh, triangle: int, at: Point) -> bool:
    """True for a place on a triangle, its edges included."""
    i, j, k = (mesh.places[n] for n in mesh.triangles[triangle])
    return min(turn_of(i, j, at), turn_of(j, k, at), turn_of(k, i, at)) >= 0.0


def _shares(mesh: Mesh, triangle: int, at: Point) -> Iterator[tuple[int, float]]:
    """By how much each corner of a triangle counts in the height of a place on it."""
    i, j, k = mesh.triangles[triangle]
    p, q, r = mesh.places[i], mesh.places[j], mesh.places[k]
    whole = turn_of(p, q, r)
    yield i, turn_of(q, r, at) / whole
    yield j, turn_of(r, p, at) / whole
    yield k, turn_of(p, q, at) / whole
