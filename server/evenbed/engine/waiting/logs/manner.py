"""How a logger's table is to be read where nobody says so: separator, decimal mark, header, columns."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise, product

from evenbed.engine.tables.lines import Line, cut
from evenbed.engine.tables.shapes import Decimal, Separator
from evenbed.engine.waiting.logs.counts import epoch_seconds, is_clock_in_digits, is_fine_serial
from evenbed.engine.waiting.logs.times import clock_from, is_half, parted, plain
from evenbed.engine.waiting.shapes import LogInQuestion, LogUnit

SAMPLE = 150  # lines that a guess is made from: a logger may write a page about itself first
SEPARATORS: tuple[Separator, ...] = ("tab", "semicolon", "comma", "blanks")
DECIMALS: tuple[Decimal, ...] = ("point", "comma")
MOST_CELLS = 60
DIGITS_OF_A_TIME = 4  # at least
HALVES = frozenset("aApP")  # am and pm begin with them
_SIGN = r"(?:°|º|˚|deg|\*|'|\ufffd)?\s?[CFcf]|[℃℉°º˚\ufffd]"  # the degree as it is written, and as it comes out wrong

NUMBER: dict[Decimal, re.Pattern[str]] = {
    "point": re.compile(rf"([+\-−]?(?:\d{{1,6}}(?:\.\d{{0,12}})?|\.\d{{1,12}}))\s?({_SIGN})?"),
    "comma": re.compile(rf"([+\-−]?(?:\d{{1,6}}(?:,\d{{0,12}})?|,\d{{1,12}}))\s?({_SIGN})?"),
}
_TEMPERATURE = re.compile(r"temp|celsius|fahrenheit|[°º]|\bdeg|\bt\d{0,2}$|\b[cf]$")
_BETWEEN_WORDS = re.compile(r"[^a-z0-9]+")
_OTHER = re.compile(
    r"dew|rocio|humid|hume|\brh\b|\bhr\b|%|batt|bater|volt|press|presi|elapsed|second|segund|count|index|lux"
)
_EDGE = re.compile(r"\bmin|\bmax|\bhigh|\blow|\bhi\b|\blo\b|alarm|limit|umbral|set ?point|consigna")
_TIME = re.compile(r"time|date|datum|zeit|fecha|hora|dia\b|stamp|epoch|unix|when|cuando")


@dataclass(frozen=True)
class Manner:
    """How the table is read. Columns are counted from 0, None where none was found."""

    separator: Separator
    decimal: Decimal
    header: Line | None
    date: int | None
    clock: int | None  # where the time of day has a column of its own
    temperature: int | None
    width: int = 0  # most cells that a row has
    is_chosen: bool = False  # where a person said which column holds the temperatures
    is_serial: bool = False  # where days are counted as spreadsheets count them
    has_rivals: bool = False  # where other columns may hold the temperatures as well
    has_other_times: bool = False  # where another column holds other times

    def stamp(self, cells: Sequence[str]) -> str:
        """What a line says of its time, from one column or several."""
        if self.date is None or self.date >= len(cells):
            return ""
        text, end = cells[self.date], self.date
        if self.clock is not None:
            text, end = f"{text} {cells[self.clock] if self.clock < len(cells) else ''}", self.clock
        behind = cells[end + 1] if end + 1 < len(cells) else ""
        return f"{text} {behind}" if behind[:1] in HALVES and is_half(behind) else text.rstrip()


@dataclass(frozen=True)
class _Cut:
    """The first lines, cut one way."""

    separator: Separator
    decimal: Decimal
    lines: list[Line]

    def rows(self) -> list[tuple[str, ...]]:
        """Cells of the lines that have a time and a number beside it."""
        return [line.cells[:MOST_CELLS] for line in self.lines if self.is_row(line.cells[:MOST_CELLS])]

    def is_row(self, cells: Sequence[str]) -> bool:
        times = [n for n, cell in enumerate(cells) if is_stamp(cell)]
        if not times:
            days = [n for n, cell in enumerate(cells) if is_day(cell)]
            clocks = [n for n, cell in enumerate(cells) if clock_from(cell) is not None]
            times = [*days, *clocks] if days else [n for n, c in enumerate(cells) if epoch_seconds(c)]
            times = times or [n for n, cell in enumerate(cells) if is_fine_serial(cell)]
        return bool(times) and any(self.is_number(c) for n, c in enumerate(cells) if n not in times)

    def is_number(self, cell: str) -> bool:
        return NUMBER[self.decimal].fullmatch(cell) is not None


def is_stamp(cell: str) -> bool:
    """True for a date with a time of day behind it."""
    found = parted(cell)
    return found is not None and clock_from(found[1]) is not None


def is_day(cell: str) -> bool:
    """True for a date alone."""
    found = parted(cell)
    return found is not None and not found[1]


def manner_of(lines: list[str], asked: LogInQuestion) -> Manner:
    """The manner in which a logger's lines are read."""
    samples = {separator: [*cut(lines, separator, SAMPLE)] for separator in SEPARATORS}
    ways = [_Cut(separator, decimal, samples[separator]) for separator, decimal in product(SEPARATORS, DECIMALS)]
    best = max(ways, key=_fitness)
    rows = best.rows()
    day, clock, has_other_times = _time_columns(rows, asked.time_column)
    header = _header(best)
    found = [asked.temperature_column]
    if found == [None]:
        found = [*_temperature_columns(best, rows, {day, clock}, () if header is None else header.cells)]
    return Manner(
        best.separator,
        best.decimal,
        header,
        day,
        clock,
        temperature=next(iter(found), None),
        width=max((len(cells) for cells in rows), default=0),
        is_chosen=asked.temperature_column is not None,
        is_serial=day is not None and any(is_fine_serial(cells[day]) for cells in rows if day < len(cells)),
        has_rivals=len(found) > 1,
        has_other_times=has_other_times,
    )


def _fitness(way: _Cut) -> tuple[int, int]:
    """How many lines are rows that way, and how many of their cells are numbers."""
    rows = way.rows()
    return len(rows), sum(way.is_number(cell) for cells in rows for cell in cells)


def _time_columns(rows: Sequence[Sequence[str]], asked: int | None) -> tuple[int | None, int | None, bool]:
    """The column of the date, that of a time of day apart from it, and whether another column holds other times."""
    width = max((len(cells) for cells in rows), default=0)
    columns = [[cells[n] if n < len(cells) else "" for cells in rows] for n in range(width)]

    def mostly(n: int, is_kind: Callable[[str], object]) -> bool:
        return 2 * sum(bool(is_kind(cell)) for cell in columns[n]) > len(rows)

    wanted = range(width) if asked is None else [asked] if asked < width else []
    kinds: tuple[Callable[[str], object], ...] = (is_stamp, is_day, epoch_seconds, is_fine_serial)
    for is_kind in kinds:
        found = [n for n in wanted if mostly(n, is_kind)]
        if is_kind is epoch_seconds:
            found = [n for n in found if not all(map(is_clock_in_digits, columns[n]))]
        for n in found[:1]:
            others = any(columns[m] != columns[n] for m in found[1:])
            if is_kind is not is_day:
                return n, None, others
            clock = next((m for m in [*range(n + 1, width), *range(n)] if mostly(m, clock_from)), None)
            return n, clock, others
    return asked, None, False


def _header(way: _Cut) -> Line | None:
    """The line that names the columns, before the first row: the last with a word for time, else the very last."""
    first = next((n for n, line in enumerate(way.lines) if way.is_row(line.cells[:MOST_CELLS])), 0)
    wordy = [line for line in way.lines[:first] if len(line.cells) > 1 and not any(map(way.is_number, line.cells))]
    named = [line for line in wordy if any(_TIME.search(plain(cell)) for cell in line.cells)]
    width = max((len(cells) for cells in way.rows()), default=0)
    last = [line for line in wordy[-1:] if len(line.cells) == width and not any(map(has_digits, line.cells))]
    return next(iter([*named[::-1], *last]), None)


def has_digits(cell: str) -> bool:
    """True for a cell with as many digits as a time has, whatever else is wrong with it."""
    return sum(c.isdigit() for c in cell) >= DIGITS_OF_A_TIME


def _temperature_columns(
    way: _Cut, rows: Sequence[Sequence[str]], taken: set[int | None], names: Sequence[str]
) -> Sequence[int]:
    """The columns that may hold the temperatures, the likeliest first.

    By their names, by the sign in their cells, else all numbers that are no count. What a name tells to be a lowest,
    a highest or an alarm only counts where nothing else does; the same figures in another unit are no rival.
    """
    width = max((len(cells) for cells in rows), default=0)
    columns = {n: [cells[n] for cells in rows if n < len(cells)] for n in range(width) if n not in taken}
    numbers = [n for n, cells in columns.items() if any(way.is_number(cell) for cell in cells)]
    numbers = [n for n in numbers if not _is_count(columns[n])] or numbers
    said = {n: plain(names[n]) for n in numbers if n < len(names)}
    fitting = [n for n in numbers if not _OTHER.search(said.get(n, ""))]
    named = [n for n in fitting if "temp" in said.get(n, "")] or [
        n for n in fitting if _names_temperature(said.get(n))
    ]
    signed = [n for n in fitting if any(_sign(way, cell) for cell in columns[n])]
    found = named or signed or fitting
    found = [n for n in found if not _EDGE.search(said.get(n, ""))] or found
    units = [unit_named(said.get(n, "")) for n in found]
    return [n for n, unit in zip(found, units, strict=True) if unit == units[0]]


def unit_named(name: str) -> LogUnit | None:
    """The unit that a header's word names, None where it names none."""
    words = plain(name)
    parts = _BETWEEN_WORDS.sub(" ", words).split()
    if "fahrenheit" in words or any(part in ("f", "degf") for part in parts):
        return "fahrenheit"
    return "celsius" if "celsius" in words or any(part in ("c", "degc") for part in parts) else None


def _names_temperature(name: str | None) -> bool:
    return name is not None and _TEMPERATURE.search(name) is not None


def _sign(way: _Cut, cell: str) -> str | None:
    match = NUMBER[way.decimal].fullmatch(cell)
    return None if match is None else match[2]


def _is_count(cells: Sequence[str]) -> bool:
    """True where whole numbers go up by one from line to line, as numbers of lines do."""
    if len(cells) < 3 or not all(cell.isdecimal() and len(cell) <= 9 for cell in cells):
        return False
    return all(int(other) - int(one) == 1 for one, other in pairwise(cells))
