"""Floors with bumps, and what of a floor stands above a height, by shapely and numpy."""

import math
from typing import Any

from tests.documents import SQUARE, Json, plan_of, room_over
from tests.judges import Floor, above, at

PRICES = {"cement_bag": 20.0, "sand": 60.0, "labour": {"hour": 50.0}}
MINIMUM = 31.75  # mm: the least thickness of an unbonded bed
Spot = tuple[float, float, float]


def bump(x: float, y: float, high: float, half: float = 500.0) -> list[Spot]:
    """A pyramid: its foot is a square on its corner, 2 × half² in area."""
    foot = [(x - half, y), (x + half, y), (x, y - half), (x, y + half)]
    return [(x, y, high), *((px, py, 0.0) for px, py in foot)]


def over(*bumps: list[Spot], **more: Any) -> Json:
    return room_over(SQUARE, [*((x, y, 0.0) for x, y in SQUARE), *(s for b in bumps for s in b)], **more)


def rows_of(document: Json) -> list[Json]:
    return list(plan_of(document)["bed"]["chipping"])


def judged(floor: Floor, level: float) -> tuple[float, float]:
    """Area in m² and volume in m³ of the subfloor above a height, by shapely and numpy."""
    area, volume = [], []
    for triangle, part in floor.parts:
        high = above(floor.room, part, triangle, level)
        if high.area:
            area.append(high.area)
            volume.append(high.area * (at(triangle, high.centroid.coords)[0] - level))
    return math.fsum(area) / 1e6, math.fsum(volume) / 1e9
