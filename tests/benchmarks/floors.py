"""One L-shaped room with a column, read at as many places as wanted."""

import json
import math
import random
from typing import Any

CORNERS = [[0.0, 0.0], [6000.0, 0.0], [6000.0, 2500.0], [3500.0, 2500.0], [3500.0, 5000.0], [0.0, 5000.0]]
COLUMN = [[1000.0, 1000.0], [1300.0, 1000.0], [1300.0, 1300.0], [1000.0, 1300.0]]


def read_floor(count: int, seed: int = 1) -> dict[str, Any]:
    """A room document with `count` readings (at least the six corners), the same for the same seed."""
    dice = random.Random(seed)
    places = list(CORNERS)
    while len(places) < count:
        x, y = dice.uniform(0.0, 6000.0), dice.uniform(0.0, 5000.0)
        in_column = 1000.0 < x < 1300.0 and 1000.0 < y < 1300.0
        if (x < 3500.0 or y < 2500.0) and not in_column:
            places.append([x, y])
    readings = [{"down": 1200.0 - _height(x, y) + dice.gauss(0.0, 0.6), "at": [x, y]} for x, y in places]
    return {"document": 1, "outline": {"vertices": CORNERS, "cutouts": [COLUMN]}, "readings": readings}


def read_anew(document: dict[str, Any], times: int, first: int = 1) -> list[str]:
    """The document as text, the first reading a thousandth of a mm lower each time: no answer kept will do for it."""
    own, *others = document["readings"]
    lower = [{**own, "down": own["down"] + n / 1000.0} for n in range(first, first + times)]
    return [json.dumps({**document, "readings": [one, *others]}) for one in lower]


def _height(x: float, y: float) -> float:
    return 5.0 * math.sin(x / 900.0) * math.cos(y / 700.0)
