"""Days foretold by their lows and highs, as one curve of the temperature.

Between a low and the next high, and back, the temperature swings as half a wave of a cosine. The bed follows it as
far as the room does: bed = assumed + follows × (forecast − assumed).
"""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise
from math import ceil, cos, pi

from evenbed.engine.cure import HOUR, moment_from_time
from evenbed.engine.document.waiting import Curing, ForecastDay
from evenbed.engine.problems import BadDocumentError, Problem, problem_at

FEWEST_PIECES = 24  # of half a wave, each a parabola: maturity is then right to a millionth and better
KELVIN_A_PIECE = 0.5  # a wider swing is cut finer


@dataclass(frozen=True)
class ForetoldCurve:
    """Lows and highs in order: hours from a zero, rising, and °C. At least one."""

    hours: tuple[float, ...]
    celsius: tuple[float, ...]

    def at(self, hour: float) -> float:
        """°C at an hour; before the first extreme and after the last the nearest holds."""
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
    if not extremes:
        return None
    held = {hour: curing.assumed + curing.follows * (celsius - curing.assumed) for hour, celsius, *_ in extremes}
    return ForetoldCurve(tuple(held), tuple(held.values()))


_Extreme = tuple[float, float, str, str]  # hour, °C, path in the document, moment


def _extremes(days: Sequence[ForecastDay], zero: datetime) -> Iterator[_Extreme]:
    for n, day in enumerate(days):
        yield (moment_from_time(day.low_at) - zero) / HOUR, day.low, f"forecast[{n}].low_at", day.low_at
        yield (moment_from_time(day.high_at) - zero) / HOUR, day.high, f"forecast[{n}].high_at", day.high_at


def _contradictions(extremes: Sequence[_Extreme]) -> Iterator[Problem]:
    for one, other in pairwise(extremes):
        if one[0] == other[0] and one[1] != other[1]:
            yield problem_at(other[2], "contradictory_climate", at=other[3], first=one[1], second=other[1])
