"""Which lines a straightedge is laid along first: through readings, square to edges, past the corners of walls."""

import math
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from itertools import chain, islice
from typing import NamedTuple

from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.mesh import Edge, Mesh, Way, way_through

DIRECTIONS = 12  # through a reading that has few others in reach, 15 degrees apart
NEAR_ENOUGH = 10  # readings in reach: lines to them go in as many directions
LONG = 4.0  # a straightedge shorter than so many times an edge crosses it at three places
ACROSS = tuple((math.cos(math.radians(a)), math.sin(math.radians(a))) for a in (30.0, 60.0, 90.0, 120.0, 150.0))
MOST_PAIRS = 60_000  # of readings in reach of each other: a scan has more
SHORTER = 0.8  # of the reach, where there are more
Pair = tuple[int, int]


class Line(NamedTuple):
    """A line, an edge of the mesh that it crosses, and how far along it a straightedge may reach."""

    way: Way
    edge: Edge
    low: float
    high: float


def pairs_in_reach(mesh: Mesh, spots: int, length: float) -> tuple[list[Pair], bool]:
    """Spots no further apart than a straightedge is long, each pair once; True where more than MOST_PAIRS are.

    Then only some are told: the reach is made shorter.
    """
    places = mesh.places[:spots]
    reach = length
    while True:
        cells: dict[tuple[int, int], list[int]] = defaultdict(list)
        for n, (x, y) in enumerate(places):
            cells[int(x // reach), int(y // reach)].append(n)
        found = list(islice(_in_reach(places, cells, reach), MOST_PAIRS + 1))
        if len(found) <= MOST_PAIRS:
            return found, reach < length
        reach *= SHORTER


def _in_reach(
    places: Sequence[tuple[float, float]], cells: dict[tuple[int, int], list[int]], length: float
) -> Iterator[Pair]:
    for (column, row), members in cells.items():
        for i, j in ((0, 0), (1, 0), (-1, 1), (0, 1), (1, 1)):
            others = cells.get((column + i, row + j), ())
            for m in members:
                x, y = places[m]
                for n in others:
                    if (n > m or i or j) and math.hypot(places[n][0] - x, places[n][1] - y) <= length:
                        yield m, n


def first_lines(surface: BedSurface, pairs: Sequence[Pair], length: float) -> Iterator[Line]:
    """Lines square to edges, past corners of walls, and round each point of the mesh with few spots in reach."""
    reached = Counter(n for pair in pairs for n in pair)
    lonely = [n for n in range(len(surface.mesh.places)) if reached[n] < NEAR_ENOUGH]
    return chain(
        lines_across(surface, length), lines_past_corners(surface, length), lines_round(surface, lonely, length)
    )


def lines_through_two(surface: BedSurface, pairs: Sequence[Pair], length: float) -> Iterator[Line]:
    """The line through each pair of spots, as far as a straightedge that touches both can reach."""
    for m, n in pairs:
        line = _line_from(surface.mesh, m, n, length) or _line_from(surface.mesh, n, m, length)
        if line is not None:
            yield line


def _line_from(mesh: Mesh, m: int, n: int, length: float) -> Line | None:
    """The line from one spot to another; None along a rim on its left: there the way back crosses what lies on it."""
    (xm, ym), (xn, yn) = mesh.places[m], mesh.places[n]
    apart = math.hypot(xn - xm, yn - ym)
    dx, dy = (xn - xm) / apart, (yn - ym) / apart
    way = Way(dx, dy, dx * ym - dy * xm)
    edge = mesh.edge_at(way, m) or mesh.edge_at(way, n)
    if edge is None:
        return None
    begin = dx * xm + dy * ym
    return Line(way, edge, begin + apart - length, begin + length)


def lines_round(surface: BedSurface, points: Sequence[int], length: float) -> Iterator[Line]:
    """Lines through each of some points of the mesh in DIRECTIONS directions."""
    mesh = surface.mesh
    for point in points:
        for k in range(DIRECTIONS):
            angle = math.pi * k / DIRECTIONS
            way = way_through(mesh.places[point], math.cos(angle), math.sin(angle))
            edge = mesh.edge_at(way, point)
            if edge is not None:
                yield Line(way, edge, *_about(way.along(mesh.places[point]), length))


def lines_across(surface: BedSurface, length: float) -> Iterator[Line]:
    """Lines across each edge: there a straightedge stands over a crease. Long edges are crossed at several places."""
    mesh = surface.mesh
    for i, j in mesh.edges:
        (xi, yi), (xj, yj) = mesh.places[i], mesh.places[j]
        size = math.hypot(xj - xi, yj - yi)
        along = (xj - xi) / size, (yj - yi) / size
        for share in (0.5,) if size * LONG < length else (1.0 / 6.0, 0.5, 5.0 / 6.0):
            at = xi + share * (xj - xi), yi + share * (yj - yi)
            for cos, sin in ACROSS:
                dx, dy = along[0] * cos + along[1] * sin, along[1] * cos - along[0] * sin
                way = way_through(at, dx, dy)
                yield Line(way, (j, i), *_about(way.along(at), length))


def lines_past_corners(surface: BedSurface, length: float) -> Iterator[Line]:
    """Lines past the corners of walls over read bed, in DIRECTIONS directions and to each spot in reach."""
    mesh = surface.mesh
    for corner, edges in surface.corners:
        ways = [(math.cos(math.pi * k / DIRECTIONS), math.sin(math.pi * k / DIRECTIONS)) for k in range(DIRECTIONS)]
        for x, y in mesh.places[: surface.spots]:
            apart = math.hypot(x - corner[0], y - corner[1])
            if 0.0 < apart <= length:
                ways.append(((x - corner[0]) / apart, (y - corner[1]) / apart))
        for dx, dy in ways:
            way = way_through(corner, dx, dy)
            edge = mesh.edge_among(way, edges)
            if edge is not None:
                yield Line(way, edge, *_about(way.along(corner), length))


def _about(along: float, length: float) -> tuple[float, float]:
    return along - length, along + length
