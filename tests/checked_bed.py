"""Beds read when they were finished: readings of stage `bed` for room documents."""

import math
import random
from collections.abc import Callable, Iterable
from typing import Any

from tests.documents import Json, Spot, room_over

HIGH = 45.0  # mm: the top of bed over a floor at 0
FLOOR = 0.0


def rectangle(width: float, depth: float) -> list[list[float]]:
    """The corners of a room."""
    return [[0.0, 0.0], [width, 0.0], [width, depth], [0.0, depth]]


def checked_room(outline: Iterable[Iterable[float]], built: Iterable[Spot], **more: Any) -> Json:
    """A room over a level floor with a level top at HIGH, its bed read at spots (x, y, how high above the top)."""
    corners = [list(corner) for corner in outline]
    room = room_over(corners, [(x, y, FLOOR) for x, y in corners], bed={"top": {"kind": "level", "height": HIGH}})
    readings = [{"id": f"b{n}", "at": [x, y], "down": -HIGH - z, "stage": "bed"} for n, (x, y, z) in enumerate(built)]
    more_bed = more.pop("bed", {})
    room["bed"] |= more_bed
    room["readings"] += [*readings, *more.pop("more_readings", [])]
    return room | more


def over_grid(width: float, depth: float, step: float, height: Callable[[float, float], float]) -> list[Spot]:
    """A surface read on a grid, its rim on the walls."""
    columns, rows = round(width / step), round(depth / step)
    places = [(width * i / columns, depth * j / rows) for i in range(columns + 1) for j in range(rows + 1)]
    return [(x, y, height(x, y)) for x, y in places]


def random_spots(seed: int) -> tuple[float, float, list[Spot]]:
    """A random surface over a random rectangle: rough, or a wave with a lean."""
    dice = random.Random(seed)
    width, depth, count = dice.uniform(1500, 6000), dice.uniform(1500, 5000), dice.randrange(5, 45)
    places = [(dice.uniform(0, width), dice.uniform(0, depth)) for _ in range(count)]
    if dice.random() < 0.5:
        return width, depth, [(x, y, dice.gauss(0, 2)) for x, y in places]
    k, m, high = dice.uniform(0.5, 3) * math.pi / width, dice.uniform(0.5, 3) * math.pi / depth, dice.uniform(1, 6)
    waves = [(x, y, high * math.sin(k * x) * math.cos(m * y) + 0.01 * x + dice.gauss(0, 0.3)) for x, y in places]
    return width, depth, waves
