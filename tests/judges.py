"""An independent reckoning of the bed: scipy's triangles, shapely's overlaps, numpy's planes.

Nothing of the engine is used. Readings on one circle are found by exact fractions and share a centre at their mean,
as the contract wants it.
"""

import math
from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import numpy as np
import numpy.typing as npt
import shapely
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from scipy.spatial import Delaunay

Array = npt.NDArray[np.float64]
Triangle = Array  # 3 × 3: corners as rows of x, y, z
Exact = tuple[Fraction, Fraction]
Height = Callable[[Array], Array]  # x, y in two columns → z of the top

GRID = 1e-7  # mm: moves an edge of 10 m by 1e-11 of the room's area
DOUBTFUL = 1e-9  # relative: a determinant this small may be rounding of zero
LEAST_PART = 1e-4  # mm²: parts of triangles that rounding alone leaves along walls


@dataclass(frozen=True)
class Judged:
    """Volume in m³, areas in m², thickness in mm."""

    volume: float
    too_thin_area: float
    too_thick_area: float
    least: float
    greatest: float


@dataclass(frozen=True)
class Floor:
    """A shapely polygon, and scipy's triangles with the room's part in each."""

    room: Any
    parts: tuple[tuple[Triangle, Any], ...]


def floor_over(spots: Sequence[Sequence[float]], room: Any) -> Floor:
    """The floor of a shapely polygon read at `spots`."""
    pairs = ((triangle, cut(room, triangle[:, :2])) for triangle in triangles_over(spots))
    return Floor(room, tuple((triangle, part) for triangle, part in pairs if part.area > LEAST_PART))


def judge_bed(floor: Floor, top: Height, minimum: float, maximum: float) -> Judged:
    """The bed over a floor, under `top`."""
    volume, thin, thick, met = [], [], [], []
    for triangle, part in floor.parts:
        plane = np.column_stack([triangle[:, :2], top(triangle[:, :2]) - triangle[:, 2]])
        mortar, thicker, enough = (above(floor.room, part, plane, limit) for limit in (0.0, maximum, minimum))
        volume.append(mortar.area * at(plane, mortar.centroid.coords)[0] if mortar.area else 0.0)
        thick.append(thicker.area)
        thin.append(part.area - enough.area)
        met += list(at(plane, shapely.get_coordinates(part)))
    areas = math.fsum(thin) / 1e6, math.fsum(thick) / 1e6
    return Judged(math.fsum(volume) / 1e9, *areas, min(met), max(met))


def cut(room: Any, corners: Array) -> Any:
    """The room inside a triangle or quadrangle. Off every grid, GEOS 3.14 loses some overlaps that share a corner."""
    return shapely.intersection(room, shapely.Polygon(corners), grid_size=GRID)


def at(plane: Triangle, places: Any) -> Array:
    """Heights at places of the plane through three points."""
    a = plane[0]
    slope = np.linalg.solve(plane[1:, :2] - a[:2], plane[1:, 2] - a[2])
    return np.asarray(a[2] + (np.asarray(places)[:, :2] - a[:2]) @ slope)


def above(room: Any, part: Any, plane: Triangle, limit: float) -> Any:
    """Where the room, in a triangle's part of it, stands above a limit."""
    if plane[:, 2].min() >= limit:
        return part
    if plane[:, 2].max() <= limit:
        return shapely.Polygon()
    kept = []
    for p, q in zip(plane, np.roll(plane, -1, axis=0), strict=True):
        kept += [p[:2]] if p[2] >= limit else []
        if (p[2] >= limit) != (q[2] >= limit):
            kept.append(p[:2] + (limit - p[2]) / (q[2] - p[2]) * (q[:2] - p[:2]))
    return cut(room, np.array(kept))


def triangles_over(spots: Sequence[Sequence[float]]) -> list[Triangle]:
    """scipy's triangles, those on one circle replaced by a fan round the mean of their corners."""
    points = np.array(spots, dtype=float)
    found = Delaunay(points[:, :2] - points[:, :2].mean(axis=0))
    groups: dict[int, list[int]] = defaultdict(list)
    for n, group in enumerate(_cells(points, found)):
        groups[group].append(n)
    triangles: list[Triangle] = []
    for members in groups.values():
        corners = [points[found.simplices[n]] for n in members]
        triangles += corners if len(members) == 1 else _fan(np.unique(np.vstack(corners), axis=0))
    return triangles


def _cells(points: Array, found: Any) -> npt.NDArray[np.int32]:
    """A number for each triangle, the same for those on one circle."""
    count = len(found.simplices)
    pairs = [(n, int(m)) for n in range(count) for m in found.neighbors[n] if m > n]
    same = [(n, m) for n, m in pairs if _on_one_circle(points, found.simplices[n], found.simplices[m])]
    rows, columns = ([p[k] for p in same] for k in (0, 1))
    graph = coo_array((np.ones(len(same)), (rows, columns)), shape=(count, count))
    labels: npt.NDArray[np.int32] = connected_components(graph, directed=False)[1]
    return labels


def _on_one_circle(points: Array, one: Array, other: Array) -> bool:
    """Whether the fourth corner of two neighbours lies on the circle of the others: floats doubt, fractions say."""
    (apart,) = set(map(int, other)) - set(map(int, one))
    away = points[one, :2] - points[apart, :2]
    rows = np.column_stack([away, (away**2).sum(axis=1)])
    if abs(np.linalg.det(rows)) > DOUBTFUL * np.linalg.norm(rows, axis=1).prod():
        return False
    return _circle(*((Fraction(float(x)), Fraction(float(y))) for x, y in points[[*one, apart], :2])) == 0


def _circle(a: Exact, b: Exact, c: Exact, d: Exact) -> Fraction:
    """Zero where four places lie on one circle."""
    (ax, ay), (bx, by), (cx, cy) = ((x - d[0], y - d[1]) for x, y in (a, b, c))
    sa, sb, sc = (x * x + y * y for x, y in ((ax, ay), (bx, by), (cx, cy)))
    return sa * (bx * cy - cx * by) - sb * (ax * cy - cx * ay) + sc * (ax * by - bx * ay)


def _fan(corners: Array) -> list[Triangle]:
    """Triangles from the corners' mean to each side, the corners taken by their bearing from it."""
    middle = corners.mean(axis=0)
    bearing = np.arctan2(corners[:, 1] - middle[1], corners[:, 0] - middle[0])
    ring = corners[np.argsort(bearing)]
    return [np.array([middle, p, q]) for p, q in zip(ring, np.roll(ring, -1, axis=0), strict=True)]
