"""What shapely and scipy make of sections: which lie side by side, and where one can walk over open floor."""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

import numpy as np
from scipy.sparse import csr_array
from scipy.sparse.csgraph import breadth_first_order, shortest_path
from shapely import LinearRing, LineString, MultiPolygon, Point, Polygon, STRtree, covers, intersection, union_all
from shapely.geometry.base import BaseGeometry

STRAIGHT = 1e-3  # mm off a wall's line within which a corner is none
PROBE = 0.05  # mm: how far a side is grown to feel what it touches
GROWN = 1e-3  # mm by which floor is grown so that a way along a wall or through a shared side lies in it
Doors = dict[tuple[int, int], float]


def doors_between(parts: Sequence[Polygon]) -> Doors:
    """How long the longest straight side is that two parts share, by one part's walls in the other grown a little."""
    grown = [part.buffer(PROBE, join_style="mitre") for part in parts]
    tree = STRtree(parts)
    doors: Doors = {}
    for a, part in enumerate(parts):
        corners = part.exterior.simplify(STRAIGHT).coords
        walls = [LineString(ends) for ends in pairwise(corners)]
        for b in (int(b) for b in tree.query(grown[a]) if b > a):
            longest = max(_longest(shared) for shared in intersection(walls, grown[b]))
            if longest > 1.0:
                doors[a, b] = longest
    return doors


def _longest(line: BaseGeometry) -> float:
    return max((one.length for one in getattr(line, "geoms", [line])), default=0.0)


def reached(
    doors: Iterable[tuple[int, int]], starts: Iterable[int], open_parts: Iterable[int], count: int
) -> set[int]:
    """Open parts that can be walked to from the starts through these doors."""
    still_open = set(open_parts)
    found: set[int] = set()
    pairs = [(a, b) for a, b in doors if a in still_open and b in still_open]
    graph = _graph([(a, b, 1.0) for a, b in pairs], count)
    for start in set(starts) & still_open:
        found |= {int(i) for i in breadth_first_order(graph, start, directed=False, return_predecessors=False)}
    return found


def fewest_steps(doors: Iterable[tuple[int, int]], start: int, ends: Sequence[int], count: int) -> int:
    """Through how many doors the shortest way from a part to the nearest of these leads."""
    graph = _graph([(a, b, 1.0) for a, b in doors], count)
    steps = shortest_path(graph, directed=False, unweighted=True, indices=start)
    return int(min(steps[end] for end in ends))


def _graph(edges: Sequence[tuple[int, int, float]], count: int) -> csr_array:
    rows, columns, sizes = zip(*edges, strict=True) if edges else ((), (), ())
    return csr_array((np.array(sizes, dtype=float), (rows, columns)), shape=(count, count))


def shortest_walk(floor: Sequence[Polygon], start: Point, end: Point) -> float:
    """The shortest walk over these parts together, by the lines of sight between all their corners."""
    whole = union_all([part.buffer(GROWN, join_style="mitre") for part in floor])
    inner = union_all([part.buffer(GROWN / 2.0, join_style="mitre") for part in floor])
    places = [(start.x, start.y), (end.x, end.y), *(at for ring in rings_of(inner) for at in ring.coords[:-1])]
    pairs = [(a, b) for b in range(len(places)) for a in range(b)]
    is_seen = covers(whole, [LineString([places[a], places[b]]) for a, b in pairs])
    sights = [(a, b, math.dist(places[a], places[b])) for (a, b), seen in zip(pairs, is_seen, strict=True) if seen]
    return float(shortest_path(_graph(sights, len(places)), directed=False, indices=0)[1])


def rings_of(shape: Polygon | MultiPolygon) -> list[LinearRing]:
    """All rings of a shape of one or more pieces."""
    return [ring for one in getattr(shape, "geoms", [shape]) for ring in (one.exterior, *one.interiors)]
