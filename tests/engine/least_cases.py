"""Invented rooms under a plane of least mortar, and what scipy's linprog and shapely make of them.

The judge uses nothing of the engine: the places where the thickness is held are the corners of scipy's triangles
cut by shapely, the mortar is shapely's area and centroid, the ends of doorways are reckoned here.
"""

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
import shapely
from scipy.optimize import linprog
from tests.documents import Json, room_over, turned
from tests.judges import Array, at, floor_over

from evenbed.engine.document.check import check_document
from evenbed.engine.problems import BadDocumentError, Problem
from evenbed.engine.top.designed import DesignedTop
from evenbed.engine.worked import WorkedRoom

METRE = 1000.0
LOOSE = 1e-10  # HiGHS's own tolerances, the least that it takes
COVERED = 9.525 + 4.7625  # tile and bond coat where the document says nothing
Key = tuple[str, int, tuple[float, ...]]  # what asks: kind, which hold, where (thickness alone)


def least_room(seed: int) -> Json:
    """A room of 4 to 12 corners with 4 to 18 readings, at all corners of its hull, and up to three held heights."""
    dice = random.Random(seed)
    corners = (_quadrangle, _notched, _star)[seed % 3](dice)
    angle, by = dice.uniform(0.0, math.tau) * (seed % 2), (dice.uniform(-9e3, 9e3), dice.uniform(-9e3, 9e3))
    ring = [turned(corner, angle, by) for corner in corners]
    lean, rough = (dice.gauss(0.0, 0.004), dice.gauss(0.0, 0.004)), dice.choice((0.0, 2.0, 5.0))
    shape = shapely.Polygon(ring)
    inside = [_inside(dice, shape) for _ in range(dice.randint(1, 6))]
    hull = shapely.MultiPoint(ring).convex_hull
    read = [corner for corner in ring if dice.random() < 0.6 or hull.exterior.distance(shapely.Point(corner)) < 1.0]
    spots = [(x, y, lean[0] * x + lean[1] * y + dice.gauss(0.0, rough)) for x, y in [*read, *inside]]
    middle = sum(spot[2] for spot in spots) / len(spots) + 45.0 + COVERED
    design = {"maximum_thickness": dice.choice((45.0, 60.0, 90.0))}
    top = {"kind": "least_mortar", "holds": _holds(dice, middle, inside)}
    return room_over(ring, spots, openings=_doors(dice, ring, middle), bed={**design, "top": top})


def _quadrangle(dice: random.Random) -> list[tuple[float, float]]:
    wide, deep = dice.uniform(1500.0, 6000.0), dice.uniform(1500.0, 6000.0)
    return [(0.0, 0.0), (wide, dice.uniform(-300.0, 300.0)), (wide + dice.uniform(-300.0, 300.0), deep), (0.0, deep)]


def _notched(dice: random.Random) -> list[tuple[float, float]]:
    wide, deep = dice.uniform(3000.0, 6000.0), dice.uniform(3000.0, 6000.0)
    x, y = dice.uniform(0.3, 0.8) * wide, dice.uniform(0.3, 0.8) * deep
    return [(0.0, 0.0), (wide, 0.0), (wide, y), (x, y), (x, deep), (0.0, deep)]


def _star(dice: random.Random) -> list[tuple[float, float]]:
    count = dice.randint(5, 12)
    angles = [math.tau * (n + dice.uniform(0.0, 0.7)) / count for n in range(count)]
    reach = [dice.uniform(1000.0, 3000.0) for _ in angles]
    return [(r * math.cos(a), r * math.sin(a)) for a, r in zip(angles, reach, strict=True)]


def _inside(dice: random.Random, shape: Any) -> tuple[float, float]:
    low_x, low_y, high_x, high_y = shape.bounds
    while True:
        place = dice.uniform(low_x, high_x), dice.uniform(low_y, high_y)
        if shape.contains(shapely.Point(place)) and shape.exterior.distance(shapely.Point(place)) > 50.0:
            return place


def _doors(dice: random.Random, ring: Sequence[Any], middle: float) -> list[Json]:
    walls = [math.dist(ring[n], ring[(n + 1) % len(ring)]) for n in range(len(ring))]
    doors = []
    for n in range(2):
        wall = dice.randrange(len(ring))
        start = dice.uniform(0.05, 0.5) * walls[wall]
        end, height = start + dice.uniform(0.1, 0.45) * walls[wall], middle + dice.gauss(0.0, 6.0)
        doors.append({"id": f"door {n}", "wall": wall, "from": start, "to": end, "adjoining_height": height})
    return doors


def _holds(dice: random.Random, middle: float, inside: Sequence[Any]) -> list[Json]:
    """Up to three: a doorway to be met, one between bounds, a place held up or down."""
    low, high = middle + dice.gauss(-4.0, 6.0), middle + dice.gauss(4.0, 6.0)
    given: list[Json] = [
        {"opening": "door 0"},
        {"opening": "door 1", "low": min(low, high), "high": max(low, high)},
        {"at": list(dice.choice(inside)), dice.choice(("low", "high")): middle + dice.gauss(0.0, 8.0)},
    ]
    return [hold for hold in given if dice.random() < 0.4]


@dataclass(frozen=True)
class Judge:
    """The linear programme of a room over (height over the first corner, rises across and up each metre).

    `least` are rows of factors that must come to at least `limits`; `keys` say who asks, None for what never gives.
    """

    origin: tuple[float, float]
    mortar: Array  # m³ for each unit of the unknowns
    least: Array
    limits: Array
    keys: tuple[Key | None, ...]

    def value(self, plane: Any) -> Array:
        """The engine's plane in these unknowns."""
        return np.array([plane.at(*self.origin), plane.b * METRE, plane.c * METRE])

    def solved(self, extra: Array | None = None) -> Any:
        """linprog's answer; with `extra` rows of factors of the rises, each at least its last entry."""
        asked = [n for n, key in enumerate(self.keys) if key is not None]
        rows, limits = self.least[asked], self.limits[asked]
        if extra is not None:
            rows = np.vstack([rows, np.column_stack([np.zeros(len(extra)), extra[:, :2]])])
            limits = np.concatenate([limits, extra[:, 2]])
        return _linprog(self.mortar, -rows, -limits)

    def relief(self, giving: set[Key]) -> float | None:
        """The least t by which those (told by `bare`) must give for the rest to hold, None where that cannot help."""
        gives = np.array([1.0 if key is not None and bare(key) in giving else 0.0 for key in self.keys])
        rows = np.column_stack([self.least, gives])
        rows = np.vstack([rows, [0.0, 0.0, 0.0, 1.0]])
        found = _linprog(np.array([0.0, 0.0, 0.0, 1.0]), -rows, -np.append(self.limits, 0.0))
        return float(found.fun) if found.status == 0 else None

    def without_all_but(self, asking: set[Key]) -> "Judge":
        """What only those ask, and what never gives."""
        kept = [n for n, key in enumerate(self.keys) if key is None or bare(key) in asking]
        keys = tuple(self.keys[n] for n in kept)
        return Judge(self.origin, self.mortar, self.least[kept], self.limits[kept], keys)


def _linprog(costs: Array, rows: Array, limits: Array) -> Any:
    options: Any = {"primal_feasibility_tolerance": LOOSE, "dual_feasibility_tolerance": LOOSE}
    found = linprog(costs, A_ub=rows, b_ub=limits, bounds=(None, None), method="highs", options=options)
    if found.status in (0, 2):
        return found
    return linprog(costs, A_ub=rows, b_ub=limits, bounds=(None, None), method="highs-ds")  # rarely loses its way


def bare(key: Key) -> Key:
    """What gives together: a limit of the thickness everywhere, a held height at both ends."""
    return key[0], key[1], ()


def judge_of(room: Json) -> Judge:
    """The linear programme that the document asks for."""
    shape = shapely.Polygon(room["outline"]["vertices"], room["outline"].get("cutouts", ()))
    x0, y0 = room["outline"]["vertices"][0]
    spots = [(*reading["at"], -reading["down"]) for reading in room["readings"] if "at" in reading]
    met = _met(floor_over(spots, shape))
    minimum, maximum = room["bed"].get("minimum_thickness", 31.75), room["bed"]["maximum_thickness"]
    asked: list[tuple[Key | None, Any, float, float]] = []
    for x, y, z in met:
        asked.append((("minimum_thickness", 0, (x, y)), (x, y), 1.0, z + minimum))
        asked.append((("maximum_thickness", 0, (x, y)), (x, y), -1.0, z + maximum))
        asked.append((None, (x, y), 1.0, z))
    asked += _held(room)
    rows = [[sign, sign * (x - x0) / METRE, sign * (y - y0) / METRE] for _, (x, y), sign, _ in asked]
    middle = shape.centroid
    area = shape.area / METRE**2
    mortar = area / METRE * np.array([1.0, (middle.x - x0) / METRE, (middle.y - y0) / METRE])
    limits = np.array([sign * z for _, _, sign, z in asked])
    return Judge((x0, y0), mortar, np.array(rows), limits, tuple(key for key, *_ in asked))


def _met(floor: Any) -> list[tuple[float, float, float]]:
    """Every corner of every triangle's part of the room, once, with its height."""
    found: dict[tuple[float, float], tuple[float, float, float]] = {}
    for triangle, part in floor.parts:
        places = shapely.get_coordinates(part)
        for (x, y), z in zip(places, at(triangle, places), strict=True):
            found[round(float(x), 3), round(float(y), 3)] = float(x), float(y), float(z)
    return list(found.values())


def _held(room: Json) -> list[tuple[Key | None, Any, float, float]]:
    asked: list[tuple[Key | None, Any, float, float]] = []
    doors = {door["id"]: door for door in room.get("openings", ())}
    for n, hold in enumerate(room["bed"]["top"]["holds"]):
        door = doors.get(hold.get("opening"))
        places = [hold["at"]] if door is None else _ends(room["outline"]["vertices"], door)
        low, high = hold.get("low"), hold.get("high")
        if door is not None and low is None and high is None:
            low = high = door["adjoining_height"]
        for kind, sign, limit in (("held_low", 1.0, low), ("held_high", -1.0, high)):
            asked += [((kind, n, ()), place, sign, limit - COVERED) for place in places if limit is not None]
    return asked


def _ends(ring: Sequence[Any], door: Json) -> list[tuple[float, float]]:
    (px, py), (qx, qy) = ring[door["wall"]], ring[(door["wall"] + 1) % len(ring)]
    length = math.dist((px, py), (qx, qy))
    shares = (door["from"] / length, door["to"] / length)
    return [(px + s * (qx - px), py + s * (qy - py)) for s in shares]


@cache
def judged(seed: int) -> tuple[Json, Judge, Any]:
    """An invented room, its linear programme and linprog's answer."""
    room = least_room(seed)
    judge = judge_of(room)
    return room, judge, judge.solved()


@cache
def designed(seed: int) -> DesignedTop | tuple[Problem, ...]:
    """The engine's top of an invented room, or its problems."""
    return top_of(least_room(seed))


def top_of(room: Json) -> DesignedTop | tuple[Problem, ...]:
    """The engine's top of a room, or its problems."""
    try:
        return WorkedRoom(check_document(room)[0]).designed_top
    except BadDocumentError as bad:
        return bad.problems


def best_of(room: Json) -> DesignedTop:
    """The engine's top of a room that has one."""
    found = top_of(room)
    assert isinstance(found, DesignedTop), found
    return found


def conflicts_in(room: Json) -> tuple[Problem, ...]:
    """The conflicts of a room where no plane keeps everything."""
    found = top_of(room)
    assert not isinstance(found, DesignedTop)
    return found
