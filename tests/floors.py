"""Invented domestic floors for tests, and the rounds in which they are read: the same ones for the same dice.

A floor is a rectangle of 3 to 8 m a side with a lean of up to 1:100 and one of the makes below, now and then with
sheet joints. A round is a list of places 0.6 to 1.2 m apart in walking order: along the walls first and then up and
down the rest, or up and down all of it. Lengths in mm, heights upwards.

- `bays`: joists 400 to 600 mm apart that sag as parabolas to 1:360 of their span, the sheet between by up to 3 mm
- `dish`: one or two hollows of 1 to 2.5 m radius, 4 to 15 mm deep
- `bumps`: one to three bumps of 0.4 to 1 m radius, 4 to 10 mm high
- `waves`: a slab floated by hand, long waves of up to 4 mm
- `steps`: two sheet joints of 2 to 4 mm on a floor of small waves
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Dice = np.random.Generator
Height = Callable[[Array], Array]  # places, x and y in two columns → z

SMALLEST, LARGEST = 3000.0, 8000.0  # mm: sides of a room
STEEPEST = 0.01  # lean of a domestic floor that nobody calls a ramp


@dataclass(frozen=True)
class Floor:
    """A rectangle from the origin, and its subfloor."""

    make: str
    width: float
    depth: float
    height: Height

    @property
    def corners(self) -> list[list[float]]:
        """Anticlockwise from the origin."""
        return [[0.0, 0.0], [self.width, 0.0], [self.width, self.depth], [0.0, self.depth]]


def random_floor(dice: Dice, make: str | None = None) -> Floor:
    """A floor of one of MAKES, any of them where none is named."""
    name = make or str(dice.choice(sorted(MAKES)))
    width, depth = dice.uniform(SMALLEST, LARGEST, 2)
    parts = [_lean(dice), MAKES[name](dice, float(width), float(depth))]
    if name != "steps" and dice.random() < 0.3:
        parts.append(_joint(dice, float(width), float(depth)))
    return Floor(name, float(width), float(depth), lambda at: np.sum([part(at) for part in parts], axis=0))


def walked(floor: Floor, dice: Dice) -> Array:
    """Places in the order of one round, 100 mm from the walls and each up to 60 mm beside its grid."""
    spacing = dice.uniform(600.0, 1200.0)
    xs, ys = (_stops(side, spacing) for side in (floor.width, floor.depth))
    rows = [[(x, y) for x in (xs if n % 2 == 0 else xs[::-1])] for n, y in enumerate(ys)]
    order = [place for row in rows for place in row]
    if dice.random() < 0.5:
        order = _walls_first(order, xs, ys)
    beside = dice.uniform(-60.0, 60.0, (len(order), 2))
    return np.clip(np.array(order) + beside, 0.0, [floor.width, floor.depth])


def read(floor: Floor, places: Array, sigma: float, dice: Dice) -> Array:
    """Heights read at `places`, each with an error of its own."""
    return floor.height(places) + dice.normal(0.0, sigma, len(places))


def _stops(side: float, spacing: float) -> Array:
    return np.linspace(100.0, side - 100.0, 1 + max(2, round(side / spacing)))


def _walls_first(order: list[tuple[float, float]], xs: Array, ys: Array) -> list[tuple[float, float]]:
    """Once round along the walls, then the rest in the order given."""
    low, high = [(x, ys[0]) for x in xs], [(x, ys[-1]) for x in xs[::-1]]
    right, left = [(xs[-1], y) for y in ys[1:-1]], [(xs[0], y) for y in ys[-2:0:-1]]
    rim = [*low, *right, *high, *left]
    return rim + [place for place in order if place not in set(rim)]


def _lean(dice: Dice) -> Height:
    slope, way = dice.uniform(0.0, STEEPEST), dice.uniform(0.0, 2.0 * np.pi)
    b, c = slope * np.cos(way), slope * np.sin(way)
    return lambda at: b * at[:, 0] + c * at[:, 1]


def _bays(dice: Dice, width: float, depth: float) -> Height:
    along, sag = int(dice.integers(2)), dice.uniform(0.3, 1.0)
    span, spacing = (width, depth)[along], dice.uniform(400.0, 600.0)
    depth_of_sag, sheet, start = sag * min(span, 5000.0) / 360.0, dice.uniform(0.5, 3.0), dice.uniform(0.0, 600.0)

    def height(at: Array) -> Array:
        share = at[:, along] / span
        joists = -4.0 * depth_of_sag * share * (1.0 - share)
        return joists - sheet * np.sin(np.pi * (at[:, 1 - along] - start) / spacing) ** 2

    return height


def _dish(dice: Dice, width: float, depth: float) -> Height:
    return _hollows(dice, (width, depth), int(dice.integers(1, 3)), (1000.0, 2500.0), (-15.0, -4.0))


def _bumps(dice: Dice, width: float, depth: float) -> Height:
    return _hollows(dice, (width, depth), int(dice.integers(1, 4)), (400.0, 1000.0), (4.0, 10.0))


def _hollows(
    dice: Dice, size: tuple[float, float], count: int, radii: tuple[float, float], rises: tuple[float, float]
) -> Height:
    """Rounded bumps or hollows, half as high at 0.83 of the radius."""
    middles, radius, rise = (
        dice.uniform((0.0, 0.0), size, (count, 2)),
        dice.uniform(*radii, count),
        dice.uniform(*rises, count),
    )

    def height(at: Array) -> Array:
        away = np.linalg.norm(at[:, None, :] - middles[None, :, :], axis=2) / radius
        return np.asarray((rise * np.exp(-(away**2))).sum(axis=1))

    return height


def _waves(dice: Dice, _width: float, _depth: float) -> Height:
    return _rolling(dice, dice.uniform(1.5, 4.0))


def _rolling(dice: Dice, height_of_waves: float) -> Height:
    """Four waves of 2.5 to 8 m, one over another, together swinging about `height_of_waves` either way."""
    length, way, start = dice.uniform(2500.0, 8000.0, 4), dice.uniform(0.0, np.pi, 4), dice.uniform(0.0, 2 * np.pi, 4)
    number = 2.0 * np.pi / length * np.array([np.cos(way), np.sin(way)])
    return lambda at: height_of_waves / 2.0 * np.sin(at @ number + start).sum(axis=1) / np.sqrt(2.0)


def _steps(dice: Dice, width: float, depth: float) -> Height:
    parts = [_rolling(dice, dice.uniform(0.5, 2.0)), _joint(dice, width, depth), _joint(dice, width, depth)]
    return lambda at: np.sum([part(at) for part in parts], axis=0)


def _joint(dice: Dice, width: float, depth: float) -> Height:
    """A sheet's edge across the room, one side 2 to 4 mm higher."""
    across = int(dice.integers(2))
    where, step = dice.uniform(0.2, 0.8) * (width, depth)[across], dice.uniform(2.0, 4.0) * dice.choice([-1.0, 1.0])
    return lambda at: np.where(at[:, across] > where, step, 0.0)


MAKES: dict[str, Callable[[Dice, float, float], Height]] = {
    "bays": _bays,
    "dish": _dish,
    "bumps": _bumps,
    "waves": _waves,
    "steps": _steps,
}
