"""What of the floor no place of the pattern reaches, and the places that fill it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import between, edges_of
from evenbed.engine.walk.near import Near
from evenbed.engine.walk.room import Floor
from evenbed.engine.walk.shapes import WalkPlace

FINENESS = 5  # looks at the floor in each direction within one spacing
OPEN, AT_THE_WALL = 0.85, 0.75  # of the spacing: what lies between two looks is then within one spacing too
FEET = 0.4  # of the spacing: how far from a gap the place that fills it may stand
BETWEEN_LOOKS = 0.25  # of the spacing: a little more than any place of the floor lies from the next look


@dataclass(frozen=True)
class _Look:
    """One place of the floor that is looked at, by its name, and how near a place to read must be."""

    name: str
    at: Point
    reach: float


def gap_places(floor: Floor, near: Near, spacing: float) -> tuple[list[WalkPlace], float | None]:
    """Places for what is farther than `spacing` from all in `near`, put there too, and the distance reached at last.

    That is the spacing, or more where a part of the room is too narrow for a rod's foot; None without any place.
    """
    looks = list(_looks(floor, spacing))
    feet = Near(FEET * spacing)
    for look in looks:
        feet.put(look.at)
    filled, missed = [], []
    for look in [*looks, *_wall_looks(floor, spacing)]:
        if near.distance(look.at) > look.reach:
            at = _standing(floor, feet, look.at, FEET * spacing)
            if at is None:
                missed.append(look.at)
            else:
                near.put(at)
                filled.append(WalkPlace(f"gap-{look.name}", at, "floor"))
    return filled, _reached(near, missed, spacing)


def _reached(near: Near, missed: list[Point], spacing: float) -> float | None:
    farthest = max((near.distance_at_last(at) for at in missed), default=0.0)
    return max(spacing, farthest + BETWEEN_LOOKS * spacing) if math.isfinite(farthest) else None


def _standing(floor: Floor, feet: Near, at: Point, far: float) -> Point | None:
    """Where a rod's foot can stand nearest to a place, among the places looked at; None where it cannot."""
    spots = ((round(x), round(y)) for x, y in feet.within(at, far))
    return next((spot for spot in spots if floor.holds(spot)), None)


def _looks(floor: Floor, spacing: float) -> Iterator[_Look]:
    """Looks all over the floor, in rows along its frame."""
    u0, v0, u1, v1 = floor.box
    columns, rows = (math.ceil(FINENESS * side / spacing) for side in (u1 - u0, v1 - v0))
    for row in range(rows):
        v = v0 + (v1 - v0) * (row + 0.5) / rows
        inside = list(floor.along(v))
        for column in range(columns):
            u = u0 + (u1 - u0) * (column + 0.5) / columns
            if any(low < u < high for low, high in inside):
                yield _Look(f"{row}-{column}", floor.frame.placed(u, v), OPEN * spacing)


def _wall_looks(floor: Floor, spacing: float) -> Iterator[_Look]:
    """Looks along every wall, corners among them."""
    for r, ring in enumerate(floor.figure.rings):
        for n, (p, q) in enumerate(edges_of(ring)):
            count = math.ceil(FINENESS * math.dist(p, q) / spacing)
            for k in range(count):
                yield _Look(f"{r}-{n}-{k}", between(p, q, k / count), AT_THE_WALL * spacing)
