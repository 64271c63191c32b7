"""The plane top through given points: level through one, leaning along the line between two, exact through three.

More points than three must stand in one plane, which is then their least-squares plane.
"""

import math
from collections.abc import Sequence

from evenbed.engine.document.places import Point3
from evenbed.engine.geometry import Plane, plane_through, turn_of
from evenbed.engine.problems import BadDocumentError, Problem, problem_at
from evenbed.engine.surface import fitted_plane
from evenbed.engine.top.designed import STEEPEST

PATH = "bed.top.through"
ON_A_LINE = 1 / 1000  # of their length: points that stand closer to one line fix no plane
APART = 1.0  # mm: points nearer than this are one place
OFF_PLANE = 0.5  # mm that a point may be off the plane of the others: what a rod is read to


def plane_of(points: Sequence[Point3]) -> Plane:
    """The plane through points. Raises BadDocumentError where they fix none, or one too steep to be a floor."""
    if not points:
        raise BadDocumentError([problem_at(PATH, "top_without_points")])
    plane = _along(points) if len(points) < 3 else _across(points)
    slope = math.hypot(plane.b, plane.c)
    if slope > STEEPEST:
        raise BadDocumentError([problem_at(PATH, "top_too_steep", slope=round(slope, 3), most=STEEPEST)])
    return plane


def shares_of(points: Sequence[Point3]) -> list[Plane]:
    """How the plane follows the height of each point; none for more points than it takes to fix a plane."""
    if len(points) > 3:
        return []
    fixed = range(len(points))
    lifted = ([(x, y, float(k == n)) for k, (x, y, _) in enumerate(points)] for n in fixed)
    return [plane_through(*three) if len(three) == 3 else _along(three) for three in lifted]


def _along(points: Sequence[Point3]) -> Plane:
    """Level square to the line between the first point and the last, which may be the same one."""
    (px, py, pz), (qx, qy, qz) = points[0], points[-1]
    run = math.dist((px, py), (qx, qy))
    if len(points) == 1:
        return Plane(pz, 0.0, 0.0)
    if run < APART:
        raise BadDocumentError([problem_at(PATH, "top_same_place", x=px, y=py)])
    slope = (qz - pz) / run
    b, c = slope * (qx - px) / run, slope * (qy - py) / run
    return Plane(pz - b * px - c * py, b, c)


def _across(points: Sequence[Point3]) -> Plane:
    if _are_on_a_line(points):
        raise BadDocumentError([problem_at(PATH, "top_on_a_line")])
    if len(points) == 3:
        return plane_through(*points)
    worst, off = _least_borne_out(points)
    if abs(off) > OFF_PLANE:
        raise BadDocumentError([_off_plane(points, worst, off)])
    return fitted_plane(points)


def _are_on_a_line(points: Sequence[Point3]) -> bool:
    places = [p[:2] for p in points]
    p = max(places, key=lambda at: math.dist(places[0], at))
    q = max(places, key=lambda at: math.dist(p, at))
    return max(abs(turn_of(p, q, r)) for r in places) <= ON_A_LINE * max(1.0, math.dist(p, q)) ** 2


def _off_plane(points: Sequence[Point3], n: int, by: float) -> Problem:
    x, y, _ = points[n]
    return problem_at(f"{PATH}[{n}]", "top_off_plane", point=n + 1, x=x, y=y, by=round(by, 3), most=OFF_PLANE)


def _least_borne_out(points: Sequence[Point3]) -> tuple[int, float]:
    """The point that the others bear out least, and how far it stands above their least-squares plane.

    It has the largest studentized residual, of equal ones the last typed; a residual grows by one over its freedom
    when its point is left out (S. Weisberg, Applied Linear Regression; from memory). A point without freedom is one
    that the others, on a line, leave alone to fix the plane.
    """
    plane = fitted_plane(points)
    misses = [z - plane.at(x, y) for x, y, z in points]
    freedoms = [max(freedom, ON_A_LINE**2) for freedom in _freedoms(points)]
    worst = max(range(len(points)), key=lambda n: (round(abs(misses[n]) / math.sqrt(freedoms[n]), 6), n))
    return worst, misses[worst] / freedoms[worst]


def _freedoms(points: Sequence[Point3]) -> list[float]:
    """For each point 1 less its share in its own fitted height, between 0 and 1."""
    mx, my = (math.fsum(p[k] for p in points) / len(points) for k in range(2))
    away = [(x - mx, y - my) for x, y, _ in points]
    xx, xy, yy = (math.fsum(d[i] * d[j] for d in away) for i, j in ((0, 0), (0, 1), (1, 1)))
    det = xx * yy - xy * xy
    return [1 - 1 / len(points) - (yy * u * u - 2 * xy * u * v + xx * v * v) / det for u, v in away]
