"""Places that lie side by side along the rails made one ring, so that a setter has a short list.

Places touch only across the rails, where one begins and the other ends. A place joins others where it touches them
along one stretch and no more, so that what they make has no hole.
Everything here is in the rails' frame: u along, v across, mm.
"""

import math
from collections import defaultdict
from collections.abc import Callable, Hashable, Iterator, Sequence
from itertools import pairwise

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Ring, edges_of, signed_area
from evenbed.engine.rails.hand import Place, shared, without_repeats
from evenbed.engine.rails.lines import ROUNDING, without_straight_corners
from evenbed.engine.touching import traced

SLIVER = 100.0  # mm²: a smaller place takes the name of a neighbour, if it has one
SAME_PLACE = 3  # digits after the point of a mm to which corners are one

_Touching = dict[int, list[int]]


def groups_of(places: Sequence[Place], label: Callable[[Place], Hashable]) -> Iterator[list[int]]:
    """Places (by number) that make one ring and bear the same label, the largest first in each group."""
    touching = _touching(places)
    labels = _labels(places, touching, label)
    order = sorted(range(len(places)), key=lambda i: (-places[i].area, i))
    loose = set(order)
    for first in order:
        if first in loose:
            group = _grown(first, touching, {i for i in loose if labels[i] == labels[first]})
            loose -= group
            together = [i for i in order if i in group]
            yield from [together] if _is_simple([places[i] for i in together]) else [[i] for i in together]


def joined_ring(places: Sequence[Place]) -> Ring:
    """The one ring round places that make one, anticlockwise."""
    return places[0].ring if len(places) == 1 else without_straight_corners(_traced(places))


def _is_simple(places: Sequence[Place]) -> bool:
    """Whether places that make one ring nowhere touch beside it, as at the corner of a cutout they may.

    Then a corner comes twice, or the ring runs all round the cutout and holds more than the places do.
    """
    if len(places) == 1:
        return True
    ring, area = _traced(places), math.fsum(place.area for place in places)
    corners = {(round(u, SAME_PLACE), round(v, SAME_PLACE)) for u, v in ring}
    return len(corners) == len(ring) and abs(signed_area(ring) - area) < SLIVER


def _traced(places: Sequence[Place]) -> Ring:
    upright: dict[float, list[tuple[float, float]]] = defaultdict(list)
    edges: list[tuple[Point, Point]] = []
    for place in places:
        for a, b in edges_of(place.corners):
            if a[0] == b[0]:
                upright[a[0]].append((a[1], b[1]))
            else:
                edges.append((a, b))
    for u, ways in upright.items():
        edges += _left_standing(u, ways)
    # Beside the ring there are at most specks, where corners differ by a rounding.
    return without_repeats(max(traced(edges), key=signed_area))


def _left_standing(u: float, ways: Sequence[tuple[float, float]]) -> Iterator[tuple[Point, Point]]:
    """Of the upright edges at `u` those stretches that do not run both ways."""
    for low, high in pairwise(sorted({v for way in ways for v in way})):
        net = sum((a <= low and high <= b) - (b <= low and high <= a) for a, b in ways)
        if net > 0:
            yield (u, low), (u, high)
        elif net < 0:
            yield (u, high), (u, low)


def _touching(places: Sequence[Place]) -> _Touching:
    """Which places each touches, named as often as they touch."""
    begins: dict[float, list[tuple[int, int]]] = defaultdict(list)
    for i, place in enumerate(places):
        for n, cell in enumerate(place.cells):
            begins[cell.start].append((i, n))
    found: _Touching = {i: [] for i in range(len(places))}
    for i, place in enumerate(places):
        for cell in place.cells:
            for j, n in begins[cell.end]:
                if i != j and shared(cell, places[j].cells[n]) > ROUNDING:
                    found[i].append(j)
                    found[j].append(i)
    return found


def _labels(places: Sequence[Place], touching: _Touching, label: Callable[[Place], Hashable]) -> list[Hashable]:
    """Each place's label; slivers take that of the largest place they touch."""
    named = [
        max([i, *touching[i]], key=lambda j: places[j].area) if p.area < SLIVER else i for i, p in enumerate(places)
    ]
    return [label(places[i]) for i in named]


def _grown(first: int, touching: _Touching, alike: set[int]) -> set[int]:
    """The first place with all those alike that join it one by one, each along one stretch."""
    group, edge = {first}, list(touching[first])
    while edge:
        i = edge.pop()
        if i in alike and i not in group and sum(j in group for j in touching[i]) == 1:
            group.add(i)
            edge += touching[i]
    return group
