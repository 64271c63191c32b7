"""Plane geometry of rings: area, membership, clipping, and exact integrals of a plane over a polygon.

A ring is a closed polygon as a tuple of (x, y) points in mm, the last joined to the first. Anticlockwise rings
count positive and clockwise rings negative, so a room with cutouts is its outer ring and its holes, added up.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from evenbed.engine.document.fields import height
from evenbed.engine.document.places import Point, Point3

Ring = tuple[Point, ...]
Box = tuple[float, float, float, float]  # x low, y low, x high, y high
TOUCHES = 1e-6  # mm: nearer than this a cutout touches a wall or another cutout and does not cross it


@dataclass(frozen=True)
class Plane:
    """z = a + b x + c y."""

    a: float = height(about="Height at the origin")
    b: float = height(about="Rise per mm along x")
    c: float = height(about="Rise per mm along y")

    def at(self, x: float, y: float) -> float:
        """Its height at (x, y)."""
        return self.a + self.b * x + self.c * y

    def over(self, points: Iterable[Point]) -> list[float]:
        """Its heights at many points."""
        a, b, c = self.a, self.b, self.c
        return [a + b * x + c * y for x, y in points]

    def minus(self, other: "Plane") -> "Plane":
        """The plane of the differences in height."""
        return Plane(self.a - other.a, self.b - other.b, self.c - other.c)


def plane_through(p: Point3, q: Point3, r: Point3) -> Plane:
    """The plane through three points. Raises ZeroDivisionError where they stand on one line."""
    ux, uy, uz = q[0] - p[0], q[1] - p[1], q[2] - p[2]
    vx, vy, vz = r[0] - p[0], r[1] - p[1], r[2] - p[2]
    turn = ux * vy - uy * vx
    b = (uz * vy - uy * vz) / turn
    c = (ux * vz - uz * vx) / turn
    return Plane(p[2] - b * p[0] - c * p[1], b, c)


def edges_of(ring: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    """The ring's edges in order, the closing one last."""
    return zip(ring, (*ring[1:], *ring[:1]), strict=True)


def edge_of(ring: Sequence[Point], n: int) -> tuple[Point, Point]:
    """The edge from corner n to the next."""
    return ring[n], ring[(n + 1) % len(ring)]


def between(p: Point, q: Point, share: float) -> Point:
    """The point at a share of the way from p to q: p at 0, q at 1 but for rounding."""
    return p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])


def turn_of(p: Point, q: Point, r: Point) -> float:
    """Twice the signed area of p, q, r: positive where they turn left."""
    return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])


def signed_area(ring: Sequence[Point]) -> float:
    """Area in mm², positive for an anticlockwise ring; 0 for fewer than three points."""
    if len(ring) < 3:
        return 0.0
    x0, y0 = ring[0]
    return 0.5 * math.fsum((p[0] - x0) * (q[1] - y0) - (q[0] - x0) * (p[1] - y0) for p, q in edges_of(ring))


def perimeter_of(ring: Sequence[Point]) -> float:
    """Length of the closed ring in mm."""
    return math.fsum(math.dist(p, q) for p, q in edges_of(ring))


def box_of(points: Iterable[Point]) -> Box:
    """The upright rectangle round at least one point."""
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def boxes_meet(a: Box, b: Box) -> bool:
    """True where two boxes share at least a point."""
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]


def is_inside(ring: Sequence[Point], x: float, y: float) -> bool:
    """True where (x, y) lies inside the ring, by counting crossings; on the edge either answer may come."""
    inside = False
    for (px, py), (qx, qy) in edges_of(ring):
        if (py > y) != (qy > y) and x < (qx - px) * (y - py) / (qy - py) + px:
            inside = not inside
    return inside


def nearest_on_segment(p: Point, q: Point, at: Point) -> Point:
    """The point of segment pq nearest to `at`."""
    dx, dy = q[0] - p[0], q[1] - p[1]
    square = dx * dx + dy * dy
    along = 0.0 if square == 0 else ((at[0] - p[0]) * dx + (at[1] - p[1]) * dy) / square
    return between(p, q, min(1.0, max(0.0, along)))


def distance_to_ring(ring: Sequence[Point], at: Point) -> float:
    """Distance in mm from `at` to the nearest point of the ring's edges, inside or outside."""
    return min(math.dist(at, nearest_on_segment(p, q, at)) for p, q in edges_of(ring))


def clipped(ring: Sequence[Point], keep: Plane) -> Ring:
    """The part of a ring where keep.at(x, y) >= 0.

    A concave ring may come back with edges along the cut that run there and back: areas and integrals stay exact.
    """
    sides = keep.over(ring)
    if min(sides) >= 0:
        return tuple(ring)
    if max(sides) < 0:
        return ()
    kept: list[Point] = []
    for (p, q), side, next_side in zip(edges_of(ring), sides, (*sides[1:], sides[0]), strict=True):
        if side >= 0:
            kept.append(p)
        if (side < 0) != (next_side < 0):
            kept.append(between(p, q, side / (side - next_side)))
    return tuple(kept)


def left_of(p: Point, q: Point) -> Plane:
    """The half-plane to the left of the line from p to q, as a plane that is positive there."""
    dx, dy = q[0] - p[0], q[1] - p[1]
    return Plane(dy * p[0] - dx * p[1], -dy, dx)


def clipped_to_convex(ring: Sequence[Point], convex: Sequence[Point]) -> Ring:
    """The part of a ring inside an anticlockwise convex ring."""
    part = tuple(ring)
    for p, q in edges_of(convex):
        if len(part) < 3:
            return ()
        part = clipped(part, left_of(p, q))
    return part


class Moments(NamedTuple):
    """What every integral over a ring is made of: twice its area (mm²) and its moments (mm³), with the ring's sign.

    Worked from the ring's own first point, so that a room far from the origin loses no digits.
    """

    x: float
    y: float
    area: float
    moment_x: float
    moment_y: float

    def integral(self, plane: Plane) -> float:
        """The exact integral of a plane, mm³."""
        level = plane.a + plane.b * self.x + plane.c * self.y
        return level * self.area / 2.0 + plane.b * self.moment_x / 6.0 + plane.c * self.moment_y / 6.0


def moments_of(ring: Sequence[Point]) -> Moments:
    """The moments of a ring; none of fewer than three points."""
    if len(ring) < 3:
        return Moments(0.0, 0.0, 0.0, 0.0, 0.0)
    x0, y0 = ring[0]
    area = moment_x = moment_y = 0.0
    for p, q in edges_of(ring):
        px, py, qx, qy = p[0] - x0, p[1] - y0, q[0] - x0, q[1] - y0
        cross = px * qy - qx * py
        area += cross
        moment_x += (px + qx) * cross
        moment_y += (py + qy) * cross
    return Moments(x0, y0, area, moment_x, moment_y)


def integral_over(ring: Sequence[Point], plane: Plane) -> float:
    """The exact integral of a plane over a ring, mm³, with the ring's sign."""
    return moments_of(ring).integral(plane)


def meeting_of(p: Point, q: Point, r: Point, s: Point) -> tuple[float, float] | None:
    """Where the lines through pq and rs meet, as shares of pq and of rs; None where they are parallel."""
    dx, dy, ex, ey = q[0] - p[0], q[1] - p[1], s[0] - r[0], s[1] - r[1]
    turn = dx * ey - dy * ex
    if turn == 0:
        return None
    return ((r[0] - p[0]) * ey - (r[1] - p[1]) * ex) / turn, ((r[0] - p[0]) * dy - (r[1] - p[1]) * dx) / turn


def crossing_of(p: Point, q: Point, r: Point, s: Point) -> Point | None:
    """Where segments pq and rs cross or touch, None where they do not or run along each other."""
    meeting = meeting_of(p, q, r, s)
    if meeting is None or not (0.0 <= meeting[0] <= 1.0 and 0.0 <= meeting[1] <= 1.0):
        return None
    return between(p, q, meeting[0])
