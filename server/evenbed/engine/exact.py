"""Exact predicates: questions of left and right, inside and outside, answered in whole numbers.

Coordinates are snapped to a grid of 2**-20 mm (a nanometre) and asked about as Python integers, which never round.
The heights and areas of the plan use the coordinates as given; the snapped ones only decide what joins what.
"""

from evenbed.engine.document.places import Point

STEPS_PER_MM = 2**20
Spot = tuple[int, int]


def snapped(at: Point) -> Spot:
    """The point in whole steps."""
    return round(at[0] * STEPS_PER_MM), round(at[1] * STEPS_PER_MM)


def turn(p: Spot, q: Spot, r: Spot) -> int:
    """Positive where p, q, r turn left, negative where right, 0 on one line."""
    return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])


def is_in_circle(p: Spot, q: Spot, r: Spot, s: Spot) -> bool:
    """True where s lies strictly inside the circle through the left-turning p, q, r."""
    ax, ay, bx, by, cx, cy = p[0] - s[0], p[1] - s[1], q[0] - s[0], q[1] - s[1], r[0] - s[0], r[1] - s[1]
    return (
        (ax * ax + ay * ay) * (bx * cy - cx * by)
        - (bx * bx + by * by) * (ax * cy - cx * ay)
        + (cx * cx + cy * cy) * (ax * by - bx * ay)
    ) > 0


def do_cross(p: Spot, q: Spot, r: Spot, s: Spot) -> bool:
    """True where the closed segments pq and rs share any point."""
    d1, d2, d3, d4 = turn(r, s, p), turn(r, s, q), turn(p, q, r), turn(p, q, s)
    if _differ(d1, d2) and _differ(d3, d4):
        return True
    on = ((d1, r, s, p), (d2, r, s, q), (d3, p, q, r), (d4, p, q, s))
    return any(d == 0 and _is_between(a, b, c) for d, a, b, c in on)


def _differ(a: int, b: int) -> bool:
    return (a > 0 and b < 0) or (a < 0 and b > 0)


def _is_between(a: Spot, b: Spot, c: Spot) -> bool:
    return min(a[0], b[0]) <= c[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])


def hull_of(spots: list[Spot]) -> list[Spot]:
    """The convex hull, anticlockwise, without points on its edges; fewer than three where all lie on one line."""
    ordered = sorted(set(spots))
    if len(ordered) < 3:
        return ordered
    lower, upper = _chain(ordered), _chain(ordered[::-1])
    return lower[:-1] + upper[:-1]


def _chain(ordered: list[Spot]) -> list[Spot]:
    chain: list[Spot] = []
    for spot in ordered:
        while len(chain) > 1 and turn(chain[-2], chain[-1], spot) <= 0:
            chain.pop()
        chain.append(spot)
    return chain
