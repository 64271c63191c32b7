"""An L-shaped room of 30 m² with all that may stand in it and on hand: the one whose plan a person waits for."""

import math
import random
from typing import Any

CORNERS = [[0, 0], [7000, 0], [7000, 2800], [4200, 2800], [4200, 5400], [0, 5400]]
HEARTH = [[4400, 0], [5200, 0], [5200, 650], [4400, 650]]  # mm; 30 m² without it
READINGS = 60
AT_WORK = "2026-03-02T08:{minute:02}:00+00:00"


def laid_room(moved: float = 0.0, readings: int = READINGS) -> dict[str, Any]:
    """The room's document; `moved` mm taken off one reading make it another floor."""
    rows = _readings(readings)
    rows[-1]["down"] += moved
    return {
        "document": 1,
        "outline": {"vertices": CORNERS, "cutouts": [[[x, y + 900] for x, y in HEARTH]]},
        "readings": rows,
        "openings": [
            {"id": "door", "wall": 0, "from": 900, "to": 1800, "exit": True, "adjoining_height": 45.0},
            {"id": "kitchen", "wall": 4, "from": 1200, "to": 2100, "adjoining_height": 44.0},
        ],
        "fixtures": [
            {"id": "post", "kind": "post", "at": [1900, 3300], "radius": 60},
            {"id": "flange", "kind": "flange", "at": [6300, 500], "radius": 90, "height": 60.0},
        ],
        "rails": {
            "straightedges": [1219.2],
            "strips": [
                {"thickness": 19.05, "length": 2438.4, "count": 4},
                {"thickness": 25.4, "length": 1828.8, "count": 2},
            ],
        },
    }


def _readings(count: int) -> list[dict[str, Any]]:
    """The corners, and places all over the room, none in the hearth."""
    dice = random.Random(30)
    places = [(float(x), float(y)) for x, y in CORNERS]
    while len(places) < count:
        x, y = dice.uniform(0.0, 7000.0), dice.uniform(0.0, 5400.0)
        if (x < 4200.0 or y < 2800.0) and not (4400.0 < x < 5200.0 and 900.0 < y < 1550.0):
            places.append((x, y))
    downs = [1200.0 - _height(x, y) + dice.gauss(0.0, 0.6) for x, y in places]
    return [{"id": f"r{n}", "down": down, "at": at} for n, (down, at) in enumerate(zip(downs, places, strict=True))]


def _height(x: float, y: float) -> float:
    return 5.0 * math.sin(x / 900.0) * math.cos(y / 700.0)
