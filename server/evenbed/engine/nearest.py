"""The nearest of many places to each of them, found on a grid of cells."""

import math
from collections import defaultdict
from collections.abc import Sequence

from evenbed.engine.document.places import Point, Point3

IN_A_CELL = 4.0  # places to a cell of the grid on average, so that the first look finds enough

Cells = dict[tuple[int, int], list[int]]


def nearest_of(places: Sequence[Point3], count: int) -> list[list[int]]:
    """For each place (mm) the `count` nearest others on plan, or all where there are fewer: the nearest first.

    Of equally near ones those of lesser x, then y, then z come first, so that the order given leaves no trace.
    """
    side = _side_of(places)
    cells: Cells = defaultdict(list)
    for n, (x, y, _) in enumerate(places):
        cells[math.floor(x / side), math.floor(y / side)].append(n)
    return [_nearest_to(n, places, cells, side, count) for n in range(len(places))]


def _side_of(places: Sequence[Point3]) -> float:
    xs, ys = [p[0] for p in places], [p[1] for p in places]
    wide, deep = max(xs, default=0.0) - min(xs, default=0.0), max(ys, default=0.0) - min(ys, default=0.0)
    share = IN_A_CELL / max(1, len(places))
    return max(1.0, math.sqrt(wide * deep * share), max(wide, deep) * share)


def _nearest_to(n: int, places: Sequence[Point3], cells: Cells, side: float, count: int) -> list[int]:
    """Looks into more and more cells round the place, until nothing nearer can lie beyond them."""
    here, rings = places[n][:2], 1
    while True:
        is_all = (2 * rings + 1) ** 2 > len(places)
        seen = range(len(places)) if is_all else _in_block(here, cells, side, rings)
        found = sorted((math.dist(here, places[m][:2]), places[m], m) for m in seen if m != n)[:count]
        if is_all or (len(found) == count and found[-1][0] < rings * side):
            return [m for _, _, m in found]
        rings *= 2


def _in_block(here: Point, cells: Cells, side: float, rings: int) -> list[int]:
    i, j = math.floor(here[0] / side), math.floor(here[1] / side)
    around = range(-rings, rings + 1)
    return [m for di in around for dj in around for m in cells.get((i + di, j + dj), ())]
