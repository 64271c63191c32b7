"""Which lines a straightedge is laid along first: through readings, square to edges, past the corners of walls."""

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, islice
from typing import NamedTuple

from evenbed.engine.document.places import Point
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.mesh import Edge, Mesh, Way, way_through
from evenbed.engine.geometry import box_of

DIRECTIONS = 12  # or about so many, through a reading that has few others in reach
NEAR_ENOUGH = 10  # readings in reach: lines to them go in as many directions
LONG = 4.0  # a straightedge shorter than so many times an edge crosses it at three places
ACROSS = tuple((math.cos(math.radians(a)), math.sin(math.radians(a))) for a in (30.0, 60.0, 90.0, 120.0, 150.0))
MOST_PAIRS = 25_000  # of readings in reach of each other, and
MOST_KNOTS = 1_100_000  # where lines of one kind cross edges, all together: a scan has more
FEWER = 0.75  # of the readings, until they have no more pairs
MANY = 450  # edges: each of more is crossed at its middle alone
MOST_EDGES = 1500  # crossed at an angle too; of a bed of more edges each is crossed square, or every so many of them
Pair = tuple[int, int]


class Line(NamedTuple):
    """A line, an edge of the mesh that it crosses, and how far along it a straightedge may reach."""

    way: Way
    edge: Edge
    low: float
    high: float


def pairs_in_reach(surface: BedSurface, length: float, most: int | None = None) -> tuple[list[Pair], bool]:
    """Spots no further apart than a straightedge is long, each pair once; True where not all of them are told.

    Where they are more than `most` (else MOST_PAIRS, or lines of more than MOST_KNOTS), only pairs of the spots that
    stand out most are: from the bed's plane, and from the spots next to them.
    """
    places = surface.mesh.places
    most = min(MOST_PAIRS, most_lines(surface, length)) if most is None else most
    found = list(islice(_in_reach(places, range(surface.spots), length), most + 1))
    if len(found) <= most:
        return found, False
    count = surface.spots
    while len(found) > most:
        count = int(count * FEWER)
        found = list(islice(_in_reach(places, standing_out(surface, count), length), most + 1))
    return found, True


def most_lines(surface: BedSurface, length: float) -> int:
    """How many lines two straightedges long have MOST_KNOTS together where they cross edges."""
    low_x, low_y, high_x, high_y = box_of(surface.mesh.places)
    edge = math.sqrt((high_x - low_x) * (high_y - low_y) / surface.spots)
    knots = 12.0 + 2.0 * min(2.0 * length, math.hypot(high_x - low_x, high_y - low_y)) / edge
    return int(MOST_KNOTS / max(1.0, knots))


def standing_out(surface: BedSurface, count: int) -> list[int]:
    """Half of them by how far they stand off the plane, half by how far off the spots next to them."""
    heights, spokes = surface.flattened, surface.mesh.spokes
    bumps = [z - sum(heights[m] for m in near) / max(1, len(near)) for z, near in zip(heights, spokes, strict=True)]
    far = sorted(range(surface.spots), key=lambda n: -abs(heights[n]))[: count // 2]
    sharp = sorted(range(surface.spots), key=lambda n: -abs(bumps[n]))[: count - count // 2]
    return sorted({*far, *sharp})


def _in_reach(places: Sequence[Point], chosen: Iterable[int], length: float) -> Iterator[Pair]:
    cells: dict[tuple[int, int], list[int]] = defaultdict(list)
    for n in chosen:
        cells[int(places[n][0] // length), int(places[n][1] // length)].append(n)
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
    return chain(
        lines_across(surface, length),
        lines_past_corners(surface, length),
        _lines_round_lonely(surface, pairs, length),
    )


def _lines_round_lonely(surface: BedSurface, pairs: Sequence[Pair], length: float) -> Iterator[Line]:
    reached = Counter(n for pair in pairs for n in pair)
    lonely = [n for n in range(len(surface.mesh.places)) if reached[n] < NEAR_ENOUGH]
    most = most_lines(surface, length) // DIRECTIONS
    if len(lonely) > most:
        lonely = standing_out(surface, most)
    return lines_round(surface, lonely, length)


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
    """Lines through each of some points of the mesh along its edges, and half-way between each two of them."""
    mesh = surface.mesh
    for point in points:
        x, y = mesh.places[point]
        edges = sorted(math.atan2(mesh.places[n][1] - y, mesh.places[n][0] - x) for n in mesh.spokes[point])
        between = [(a + b) / 2.0 for a, b in zip(edges, [*edges[1:], edges[0] + math.tau], strict=True)]
        for angle in (*edges, *between):
            way = way_through((x, y), math.cos(angle), math.sin(angle))
            edge = mesh.edge_at(way, point)
            if edge is not None:
                yield Line(way, edge, *_about(way.along((x, y)), length))


def lines_across(surface: BedSurface, length: float) -> Iterator[Line]:
    """A line square across the middle of each edge: there a straightedge stands over a crease.

    Of more than MOST_EDGES only so many are crossed.
    """
    edges = surface.mesh.edges
    for edge in edges[:: 1 + len(edges) // (2 * MOST_EDGES)]:
        yield _across(surface.mesh, edge, length, 0.5, ACROSS[2])


def lines_askew(surface: BedSurface, length: float) -> Iterator[Line]:
    """More lines across each edge: at other angles, and at other places of long ones where edges are not MANY.

    None where they are more than MOST_EDGES.
    """
    mesh, is_many = surface.mesh, len(surface.mesh.edges) > MANY
    for edge in mesh.edges if len(mesh.edges) <= MOST_EDGES else ():
        size = math.dist(*(mesh.places[n] for n in edge))
        for share in (0.5,) if is_many or size * LONG < length else (1.0 / 6.0, 0.5, 5.0 / 6.0):
            for turned in ACROSS:
                if share != 0.5 or turned != ACROSS[2]:
                    yield _across(mesh, edge, length, share, turned)


def _across(mesh: Mesh, edge: Edge, length: float, share: float, turned: tuple[float, float]) -> Line:
    """The line across an edge at a share of it, turned from it by an angle (cos, sin)."""
    i, j = edge
    (xi, yi), (xj, yj) = mesh.places[i], mesh.places[j]
    size = math.hypot(xj - xi, yj - yi)
    along, (cos, sin) = ((xj - xi) / size, (yj - yi) / size), turned
    at = xi + share * (xj - xi), yi + share * (yj - yi)
    way = way_through(at, along[0] * cos + along[1] * sin, along[1] * cos - along[0] * sin)
    return Line(way, (j, i), *_about(way.along(at), length))


def lines_past_corners(surface: BedSurface, length: float) -> Iterator[Line]:
    """Lines past the corners of walls over read bed, to each spot in reach and along the edges beside them."""
    mesh = surface.mesh
    for corner, edges in surface.corners:
        ways = [_unit(mesh.places[i], mesh.places[j]) for i, j in edges]
        for x, y in mesh.places[: surface.spots]:
            apart = math.hypot(x - corner[0], y - corner[1])
            if 0.0 < apart <= length:
                ways.append(_unit(corner, (x, y)))
        for dx, dy in ways:
            way = way_through(corner, dx, dy)
            edge = mesh.edge_among(way, edges)
            if edge is not None:
                yield Line(way, edge, *_about(way.along(corner), length))


def _unit(p: Point, q: Point) -> Point:
    size = math.hypot(q[0] - p[0], q[1] - p[1])
    return (q[0] - p[0]) / size, (q[1] - p[1]) / size


def _about(along: float, length: float) -> tuple[float, float]:
    return along - length, along + length
