"""Rounds of readings on invented floors with planted slips, typed as the phone's keypad types them.

A slip is told from the rod's numbers alone, without the engine: what stood there, what was typed, which kind it was.
Only slips that move the reading by at least `LEAST` mm are planted.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import numpy as np

from tests.floors import Dice, Floor, random_floor, read, walked

LEAST = 12.0  # mm
SHARE = 0.06  # of the readings of a round that are slips
INCH = Fraction(254, 10)
SIXTEENTH = INCH / 16
COMMON = [Fraction(n, 8) for n in range(1, 8)]


@dataclass(frozen=True)
class Rod:
    """What a rod showed, in whole sixteenths of an inch or whole millimetres."""

    steps: int
    imperial: bool

    @property
    def down(self) -> float:
        """In mm."""
        return float(self.steps * (SIXTEENTH if self.imperial else 1))

    @property
    def typed(self) -> str:
        """As the keypad writes it: `3' 5 7/16`, `1049`."""
        if not self.imperial:
            return f"{self.steps}"
        inches, part = divmod(self.steps, 16)
        feet, inches = divmod(inches, 12)
        pieces = [f"{feet}'" if feet else "", f"{inches}" if inches or not part else "", f"{part}/16" if part else ""]
        return " ".join(piece for piece in pieces if piece)


@dataclass(frozen=True)
class Taken:
    """One reading of a round: where, what was typed, what stood on the rod, and the slip's kind (empty for none)."""

    at: tuple[float, float]
    rod: Rod
    truth: Rod
    kind: str

    def entry(self, number: int) -> dict[str, Any]:
        """As it stands in a document."""
        return {"id": f"r{number}", "at": list(self.at), "down": self.rod.down, "as_typed": self.rod.typed}


@dataclass(frozen=True)
class Round:
    """A floor and its readings in the order they were taken."""

    floor: Floor
    taken: tuple[Taken, ...]

    def document(self, count: int) -> dict[str, Any]:
        """What the phone has after `count` readings."""
        entries = [one.entry(n) for n, one in enumerate(self.taken[:count])]
        return {"document": 1, "outline": {"vertices": self.floor.corners}, "readings": entries}


def random_round(dice: Dice, most: int = 70) -> Round:
    """A floor, a walk over it of up to `most` readings, and at least one slip among them."""
    floor = random_floor(dice)
    places = walked(floor, dice)[:most]
    heights = read(floor, places, dice.uniform(0.5, 1.5), dice)
    imperial, line = bool(dice.random() < 0.5), dice.uniform(900.0, 1500.0)
    rods = [_rod(line - z, imperial=imperial) for z in heights]
    slipped = dice.random(len(rods)) < SHARE
    slipped[dice.integers(6, len(rods))] = True
    pairs = zip(places, rods, slipped, strict=True)
    return Round(floor, tuple(_taken((float(x), float(y)), rod, dice, slips=slips) for (x, y), rod, slips in pairs))


def _rod(down: float, *, imperial: bool) -> Rod:
    return Rod(round(Fraction(down) / SIXTEENTH) if imperial else round(down), imperial)


def _taken(at: tuple[float, float], truth: Rod, dice: Dice, *, slips: bool) -> Taken:
    makers = IMPERIAL if truth.imperial else METRIC
    while slips:
        kind = str(dice.choice(sorted(makers)))
        meant = [steps for steps in makers[kind](truth.steps) if _is_worth(steps, truth)]
        if meant:
            return Taken(at, Rod(meant[int(dice.integers(len(meant)))], truth.imperial), truth, kind)
    return Taken(at, truth, truth, "")


def _is_worth(steps: int, truth: Rod) -> bool:
    return steps > 0 and abs(Rod(steps, truth.imperial).down - truth.down) >= LEAST


def _by(*sizes: int) -> Callable[[int], Iterator[int]]:
    """Steps more or fewer."""
    return lambda steps: (steps + sign * size for size in sizes for sign in (-1, 1))


def _another_fraction(steps: int) -> Iterator[int]:
    """A common fraction for another with the same number above the line, or a quarter for another, or none at all."""
    whole, part = divmod(steps, 16)
    was = Fraction(part, 16)
    for other in [Fraction(0), *COMMON]:
        quarters = {was, other} <= {Fraction(n, 4) for n in range(4)}
        if other != was and (quarters or (other.numerator == was.numerator != 0)):
            yield whole * 16 + int(other * 16)


def _wrong_way(steps: int) -> Iterator[int]:
    """The fraction counted back from the next inch."""
    whole, part = divmod(steps, 16)
    if part:
        yield whole * 16 + 16 - part


def _swapped(number: int) -> Iterator[int]:
    digits = f"{number}"
    for n in range(len(digits) - 1):
        yield int(digits[:n] + digits[n + 1] + digits[n] + digits[n + 2 :])


def _swapped_inches(steps: int) -> Iterator[int]:
    """Two digits of the inches, or the feet for the inches."""
    inches, part = divmod(steps, 16)
    feet, rest = divmod(inches, 12)
    meant = [12 * feet + other for other in _swapped(rest) if other < 12]
    meant += [12 * rest + feet] if rest < 10 and feet else []
    return (16 * other + part for other in meant)


def _tenths_for_inches(steps: int) -> Iterator[int]:
    """A face of tenths of a foot read as inches: 3.45 ft as 3 ft 4 1/2 in."""
    feet, rest = divmod(Fraction(steps, 16 * 12), 1)
    yield round((12 * feet + rest * 10) * 16)


def _inches_for_centimetres(steps: int) -> Iterator[int]:
    """A face of inches read as centimetres: 41.3 in as 413 mm."""
    yield round(steps / INCH * 10)


IMPERIAL: dict[str, Callable[[int], Iterator[int]]] = {
    "whole_inch": _by(16),
    "whole_foot": _by(192),
    "fraction": _another_fraction,
    "wrong_way": _wrong_way,
    "transposed": _swapped_inches,
    "other_side": _tenths_for_inches,
}
METRIC: dict[str, Callable[[int], Iterator[int]]] = {
    "whole_centimetre": _by(20, 30),
    "whole_decimetre": _by(100),
    "whole_metre": _by(1000),
    "transposed": _swapped,
    "other_side": _inches_for_centimetres,
}


def rounds(count: int, seed: int) -> Iterator[Round]:
    """So many rounds, the same for the same seed."""
    dice = np.random.default_rng(seed)
    return (random_round(dice) for _ in range(count))
