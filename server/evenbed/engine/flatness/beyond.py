"""How much of the bed lies under a gap, or on a hump, beyond a limit: places all over it, in several directions."""

import math

from evenbed.engine.document.places import Point
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.coverage import Coverage
from evenbed.engine.flatness.hull import is_open_over
from evenbed.engine.flatness.mesh import way_through

PLACES = 250
DIRECTIONS = 6  # 30 degrees apart


def beyond_share_of(surface: BedSurface, coverage: Coverage, length: float, limit: float) -> float:
    """Share of the bed under a gap or on a hump over `limit` mm, by PLACES places evenly over it.

    Along DIRECTIONS lines through each: a place can be beyond in no other direction alone and be missed.
    """
    step = max(1, len(coverage.places) // PLACES)
    places = coverage.places[step // 2 :: step] or coverage.places
    beyond = sum(_is_beyond(surface, at, length, limit) for at in places)
    return beyond / len(places)


def _is_beyond(surface: BedSurface, at: Point, length: float, limit: float) -> bool:
    edges, flat = surface.edges_round(at), surface.flattened
    if not edges:
        return False
    heights = [flat[n] for edge in edges for n in edge]
    if max(heights) - min(flat) <= limit and max(flat) - min(heights) <= limit:
        return False
    return any(_is_beyond_along(surface, at, edges, k, length, limit) for k in range(DIRECTIONS))


def _is_beyond_along(
    surface: BedSurface, at: Point, edges: tuple[tuple[int, int], ...], k: int, length: float, limit: float
) -> bool:
    angle = math.pi * k / DIRECTIONS
    way, mesh = way_through(at, math.cos(angle), math.sin(angle)), surface.mesh
    along = way.along(at)
    course = mesh.course_along(way, mesh.edge_among(way, edges), along - length, along + length)
    if course is None:
        return False
    return any(is_open_over(part, along, length, limit) for part in course.profiles(surface.flattened))
