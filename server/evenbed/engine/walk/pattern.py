"""The pattern of places to read: doorways, corners, fixtures, walls, a grid, and whatever none of them reaches."""

import math
from collections.abc import Iterable, Iterator, Sequence

from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Opening
from evenbed.engine.walk.edges import corner_places, cutout_places, doorway_places, fixture_places, wall_places
from evenbed.engine.walk.gaps import gap_places
from evenbed.engine.walk.near import Near
from evenbed.engine.walk.room import Floor
from evenbed.engine.walk.shapes import WalkPlace

MOST_PLACES = 150  # more than anybody reads in one go; common practice, no source
LEAST_SPACING = 400.0  # mm: closer readings tell hardly more; common practice, no source
COARSER = 1.1
APART = 100.0  # mm: no two places are nearer, for a rod's foot would cover both


def spacing_for(floor: Floor, straightedge: float) -> float:
    """How close the pattern is to be, mm.

    Half the straightedge, so that wherever it is laid it bridges no ground without a reading; less in a small room,
    which then has three places along its side; more in a room that would need more than MOST_PLACES.
    """
    area, walls = floor.figure.area * 1e6, floor.figure.perimeter
    enough = (walls + math.sqrt(walls * walls + 4 * area * MOST_PLACES)) / (2 * MOST_PLACES)
    return max(LEAST_SPACING, enough, min(straightedge / 2, math.sqrt(area) / 3))


def pattern_over(
    floor: Floor, openings: Sequence[Opening], straightedge: float
) -> tuple[list[WalkPlace], float | None]:
    """The places, in no order of walking, and within what distance every place of the floor has one, if any."""
    spacing, fixed = spacing_for(floor, straightedge), _fixed_places(floor, openings)
    places, reach = _pattern(floor, fixed, spacing)
    while len(places) > MOST_PLACES:
        spacing *= max(COARSER, math.sqrt(len(places) / MOST_PLACES) / 2)
        places, reach = _pattern(floor, fixed, spacing)
    return places, reach


_Layer = tuple[float, Iterable[WalkPlace]]


def _fixed_places(floor: Floor, openings: Sequence[Opening]) -> list[_Layer]:
    """The places that the room itself gives, the weightiest first, and how far apart they stay, as a share of the
    spacing."""
    return [
        (0.1, list(doorway_places(floor, openings))),
        (0.25, list(corner_places(floor))),
        (0.1, list(fixture_places(floor, floor.fixtures))),
        (0.35, list(cutout_places(floor))),
    ]


def _pattern(floor: Floor, fixed: list[_Layer], spacing: float) -> tuple[list[WalkPlace], float | None]:
    kept: list[WalkPlace] = []
    near = Near(spacing)
    for share, found in (*fixed, (0.35, wall_places(floor, spacing)), (0.5, _grid_places(floor, spacing))):
        kept += _spread(near, found, max(APART, share * spacing))
    more, reach = gap_places(floor, near, spacing)
    return kept + more, reach


def _spread(near: Near, places: Iterable[WalkPlace], apart: float) -> Iterator[WalkPlace]:
    """The places that stand no nearer than `apart` to one kept before."""
    for place in places:
        at = (round(place.at[0]), round(place.at[1]))
        if near.distance(at) >= apart:
            near.put(at)
            yield WalkPlace(place.id, at, place.kind)


def _grid_places(floor: Floor, spacing: float) -> Iterator[WalkPlace]:
    """A grid square to the longest wall, in rows and columns no farther apart than `spacing`, clear of the walls."""
    u0, v0, u1, v1 = floor.box
    columns, rows = math.ceil((u1 - u0) / spacing), math.ceil((v1 - v0) / spacing)
    for row in range(1, rows):
        v = v0 + (v1 - v0) * row / rows
        inside = list(floor.along(v))
        for column in range(1, columns):
            u = u0 + (u1 - u0) * column / columns
            if any(low < u < high for low, high in inside):
                at: Point = floor.frame.placed(u, v)
                if floor.holds(at, 0.45 * spacing):
                    yield WalkPlace(f"grid-{row}-{column}", at, "floor")
