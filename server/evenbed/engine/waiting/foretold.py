"""Days foretold by their lows and highs, as one curve of the temperature.

Between a low and the next high, and back, the temperature swings as half a wave of a cosine. The bed follows it as
far as the room does: bed = assumed + follows × (forecast − assumed).

Beyond the days foretold the mean of the nearest one holds, half-way between its low and its high: no hour of a day
stands for day and night, and the nearest day tells most of those beyond it. Next to a high goes one more night, with
that day's low, so that a bed in days like the last is never behind what is told (a high at most 12 h after its low).
Where days are missing, their neighbours' means stand in. Common practice, no source.
"""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import pairwise
from math import ceil, cos, pi

from evenbed.engine.cure import HOUR, moment_from_time
from evenbed.engine.document.waiting import Curing, ForecastDay
from evenbed.engine.problems import BadDocumentError, Problem, problem_at

FEWEST_PIECES = 24  # of half a wave, each a parabola: maturity is then right to a millionth and better
KELVIN_A_PIECE = 0.5  # a wider swing is cut finer
SETTLES_H = 12.0  # h from an extreme to the mean that holds beyond it, as from one extreme to the next
MISSING_H = 36.0  # h between two extremes: beyond it a day is missing


@dataclass(frozen=True)
class ForetoldCurve:
    """The curve's turns in order: hours from a zero, rising, and °C; what goes beyond the last day is among them.

    `told` are the lows and highs alone, at least one, and `before` the turns that may go before the first of them.
    """

    hours: tuple[float, ...]
    celsius: tuple[float, ...]
    told: tuple[tuple[float, float], ...]
    before: tuple[tuple[float, float], ...]

    def at(self, hour: float) -> float:
        """°C at an hour; before the first turn and after the last the nearest holds."""
        i = bisect_right(self.hours, hour)
        if i == 0 or i == len(self.hours):
            return self.celsius[max(0, i - 1)]
        share = (hour - self.hours[i - 1]) / (self.hours[i] - self.hours[i - 1])
        return self.celsius[i - 1] + (self.celsius[i] - self.celsius[i - 1]) * (1.0 - cos(pi * share)) / 2.0

    def nodes(self) -> Iterator[float]:
        """Hours that cut every half wave so finely that parabolas through them and their middles stand for it."""
        for (start, first), (end, last) in pairwise(zip(self.hours, self.celsius, strict=True)):
            count = max(FEWEST_PIECES, ceil(abs(last - first) / KELVIN_A_PIECE))
            yield from (start + (end - start) * n / count for n in range(count))
        yield self.hours[-1]

    def from_mean(self) -> "ForetoldCurve":
        """The same, with the mean of the first day before it: for where nothing else tells how it began."""
        hours, celsius = zip(*self.before, strict=True)
        return replace(self, hours=(*hours, *self.hours), celsius=(*celsius, *self.celsius))


def foretold_curve_from(days: Sequence[ForecastDay], curing: Curing, zero: datetime) -> ForetoldCurve | None:
    """The curve of the bed's temperature through all lows and highs, hours counted from `zero`; None without a day.

    Raises BadDocumentError where a low lies above its high, or one moment is foretold two temperatures.
    """
    problems = [
        problem_at(f"forecast[{n}].low", "low_above_high", low=day.low, high=day.high)
        for n, day in enumerate(days)
        if day.low > day.high
    ]
    extremes = sorted(_extremes(days, zero))
    problems += _contradictions(extremes)
    if problems:
        raise BadDocumentError(problems)
    return _curve_through(extremes, curing) if extremes else None


@dataclass(frozen=True, order=True)
class _Extreme:
    """A low or a high: hour, °C, its day's mean; where it stands in the document, and its moment as told there."""

    hour: float
    celsius: float
    mean: float
    path: str
    at: str

    def beyond(self, way: float) -> list[tuple[float, float]]:
        """The turns from here to the mean that holds: later where `way` is 1, earlier where it is -1."""
        low = min(self.celsius, 2.0 * self.mean - self.celsius)
        turns = [low, self.mean] if self.celsius > low else [self.mean]
        return [(self.hour + way * SETTLES_H * n, celsius) for n, celsius in enumerate(turns, start=1)]


def _extremes(days: Sequence[ForecastDay], zero: datetime) -> Iterator[_Extreme]:
    for n, day in enumerate(days):
        mean = 0.5 * (day.low + day.high)
        for name, celsius, at in (("low_at", day.low, day.low_at), ("high_at", day.high, day.high_at)):
            yield _Extreme((moment_from_time(at) - zero) / HOUR, celsius, mean, f"forecast[{n}].{name}", at)


def _contradictions(extremes: Sequence[_Extreme]) -> Iterator[Problem]:
    for one, other in pairwise(extremes):
        if one.hour == other.hour and one.celsius != other.celsius:
            told = {"first": one.celsius, "second": other.celsius}
            yield problem_at(other.path, "contradictory_climate", at=other.at, **told)


def _curve_through(extremes: Sequence[_Extreme], curing: Curing) -> ForetoldCurve:
    """The curve through extremes in order; of two for one moment the one of the colder day counts."""
    single = {one.hour: one for one in reversed(extremes)}
    rising = [single[hour] for hour in sorted(single)]

    def of_bed(celsius: float) -> float:
        return curing.assumed + curing.follows * (celsius - curing.assumed)

    hours, celsius = zip(*_turns(rising), strict=True)
    told = tuple((one.hour, of_bed(one.celsius)) for one in rising)
    before = tuple((hour, of_bed(celsius)) for hour, celsius in reversed(rising[0].beyond(-1.0)))
    return ForetoldCurve(hours, tuple(map(of_bed, celsius)), told, before)


def _turns(rising: Sequence[_Extreme]) -> Iterator[tuple[float, float]]:
    """Every extreme, the means of the days on both sides of where days are missing, and what goes beyond the last."""
    for one, other in pairwise(rising):
        yield one.hour, one.celsius
        if other.hour - one.hour > MISSING_H:
            yield one.hour + SETTLES_H, one.mean
            yield other.hour - SETTLES_H, other.mean
    yield rising[-1].hour, rising[-1].celsius
    yield from rising[-1].beyond(1.0)
