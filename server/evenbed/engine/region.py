"""Regions: areas with straight sides, holes and all, cut along straight lines. Exact, no grid.

A ring is a tuple of (x, y) in mm, simple, without a repeated last point. A region's outer ring runs anticlockwise
and its holes clockwise, so that the area is always to the left of an edge. A hole may touch the outer ring, or
another hole, at single points.

Cutting keeps one side at a time and takes the line a hair inside that side: no corner then lies on the line, and
every way out of the kept side meets its way back in. A corner within `ON_LINE` of the line counts as on it and is
itself the place of the crossing.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Box, Ring, between, box_of, is_inside, perimeter_of, signed_area

Interval = tuple[float, float]
_Chain = list[Point]

ONE_PLACE = 1e-6  # mm along a way: nearer ends of stretches are one
ON_LINE = 1e-7  # mm: far below anything a tape shows, far above rounding in coordinates of a kilometre
_Key = tuple[float, float]


@dataclass(frozen=True)
class Region:
    """One connected area: `outer` anticlockwise, `holes` clockwise."""

    outer: Ring
    holes: tuple[Ring, ...] = ()

    @property
    def rings(self) -> tuple[Ring, ...]:
        """All rings, the outer one first."""
        return (self.outer, *self.holes)

    @property
    def area(self) -> float:
        """Area in mm², the holes taken out."""
        return math.fsum(signed_area(ring) for ring in self.rings)

    @property
    def box(self) -> Box:
        """Least x, least y, largest x, largest y."""
        return box_of(self.outer)


def chords_at(region: Region, point: Point, direction: Point) -> tuple[Interval, ...]:
    """Where a line runs inside the region, as intervals along it.

    The line passes through `point` along `direction` (any length but zero); distances are mm from `point`. Along an
    edge that lies on the line, the right-hand side of the line decides.
    """
    dx, dy = _unit(direction)
    crossings = sorted(t for ring in region.rings for t in _crossings(ring, point, (dx, dy)))
    chords: list[Interval] = []
    for start, end in zip(crossings[::2], crossings[1::2], strict=True):
        if chords and start - chords[-1][1] <= ON_LINE:
            chords[-1] = (chords[-1][0], end)
        elif end - start > ON_LINE:
            chords.append((start, end))
    return tuple(chords)


def stretches_along(regions: Iterable[Region], start: Point, end: Point) -> list[Interval]:
    """Where a straight way runs inside the regions or along their edges: from and to, mm from its start, in order.

    Both ways along the line are looked at, for an edge that lies on it has its region on one side only.
    """
    length, (dx, dy) = math.dist(start, end), (end[0] - start[0], end[1] - start[1])
    chords: list[Interval] = []
    for region in regions:
        chords += chords_at(region, start, (dx, dy))
        chords += ((-high, -low) for low, high in chords_at(region, start, (-dx, -dy)))
    found: list[Interval] = []
    for first, last in sorted(chords):
        low, high = max(0.0, first), min(length, last)
        if found and low - found[-1][1] <= ONE_PLACE:
            found[-1] = found[-1][0], max(found[-1][1], high)
        elif high - low > ONE_PLACE:
            found.append((low, high))
    return found


def split_by_line(
    regions: Iterable[Region], point: Point, direction: Point
) -> tuple[tuple[Region, ...], tuple[Region, ...]]:
    """The parts left and right of the line through `point` along `direction` (any length but zero).

    Parts that touch only at a corner are separate; slivers no wider than `ON_LINE` are left out.
    """
    dx, dy = _unit(direction)
    whole = tuple(regions)
    left = tuple(part for region in whole for part in _left_of(region, point, (dx, dy)))
    right = tuple(part for region in whole for part in _left_of(region, point, (-dx, -dy)))
    return left, right


def _unit(direction: Point) -> Point:
    size = math.hypot(*direction)
    return (direction[0] / size, direction[1] / size)


def _offsets(ring: Ring, point: Point, unit: Point) -> list[float]:
    """How far left of the line each corner lies; 0 on it."""
    (px, py), (dx, dy) = point, unit
    raw = [dx * (y - py) - dy * (x - px) for x, y in ring]
    return [0.0 if abs(s) <= ON_LINE else s for s in raw]


def _crossings(ring: Ring, point: Point, unit: Point) -> Iterable[float]:
    """Distances along the line at which the ring crosses it, corners on it counted as left of it."""
    sides = _offsets(ring, point, unit)
    for a, b, sa, sb in _edges_with_sides(ring, sides):
        if (sa >= 0.0) != (sb >= 0.0):
            yield _along(_between(a, b, sa, sb), point, unit)


def _edges_with_sides(ring: Ring, sides: list[float]) -> Iterable[tuple[Point, Point, float, float]]:
    return zip(ring, (*ring[1:], ring[0]), sides, (*sides[1:], sides[0]), strict=True)


def _between(a: Point, b: Point, sa: float, sb: float) -> Point:
    """Where the edge meets the line; the corner itself where that lies on it. The same from either end."""
    if sa == 0.0 or sb == 0.0:
        return a if sa == 0.0 else b
    if sa > sb:
        a, b, sa, sb = b, a, sb, sa
    return between(a, b, sa / (sa - sb))


def _along(at: Point, point: Point, unit: Point) -> float:
    return (at[0] - point[0]) * unit[0] + (at[1] - point[1]) * unit[1]


def _left_of(region: Region, point: Point, unit: Point) -> list[Region]:
    sides = [_offsets(ring, point, unit) for ring in region.rings]
    if min(sides[0]) >= 0.0:
        return [region]
    if max(sides[0]) <= 0.0:
        return []
    whole, chains, outs, ins = _chains(region, sides, point, unit)
    return regions_from_rings(whole + _closed(chains, outs, ins))


def _chains(
    region: Region, sides: list[list[float]], point: Point, unit: Point
) -> tuple[list[Ring], list[_Chain], list[_Key], list[_Key]]:
    """What of the rings lies left of the line: rings that stay whole; chains, with where each leaves and enters."""
    whole: list[Ring] = []
    chains: list[_Chain] = []
    outs: list[_Key] = []
    ins: list[_Key] = []
    for ring, offsets in zip(region.rings, sides, strict=True):
        if min(offsets) > 0.0:
            whole.append(ring)
        elif max(offsets) > 0.0:
            _walk(ring, offsets, point, unit, (chains, outs, ins))
    return whole, chains, outs, ins


def _walk(
    ring: Ring, offsets: list[float], point: Point, unit: Point, into: tuple[list[_Chain], list[_Key], list[_Key]]
) -> None:
    """Collect a ring's chains, beginning at an edge that comes in from the right or from the line."""
    chains, outs, ins = into
    first = next(i for i, s in enumerate(offsets) if s <= 0.0 < offsets[(i + 1) % len(ring)])
    ring, offsets = ring[first:] + ring[:first], offsets[first:] + offsets[:first]
    for a, b, sa, sb in _edges_with_sides(ring, offsets):
        if sa <= 0.0 < sb:
            ins.append(_key(a, b, (sa, sb), point, unit))
            chains.append([_between(a, b, sa, sb)])
        if sa > 0.0:
            chains[-1].append(a)
        if sb <= 0.0 < sa:
            outs.append(_key(b, a, (sb, sa), point, unit))
            chains[-1].append(_between(a, b, sa, sb))


def _key(low: Point, high: Point, sides: tuple[float, float], point: Point, unit: Point) -> _Key:
    """Where an edge crosses, and which way it leans: the order of crossings a hair left of the line."""
    t = _along(_between(low, high, *sides), point, unit)
    lean = (_along(high, point, unit) - _along(low, point, unit)) / (sides[1] - sides[0])
    return (t, lean)


def _closed(chains: list[_Chain], outs: list[_Key], ins: list[_Key]) -> list[Ring]:
    """Join chains along the line: the n-th way out along it leads to the n-th way in."""
    order = range(len(chains))
    leaving = sorted(order, key=outs.__getitem__)
    entering = sorted(order, key=ins.__getitem__)
    following = dict(zip(leaving, entering, strict=True))
    rings: list[Ring] = []
    while following:
        at = next(iter(following))
        points: _Chain = []
        while at in following:
            points += chains[at]
            at = following.pop(at)
        rings.append(tuple(points))
    return rings


def regions_from_rings(rings: Iterable[Ring]) -> list[Region]:
    """Regions from rings that share corners at most, outer ones anticlockwise and holes clockwise; no slivers."""
    simple = [part for ring in rings for part in _untied(_without_repeats(ring))]
    areas = [signed_area(ring) for ring in simple]
    real = [(r, a) for r, a in zip(simple, areas, strict=True) if not _is_sliver(r, a)]
    outers = [ring for ring, area in real if area > 0.0]
    holes = [ring for ring, area in real if area < 0.0]
    if len(outers) == 1:
        return [Region(outers[0], tuple(holes))]
    # Rings of one region may share corners, never edges: the middle of an edge tells where a hole belongs.
    return [Region(outer, tuple(h for h in holes if is_inside(outer, *between(h[0], h[1], 0.5)))) for outer in outers]


def _is_sliver(ring: Ring, area: float) -> bool:
    return len(ring) < 3 or abs(area) <= ON_LINE * perimeter_of(ring)


def _without_repeats(ring: Ring) -> Ring:
    kept = [b for a, b in zip((ring[-1], *ring[:-1]), ring, strict=True) if math.dist(a, b) > ON_LINE]
    return tuple(kept)


def _untied(ring: Ring) -> list[Ring]:
    """Rings that meet themselves at a corner, taken apart there."""
    seen: dict[Point, int] = {}
    for i, point in enumerate(ring):
        if point in seen:
            j = seen[point]
            return _untied(ring[j:i]) + _untied(ring[:j] + ring[i:])
        seen[point] = i
    return [ring]
