"""Cells: places where four or more readings lie on one circle, as in every square of a regular grid.

There a Delaunay triangulation may draw either diagonal, and the volume would depend on a choice nobody made. Such a
cell gets a centre instead, at the mean place and the mean height of its corners: the answer depends on no order and
no direction, keeps every reading and any plane, and over a square it equals the mean of both diagonals.
"""

import math
from collections import defaultdict

from evenbed.engine.delaunay import Triangle
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.geometry import signed_area, turn_of

ON_ONE_CIRCLE = 1e-8  # radians that opposite angles may miss two right angles by: 3 nm on a cell of 300 mm
Edge = tuple[int, int]


def edge_sides(triangles: list[Triangle]) -> dict[Edge, int]:
    """Directed edge (from, to) → the triangle on its left."""
    return {(t[i], t[(i + 1) % 3]): n for n, t in enumerate(triangles) for i in range(3)}


def with_centres(points: list[Point3], triangles: list[Triangle]) -> tuple[list[Point3], list[Triangle]]:
    """Points and triangles with every cell's triangles replaced by a fan round its centre.

    Centres are appended to the points, in the order of their places; nothing else moves.
    """
    cells = [(_ring_from(group, triangles), group) for group in _groups(points, triangles)]
    cells = sorted((ring, group) for ring, group in cells if _is_convex([points[i][:2] for i in ring]))
    rings = [ring for ring, _ in cells]
    replaced = {t for _, group in cells for t in group}
    kept = [t for n, t in enumerate(triangles) if n not in replaced]
    fans = [
        (a, ring[(k + 1) % len(ring)], len(points) + n) for n, ring in enumerate(rings) for k, a in enumerate(ring)
    ]
    return points + [_mean_of([points[i] for i in ring]) for ring in rings], kept + fans


def _groups(points: list[Point3], triangles: list[Triangle]) -> list[list[int]]:
    """Triangles joined across edges whose two opposite corners lie on one circle; only groups of two or more."""
    sides = edge_sides(triangles)
    leader = list(range(len(triangles)))
    for (i, j), left in sides.items():
        right = sides.get((j, i))
        if right is not None and i < j and _on_one_circle(points, i, j, triangles[left], triangles[right]):
            leader[_lead(leader, left)] = _lead(leader, right)
    groups: dict[int, list[int]] = defaultdict(list)
    for t in range(len(triangles)):
        groups[_lead(leader, t)].append(t)
    return [g for g in groups.values() if len(g) > 1]


def _lead(leader: list[int], t: int) -> int:
    while leader[t] != t:
        leader[t] = leader[leader[t]]
        t = leader[t]
    return t


def _on_one_circle(points: list[Point3], i: int, j: int, left: Triangle, right: Triangle) -> bool:
    k, m = sum(left) - i - j, sum(right) - i - j
    p, q, r, s = points[i], points[j], points[k], points[m]
    cos_k, sin_k = _angle(r, p, q)
    cos_m, sin_m = _angle(s, q, p)
    lengths = math.dist(r[:2], p[:2]) * math.dist(r[:2], q[:2]) * math.dist(s[:2], p[:2]) * math.dist(s[:2], q[:2])
    return abs(sin_k * cos_m + cos_k * sin_m) <= ON_ONE_CIRCLE * lengths


def _angle(apex: Point3, start: Point3, end: Point3) -> tuple[float, float]:
    """Cosine and sine of the angle at the apex, both times the lengths of its sides."""
    ux, uy, vx, vy = start[0] - apex[0], start[1] - apex[1], end[0] - apex[0], end[1] - apex[1]
    return ux * vx + uy * vy, ux * vy - uy * vx


def _ring_from(group: list[int], triangles: list[Triangle]) -> list[int]:
    """The corners round a group of triangles, anticlockwise, from the lowest-numbered."""
    edges = {(triangles[t][i], triangles[t][(i + 1) % 3]) for t in group for i in range(3)}
    onward = {a: b for a, b in edges if (b, a) not in edges}
    ring = [min(onward)]
    while (following := onward[ring[-1]]) != ring[0]:
        ring.append(following)
    return ring


def _is_convex(ring: list[Point]) -> bool:
    turns = [turn_of(p, ring[(i + 1) % len(ring)], ring[(i + 2) % len(ring)]) for i, p in enumerate(ring)]
    return min(turns) >= -1e-9 * signed_area(ring) and signed_area(ring) > 0


def _mean_of(corners: list[Point3]) -> Point3:
    n = len(corners)
    return (
        math.fsum(c[0] for c in corners) / n,
        math.fsum(c[1] for c in corners) / n,
        math.fsum(c[2] for c in corners) / n,
    )
