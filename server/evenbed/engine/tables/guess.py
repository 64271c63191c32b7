"""How a table is to be read where nobody says so: separator, decimal mark, header, columns, unit."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

from evenbed.engine.tables.lines import Line, cut
from evenbed.engine.tables.names import columns_named, role_of, unit_of
from evenbed.engine.tables.numbers import MM_PER_UNIT, is_measure, own_unit, plain_number
from evenbed.engine.tables.shapes import (
    MOST_COLUMNS,
    Decimal,
    FoundColumns,
    Heights,
    Separator,
    TableMapping,
    TableUnit,
    UnitReason,
)

SAMPLE = 60  # lines that a guess is made from
SEPARATORS: tuple[Separator, ...] = ("tab", "semicolon", "comma", "blanks")
DECIMALS: tuple[Decimal, ...] = ("point", "comma")
ENOUGH = 3  # numbers that a point has at least: two for its place, one for its height
GUESSED_UNITS: tuple[TableUnit, ...] = ("mm", "cm", "in", "ft", "m")
FITS = 1.1  # times the room's size that the points may be spread over, for slack and for points beside it
LARGE, SMALL = 500.0, 60.0  # spread of the numbers from which they are mm, up to which they are m; no source


@dataclass(frozen=True)
class Manner:
    """How a table is read: what was asked for, completed by what its first lines look like."""

    separator: Separator
    decimal: Decimal
    header: Line | None
    columns: FoundColumns
    heights: Heights

    @property
    def height_column(self) -> int | None:
        """The column that the heights are taken from."""
        return self.columns.elevation if self.heights == "elevation" else self.columns.down

    @property
    def length_columns(self) -> tuple[int | None, int | None, int | None]:
        """Easting, northing and height."""
        return self.columns.easting, self.columns.northing, self.height_column


def manner_of(lines: list[str], asked: TableMapping) -> Manner:
    """The manner in which a table is read."""
    separator, decimal = _signs(lines, asked)
    sample = list(cut(lines, separator, SAMPLE))
    header = _header(sample, decimal) if asked.header is None else _first(sample) if asked.header else None
    data = [line for line in sample if not line.is_remark and (header is None or line.number > header.number)]
    columns = _columns(header, data, decimal) if asked.columns is None else FoundColumns(**vars(asked.columns))
    return _with_heights(Manner(separator, decimal, header, columns, "elevation"), asked.heights)


def _signs(lines: list[str], asked: TableMapping) -> tuple[Separator, Decimal]:
    """The separator and decimal mark by which most of the first lines hold a point."""
    separators = SEPARATORS if asked.separator is None else (asked.separator,)
    decimals = DECIMALS if asked.decimal is None else (asked.decimal,)
    samples = {separator: [c for c in cut(lines, separator, SAMPLE) if not c.is_remark] for separator in separators}
    return max(product(separators, decimals), key=lambda s: sum(_is_point(c.cells, s[1]) for c in samples[s[0]]))


def _is_point(cells: Sequence[str], decimal: Decimal) -> bool:
    return sum(is_measure(cell, decimal) for cell in cells[:MOST_COLUMNS]) >= ENOUGH


def _first(sample: list[Line]) -> Line | None:
    return next((line for line in sample if not line.is_remark), None)


def _header(sample: list[Line], decimal: Decimal) -> Line | None:
    """The line that names the columns: one that knows two of their names, else the first where it has words only.

    It stands before every point, and may be a remark.
    """
    first_point = next((n for n, line in enumerate(sample) if _is_point(line.cells, decimal)), None)
    if first_point is None:
        return None
    before = sample[:first_point]
    named = [line for line in before if sum(role_of(cell) is not None for cell in line.cells) > 1]
    words = [line for line in before[:1] if not line.is_remark and _is_words(line.cells, decimal)]
    return next(iter([*named[::-1], *words]), None)


def _is_words(cells: Sequence[str], decimal: Decimal) -> bool:
    return len(cells) >= ENOUGH and not any(is_measure(cell, decimal) for cell in cells)


def _columns(header: Line | None, data: list[Line], decimal: Decimal) -> FoundColumns:
    """The columns by their names, else in the surveyors' order: point, northing, easting, elevation, description."""
    named = FoundColumns() if header is None else columns_named(header.cells)
    return _in_order(data, decimal) if named.northing is None and named.easting is None else named


def _in_order(data: list[Line], decimal: Decimal) -> FoundColumns:
    """Three columns of numbers, a point's name before them unless they are the first, a description behind them."""
    points = [line.cells for line in data if _is_point(line.cells, decimal)]
    if not points:
        return FoundColumns()
    width = max(len(cells) for cells in points)
    numbers = [n for n in range(width) if _is_numbers(points, n, decimal)]
    first = numbers[1:4] if len(numbers) > ENOUGH and _is_names(points, numbers[0], decimal) else numbers[:3]
    if len(first) < ENOUGH:
        return FoundColumns()
    north, east, up = first
    behind = up + 1 if up + 1 < width and any(len(c) > up + 1 and c[up + 1] for c in points) else None
    return FoundColumns(north - 1 if north else None, north, east, up, behind)


def _is_numbers(points: list[tuple[str, ...]], column: int, decimal: Decimal) -> bool:
    held = sum(len(cells) > column and is_measure(cells[column], decimal) for cells in points)
    return 2 * held > len(points)


def _is_names(points: list[tuple[str, ...]], column: int, decimal: Decimal) -> bool:
    """True where a column holds whole numbers and words alone, as names of points are."""
    cells = (cells[column] for cells in points if len(cells) > column)
    return all(cell.isdecimal() or not is_measure(cell, decimal) for cell in cells)


def _with_heights(manner: Manner, asked: Heights | None) -> Manner:
    """The manner with its heights: elevations where there are any, unless readings were asked for."""
    columns = manner.columns
    if asked is None:
        asked = "down" if columns.elevation is None and columns.down is not None else "elevation"
    if asked == "down" and columns.down is None:
        columns = replace(columns, elevation=None, down=columns.elevation)
    return replace(manner, columns=columns, heights=asked)


def unit_for(
    manner: Manner, asked: TableUnit | None, data: Sequence[Line], room: float | None
) -> tuple[TableUnit, UnitReason]:
    """The unit of bare numbers, and why: asked for, the header, marks, the room's size (mm) or the numbers' own."""
    if asked is not None:
        return asked, "chosen"
    told = None if manner.header is None else unit_of(manner.header.cells)
    if told is not None:
        return told, "header"
    own = (own_unit(cell) for line in data[:SAMPLE] for cell in _lengths(line, manner))
    marked: TableUnit | None = next((unit for unit in own if unit is not None), None)
    if marked is not None:
        return marked, "marks"
    spread = _spread(manner, data)
    if spread == 0:
        return "mm", "size"
    if room is not None:
        fitting = (unit for unit in GUESSED_UNITS if spread * MM_PER_UNIT[unit] <= FITS * room)
        return max(fitting, default="mm", key=MM_PER_UNIT.__getitem__), "room"
    return ("mm" if spread >= LARGE else "m" if spread <= SMALL else "ft"), "size"


def _lengths(line: Line, manner: Manner) -> list[str]:
    return [line.cells[n] for n in manner.length_columns if n is not None and n < len(line.cells)]


def _spread(manner: Manner, data: Sequence[Line]) -> float:
    """How far the points reach from corner to corner, in the table's own unit."""
    sides = []
    for column in manner.length_columns[:2]:
        held = [line.cells[column] for line in data if column is not None and column < len(line.cells)]
        numbers = [n for n in (plain_number(cell, manner.decimal) for cell in held) if n is not None]
        sides.append(max(numbers) - min(numbers) if numbers else 0.0)
    return math.hypot(*sides)
