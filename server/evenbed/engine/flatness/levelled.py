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
    """Read places of a falling top that lie lower than all round them, and have no drain beside them.

    Every other place has a way down along the triangles. A top without a drain sheds water at its edge, so that a
    place on the rim of what was read holds none.
    """
    if top.steepest < FALLS or not surface.triangles:
        return ()
    mesh = surface.mesh
    built = [z + top.at(x, y) for x, y, z in surface.points]
    rim = {n for i, j in mesh.apex if (j, i) not in mesh.apex for n in (i, j)}
    found = []
    for n, at in enumerate(mesh.places):
        is_held = (drain is not None or n not in rim) and all(built[m] > built[n] for m in mesh.spokes[n])
        if is_held and not (drain is not None and _drains(surface, n, drain)):
            found.append(at)
    return tuple(found)


def _drains(surface: BedSurface, n: int, drain: Fixture) -> bool:
    """True where the drain is no further than the readings next to a place: nothing was read between."""
    at, places = surface.mesh.places[n], surface.mesh.places
    near = max(math.dist(at, places[m]) for m in surface.mesh.spokes[n])
    return math.dist(at, nearest_on_segment(drain.at, drain.to or drain.at, at)) <= near + drain.radius
