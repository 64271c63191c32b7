"""A temperature logger's file read in: what it holds and how it was understood, or all that is wrong with it."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, timezone
from statistics import median

from evenbed.engine.document.reading import read_json
from evenbed.engine.document.waiting import MOST_LOGGED
from evenbed.engine.problems import MOST_PROBLEMS, Problem, problem_at
from evenbed.engine.tables.lines import Line, cut, lines_of
from evenbed.engine.waiting.logs.days import DateOrder, order_of_dates
from evenbed.engine.waiting.logs.manner import SAMPLE, Manner, manner_of, unit_named
from evenbed.engine.waiting.logs.order import Ordered, ordered
from evenbed.engine.waiting.logs.rows import LogReader, LogRow, unit_of_sign
from evenbed.engine.waiting.logs.table import LogTable, figure_in, table_of
from evenbed.engine.waiting.logs.times import plain, zone_named
from evenbed.engine.waiting.shapes import LogInAnswer, LogInQuestion, LogUnit, LogUnitReason, OffsetReason

MOST_LINES = 2 * MOST_LOGGED  # empty lines, repeated headers and a page about the logger among them
SHOWN_LINES, SHOWN_CELLS, SHOWN_LENGTH = 8, 20, 60
COLDEST, WARMEST = -60.0, 100.0  # °C: no bed and no room is beyond
WARMEST_GUESSED = 65.0  # °C: the same where nothing but their size tells the unit of the figures; no source
HOTTEST_CELSIUS = 45.0  # in the middle of the figures: above it they are taken for °F; no source

_ZONE_WORD = re.compile(r"\bzon[ea]|\btz\b|\bhusos?\b")


def log_in_from(given: object) -> LogInAnswer:
    """What a logger's file holds (parsed JSON in). Any problem in it, and no row is given: nothing is half taken.

    Raises BadDocumentError for a question that is none.
    """
    question, _ = read_json(LogInQuestion, given)
    lines = lines_of(question.text)
    manner = manner_of(lines, question)
    whole = [*cut(lines, manner.separator, MOST_LINES + 1)]
    table = table_of(whole, manner, is_open=bool(lines[-1]))
    data = table.rows
    dates = order_of_dates((manner.stamp(line.cells) for line in data), question.day_first, question.year_first)
    problems = _general_problems(manner, data, is_too_long=len(whole) > MOST_LINES)
    reader = LogReader(manner, dates)
    rows = [] if problems else reader.read(data)
    unit, reason = _unit(question, manner, whole, data, rows)
    offset, offset_reason = _offset(question, manner, rows, whole[: whole.index(data[0])] if data else ())
    order = ordered(rows, offset, has_halves=reader.has_halves)
    warmest = WARMEST_GUESSED if reason == "size" else WARMEST
    found = [
        *problems,
        *reader.problems,
        *order.problems,
        *_other_units(rows, unit),
        *_far(order.rows, unit, warmest),
    ]
    read = _Read(manner, table, order, unit, offset, reader.missing, dates)
    return _answer(read, found, question, (reason, offset_reason))


@dataclass(frozen=True)
class _Read:
    """A file as it was understood."""

    manner: Manner
    table: LogTable
    order: Ordered
    unit: LogUnit
    offset: int
    missing: int
    dates: DateOrder


def _general_problems(manner: Manner, data: Sequence[Line], *, is_too_long: bool) -> list[Problem]:
    """What keeps the file from being read at all."""
    columns = {} if manner.temperature is None else {"column": manner.temperature + 1}
    faults = {
        "log_nothing": not data and manner.date is None,
        "log_no_time": manner.date is None,
        "log_too_long": is_too_long or len(data) > MOST_LOGGED,
        "log_no_temperature": manner.temperature is None,
        "log_one_column": manner.temperature in (manner.date, manner.clock),
        "log_torn": not manner.is_chosen and _is_torn(manner, data),
    }
    code = next((code for code, is_wrong in faults.items() if is_wrong), None)
    if code is None:
        return []
    where = {"log_no_time": "time_column", "log_no_temperature": "temperature_column"}.get(code, "text")
    values = columns if code == "log_one_column" else {"most": MOST_LOGGED} if code == "log_too_long" else {}
    return [problem_at(where, code, **values)]


def _is_torn(manner: Manner, data: Sequence[Line]) -> bool:
    """True where a comma may stand both between columns and in the figures, and no header tells."""
    last = {line.cells[-2:] for line in data}
    return (
        manner.separator == "comma"
        and manner.header is None
        and all(len(line.cells) - 1 == 2 + (manner.clock or manner.date or 0) for line in data)
        and all(all(cell.lstrip("+-").isdecimal() for cell in cells) for cells in last)
    )


def _unit(
    question: LogInQuestion, manner: Manner, lines: Sequence[Line], data: Sequence[Line], rows: Sequence[LogRow]
) -> tuple[LogUnit, LogUnitReason]:
    """The unit of the figures, and why."""
    if question.unit is not None:
        return question.unit, "chosen"
    column = manner.temperature
    first = data[0].number if data else 0
    head = [] if manner.header is None else [x for x in lines if manner.header.number <= x.number < first]
    told = [unit_named(line.cells[column]) for line in head if column is not None and column < len(line.cells)]
    named = next((unit for unit in told if unit is not None), None)
    if named is not None:
        return named, "header"
    cells = (line.cells[column] for line in data[:SAMPLE] if column is not None and column < len(line.cells))
    signs = (unit_of_sign(found[1]) for cell in cells if (found := figure_in(cell, manner)) is not None)
    sign = next((sign for sign in signs if sign is not None), None)
    if sign is not None:
        return sign, "sign"
    middle = median(row.figure for row in rows) if rows else 0.0
    return ("fahrenheit" if middle > HOTTEST_CELSIUS else "celsius"), "size"


def _zone_texts(manner: Manner, page: Sequence[Line]) -> Iterator[str]:
    """Where a file may name its zone: over its times, or in a line about it on the page before the table."""
    for column in (manner.date, manner.clock):
        if manner.header is not None and column is not None and column < len(manner.header.cells):
            yield manner.header.cells[column]
    for line in page:
        text = " ".join(line.cells)
        if _ZONE_WORD.search(plain(text)):
            yield text


def _offset(
    question: LogInQuestion, manner: Manner, rows: Sequence[LogRow], page: Sequence[Line]
) -> tuple[int, OffsetReason]:
    """The offset from UTC of times without their own, and why."""
    if rows and all(row.offset is not None for row in rows):
        return rows[-1].offset or 0, "times"
    named = next((zone for zone in map(zone_named, _zone_texts(manner, page)) if zone is not None), None)
    return (question.offset_minutes, "chosen") if named is None else (named, "header")


def _celsius(figure: float, unit: LogUnit) -> float:
    return round(figure if unit == "celsius" else (figure - 32.0) / 1.8, 4)


def _other_units(rows: Sequence[LogRow], unit: LogUnit) -> list[Problem]:
    others = [row for row in rows if row.sign not in (None, unit)]
    return [problem_at("text", "log_other_unit", line=row.line) for row in others]


def _far(rows: Sequence[LogRow], unit: LogUnit, warmest: float) -> list[Problem]:
    found = [(row, _celsius(row.figure, unit)) for row in rows]
    return [
        problem_at("text", "log_far", line=row.line, celsius=celsius)
        for row, celsius in found
        if not COLDEST <= celsius <= warmest
    ]


def _answer(
    read: _Read,
    problems: list[Problem],
    question: LogInQuestion,
    how: tuple[LogUnitReason, OffsetReason],
) -> LogInAnswer:
    manner, order = read.manner, read.order
    rows = () if problems else order.rows
    celsius = tuple(_celsius(row.figure, read.unit) for row in rows)
    first = rows[0].clock if rows else 0.0
    if not rows and not problems:
        problems = [problem_at("text", "log_nothing")]
    return LogInAnswer(
        start=_moment(first, read.offset) if rows else None,
        seconds=tuple([round(row.clock - first, 3) for row in rows]),
        celsius=celsius,
        where=question.where,
        unit=read.unit,
        unit_reason=how[0],
        day_first=read.dates.day_first,
        year_first=read.dates.year_first,
        day_doubtful=read.dates.is_doubtful,
        time_column=manner.date,
        temperature_column=manner.temperature,
        time_doubtful=manner.has_other_times,
        temperature_doubtful=manner.has_rivals,
        offset_minutes=read.offset,
        offset_reason=how[1],
        order=order.order,
        clock_set_by=order.set_by,
        clock_set_line=order.set_at,
        names=() if manner.header is None else _shown(manner.header.cells),
        first_rows=tuple(_shown(line.cells) for line in read.table.rows[:SHOWN_LINES]),
        row_count=len(read.table.rows),
        passed_over=read.table.passed_over,
        missing=read.missing,
        doubled=order.doubled,
        lowest=min(celsius, default=None),
        highest=max(celsius, default=None),
        problems=tuple(sorted(problems, key=lambda problem: float(problem.values.get("line", 0.0)))[:MOST_PROBLEMS]),
        problem_count=len(problems),
    )


def _moment(clock: float, offset: int) -> str:
    whole = datetime.fromtimestamp(0, UTC) + timedelta(milliseconds=round(clock * 1000.0))
    text = whole.astimezone(timezone(timedelta(minutes=offset)))
    return text.isoformat(timespec="seconds" if not text.microsecond else "milliseconds")


def _shown(cells: Sequence[str]) -> tuple[str, ...]:
    return tuple(cell[:SHOWN_LENGTH] for cell in cells[:SHOWN_CELLS])
