"""The bed as built against the top as designed: how high it lies, how it falls, where water would stand."""

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence

from evenbed.engine.document.places import Point, Point3
from evenbed.engine.document.room import Fixture
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.shapes import FallCheck, LevelCheck
from evenbed.engine.geometry import distance_to_ring, is_inside, nearest_on_segment
from evenbed.engine.levels_check import are_on_a_line
from evenbed.engine.surface import fitted_plane
from evenbed.engine.top.facets import BedTop, Facet

LEVEL = 1e-6  # rise over run: less is level
FALLS = 1e-3  # rise over run: a top that falls less is not asked to shed water
AS_LOW = 1e-3  # mm: places that differ by no more are as low as each other
OUTWARD = 0.25  # sine of the least angle to an edge at which a top falls out over it, not along it
FEWEST = 3  # readings that tell of a plane


def level_check_of(surface: BedSurface, top: BedTop, drain: Fixture | None) -> LevelCheck | None:
    """The readings of a bed against its designed top; None for fewer than three.

    `drain` is the one that the top falls to, None where it runs off at its edge.
    """
    spots = surface.points[: surface.spots]
    if len(spots) < FEWEST:
        return None
    mean = math.fsum(z for _, _, z in spots) / len(spots)
    rms = math.sqrt(math.fsum((z - mean) ** 2 for _, _, z in spots) / len(spots))
    high, low = max(spots, key=lambda p: p[2]), min(spots, key=lambda p: p[2])
    falls = tuple(_falls(spots, top))
    return LevelCheck(mean, rms, high[2], high[:2], low[2], low[:2], falls, standing_water(surface, top, drain))


def _falls(spots: Sequence[Point3], top: BedTop) -> Iterator[FallCheck]:
    on: dict[int, list[Point3]] = defaultdict(list)
    for x, y, z in spots:
        n = _facet_at(top.facets, (x, y))
        on[n].append((x, y, z + top.facets[n].at(x, y)))
    for n, facet in enumerate(top.facets):
        designed = math.hypot(facet.b, facet.c)
        built = on[n]
        if len(built) < FEWEST or are_on_a_line([p[:2] for p in built]):
            yield FallCheck(n, len(built), designed, None, None)
            continue
        plane = fitted_plane(built)
        fall = math.hypot(plane.b, plane.c)
        way = math.degrees(math.atan2(-plane.c, -plane.b)) % 360.0 if fall > LEVEL else None
        yield FallCheck(n, len(built), designed, fall, way)


def _facet_at(facets: Sequence[Facet], at: Point) -> int:
    """The facet that a place is on: of several the first, beyond all the nearest."""
    for n, facet in enumerate(facets):
        if is_inside(facet.polygon, *at):
            return n
    return min(range(len(facets)), key=lambda n: distance_to_ring(facets[n].polygon, at))


def standing_water(surface: BedSurface, top: BedTop, drain: Fixture | None) -> tuple[Point, ...]:
    """Read places of a falling top from which no water runs off: all round them, or round all as low beside them, the
    bed is higher, and there is no outlet.

    Every other place has a way down along the triangles. The outlet is the drain; of a top without one the rim of
    what was read, where the top as designed falls out over it.
    """
    if top.steepest < FALLS or not surface.triangles:
        return ()
    spokes = surface.mesh.spokes
    built = [z + top.at(x, y) for x, y, z in surface.points]
    found: list[int] = []
    for pool in _level_pools(built, spokes):
        is_held = all(built[m] > built[n] - AS_LOW for n in pool for m in spokes[n])
        if is_held and not any(_runs_out(surface, n, top, drain) for n in pool):
            found += [n for n in pool if n < surface.spots]
    return tuple(surface.mesh.places[n] for n in sorted(found))


def _level_pools(built: Sequence[float], spokes: Sequence[Sequence[int]]) -> Iterator[list[int]]:
    """All places, those together that are as low as one beside them."""
    left = set(range(len(built)))
    while left:
        pool, front = [], [left.pop()]
        while front:
            n = front.pop()
            pool.append(n)
            beside = [m for m in spokes[n] if m in left and abs(built[m] - built[n]) <= AS_LOW]
            left.difference_update(beside)
            front += beside
        yield pool


def _runs_out(surface: BedSurface, n: int, top: BedTop, drain: Fixture | None) -> bool:
    return _drains(surface, n, drain) if drain is not None else _is_low_edge(surface, n, top)


def _is_low_edge(surface: BedSurface, n: int, top: BedTop) -> bool:
    """True on the rim of what was read, where the top as designed falls out over it."""
    mesh, at = surface.mesh, surface.mesh.places[n]
    facet = top.facets[_facet_at(top.facets, at)]
    rim = [
        (i, j) for m in mesh.spokes[n] for i, j in ((n, m), (m, n)) if (i, j) in mesh.apex and (j, i) not in mesh.apex
    ]
    return any(_falls_over(mesh.places[i], mesh.places[j], facet) for i, j in rim)


def _falls_over(start: Point, end: Point, facet: Facet) -> bool:
    """True where a facet falls to the right of a way, no less than OUTWARD of straight across it."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    return facet.c * dx - facet.b * dy > OUTWARD * math.hypot(dx, dy) * math.hypot(facet.b, facet.c)


def _drains(surface: BedSurface, n: int, drain: Fixture) -> bool:
    """True where the drain is no further than the readings next to a place: nothing was read between."""
    at, places = surface.mesh.places[n], surface.mesh.places
    near = max(math.dist(at, places[m]) for m in surface.mesh.spokes[n])
    return math.dist(at, nearest_on_segment(drain.at, drain.to or drain.at, at)) <= near + drain.radius
