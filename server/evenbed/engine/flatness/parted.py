"""Triangles between readings that a wall or a cutout cuts right through: the bed beside it is not joined there.

A wall that only reaches into a triangle leaves it whole, for the bed goes round the wall's end. A cell whose corners
lie on one circle has its middle from all of them, so that it is parted as a whole.
"""

import math
from collections.abc import Iterable, Iterator, Sequence

from evenbed.engine.delaunay import Triangle
from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Ring, box_of, boxes_meet, crossing_of, edges_of
from evenbed.engine.region import Region, split_by_line


def parted_triangles(
    places: Sequence[Point], triangles: Iterable[Triangle], cells: Sequence[Sequence[int]], regions: Sequence[Region]
) -> frozenset[frozenset[int]]:
    """Those whose part in the room falls into pieces, as sets of their corners. The last `places` are the cells'."""
    walls = [(p, q) for region in regions for ring in region.rings for p, q in edges_of(ring)]
    spots = len(places) - len(cells)
    in_pieces = {n for n, cell in enumerate(cells, start=spots) if _is_parted(_around(places, cell), walls, regions)}
    return frozenset(frozenset(one) for one in triangles if _is_in(one, in_pieces, spots, places, walls, regions))


def _is_in(
    triangle: Triangle,
    in_pieces: set[int],
    spots: int,
    places: Sequence[Point],
    walls: Sequence[tuple[Point, Point]],
    regions: Sequence[Region],
) -> bool:
    middles = [n for n in triangle if n >= spots]
    if middles:
        return any(n in in_pieces for n in middles)
    return _is_parted(tuple(places[n] for n in triangle), walls, regions)


def _around(places: Sequence[Point], cell: Sequence[int]) -> Ring:
    """The corners of a cell, anticlockwise."""
    corners = [places[n] for n in cell]
    x, y = (math.fsum(at[k] for at in corners) / len(corners) for k in (0, 1))
    return tuple(sorted(corners, key=lambda at: math.atan2(at[1] - y, at[0] - x)))


def _is_parted(ring: Ring, walls: Sequence[tuple[Point, Point]], regions: Sequence[Region]) -> bool:
    crossed = sum(any(_do_cross(p, q, wall) for wall in walls) for p, q in edges_of(ring))
    return crossed > 1 and len(list(_pieces(ring, regions))) > 1


def _do_cross(p: Point, q: Point, wall: tuple[Point, Point]) -> bool:
    return boxes_meet(box_of((p, q)), box_of(wall)) and crossing_of(p, q, *wall) is not None


def _pieces(ring: Ring, regions: Sequence[Region]) -> Iterator[Region]:
    """What of a convex ring lies in the room."""
    parts = tuple(regions)
    for a, b in edges_of(ring):
        parts, _ = split_by_line(parts, a, (b[0] - a[0], b[1] - a[1]))
    yield from parts
