"""Which lines of a logger's file are rows: not the page before them, not the summary behind them."""

from collections.abc import Sequence
from dataclasses import dataclass

from evenbed.engine.tables.lines import Line
from evenbed.engine.waiting.logs.counts import epoch_seconds, serial_seconds
from evenbed.engine.waiting.logs.manner import NUMBER, Manner, has_digits
from evenbed.engine.waiting.logs.rows import MISSING
from evenbed.engine.waiting.logs.times import parted

FEWEST_OTHERS = 2  # rows that a last one is held against


@dataclass(frozen=True)
class LogTable:
    """The lines that are rows or meant as rows, and how many behind them are none."""

    rows: list[Line]
    passed_over: int


def table_of(lines: Sequence[Line], manner: Manner, *, is_open: bool) -> LogTable:
    """The rows of a file. `is_open` where it does not end with the end of a line: its last one may be cut off."""
    data = _data(lines, manner)
    last = next((n for n in range(len(data) - 1, -1, -1) if _is_row(data[n], manner)), len(data))
    rows = [line for n, line in enumerate(data) if n <= last or has_digits(manner.stamp(line.cells))]
    if is_open and rows and rows[-1] is lines[-1] and _is_cut(rows[-1], rows[:-1], manner):
        rows = rows[:-1]
    return LogTable(rows, len(data) - len(rows))


def _is_cut(last: Line, others: Sequence[Line], manner: Manner) -> bool:
    """True where the last row has fewer cells than every other, or its figure fewer decimals."""
    if len(others) < FEWEST_OTHERS:
        return False
    if len(last.cells) < min(len(line.cells) for line in others):
        return True
    decimals = [_decimals(line, manner) for line in others]
    own, told = _decimals(last, manner), [count for count in decimals if count is not None]
    return own is not None and len(told) >= FEWEST_OTHERS and own < min(told)


def _decimals(line: Line, manner: Manner) -> int | None:
    """How many decimals the figure of a row has; None where it has no figure."""
    column = manner.temperature
    found = None if column is None or column >= len(line.cells) else figure_in(line.cells[column], manner)
    return None if found is None else len(found[0].replace(",", ".").partition(".")[2])


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
    return [line for line in lines[start:] if not line.is_remark and line.cells != names and any(line.cells)]


def _is_row(line: Line, manner: Manner) -> bool:
    """True for a line with a date, and with a figure or with nothing where one belongs."""
    text, column = manner.stamp(line.cells), manner.temperature
    if line.is_remark or not text or not _is_moment(text, manner):
        return False
    if column is None or column >= manner.width:
        return True
    return column < len(line.cells) and (manner.is_chosen or _is_figure(line.cells[column], manner))


def _is_moment(text: str, manner: Manner) -> bool:
    is_count = epoch_seconds(text) is not None or (manner.is_serial and serial_seconds(text) is not None)
    return is_count or parted(text) is not None


def _is_figure(cell: str, manner: Manner) -> bool:
    return cell.lower() in MISSING or figure_in(cell, manner) is not None


def _is_tried(line: Line, manner: Manner) -> bool:
    """True for a line that is meant as a row: wide enough, with a figure or with digits enough for a time."""
    column = manner.temperature
    if column is None or column >= len(line.cells):
        return False
    return figure_in(line.cells[column], manner) is not None or has_digits(manner.stamp(line.cells))


def figure_in(cell: str, manner: Manner) -> tuple[str, str | None] | None:
    """The figure in a cell and the sign of its unit as they stand; None where it is no figure."""
    match = NUMBER[manner.decimal].fullmatch(cell)
    return None if match is None else (match[1], match[2])
