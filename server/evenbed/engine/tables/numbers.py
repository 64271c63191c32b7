"""What stands in a cell: a plain number, or a length with a unit of its own."""

import re

from evenbed.engine.tables.shapes import Decimal, TableUnit
from evenbed.engine.units import LONGEST_LENGTH_TEXT, WORDS, LengthError, Unit, length_from_text

MM_PER_UNIT: dict[TableUnit, float] = {
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "in": 25.4,
    "ft": 304.8,
    "us_ft": 1200e3 / 3937,
}
"""A US survey foot is 1200/3937 m exactly (Federal Register 24 FR 5348, 1959, from memory); the rest as in units."""
PLACES = 6  # decimals of a millimetre kept: far below anything measured, so that 1.1 m is 1100 mm

_PLAIN: dict[Decimal, re.Pattern[str]] = {
    "point": re.compile(r"[+\-−–]?(?:[0-9]{1,15}\.?[0-9]{0,20}|\.[0-9]{1,20})(?:[eE][+-]?[0-9]{1,2})?"),
    "comma": re.compile(r"[+\-−–]?(?:[0-9]{1,15},?[0-9]{0,20}|,[0-9]{1,20})(?:[eE][+-]?[0-9]{1,2})?"),
}
_WRITTEN = str.maketrans({",": ".", "−": "-", "–": "-"})
_OTHER_MARK: dict[Decimal, re.Pattern[str]] = {"point": re.compile(r","), "comma": re.compile(r"\.[0-9]")}
_NUMBER_FIRST = re.compile(r"[+\-−–]?[ .,]*[0-9¼-¾⅐-⅞]")
_FRACTION = re.compile(r"[+\-−–]?[0-9]{1,5}[ \-][0-9]{1,2}/[0-9]{1,2}")  # 47 1/4: of inches, whatever has no marks
_MARKS = str.maketrans({**dict.fromkeys("′’‘´", "'"), **dict.fromkeys("″”“", '"')})
_UNIT_WORD = re.compile(r"['\"]|[a-z]+")
_OWN_UNITS: dict[TableUnit, Unit] = {"mm": "mm", "cm": "cm", "m": "m", "in": "in", "ft": "ft", "us_ft": "ft"}


def plain_number(cell: str, decimal: Decimal) -> float | None:
    """The number a cell holds, without any unit; None where it is something else."""
    if _PLAIN[decimal].fullmatch(cell) is None:
        return None
    return float(cell.translate(_WRITTEN))


def own_unit(cell: str) -> Unit | None:
    """The unit that a length brings along, the larger one of two: 3' 5 7/16" is in feet, 47 1/4 in inches."""
    if len(cell) > LONGEST_LENGTH_TEXT or _NUMBER_FIRST.match(cell) is None:
        return None
    if _FRACTION.fullmatch(cell):
        return "in"
    words = _UNIT_WORD.findall(cell.lower().translate(_MARKS))
    return next((WORDS[word] for word in words if word in WORDS), None)


def is_measure(cell: str, decimal: Decimal) -> bool:
    """True where a cell holds a number or a length."""
    return _PLAIN[decimal].fullmatch(cell) is not None or _marked_length(cell, decimal, "in") is not None


def length_in(cell: str, decimal: Decimal, unit: TableUnit) -> float | None:
    """The length in a cell, mm; a bare number is in `unit`. None where it is none."""
    number = plain_number(cell, decimal)
    if number is not None:
        return round(number * MM_PER_UNIT[unit], PLACES)
    return _marked_length(cell, decimal, unit)


def _marked_length(cell: str, decimal: Decimal, unit: TableUnit) -> float | None:
    """A length with marks or a unit, or a fraction where inches are meant.

    None where it holds the other decimal mark, which may mark thousands.
    """
    if own_unit(cell) is None or _OTHER_MARK[decimal].search(cell):
        return None
    if unit != "in" and _FRACTION.fullmatch(cell):
        return None
    try:
        return round(length_from_text(cell, _OWN_UNITS[unit]), PLACES)
    except LengthError:
        return None
