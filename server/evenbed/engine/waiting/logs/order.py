"""The rows of a log in order of time: newest first turned round, a clock set by an hour seen, doubles left out."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from statistics import median_low

from evenbed.engine.problems import Problem, problem_at
from evenbed.engine.waiting.logs.counts import DAY_S
from evenbed.engine.waiting.logs.rows import LogRow
from evenbed.engine.waiting.logs.times import EPOCH_DAY
from evenbed.engine.waiting.shapes import LogOrder

HOUR_S = 3600.0
SUNDAY = 6  # clocks are changed on Sundays, before three in the morning, wherever they are
LATEST_CHANGE_S = 3.5 * HOUR_S
SLACK_S = 2.0  # a logger's interval may waver by so much
FEWEST_STEPS = 2


@dataclass(frozen=True)
class Ordered:
    """Rows by rising time, UTC in seconds since 1970."""

    rows: tuple[LogRow, ...]
    order: LogOrder
    set_by: int  # minutes by which the clock was set at `set_at`: -60 back, 60 forward, 0 not at all
    set_at: int | None  # the first line after it was
    doubled: int
    problems: tuple[Problem, ...]


def ordered(rows: Sequence[LogRow], offset: int, *, has_halves: bool = False) -> Ordered:
    """The rows in order of time; `offset` (minutes) holds for clocks without their own, at the beginning of the file.

    Where such clocks jump once by an hour more or less than from line to line else, as they do when the time of
    summer ends or begins, the lines from there on have the other offset. Hours that begin again at one after noon,
    where nothing tells morning from afternoon (`has_halves`), are a problem.
    """
    order = _order_of(rows)
    turned = list(rows[::-1]) if order == "falling" else list(rows)
    change = _change(turned) if all(row.offset is None for row in rows) else None
    at, by = change or (0, 0)
    minutes = [offset + by if n >= at else offset for n in range(len(turned))]
    timed = [
        LogRow(row.line, row.clock - 60.0 * (other if row.offset is None else row.offset), row.offset, row.figure)
        for row, other in zip(turned, minutes, strict=True)
    ]
    rising = sorted(timed, key=_moment)
    kept, problems = _single(rising)
    doubled = len(rising) - len(kept) - len(problems)
    lost = None if has_halves or order != "mixed" else _lost_half(turned)
    if lost is not None:
        problems = (problem_at("text", "log_half_day", line=lost.line), *problems)
    return Ordered(kept, order, by, turned[at].line if change else None, doubled, problems)


def _moment(row: LogRow) -> tuple[float, int]:
    return row.clock, row.line


def _order_of(rows: Sequence[LogRow]) -> LogOrder:
    steps = Counter((b.clock > a.clock) - (b.clock < a.clock) for a, b in pairwise(rows))
    if not steps[-1]:
        return "rising"
    if not steps[1] or (steps[-1] > 2 and steps[-1] > 10 * steps[1]):
        return "falling" if len(rows) > 2 or not steps[1] else "mixed"
    return "rising" if steps[-1] == 1 and _change(rows) is not None else "mixed"


def _change(rows: Sequence[LogRow]) -> tuple[int, int] | None:
    """Where the clock was set by an hour, once, and by how many minutes; None where it was not."""
    steps = [b.clock - a.clock for a, b in pairwise(rows)]
    usual = median_low([abs(step) for step in steps]) if len(steps) >= FEWEST_STEPS else 0.0
    odd = [n for n, step in enumerate(steps) if abs(step - usual) > SLACK_S]
    back = [n for n in odd if abs(steps[n] + HOUR_S - usual) <= SLACK_S]
    forward = [n for n in odd if abs(steps[n] - HOUR_S - usual) <= SLACK_S]
    falling = [n for n, step in enumerate(steps) if step < 0.0]
    if usual <= 0.0 or len(back) + len(forward) != 1 or falling not in ([], back):
        return None
    n = (back or forward)[0]
    if not falling and not _is_change_time(rows[n].clock):
        return None
    return n + 1, -60 if back else 60


def _lost_half(rows: Sequence[LogRow]) -> LogRow | None:
    """The first row whose clock fell back by twelve hours less the usual step, where no hour lies beyond 1 to 12."""
    if not all(HOUR_S <= row.clock % DAY_S < 13 * HOUR_S for row in rows):
        return None
    steps = [b.clock - a.clock for a, b in pairwise(rows)]
    usual = median_low([abs(step) for step in steps])
    falls = (n for n, step in enumerate(steps) if step < 0.0 and abs(step + 12 * HOUR_S - usual) <= SLACK_S)
    return next((rows[n + 1] for n in falls), None)


def _is_change_time(clock: float) -> bool:
    days, second = divmod(clock, DAY_S)
    return date.fromordinal(EPOCH_DAY + int(days)).weekday() == SUNDAY and second <= LATEST_CHANGE_S


def _single(rising: Sequence[LogRow]) -> tuple[tuple[LogRow, ...], tuple[Problem, ...]]:
    """Every moment once; another temperature for the same moment is a problem."""
    kept: list[LogRow] = []
    problems: list[Problem] = []
    for row in rising:
        if not kept or row.clock != kept[-1].clock:
            kept.append(row)
        elif row.figure != kept[-1].figure:
            problems.append(problem_at("text", "log_two_temperatures", line=row.line, first=kept[-1].line))
    return tuple(kept), tuple(problems)
