"""How a rod is mis-read: what may have stood on it in place of what was typed.

Each kind of slip gives the lengths that may be meant; the one that fits what the neighbours foretell is named. Common
practice, no source: the kinds are those that setters know, the costs say that a whole inch is likelier than two.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from itertools import pairwise
from typing import get_args

from evenbed.engine.slips import Slip
from evenbed.engine.units import (
    IMPERIAL,
    MM_PER_UNIT,
    WORDS,
    LengthError,
    Unit,
    feet_inches_from_length,
    inches_from_length,
    length_from_text,
)

FITS = 2.0  # standard errors: a repaired reading farther off than this is no explanation
SAME = 0.06  # mm: a typed text and the reading it became, with a tenth of a millimetre rounded
INCH, FOOT = float(MM_PER_UNIT["in"]), float(MM_PER_UNIT["ft"])
SIXTEENTH, SIXTY_FOURTH = Fraction(1, 16), Fraction(1, 64)
WHOLE = {
    "in": (("whole_inch", INCH, 3), ("whole_foot", FOOT, 2)),
    "mm": (("whole_centimetre", 10.0, 3), ("whole_decimetre", 100.0, 3), ("whole_metre", 1000.0, 2)),
}
ANOTHER_ONE = 2.0  # squared standard errors that each further unit costs
FRACTION, WRONG_WAY, TRANSPOSED, OTHER_SIDE = 1.0, 1.5, 1.5, 3.0  # what these kinds cost beside one whole unit
SAME_ABOVE = (Fraction(1, 4), Fraction(1, 2), Fraction(2), Fraction(4))  # 3/16 and 3/8 for 3/4
QUARTERS = tuple(Fraction(n, 4) for n in range(4))


@dataclass(frozen=True)
class RodReading:
    """What was read, mm, and how it was typed (empty where nobody knows)."""

    down: float
    as_typed: str = ""


@dataclass(frozen=True)
class _Meant:
    slip: Slip
    cost: float


def likely_slip(reading: RodReading, expected: float, sigma: float) -> Slip | None:
    """The slip that explains a reading where `expected` was foretold with standard error `sigma`, mm.

    None where no kind brings the reading within FITS of it, and for the end of a level that lies on the floor: nobody
    read its zero. Of several that do, the simplest and best fitting.
    """
    if reading.down == 0.0:
        return None
    away = [(m.cost + ((m.slip.down - expected) / sigma) ** 2, m) for m in _meanings(reading)]
    fitting = [(total, m) for total, m in away if abs(m.slip.down - expected) <= FITS * sigma]
    best = min(fitting, key=lambda pair: (pair[0], pair[1].slip.down), default=None)
    return best[1].slip if best else None


def _meanings(reading: RodReading) -> Iterator[_Meant]:
    unit = _unit_of(reading)
    if unit is None or unit in IMPERIAL:
        yield from _whole_units(reading.down, "in")
        yield from _inch_slips(reading.down, SIXTEENTH if unit is None else SIXTY_FOURTH)
    if unit is None or unit not in IMPERIAL:
        yield from _whole_units(reading.down, "mm")
        yield _Meant(Slip("other_side", reading.down * INCH / 10.0), OTHER_SIDE)
    yield from _transposed(reading, unit)


def _unit_of(reading: RodReading) -> Unit | None:
    """The unit in which the text is the reading; None where it is in none."""
    if _says_inches(reading.as_typed):
        return "in"
    units: tuple[Unit, ...] = get_args(Unit)
    return next((unit for unit in units if _is_length(reading.as_typed, unit, reading.down)), None)


def _says_inches(text: str) -> bool:
    words = re.findall(r"[a-z]+", text.lower())
    return bool(re.search(r"[0-9]\s*[/'\"′″]", text)) or any(WORDS.get(word) in IMPERIAL for word in words)


def _is_length(text: str, unit: Unit, down: float) -> bool:
    length = _length(text, unit)
    return length is not None and abs(length - down) <= SAME


def _length(text: str, unit: Unit) -> float | None:
    try:
        return length_from_text(text, unit)
    except LengthError:
        return None


def _whole_units(down: float, system: str) -> Iterator[_Meant]:
    for kind, size, most in WHOLE[system]:
        for count in range(1, most + 1):
            for way in (-1.0, 1.0):
                yield _Meant(Slip(kind, down + way * count * size), ANOTHER_ONE * (count - 1))


def _inch_slips(down: float, step: Fraction) -> Iterator[_Meant]:
    """Slips within the inch and between the rod's faces, where the reading is a whole number of steps of an inch."""
    steps = round(Fraction(abs(down)) / MM_PER_UNIT["in"] / step)
    inches, sign = steps * step, -1.0 if down < 0.0 else 1.0
    if abs(float(inches) * INCH - abs(down)) > SAME:
        return
    whole, part = divmod(inches, 1)
    for kind, meant, cost in (*_other_fractions(whole, part), *_other_faces(inches)):
        yield _Meant(Slip(kind, sign * float(meant) * INCH), cost)


def _other_fractions(whole: int, part: Fraction) -> Iterator[tuple[str, Fraction, float]]:
    """The same number over half or twice the parts or four times so; another quarter or none; from the next inch."""
    alike = [part * share for share in SAME_ABOVE if 0 < part * share < 1 and part * share % SIXTEENTH == 0]
    quarters = QUARTERS if part in QUARTERS else ()
    for other in sorted({*alike, *quarters} - {part}):
        yield "fraction", whole + other, FRACTION
    if part not in (0, Fraction(1, 2)):
        yield "wrong_way", whole + 1 - part, WRONG_WAY


def _other_faces(inches: Fraction) -> Iterator[tuple[str, Fraction, float]]:
    """Tenths of a foot taken for inches, inches for tenths, centimetres for inches; in inches."""
    feet, rest = divmod(inches, 12)
    if 0 < rest < 10:
        yield "other_side", 12 * (feet + rest / 10), OTHER_SIDE
    if rest > 0:
        yield "other_side", 12 * feet + rest * 10 / 12, OTHER_SIDE
    yield "other_side", inches * 10 / MM_PER_UNIT["in"], OTHER_SIDE


def _transposed(reading: RodReading, unit: Unit | None) -> Iterator[_Meant]:
    """Neighbouring digits changed back, in whole numbers and decimals; never in a fraction."""
    texts = [(reading.as_typed, unit)] if unit else _texts_of(reading.down)
    for text, given in texts:
        for meant in map(partial(_length, unit=given), _with_digits_changed(text)):
            if meant is not None:
                yield _Meant(Slip("transposed", meant), TRANSPOSED)


def _with_digits_changed(text: str) -> Iterator[str]:
    plain = re.sub(r"[0-9]+\s*/\s*[0-9]+", lambda found: "x" * len(found.group()), text)
    places = [n for n, sign in enumerate(plain) if sign in "0123456789"]
    for a, b in pairwise(places):
        if text[a] != text[b]:
            yield text[:a] + text[b] + text[a + 1 : b] + text[a] + text[b + 1 :]


def _texts_of(down: float) -> list[tuple[str, Unit]]:
    """How a reading of which no text is kept may have been typed."""
    texts: list[tuple[str, Unit]] = [(feet_inches_from_length(down), "in"), (inches_from_length(down), "in")]
    return [*((t, u) for t, u in texts if _is_length(t, u, down)), (f"{round(down)}", "mm")]
