"""Simulated floors whose true volume is known: rooms of several figures, read as the app proposes and with errors.

The floors are those of `tests.floors` (joist bays, hollows, bumps, waves, sheet joints) and three more makes:
`fields` drawn from Gaussian or exponential covariances by random waves, `even` ones that lean and are hardly uneven,
and `slab`, long fields with a ridge. None is drawn from the engine's own covariance. Readings stand where the
engine's walk puts them, some skipped, each up to 60 mm beside its place. Half the set-ups declare their true error,
half the usual 1 mm.
"""

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely

from evenbed.engine.bridge import answer_text
from tests.floors import MAKES as DOMESTIC
from tests.floors import STEEPEST, Array, Dice, Height
from tests.rooms import polygon_of, random_room

Json = dict[str, Any]
CELL = 40.0  # mm: the grid that true volumes are summed over
WAVES = 200


@dataclass(frozen=True)
class Simulated:
    """A room read once: its document without a bed, its true subfloor, and the error of one reading, mm."""

    make: str
    document: Json
    height: Height
    error: float

    @property
    def room(self) -> shapely.Polygon:
        """The room's figure."""
        return polygon_of(self.document)

    def cells(self) -> Array:
        """Places all over the room, CELL apart."""
        x0, y0, x1, y1 = self.room.bounds
        x, y = np.meshgrid(np.arange(x0 + CELL / 2, x1, CELL), np.arange(y0 + CELL / 2, y1, CELL))
        places = np.column_stack([x.ravel(), y.ravel()])
        return np.asarray(places[shapely.contains_xy(self.room, places)])

    def read_at(self, places: Any, dice: Dice) -> list[Json]:
        """Readings at places, each with an error of its own; ids follow the readings there are."""
        heights = self.height(np.asarray(places, dtype=float).reshape(-1, 2)) + dice.normal(
            0.0, self.error, len(places)
        )
        first = len(self.document["readings"])
        rows = enumerate(zip(places, heights, strict=True))
        return [
            {"id": f"r{first + n}", "setup": "s", "at": [float(x), float(y)], "down": -float(z)}
            for n, ((x, y), z) in rows
        ]


def simulated(seed: int, skipped: tuple[float, float] = (0.0, 0.3)) -> Simulated:
    """One simulated room, the same for the same seed; `skipped` is how much of the walk is left out, from and to."""
    dice = np.random.default_rng([20_260, seed])
    outline = _outline(seed, dice)
    room = polygon_of({"outline": outline})
    make = str(dice.choice(sorted(KINDS)))
    height = _height(make, dice, room)
    error = float(dice.uniform(0.5, 1.5))
    declared = error if dice.random() < 0.5 else 1.0
    document = {
        "document": 1,
        "outline": outline,
        "setups": [{"id": "s", "kind": "laser", "sigma": declared, "line_height": 0.0}],
        "readings": [],
        "bed": {"maximum_thickness": 200.0},
    }
    bare = Simulated(make, document, height, error)
    readings = bare.read_at(_walked(outline, room, dice, skipped), dice)
    return Simulated(make, document | {"readings": readings}, height, error)


def _outline(seed: int, dice: Dice) -> Json:
    """A rectangle one time in three, else a figure with notches, turned or slanted, with its cutouts."""
    if dice.random() < 1.0 / 3.0:
        width, depth = dice.uniform(1500.0, 8000.0, 2)
        return {"vertices": [[0.0, 0.0], [width, 0.0], [width, depth], [0.0, depth]], "cutouts": []}
    outline: Json = random_room(seed)["outline"]
    return outline


def _walked(outline: Json, room: shapely.Polygon, dice: Dice, skipped: tuple[float, float]) -> Array:
    """The places the engine proposes for a straightedge of some length, some of them skipped."""
    question = {"outline": outline, "rails": {"straightedge": float(dice.uniform(1200.0, 3600.0))}}
    answer = json.loads(answer_text("walk", json.dumps(question)))
    places = np.array([place["at"] for place in answer["places"]])
    beside = places + dice.uniform(-60.0, 60.0, places.shape)
    inside = shapely.contains_xy(room, beside)
    places = np.where(inside[:, None], beside, places)
    kept = dice.random(len(places)) >= dice.uniform(*skipped)
    kept[:4] = True
    return np.asarray(places[kept])


def _height(make: str, dice: Dice, room: shapely.Polygon) -> Height:
    x0, y0, x1, y1 = room.bounds
    slope, way = dice.uniform(0.0, STEEPEST), dice.uniform(0.0, 2.0 * np.pi)
    lean = slope * np.array([np.cos(way), np.sin(way)])
    corner = np.array([x0, y0])
    own = KINDS[make](dice, x1 - x0, y1 - y0)
    return lambda at: own(at - corner) + at @ lean


def _field(dice: Dice, spread: float, reach: float, *, rough: bool) -> Height:
    """Random waves with a Gaussian covariance of that reach, or with an exponential one where rough."""
    numbers = dice.normal(0.0, 1.0, (2, WAVES)) / reach
    if rough:
        numbers = numbers / np.abs(dice.normal(0.0, 1.0, WAVES))
    start = dice.uniform(0.0, 2.0 * np.pi, WAVES)
    return lambda at: np.asarray(spread * np.sqrt(2.0 / WAVES) * np.cos(at @ numbers + start).sum(axis=1))


def _fields(dice: Dice, _width: float, _depth: float) -> Height:
    return _field(dice, dice.uniform(1.0, 6.0), dice.uniform(500.0, 3000.0), rough=bool(dice.random() < 0.5))


def _even(dice: Dice, _width: float, _depth: float) -> Height:
    return _field(dice, dice.uniform(0.1, 0.8), dice.uniform(100.0, 500.0), rough=False)


def _slab(dice: Dice, width: float, depth: float) -> Height:
    """A long field and a ridge across the room, 2 to 8 mm high and 0.3 to 1 m to either side."""
    long = _field(dice, dice.uniform(1.0, 5.0), dice.uniform(2000.0, 5000.0), rough=False)
    way, rise, side = dice.uniform(0.0, np.pi), dice.uniform(2.0, 8.0), dice.uniform(300.0, 1000.0)
    across, middle = np.array([np.cos(way), np.sin(way)]), dice.uniform((0.0, 0.0), (width, depth))
    return lambda at: long(at) + rise * np.maximum(0.0, 1.0 - np.abs((at - middle) @ across) / side)


KINDS: dict[str, Callable[[Dice, float, float], Height]] = {
    **DOMESTIC,
    "fields": _fields,
    "even": _even,
    "slab": _slab,
}
