"""The points of a table, line by line, and everything that is wrong with them."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from evenbed.engine.document.fields import FARTHEST
from evenbed.engine.problems import Problem, problem_at, shown
from evenbed.engine.tables.guess import Manner
from evenbed.engine.tables.lines import Line
from evenbed.engine.tables.numbers import length_in
from evenbed.engine.tables.shapes import Stage, TableUnit

MOST_ROWS = 20_000
FARTHEST_OUT = 2e10  # mm: no place on Earth has larger coordinates
STEP_DOWN = 10_000.0  # mm: elevations beyond any floor's are lowered by a multiple of it
LONGEST_NAME, LONGEST_NOTE = 100, 2000

_STAGE = re.compile(r"(subfloor|bed)(?:: *|$)", re.IGNORECASE)


@dataclass(frozen=True)
class Measured:
    """One point as the table has it, mm: easting and northing on its own map, its height, what is said of it."""

    line: int
    point: str
    east: float
    north: float
    height: float
    stage: Stage
    note: str


def data_lines(lines: Sequence[Line], manner: Manner) -> list[Line]:
    """The lines that are neither remarks nor the header, however often that is repeated, nor titles above it."""
    if manner.header is None:
        return [line for line in lines if not line.is_remark]
    head, top = manner.header.cells, manner.header.number
    return [line for line in lines if not line.is_remark and line.number > top and line.cells != head]


def mapping_problems(manner: Manner) -> list[Problem]:
    """What keeps a table from being read at all: columns that are not known, or one that holds two things."""
    columns = manner.length_columns
    if None in columns:
        return [problem_at("mapping.columns", "table_columns")]
    doubled = [n for n in columns if columns.count(n) > 1 and n is not None]
    return [problem_at("mapping.columns", "table_column_twice", column=n + 1) for n in sorted(set(doubled))]


class Reader:
    """Reads the lines of one table, collecting problems."""

    def __init__(self, manner: Manner, unit: TableUnit) -> None:
        self.manner, self.unit = manner, unit
        self.problems: list[Problem] = []

    def read(self, lines: Sequence[Line]) -> list[Measured]:
        """Every line that holds a point."""
        return [row for line in lines if (row := self._row(line)) is not None]

    def _row(self, line: Line) -> Measured | None:
        columns = [n for n in self.manner.length_columns if n is not None]
        if line.is_open:
            self._refuse(line, "text", "table_open_quote")
        elif len(line.cells) <= max(columns):
            self._refuse(line, "text", "table_short", columns=len(line.cells), needed=max(columns) + 1)
        else:
            lengths = [self._length(line, column) for column in columns]
            known = [length for length in lengths if length is not None]
            return self._measured(line, *known) if len(known) == len(lengths) else None
        return None

    def _refuse(self, line: Line, where: str, code: str, **values: float | str) -> None:
        self.problems.append(problem_at(f"{where}", code, line=line.number, **values))

    def _length(self, line: Line, column: int) -> float | None:
        cell = line.cells[column]
        length = length_in(cell, self.manner.decimal, self.unit)
        if length is None:
            code = "table_number" if cell else "table_empty"
            self._refuse(line, "text", code, column=column + 1, **({"text": shown(cell)} if cell else {}))
        elif abs(length) > FARTHEST_OUT:
            self._refuse(line, "text", "table_far", column=column + 1, text=shown(cell))
        else:
            return length
        return None

    def _measured(self, line: Line, east: float, north: float, height: float) -> Measured:
        stage, note = stage_and_note(self._text(line))
        return Measured(line.number, self._name(line), east, north, height, stage, note)

    def _name(self, line: Line) -> str:
        column = self.manner.columns.point
        return line.cells[column][:LONGEST_NAME] if column is not None and column < len(line.cells) else ""

    def _text(self, line: Line) -> str:
        """The description; between blanks it goes on to the end of the line where it is the last column."""
        column = self.manner.columns.description
        if column is None or column >= len(line.cells):
            return ""
        is_last = column > max(n for n in self.manner.length_columns if n is not None)
        goes_on = self.manner.separator == "blanks" and is_last
        return (" ".join(line.cells[column:]) if goes_on else line.cells[column])[:LONGEST_NOTE]


def stage_and_note(text: str) -> tuple[Stage, str]:
    """What was read, and the rest of a description: `bed: by the drain` is the bed, by the drain."""
    match = _STAGE.match(text)
    if match is None:
        return "subfloor", text
    return ("bed" if match[1].lower() == "bed" else "subfloor"), text[match.end() :]


def lowered(rows: Sequence[Measured]) -> float:
    """What is to be taken off all elevations so that they are a floor's: nothing, or a multiple of STEP_DOWN, mm."""
    heights = [row.height for row in rows]
    if not heights or max(map(abs, heights)) <= FARTHEST:
        return 0.0
    return min(heights) // STEP_DOWN * STEP_DOWN


def far_problems(rows: Sequence[Measured], off: float) -> Iterator[Problem]:
    """Heights that are still beyond any floor's."""
    for row in rows:
        if abs(row.height - off) > FARTHEST:
            yield problem_at("text", "table_too_high", line=row.line, height=round(row.height, 1))
