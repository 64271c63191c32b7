"""Invented scans: rooms whose floor is known everywhere, with all that stands in the way of seeing it."""

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import plyfile

from evenbed.scans.reducing import readings_from
from evenbed.scans.room import Room
from evenbed.scans.wishes import Wishes
from evenbed.wire.scans import ScanReply

Array = npt.NDArray[np.float64]
Floor = Callable[[Array, Array], Array]
CORNERS = ((0.0, 0.0), (6000.0, 0.0), (6000.0, 2500.0), (3500.0, 2500.0), (3500.0, 5000.0), (0.0, 5000.0))
COLUMN = ((1000.0, 1000.0), (1000.0, 1300.0), (1300.0, 1300.0), (1300.0, 1000.0))
ROOM = Room((CORNERS, COLUMN))
SQUARE = Room((((0.0, 0.0), (3000.0, 0.0), (3000.0, 2400.0), (0.0, 2400.0)),))
NOISE = 2.0  # mm, of a single point


def wavy(x: Array, y: Array) -> Array:
    """A domestic floor: out of level by 1 in 150, waves of 4 mm every two and a half metres."""
    return 870.0 + x / 150.0 - y / 300.0 + 4.0 * np.sin(x / 400.0) * np.cos(y / 430.0)


def level(x: Array, _y: Array) -> Array:
    """As flat as can be."""
    return np.zeros_like(x)


@dataclass
class Scan:
    """Points seen in a room, mm. Every `add` is deterministic."""

    room: Room
    floor: Floor
    noise: float = NOISE
    seed: int = 1
    parts: list[Array] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.dice = np.random.default_rng(self.seed)

    @property
    def points(self) -> Array:
        """All of them, in an order that says nothing."""
        return self.dice.permutation(np.concatenate(self.parts))

    def _add(self, x: Array, y: Array, z: Array) -> "Scan":
        noise = self.dice.normal(0.0, self.noise, (len(x), 3))
        self.parts.append(np.column_stack((x, y, z)) + noise)
        return self

    def add_floor(self, count: int) -> "Scan":
        """The floor, seen evenly, a hand's breadth beyond the walls too where there are doors."""
        low_x, low_y, high_x, high_y = self.room.box
        x, y = self.dice.uniform(low_x, high_x, count), self.dice.uniform(low_y, high_y, count)
        seen = self.room.holds(x, y)
        x, y = x[seen], y[seen]
        z = self.floor(x, y)
        self.parts.append(np.column_stack((x, y, z + self.dice.normal(0.0, self.noise, len(x)))))
        return self

    def add_walls(self, count: int, height: float = 2400.0) -> "Scan":
        """Every wall and the column's sides, from the floor up."""
        for ring in self.room.rings:
            for (px, py), (qx, qy) in zip(ring, (*ring[1:], ring[0]), strict=True):
                along = self.dice.uniform(0, 1, count)
                x, y = px + along * (qx - px), py + along * (qy - py)
                self._add(x, y, self.floor(x, y) + self.dice.uniform(0, height, count))
        return self

    def add_ceiling(self, count: int) -> "Scan":
        """Two and a half metres up, seen better than the floor."""
        x, y = (self.dice.uniform(low, high, count) for low, high in ((0, 6000), (0, 5000)))
        return self._add(x, y, self.floor(x, y) + 2500.0)

    def add_legs(self, places: list[tuple[float, float]], count: int = 400) -> "Scan":
        """Legs of 40 mm, 700 mm tall, seen from all sides."""
        for x, y in places:
            side = self.dice.uniform(-20, 20, (2, count))
            side[self.dice.integers(0, 2, count), np.arange(count)] = self.dice.choice([-20, 20], count)
            height = self.dice.uniform(0, 700, count)
            self._add(x + side[0], y + side[1], self.floor(x + side[0], y + side[1]) + height)
        return self

    def add_strays(self, count: int, low: float = -500.0, high: float = 2500.0) -> "Scan":
        """Points in the air and, off shiny things, below the floor."""
        x, y = self.dice.uniform(0, 6000, count), self.dice.uniform(0, 5000, count)
        return self._add(x, y, self.floor(x, y) + self.dice.uniform(low, high, count))

    def add_table(
        self, low: tuple[float, float], high: tuple[float, float], count: int, top: float = 720.0
    ) -> "Scan":
        """A table top, and nothing to be seen of the floor beneath it."""
        for n, part in enumerate(self.parts):
            is_under = (part[:, :2] > low).all(axis=1) & (part[:, :2] < high).all(axis=1) & (part[:, 2] < 1500)
            self.parts[n] = part[~is_under]
        x, y = self.dice.uniform(low[0], high[0], count), self.dice.uniform(low[1], high[1], count)
        return self._add(x, y, self.floor(x, y) + top)


def furnished(seed: int = 1, floor: Floor = wavy, points: int = 400_000) -> Scan:
    """The L-shaped room with everything in it."""
    scan = Scan(ROOM, floor, seed=seed).add_floor(points).add_walls(points // 50).add_ceiling(points // 2)
    legs = [(2000.0, 3000.0), (2050.0, 3900.0), (3010.0, 3060.0), (5210.0, 700.0), (517.0, 4333.0)]
    return scan.add_legs(legs).add_strays(points // 20)


def save_xyz(path: Path, points: Array, mm: float = 1.0, separator: str = " ") -> Path:
    """The points as text, in a unit of so many mm."""
    np.savetxt(path, points / mm, fmt="%.6f", delimiter=separator)
    return path


def save_ply(path: Path, points: Array, mm: float = 1.0, kind: str = "f8", **told: Any) -> Path:
    """The points as a PLY file, written by an independent library."""
    rows = np.empty(len(points), [(axis, kind) for axis in "xyz"])
    for n, axis in enumerate("xyz"):
        rows[axis] = points[:, n] / mm
    told = told or {"byte_order": "<"}
    plyfile.PlyData([plyfile.PlyElement.describe(rows, "vertex")], **told).write(str(path))
    return path


def read(path: Path, room: Room, **wishes: object) -> ScanReply:
    """The readings, as the service and the command make them."""
    return readings_from(path, room, Wishes(**wishes), lambda _stage, _done: None)  # type: ignore[arg-type]


def errors(reply: ScanReply, floor: Floor) -> Array:
    """By how much every reading is higher than the floor is there, mm."""
    places = np.array([one.at for one in reply.readings])
    heights = np.array([one.z for one in reply.readings])
    return heights - floor(places[:, 0], places[:, 1])
