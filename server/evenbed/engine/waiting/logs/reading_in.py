"""A temperature logger's file read in: what it holds and how it was understood, or all that is wrong with it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, timezone
from statistics import median

from evenbed.engine.document.reading import read_json
from evenbed.engine.document.waiting import MOST_LOGGED
from evenbed.engine.problems import MOST_PROBLEMS, Problem, problem_at
from evenbed.engine.tables.lines import Line, cut, lines_of
from evenbed.engine.waiting.logs.days import days_of
from evenbed.engine.waiting.logs.manner import NUMBER, SAMPLE, Manner, has_digits, manner_of
from evenbed.engine.waiting.logs.order import Ordered, ordered
from evenbed.engine.waiting.logs.rows import MISSING, LogReader, LogRow, unit_of_sign
from evenbed.engine.waiting.logs.times import epoch_seconds, parted, plain, zone_named
from evenbed.engine.waiting.shapes import LogInAnswer, LogInQuestion, LogUnit, LogUnitReason, OffsetReason

MOST_LINES = 2 * MOST_LOGGED  # empty lines, repeated headers and a page about the logger among them
SHOWN_LINES, SHOWN_CELLS, SHOWN_LENGTH = 8, 20, 60
COLDEST, WARMEST = -60.0, 100.0  # °C: no bed and no room is beyond
HOTTEST_CELSIUS = 45.0  # in the middle of the figures: above it they are taken for °F; no source


def log_in_from(given: object) -> LogInAnswer:
    """What a logger's file holds (parsed JSON in). Any problem in it, and no row is given: nothing is half taken.

    Raises BadDocumentError for a question that is none.
    """
    question, _ = read_json(LogInQuestion, given)
    lines = lines_of(question.text)
    manner = manner_of(lines, question)
    whole = [*cut(lines, manner.separator, MOST_LINES + 1)]
    data = _data(whole, manner)
    day_first, is_doubtful = days_of((manner.stamp(line.cells) for line in data), question.day_first)
    problems = _general_problems(manner, data, is_too_long=len(whole) > MOST_LINES)
    reader = LogReader(manner, day_first)
    rows = [] if problems else reader.read(data)
    unit, reason = _unit(question, manner, whole, data, rows)
    offset, offset_reason = _offset(question, manner, rows)
    order = ordered(rows, offset)
    found = [*problems, *reader.problems, *order.problems, *_other_units(rows, unit), *_far(order.rows, unit)]
    read = _Read(manner, data, order, unit, offset, reader.missing)
    return _answer(read, found, question, (reason, offset_reason, day_first, is_doubtful))


@dataclass(frozen=True)
class _Read:
    """A file as it was understood."""

    manner: Manner
    data: list[Line]
    order: Ordered
    unit: LogUnit
    offset: int
    missing: int


def _data(lines: Sequence[Line], manner: Manner) -> list[Line]:
    """The lines from the first row on, repeated headers and remarks left out.

    What stands between the header and the first good row, or without a header right before it, and is meant as a
    row, is one: it is told, not passed over. A line of units is none.
    """
    start = next((n for n, line in enumerate(lines) if _is_row(line, manner)), len(lines))
    if manner.header is not None:
        after = (n for n in range(start) if lines[n].number > manner.header.number)
        start = next((n for n in after if _is_tried(lines[n], manner)), start)
    while manner.header is None and 0 < start < len(lines) and _is_tried(lines[start - 1], manner):
        start -= 1
    names = None if manner.header is None else manner.header.cells
    return [line for line in lines[start:] if not line.is_remark and line.cells != names]


def _is_row(line: Line, manner: Manner) -> bool:
    """True for a line with a date, and with a figure or with nothing where one belongs."""
    text, column = manner.stamp(line.cells), manner.temperature
    if line.is_remark or not text or (parted(text) is None and epoch_seconds(text) is None):
        return False
    if column is None or column >= manner.width:
        return True
    return column < len(line.cells) and (manner.is_chosen or _is_figure(line.cells[column], manner))


def _is_figure(cell: str, manner: Manner) -> bool:
    return cell.lower() in MISSING or _figure(cell, manner) is not None


def _is_tried(line: Line, manner: Manner) -> bool:
    """True for a line that is meant as a row: wide enough, with a figure or with digits enough for a time."""
    column = manner.temperature
    if column is None or column >= len(line.cells):
        return False
    return _figure(line.cells[column], manner) is not None or has_digits(manner.stamp(line.cells))


def _figure(cell: str, manner: Manner) -> tuple[str, str | None] | None:
    match = NUMBER[manner.decimal].fullmatch(cell)
    return None if match is None else (match[1], match[2])


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
    told = [_unit_named(line.cells[column]) for line in head if column is not None and column < len(line.cells)]
    named = next((unit for unit in told if unit is not None), None)
    if named is not None:
        return named, "header"
    cells = (line.cells[column] for line in data[:SAMPLE] if column is not None and column < len(line.cells))
    signs = (unit_of_sign(found[1]) for cell in cells if (found := _figure(cell, manner)) is not None)
    sign = next((sign for sign in signs if sign is not None), None)
    if sign is not None:
        return sign, "sign"
    middle = median(row.figure for row in rows) if rows else 0.0
    return ("fahrenheit" if middle > HOTTEST_CELSIUS else "celsius"), "size"


def _unit_named(name: str) -> LogUnit | None:
    words = plain(name).replace("°", " °").replace("º", " °").replace("(", " ").replace(")", " ").replace(",", " ")
    parts = words.replace("_", " ").replace("[", " ").replace("]", " ").replace("/", " ").split()
    if "fahrenheit" in words or any(part in ("°f", "f", "degf", "*f") for part in parts):
        return "fahrenheit"
    if "celsius" in words or any(part in ("°c", "c", "degc", "*c") for part in parts):
        return "celsius"
    return None


def _offset(question: LogInQuestion, manner: Manner, rows: Sequence[LogRow]) -> tuple[int, OffsetReason]:
    """The offset from UTC of times without their own, and why."""
    if rows and all(row.offset is not None for row in rows):
        return rows[-1].offset or 0, "times"
    names = () if manner.header is None else manner.header.cells
    named = next((zone for zone in map(zone_named, names) if zone is not None), None)
    return (question.offset_minutes, "chosen") if named is None else (named, "header")


def _celsius(figure: float, unit: LogUnit) -> float:
    return round(figure if unit == "celsius" else (figure - 32.0) / 1.8, 4)


def _other_units(rows: Sequence[LogRow], unit: LogUnit) -> list[Problem]:
    others = [row for row in rows if row.sign not in (None, unit)]
    return [problem_at("text", "log_other_unit", line=row.line) for row in others]


def _far(rows: Sequence[LogRow], unit: LogUnit) -> list[Problem]:
    found = [(row, _celsius(row.figure, unit)) for row in rows]
    return [
        problem_at("text", "log_far", line=row.line, celsius=celsius)
        for row, celsius in found
        if not COLDEST <= celsius <= WARMEST
    ]


def _answer(
    read: _Read,
    problems: list[Problem],
    question: LogInQuestion,
    how: tuple[LogUnitReason, OffsetReason, bool, bool],
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
        day_first=how[2],
        day_doubtful=how[3],
        time_column=manner.date,
        temperature_column=manner.temperature,
        offset_minutes=read.offset,
        offset_reason=how[1],
        order=order.order,
        clock_set_by=order.set_by,
        clock_set_line=order.set_at,
        names=() if manner.header is None else _shown(manner.header.cells),
        first_rows=tuple(_shown(line.cells) for line in read.data[:SHOWN_LINES]),
        row_count=len(read.data),
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
