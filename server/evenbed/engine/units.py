"""Lengths as people type and read them: feet, inches and sixteenths, decimals, millimetres, centimetres, metres.

Storage knows millimetres only. Reading and printing are exact (fractions), so that what was printed reads back as the
same sixteenth or the same tenth of a millimetre. The decisions, where people differ:

- A bare number takes the unit the caller names; a bare fraction takes it only where that is inches or feet.
- A comma is a decimal point: `1,234` is 1.234. A comma and a point together, or two of either, are refused.
- A space groups thousands in metric lengths only (`1 049 mm`): in inches, `41 516` may have lost its fraction bar.
- A leading minus makes the whole length negative; a hyphen after a number only joins (`0'-6"` is +6 in).
- After feet, inches must be below 12, and a fraction must be below 1: `17/16` may be a 1 7/16 that lost its space.
- Printing goes to the nearest step; a tie goes away from zero.
"""

import re
from fractions import Fraction
from itertools import pairwise
from math import floor, isfinite
from typing import Literal

from evenbed.engine.document.fields import FARTHEST
from evenbed.engine.problems import problem_at, shown

Unit = Literal["mm", "cm", "m", "in", "ft"]
MM_PER_UNIT: dict[str, Fraction] = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    "ft": Fraction(3048, 10),
}
IMPERIAL = ("in", "ft")
WORDS: dict[str, Unit] = {
    '"': "in",
    "'": "ft",
    **dict.fromkeys(
        ("mm", "millimeter", "millimeters", "millimetre", "millimetres", "milímetro", "milímetros"), "mm"
    ),
    **dict.fromkeys(("cm", "centimeter", "centimeters", "centimetre", "centimetres", "centímetro"), "cm"),
    **dict.fromkeys(("centímetros", "centimetro", "centimetros"), "cm"),
    **dict.fromkeys(("milimetro", "milimetros"), "mm"),
    **dict.fromkeys(("m", "meter", "meters", "metre", "metres", "metro", "metros"), "m"),
    **dict.fromkeys(("in", "inch", "inches", "pulg", "pulgada", "pulgadas"), "in"),
    **dict.fromkeys(("ft", "foot", "feet", "pie", "pies"), "ft"),
}
LONGEST_LENGTH_TEXT = 60  # characters: far beyond any length, and a bound on the work
DENOMINATORS = (1, 2, 4, 8, 16, 32, 64)
DECIMALS: dict[str, int] = {"mm": 1, "cm": 2, "m": 4, "in": 3, "ft": 4}  # metric: tenths of a millimetre
TIE_TOLERANCE = Fraction(1, 10**9)  # of a step: a tie that rounding left a hair short still goes away from zero

_SAME_SIGN = str.maketrans(
    {
        **dict.fromkeys("′’‘´`ʹʼ", "'"),
        **dict.fromkeys("″”“˝ʺ", '"'),
        **dict.fromkeys("−–—‐‑‒", "-"),
        **dict.fromkeys("⁄∕／", "/"),
        **{
            sign: f" {top}/{bottom}"
            for sign, top, bottom in (
                ("¼", 1, 4), ("½", 1, 2), ("¾", 3, 4), ("⅐", 1, 7), ("⅑", 1, 9), ("⅒", 1, 10), ("⅓", 1, 3),
                ("⅔", 2, 3), ("⅕", 1, 5), ("⅖", 2, 5), ("⅗", 3, 5), ("⅘", 4, 5), ("⅙", 1, 6), ("⅚", 5, 6),
                ("⅛", 1, 8), ("⅜", 3, 8), ("⅝", 5, 8), ("⅞", 7, 8),
            )
        },
    }
)  # fmt: skip

_QUANTITY = r"""(?: (?P<whole>[0-9]+) (?:\ ?-\ ?|\ ) (?P<top>[0-9]+) \ ?/\ ? (?P<bottom>[0-9]+)
  | (?P<only_top>[0-9]+) \ ?/\ ? (?P<only_bottom>[0-9]+)
  | (?P<grouped>[0-9]{1,3}(?:\ [0-9]{3})+(?:[.,][0-9]*)?)
  | (?P<decimal>[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+) )(?![0-9/.,])"""
_PART = re.compile(rf"""{_QUANTITY} \ ? (?P<unit>"|'|[a-zà-öø-ÿ]+\.?)?""", re.VERBOSE)
_JOINT = re.compile(r"(?: ?- ?|, | )?")
_MIXED_SIGNS = re.compile(r"[0-9]*[.,][0-9]+[.,][0-9.,]*")


class LengthError(ValueError):
    """A text that is no length. `code` is from PROBLEMS, `values` are the figures in its message."""

    def __init__(self, code: str, **values: float | str) -> None:
        self.code, self.values = code, values
        super().__init__(problem_at("", code, **values).message)


def length_from_text(text: str, default_unit: Unit = "mm") -> float:
    """A length in mm from what a person typed; see the head of this module for the forms and decisions.

    default_unit: what a bare number is in. The result lies within a kilometre either way. Raises LengthError.
    """
    return float(exact_length_from_text(text, default_unit))


def exact_length_from_text(text: str, default_unit: Unit = "mm") -> Fraction:
    """The same, mm as an exact fraction."""
    if len(text) > LONGEST_LENGTH_TEXT:
        raise LengthError("too_long", length=len(text), most=LONGEST_LENGTH_TEXT)
    plain = _plain(text)
    if not plain:
        raise LengthError("length_empty")
    sign, rest = (-1, plain[1:].lstrip()) if plain[0] == "-" else (1, plain.removeprefix("+").lstrip())
    return _within_reach(sign * _joined(_parts(rest, text, default_unit), text))


def _plain(text: str) -> str:
    """The text in plain signs, small letters and single spaces."""
    same = text.translate(_SAME_SIGN).lower().replace("''", '"')
    return " ".join(same.split())


def _within_reach(length: Fraction) -> Fraction:
    if abs(length) <= FARTHEST:
        return length
    code, bound = ("too_large", "high") if length > 0 else ("too_small", "low")
    limit = FARTHEST if length > 0 else -FARTHEST
    raise LengthError(code, value=float(length), **{bound: limit})


def _parts(rest: str, text: str, default_unit: Unit) -> list[tuple[Fraction, Unit]]:
    """Quantity and unit, one after the other: `3' 5 5/16"` gives 3 ft and 5 5/16 in."""
    parts: list[tuple[Fraction, Unit]] = []
    place = 0
    while place < len(rest):
        match = _PART.match(rest, place)
        if match is None:
            raise _refusal(rest, text)
        parts.append(_part(match, parts[-1][1] if parts else None, text, default_unit))
        place = _joint_end(rest, match.end(), text)
    if not parts:
        raise LengthError("length_unclear", text=shown(text))
    return parts


def _joint_end(rest: str, place: int, text: str) -> int:
    """Where the next part begins; a joint with nothing behind it, or a part that opens with a comma, is refused."""
    joint = _JOINT.match(rest, place)
    end = place if joint is None else joint.end()
    is_dangling = end == len(rest) and end > place
    if is_dangling or rest.startswith(",", end):
        raise LengthError("length_unclear", text=shown(text))
    return end


def _refusal(rest: str, text: str) -> LengthError:
    code = "length_two_marks" if _MIXED_SIGNS.search(rest) else "length_unclear"
    return LengthError(code, text=shown(text))


def _part(match: re.Match[str], before: Unit | None, text: str, default_unit: Unit) -> tuple[Fraction, Unit]:
    if match["unit"] is None and match.end() < len(match.string):
        raise LengthError("length_unclear", text=shown(text))
    unit = _unit(match["unit"], before, text, default_unit)
    is_fraction = match["bottom"] or match["only_bottom"]
    if match["unit"] is None and is_fraction and unit not in IMPERIAL:
        raise LengthError("length_needs_unit", text=shown(text))
    if match["grouped"] and unit in IMPERIAL:
        raise LengthError("length_unclear", text=shown(text))
    return _quantity(match), unit


def _unit(word: str | None, before: Unit | None, text: str, default_unit: Unit) -> Unit:
    if word is None:
        if before is None:
            return default_unit
        if before == "ft":
            return "in"
        raise LengthError("length_unclear", text=shown(text))
    unit = WORDS.get(word.removesuffix("."))
    if unit is None:
        raise LengthError("length_unit", unit=shown(word))
    return unit


def _quantity(match: re.Match[str]) -> Fraction:
    if match["bottom"]:
        return int(match["whole"]) + _fraction(match["top"], match["bottom"])
    if match["only_bottom"]:
        return _fraction(match["only_top"], match["only_bottom"])
    digits = (match["grouped"] or match["decimal"]).replace(" ", "").replace(",", ".")
    return Fraction(digits)


def _fraction(top: str, bottom: str) -> Fraction:
    if int(bottom) == 0:
        raise LengthError("length_zero_denominator", fraction=f"{top}/{bottom}")
    if int(top) >= int(bottom):
        raise LengthError("length_improper", fraction=f"{top}/{bottom}")
    return Fraction(int(top), int(bottom))


def _joined(parts: list[tuple[Fraction, Unit]], text: str) -> Fraction:
    """The sum of the parts in mm; every part after the first must be smaller than one of the unit before it."""
    for (larger, larger_unit), (smaller, unit) in pairwise(parts):
        is_one_system = (unit in IMPERIAL) == (larger_unit in IMPERIAL)
        if not is_one_system or MM_PER_UNIT[unit] >= MM_PER_UNIT[larger_unit] or larger.denominator != 1:
            raise LengthError("length_unclear", text=shown(text))
        if smaller * MM_PER_UNIT[unit] >= MM_PER_UNIT[larger_unit]:
            raise LengthError("length_overflow", value=float(smaller), unit=unit, larger=larger_unit)
    return sum((quantity * MM_PER_UNIT[unit] for quantity, unit in parts), Fraction(0))


def steps_from_length(length: float, step: Fraction) -> int:
    """How many whole steps (mm, exact, > 0) lie nearest to `length` (mm); ties go away from zero."""
    if not isfinite(length):
        raise ValueError(f"A length must be finite, got {length}.")
    count = floor(abs(Fraction(length)) / step + Fraction(1, 2) + TIE_TOLERANCE)
    return -count if length < 0 else count


def feet_inches_from_length(length: float, denominator: int = 16) -> str:
    """A length (mm) as feet and inches to the nearest 1/denominator in: `3' 5 5/16"`, `-6"`, `0"`.

    denominator: 1, 2, 4, 8, 16, 32 or 64. Below a foot the feet are left out. Raises ValueError for any other
    denominator and for a length that is not finite.
    """
    steps = _inch_steps(length, denominator)
    feet, rest = divmod(abs(steps), 12 * denominator)
    sign = "-" if steps < 0 else ""
    return f"{sign}{feet}' {_inches(rest, denominator)}" if feet else f"{sign}{_inches(rest, denominator)}"


def inches_from_length(length: float, denominator: int = 16) -> str:
    """The same in inches alone: `41 5/16"`."""
    steps = _inch_steps(length, denominator)
    return f"{'-' if steps < 0 else ''}{_inches(abs(steps), denominator)}"


def _inch_steps(length: float, denominator: int) -> int:
    if denominator not in DENOMINATORS:
        raise ValueError(f"Inches are divided in {DENOMINATORS}, not in {denominator}.")
    return steps_from_length(length, MM_PER_UNIT["in"] / denominator)


def _inches(steps: int, denominator: int) -> str:
    whole, rest = divmod(steps, denominator)
    if rest == 0:
        return f'{whole}"'
    part = Fraction(rest, denominator)
    return f'{whole} {part}"' if whole else f'{part}"'


def decimal_from_length(length: float, unit: Unit, decimals: int | None = None) -> str:
    """A length (mm) as a decimal in `unit`: `1049.3 mm`, `104.93 cm`, `1.0493 m`, `41.313 in`.

    decimals: 0 to 9; left out, metric units go to a tenth of a millimetre, inches to a thousandth. Zeros at the end
    are left out. Raises ValueError for a length that is not finite.
    """
    places = DECIMALS[unit] if decimals is None else decimals
    steps = steps_from_length(length, MM_PER_UNIT[unit] / 10**places)
    digits = f"{abs(steps):0{places + 1}d}"
    whole, rest = (digits[:-places], digits[-places:].rstrip("0")) if places else (digits, "")
    return f"{'-' if steps < 0 else ''}{whole}{'.' if rest else ''}{rest} {unit}"
