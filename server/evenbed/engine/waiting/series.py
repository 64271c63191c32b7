"""One course of the temperature out of all that was typed, logged and foretold.

Measured before foretold: foretold temperatures count after the last measured moment. The bed before the air: air that
was measured while a logger lay in the bed is left out. Where two sources measured one place at one time the colder
counts, for a bed is as hard as its coldest place; where they lie far apart at one moment one of them is wrong, and
that is refused.
"""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from itertools import pairwise

from evenbed.engine.cure import HOUR, Temperatures, moment_from_time, temperatures_from_climate
from evenbed.engine.document.waiting import ClimateRow, Curing, ForecastDay, TemperatureLog
from evenbed.engine.problems import BadDocumentError, Problem, problem_at
from evenbed.engine.waiting.foretold import ForetoldCurve, foretold_curve_from

APART = 3.0  # K: so far may two sources differ at one moment and one place; common practice, no source
BESIDE_H = 3.0  # h: so far apart two readings of a log still tell what was between them; no source
HARDLY = 0.01  # K: nearer to each other no logger tells two temperatures apart
MEETS_H = 12.0  # h after the last measurement in which a forecast that began elsewhere comes into its own; no source


@dataclass(frozen=True)
class Warmth:
    """All that is known of the temperature of one room."""

    climate: Sequence[ClimateRow]
    logs: Sequence[TemperatureLog] = ()
    forecast: Sequence[ForecastDay] = ()

    @cached_property
    def typed(self) -> list[datetime]:
        """The moment of every typed row."""
        return [moment_from_time(row.at) for row in self.climate]

    def moments(self) -> list[datetime]:
        """A moment of every entry that tells a temperature, with the offset in force there."""
        rows = zip(self.climate, self.typed, strict=True)
        typed = [moment for row, moment in rows if not (row.bed is None and row.air is None)]
        logged = [moment_from_time(log.start) for log in self.logs if log.seconds]
        return typed + logged + [moment_from_time(at) for day in self.forecast for at in (day.low_at, day.high_at)]

    def temperatures(self, curing: Curing, zero: datetime) -> Temperatures | None:
        """The course of the temperature, hours counted from `zero`; None where nothing tells one.

        Raises BadDocumentError for rows, logs or days that contradict themselves or each other.
        """
        typed = temperatures_from_climate(self.climate, zero, self.typed)
        if not self.logs and not self.forecast:
            return typed
        curve = foretold_curve_from(self.forecast, curing, zero)
        rows = [
            ((moment - zero) / HOUR, row.bed is None, row.air if row.bed is None else row.bed, row.forecast)
            for row, moment in zip(self.climate, self.typed, strict=True)
        ]
        typed_in = [
            (hour, is_air, celsius, -1) for hour, is_air, celsius, told in rows if celsius is not None and not told
        ]
        measured = _measured(typed_in, self.logs, zero)
        told = _told([row[:3] for row in rows if row[3]], measured)
        return _joined(measured, told, curve) if measured or told or curve else None


_Point = tuple[float, float]  # hour, °C
_Reading = tuple[float, bool, float, int]  # hour, is of the air, °C, its log or -1 for a typed row


def _measured(typed: Sequence[_Reading], logs: Sequence[TemperatureLog], zero: datetime) -> list[_Point]:
    """What was measured, in order of time, every moment once."""
    problems = [problem for n, log in enumerate(logs) for problem in _log_problems(n, log)]
    if problems:
        raise BadDocumentError(problems)
    lines = [_Line.of(n, log, zero) for n, log in enumerate(logs) if log.seconds]
    spans = [(line.hours[0], line.hours[-1]) for line in lines if not line.is_air]
    readings = sorted([*typed, *_logged(logs, zero)])
    problems = list(_disagreements(readings, zero))
    if problems:
        raise BadDocumentError(problems)
    kept: dict[float, float] = {}
    for hour, is_air, celsius, number in readings:
        if is_air and any(start <= hour <= end for start, end in spans):
            continue
        if not any(line.is_colder(hour, is_air, celsius) for line in lines if line.number != number):
            kept.setdefault(hour, celsius)  # the bed stands before the air, the colder before the warmer
    return list(kept.items())


@dataclass(frozen=True)
class _Line:
    """One log as a line through its readings."""

    number: int
    is_air: bool
    hours: tuple[float, ...]
    celsius: tuple[float, ...]

    @classmethod
    def of(cls, number: int, log: TemperatureLog, zero: datetime) -> "_Line":
        return cls(number, log.where == "air", tuple(_hours(log, zero)), log.celsius)

    def is_colder(self, hour: float, is_air: bool, celsius: float) -> bool:
        """True where this log, of the same place, tells less than that for an hour between two of its readings."""
        if is_air != self.is_air or not self.hours[0] < hour < self.hours[-1]:
            return False
        i = bisect_right(self.hours, hour)
        (start, end), (first, last) = self.hours[i - 1 : i + 1], self.celsius[i - 1 : i + 1]
        return end - start <= BESIDE_H and first + (hour - start) / (end - start) * (last - first) < celsius - HARDLY


def _logged(logs: Sequence[TemperatureLog], zero: datetime) -> Iterator[_Reading]:
    for n, log in enumerate(logs):
        is_air = log.where == "air"
        hours = _hours(log, zero)
        yield from [(hour, is_air, celsius, n) for hour, celsius in zip(hours, log.celsius, strict=True)]


def _hours(log: TemperatureLog, zero: datetime) -> list[float]:
    """The hours of a log's readings: of one moment the same in every log, wherever it starts."""
    start = (moment_from_time(log.start) - zero).total_seconds()
    return [(start + second) / 3600.0 for second in log.seconds]


def _log_problems(n: int, log: TemperatureLog) -> Iterator[Problem]:
    if len(log.seconds) != len(log.celsius):
        times, temperatures = len(log.seconds), len(log.celsius)
        yield problem_at(f"logs[{n}].celsius", "log_lengths", times=times, temperatures=temperatures)
        return
    for i, (one, other) in enumerate(pairwise(log.seconds), start=1):
        if other < one:
            yield problem_at(f"logs[{n}].seconds[{i}]", "log_not_rising", before=one, after=other)
        elif other == one and log.celsius[i] != log.celsius[i - 1]:
            first, second = log.celsius[i - 1], log.celsius[i]
            yield problem_at(f"logs[{n}].celsius[{i}]", "log_contradicts", first=first, second=second)


def _disagreements(readings: Sequence[_Reading], zero: datetime) -> Iterator[Problem]:
    """Sources that differ by more than APART at one moment and one place; `readings` sorted."""
    for one, other in pairwise(readings):
        if one[:2] == other[:2] and one[3] != other[3] and other[2] - one[2] > APART:
            at = (zero + one[0] * HOUR).isoformat(timespec="seconds")
            where = f"logs[{max(one[3], other[3])}]"
            yield problem_at(where, "contradictory_climate", at=at, first=one[2], second=other[2])


def _told(rows: Sequence[tuple[float, bool, float | None]], measured: Sequence[_Point]) -> list[_Point]:
    """Moments that somebody foretold one by one, after the last measured one; the bed before the air."""
    last = measured[-1][0] if measured else None
    kept: dict[float, float] = {}
    for hour, _, celsius in sorted((row for row in rows if row[2] is not None), key=lambda row: row[:2]):
        if celsius is not None and (last is None or hour > last):
            kept.setdefault(hour, celsius)
    return list(kept.items())


def _joined(measured: list[_Point], told: list[_Point], curve: ForetoldCurve | None) -> Temperatures:
    """Measured, then foretold: moments told one by one from the first to the last of them, the curve of days else.

    A curve that covers the last measured moment is shifted to meet it, less and less over MEETS_H; over a gap before
    the first foretold moment the temperature goes straight. Where nothing goes before the days foretold, the mean of
    the first of them does.
    """
    last = measured[-1] if measured else None
    met = None if curve is None else _Met(curve.from_mean() if _begins_it(curve, measured, told) else curve, last)
    inside = [] if met is None else [(hour, met.at(hour)) for hour in met.nodes() if _is_free(hour, told)]
    on_curve = {hour for hour, _ in inside}
    nodes = sorted([*measured, *told, *inside])
    if met is not None and last is not None and met.covers:
        on_curve.add(last[0])
    middles = [
        met.at(0.5 * (a[0] + b[0]))
        if met is not None and a[0] in on_curve and b[0] in on_curve
        else 0.5 * (a[1] + b[1])
        for a, b in pairwise(nodes)
    ]
    hours, celsius = zip(*nodes, strict=True)
    return Temperatures(hours, celsius, None if last is None else last[0], tuple(middles) if inside else ())


def _begins_it(curve: ForetoldCurve, measured: Sequence[_Point], told: Sequence[_Point]) -> bool:
    """True where the days foretold are the first that is known of the temperature."""
    return all(points[0][0] >= curve.hours[0] for points in (measured, told) if points)


def _is_free(hour: float, told: Sequence[_Point]) -> bool:
    return not told or not told[0][0] <= hour <= told[-1][0]


class _Met:
    """The curve of days after the last measured moment, shifted to meet it where it covers it."""

    def __init__(self, curve: ForetoldCurve, last: _Point | None) -> None:
        self.curve, self.last = curve, last
        self.covers = last is not None and curve.hours[0] <= last[0] < curve.hours[-1]
        self.shift = last[1] - curve.at(last[0]) if last is not None and self.covers else 0.0

    def at(self, hour: float) -> float:
        celsius = self.curve.at(hour)
        if self.last is None or self.shift == 0.0:
            return celsius
        return celsius + self.shift * max(0.0, 1.0 - (hour - self.last[0]) / MEETS_H)

    def nodes(self) -> list[float]:
        hours = list(self.curve.nodes())
        if self.last is None:
            return hours
        later = hours[bisect_right(hours, self.last[0]) :]
        return sorted({*later, self.last[0] + MEETS_H}) if self.covers else later
