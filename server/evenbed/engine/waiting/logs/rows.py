"""The lines of a logger's table as moments and temperatures, and everything that is wrong with them."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from evenbed.engine.problems import Problem, problem_at, shown
from evenbed.engine.tables.lines import Line
from evenbed.engine.waiting.logs.counts import DAY_S, epoch_seconds, serial_seconds
from evenbed.engine.waiting.logs.days import DateOrder
from evenbed.engine.waiting.logs.manner import NUMBER, Manner
from evenbed.engine.waiting.logs.times import EPOCH_DAY, DateText, clock_from, parted
from evenbed.engine.waiting.shapes import LogUnit

MISSING = frozenset({"", "-", "--", "---", "nan", "na", "n/a", "null", "none", "err", "error", "s/d"})
"""What loggers write where they have no temperature: such a line is counted and left out."""


@dataclass(frozen=True)
class LogRow:
    """One line: its clock in seconds since 1970 as written, its own offset (minutes) if any, and its figure.

    `sign` is the unit written behind the figure, None where none is.
    """

    line: int
    clock: float
    offset: int | None
    figure: float
    sign: LogUnit | None = None


@dataclass
class LogReader:
    """Reads the lines of one table, collecting problems."""

    manner: Manner
    dates: DateOrder
    problems: list[Problem] = field(default_factory=list)
    missing: int = 0
    has_halves: bool = False  # am or pm stands behind some time of day
    _days: dict[DateText, int | None] = field(default_factory=dict)

    def read(self, lines: Sequence[Line]) -> list[LogRow]:
        """Every line with a temperature, in the order of the file."""
        return [row for line in lines if (row := self._row(line)) is not None]

    def _row(self, line: Line) -> LogRow | None:
        manner, cells = self.manner, line.cells
        if manner.temperature is None or manner.date is None:
            return None
        needed = 1 + max(manner.date, manner.clock or 0, manner.temperature)
        names = 0 if manner.header is None else len(manner.header.cells)
        if line.is_open:
            self._refuse(line, "table_open_quote")
        elif len(cells) < needed:
            self._refuse(line, "log_short", columns=len(cells), needed=needed)
        elif names and any(cells[names:]):
            self._refuse(line, "log_wide", columns=len(cells), needed=names)
        else:
            time = self._time(line)
            figure = self._figure(line, cells[manner.temperature])
            return None if time is None or figure is None else LogRow(line.number, *time, *figure)
        return None

    def _refuse(self, line: Line, code: str, **values: float | str) -> None:
        self.problems.append(problem_at("text", code, line=line.number, **values))

    def _time(self, line: Line) -> tuple[float, int | None] | None:
        text = self.manner.stamp(line.cells)
        if self.manner.is_serial and (days := serial_seconds(text)) is not None:
            return days, None
        epoch = epoch_seconds(text)
        if epoch is not None:
            return epoch, 0
        found = parted(text)
        day = None if found is None else self._day(found[0])
        clock = None if found is None else clock_from(found[1])
        if day is None or clock is None:
            self._refuse(line, "log_time" if day is None else "log_clock", text=shown(text))
            return None
        self.has_halves = self.has_halves or clock.is_half_day
        return (day - EPOCH_DAY) * DAY_S + clock.seconds, clock.offset

    def _day(self, written: DateText) -> int | None:
        if written not in self._days:
            self._days[written] = written.ordinal(day_first=self.dates.day_first, year_first=self.dates.year_first)
        return self._days[written]

    def _figure(self, line: Line, cell: str) -> tuple[float, LogUnit | None] | None:
        if cell.lower() in MISSING:
            self.missing += 1
            return None
        match = NUMBER[self.manner.decimal].fullmatch(cell)
        if match is None:
            self._refuse(line, "log_number", text=shown(cell))
            return None
        return float(match[1].replace(",", ".").replace("−", "-")), unit_of_sign(match[2])


def unit_of_sign(sign: str | None) -> LogUnit | None:
    """The unit that is written behind a figure, None where none is."""
    if not sign or sign[-1] not in "cCfF℃℉":
        return None
    return "fahrenheit" if sign[-1] in "fF℉" else "celsius"
