"""A table of points read in: what it holds and how it was understood, or everything that is wrong with it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.document.reading import read_json
from evenbed.engine.geometry import box_of
from evenbed.engine.outline import Figure, figure_from
from evenbed.engine.problems import MOST_PROBLEMS, Problem, problem_at
from evenbed.engine.tables.guess import Manner, manner_of, unit_for
from evenbed.engine.tables.lines import Line, cut, lines_of
from evenbed.engine.tables.numbers import PLACES
from evenbed.engine.tables.placing import (
    AS_THEY_ARE,
    doubled_problems,
    is_outside,
    own_placings,
    pair_problems,
    placed,
    placing_by_pairs,
    with_outside,
)
from evenbed.engine.tables.rows import (
    MOST_ROWS,
    Measured,
    Reader,
    data_lines,
    far_problems,
    lowered,
    mapping_problems,
)
from evenbed.engine.tables.shapes import (
    Placing,
    TableInAnswer,
    TableInQuestion,
    TablePlace,
    TableRow,
    TableUnit,
    UnitReason,
)

MOST_LINES = 2 * MOST_ROWS  # remarks and repeated headers among them
SHOWN_LINES, SHOWN_CELLS, SHOWN_LENGTH = 8, 20, 60


def table_in_from(given: object) -> TableInAnswer:
    """What a table holds (parsed JSON in). Any problem in it, and no row is given: nothing is half taken.

    Raises BadDocumentError for a question that is none, and for an outline that gives no figure.
    """
    question, _ = read_json(TableInQuestion, given)
    figure = None if question.outline is None else figure_from(question.outline)
    lines = lines_of(question.text)
    manner = manner_of(lines, question.mapping)
    whole = list(cut(lines, manner.separator, MOST_LINES + 1))
    data = data_lines(whole, manner)
    unit, reason = unit_for(manner, question.mapping.unit, data, None if figure is None else _size(figure))
    rows, problems = _rows(manner, unit, data, is_too_long=len(whole) > MOST_LINES)
    return _answer(_Read(manner, unit, reason, data, rows), problems, question.place, figure)


@dataclass(frozen=True)
class _Read:
    """A table as it was understood."""

    manner: Manner
    unit: TableUnit
    reason: UnitReason
    data: list[Line]
    rows: list[Measured]


def _size(figure: Figure) -> float:
    """The room from corner to corner of its box, mm."""
    left, low, right, high = box_of(figure.outer)
    return math.hypot(right - left, high - low)


def _rows(
    manner: Manner, unit: TableUnit, data: list[Line], *, is_too_long: bool
) -> tuple[list[Measured], list[Problem]]:
    if not data:
        return [], [problem_at("text", "table_nothing")]
    if is_too_long or len(data) > MOST_ROWS:
        return [], [problem_at("text", "table_too_long", most=MOST_ROWS)]
    problems = mapping_problems(manner)
    if problems:
        return [], problems
    reader = Reader(manner, unit)
    rows = reader.read(data)
    return rows, reader.problems


def _answer(read: _Read, problems: list[Problem], place: TablePlace, figure: Figure | None) -> TableInAnswer:
    off = lowered(read.rows) if read.manner.heights == "elevation" else 0.0
    problems += far_problems(read.rows, off)
    problems += pair_problems(read.rows, place.pairs) if place.kind == "pairs" and not problems else ()
    placings = own_placings(read.rows, figure)
    placing = _placing(read.rows, place, placings, figure, is_good=not problems)
    spots = [(row, placed(row, placing)) for row in read.rows]
    problems += doubled_problems(spots)
    rows = () if problems else tuple(_row(read.manner, row, at, off, figure) for row, at in spots)
    manner = read.manner
    return TableInAnswer(
        separator=manner.separator,
        decimal=manner.decimal,
        header=manner.header is not None,
        unit=read.unit,
        unit_reason=read.reason,
        columns=manner.columns,
        heights=manner.heights,
        names=() if manner.header is None else _shown(manner.header.cells),
        first_rows=tuple(_shown(line.cells) for line in read.data[:SHOWN_LINES]),
        row_count=len(read.data),
        rows=rows,
        lowered_by=off,
        placing=placing,
        placings=placings,
        problems=tuple(sorted(problems, key=_line_of)[:MOST_PROBLEMS]),
        problem_count=len(problems),
    )


def _placing(
    rows: Sequence[Measured], place: TablePlace, own: Sequence[Placing], figure: Figure | None, *, is_good: bool
) -> Placing:
    """The placing asked for; as they are where that cannot be had."""
    if place.kind == "pairs" and is_good:
        return with_outside(placing_by_pairs(rows, place), rows, figure)
    return next((placing for placing in own if placing.kind == place.kind), AS_THEY_ARE)


def _row(manner: Manner, row: Measured, at: Point, off: float, figure: Figure | None) -> TableRow:
    is_down = manner.heights == "down"
    z, down = (None, row.height) if is_down else (round(row.height - off, PLACES), None)
    spot = round(at[0], PLACES), round(at[1], PLACES)
    return TableRow(row.line, row.point, spot, z, down, row.stage, row.note, is_outside(at, figure))


def _shown(cells: Sequence[str]) -> tuple[str, ...]:
    return tuple(cell[:SHOWN_LENGTH] for cell in cells[:SHOWN_CELLS])


def _line_of(problem: Problem) -> float:
    line = problem.values.get("line", 0.0)
    return float(line)
