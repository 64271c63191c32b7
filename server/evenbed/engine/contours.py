"""Contours: lines of equal height over a surface, joined up, at a round interval."""

import math
from collections import defaultdict
from dataclasses import dataclass
from itertools import groupby

from evenbed.engine.document.fields import described, height
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.geometry import between
from evenbed.engine.surface import Surface

ROUND_STEPS = (1.0, 2.0, 5.0)
MOST_CONTOURS = 10


@dataclass(frozen=True)
class Contour:
    """All lines at one height, over the readings' hull: a drawing cuts them at the room's walls."""

    z: float = height(about="Height of these lines")
    lines: tuple[tuple[Point, ...], ...] = described(
        about="Each an open line, or closed where the ends are one point"
    )


def contour_interval(low: float, high: float) -> float:
    """The smallest of 1, 2, 5, 10, 20... mm that makes at most MOST_CONTOURS lines between two heights."""
    interval, k = ROUND_STEPS[0], 0
    while (high - low) / interval > MOST_CONTOURS:
        k += 1
        interval = ROUND_STEPS[k % 3] * 10.0 ** (k // 3)
    return interval


def contours_of(surface: Surface) -> tuple[Contour, ...]:
    """The contours of a surface at round heights; none where it is flat."""
    heights = [p[2] for p in surface.points]
    low, high = min(heights), max(heights)
    interval = contour_interval(low, high)
    levels = [k * interval for k in range(math.floor(low / interval) + 1, math.ceil(high / interval))]
    found = ((z, _lines_at(surface, z)) for z in levels)
    return tuple(Contour(z, lines) for z, lines in found if lines)


def _lines_at(surface: Surface, z: float) -> tuple[tuple[Point, ...], ...]:
    """Lines where the surface stands at z. A vertex exactly at z counts as above it, so that lines never fork."""
    ends: dict[tuple[int, int], list[tuple[int, int]]] = defaultdict(list)
    for t in surface.triangles:
        cut = [_edge(t[i], t[(i + 1) % 3]) for i in range(3) if _is_cut(surface, t[i], t[(i + 1) % 3], z)]
        if len(cut) == 2:
            ends[cut[0]].append(cut[1])
            ends[cut[1]].append(cut[0])
    lines = ([_point_on(surface, e, z) for e in chain] for chain in _chains(ends))
    return tuple(tuple(p for p, _ in groupby(line)) for line in lines)


def _edge(i: int, j: int) -> tuple[int, int]:
    return (i, j) if i < j else (j, i)


def _is_cut(surface: Surface, i: int, j: int, z: float) -> bool:
    return (surface.points[i][2] < z) != (surface.points[j][2] < z)


def _point_on(surface: Surface, edge: tuple[int, int], z: float) -> Point:
    p: Point3 = surface.points[edge[0]]
    q: Point3 = surface.points[edge[1]]
    share = (z - p[2]) / (q[2] - p[2])
    return between(p[:2], q[:2], share)


def _chains(ends: dict[tuple[int, int], list[tuple[int, int]]]) -> list[list[tuple[int, int]]]:
    """Follow cut edges from triangle to triangle: open lines first, from their ends, then closed ones."""
    chains = []
    left = dict(ends)
    for start in [*(e for e, n in sorted(ends.items()) if len(n) == 1), *sorted(ends)]:
        if start in left:
            chains.append(_follow(start, left))
    return chains


def _follow(start: tuple[int, int], left: dict[tuple[int, int], list[tuple[int, int]]]) -> list[tuple[int, int]]:
    chain = [start]
    onward = left.pop(start)
    while True:
        following = next((e for e in onward if e in left), None)
        if following is None:
            break
        chain.append(following)
        onward = left.pop(following)
    if len(chain) > 2 and start in onward:
        chain.append(start)
    return chain
