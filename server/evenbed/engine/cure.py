"""How old a bed is for the work it has done hardening: equivalent age over a changing temperature.

Equivalent age is the sum of exp(−Q (1/T − 1/Tr)) over time, T in kelvin: an hour at the reference temperature counts
an hour, a cold hour less. Temperatures are linear between rows; before the first and after the last, the nearest
holds. Times are hours from a zero the caller names, whatever offset a text carries, so that a change to or from
daylight-saving time counts only the hours that passed.
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import accumulate, pairwise
from math import ceil, exp

from evenbed.engine.document.waiting import ClimateRow
from evenbed.engine.problems import BadDocumentError, Problem, problem_at

KELVIN = 273.15
HOUR = timedelta(hours=1)
HALVINGS = 60  # of an interval, when a moment is sought in it: far below a microsecond
STEEPEST = 1.0  # change of the exponent over one sub-interval that five Gauss–Legendre points carry to 1e-12

# Abscissae and weights of Gauss–Legendre with five points, on 0 to 1 (Abramowitz and Stegun, table 25.4, halved).
GAUSS = (
    (0.04691007703066800, 0.11846344252809454),
    (0.23076534494715846, 0.23931433524968324),
    (0.5, 0.28444444444444444),
    (0.76923465505284154, 0.23931433524968324),
    (0.95308992296933200, 0.11846344252809454),
)


@dataclass(frozen=True)
class Rate:
    """How fast a bed hardens: `activation` is Q in K (≥ 0), `reference` in °C is where the rate is 1."""

    activation: float
    reference: float

    def at(self, temperature_c: float) -> float:
        """Hours of equivalent age per hour at a temperature in °C, above absolute zero."""
        return exp(-self.activation * (1.0 / (temperature_c + KELVIN) - 1.0 / (self.reference + KELVIN)))


@dataclass(frozen=True)
class Temperatures:
    """What is known of the temperature: `hours` from zero, rising, and °C at each. Never empty.

    `measured_until` is the last measured hour, or None where nothing was measured.
    """

    hours: tuple[float, ...]
    celsius: tuple[float, ...]
    measured_until: float | None

    def at(self, hour: float) -> float:
        """Temperature at an hour, °C: linear between rows, the nearest row outside."""
        i = bisect_right(self.hours, hour)
        if i == 0 or i == len(self.hours):
            return self.celsius[max(0, i - 1)]
        share = (hour - self.hours[i - 1]) / (self.hours[i] - self.hours[i - 1])
        return self.celsius[i - 1] + share * (self.celsius[i] - self.celsius[i - 1])

    def between(self, start: float, end: float) -> list[tuple[float, float]]:
        """Hours and °C from start to end (start ≤ end), both ends included; linear from each to the next."""
        inner = slice(bisect_right(self.hours, start), bisect_right(self.hours, end))
        rows = [*zip(self.hours[inner], self.celsius[inner], strict=True)]
        return [(start, self.at(start)), *rows, (end, self.at(end))]


def moment_from_time(text: str) -> datetime:
    """A moment from ISO 8601 with its offset. Raises ValueError for a text that is none."""
    moment = datetime.fromisoformat(text)
    if moment.utcoffset() is None:
        raise ValueError(f"A moment needs its offset from UTC, got {text}.")
    return moment


def temperatures_from_climate(climate: Sequence[ClimateRow], zero: datetime) -> Temperatures | None:
    """The temperatures of the bed, or of the air where the bed's was not measured; None where no row has either.

    Hours count from `zero`, a moment with its offset; near the times of interest they carry most digits. Rows may
    come in any order; one without a temperature is skipped. Within the measured time a forecast is dropped: what was
    measured has overtaken it. Raises BadDocumentError where two rows of one kind give one moment two temperatures.
    """
    rows = sorted(_rows(climate, zero), key=lambda row: (row.hour, row.forecast, not row.is_bed))
    problems = tuple(_contradictions(climate, rows))
    if problems:
        raise BadDocumentError(problems)
    measured = [row.hour for row in rows if not row.forecast]
    kept = [row for row in rows if not row.forecast or not measured or not measured[0] <= row.hour <= measured[-1]]
    first = {row.hour: row.celsius for row in reversed(kept)}
    hours = tuple(sorted(first))
    return Temperatures(hours, tuple(first[h] for h in hours), max(measured, default=None)) if hours else None


@dataclass(frozen=True)
class _Row:
    index: int
    hour: float
    celsius: float
    forecast: bool
    is_bed: bool


def _rows(climate: Sequence[ClimateRow], zero: datetime) -> list[_Row]:
    rows = []
    for i, row in enumerate(climate):
        celsius = row.air if row.bed is None else row.bed
        if celsius is not None:
            hour = (moment_from_time(row.at) - zero) / HOUR
            rows.append(_Row(i, hour, celsius, row.forecast, row.bed is not None))
    return rows


def _contradictions(climate: Sequence[ClimateRow], rows: Sequence[_Row]) -> list[Problem]:
    """Rows that give one moment, one kind and one place (bed or air) two temperatures; `rows` sorted."""
    return [
        problem_at(
            f"climate[{max(one.index, other.index)}]",
            "contradictory_climate",
            at=climate[other.index].at,
            first=one.celsius,
            second=other.celsius,
        )
        for one, other in pairwise(rows)
        if (one.hour, one.forecast, one.is_bed) == (other.hour, other.forecast, other.is_bed)
        and one.celsius != other.celsius
    ]


def equivalent_age_from(temperatures: Temperatures, start: float, end: float, rate: Rate) -> float:
    """Equivalent age in hours, gathered from hour start to hour end; 0 where end is not after start.

    Accurate to 1e-10 whatever the temperatures: every interval is split until the exponent changes little.
    """
    return AgeCurve.of(temperatures, start, end, rate).ages[-1] if end > start else 0.0


@dataclass(frozen=True)
class AgeCurve:
    """Equivalent age since a start: at each of `points` (hour, °C), the age in `ages` gathered until then, h."""

    points: tuple[tuple[float, float], ...]
    ages: tuple[float, ...]
    rate: Rate

    @classmethod
    def of(cls, temperatures: Temperatures, start: float, end: float, rate: Rate) -> "AgeCurve":
        """The curve from hour start to hour end (≥ start)."""
        points = temperatures.between(start, end)
        gains = (_interval_age(a[1], b[1], b[0] - a[0], rate) for a, b in pairwise(points))
        return cls(tuple(points), tuple(accumulate(gains, initial=0.0)), rate)

    def age_at(self, hour: float) -> float:
        """The age (h) gathered at an hour between the first point and the last; 0 before the first."""
        i = bisect_right(self.points, hour, key=lambda point: point[0])
        if i == 0 or i == len(self.points):
            return self.ages[max(0, i - 1)]
        (before, cold), (after, warm) = self.points[i - 1], self.points[i]
        share = (hour - before) / (after - before)
        return self.ages[i - 1] + _interval_age(cold, cold + share * (warm - cold), hour - before, self.rate)

    def hour_at(self, age: float) -> float:
        """The hour at which `age` (h, ≥ 0) is reached; after the last point the last temperature holds."""
        i = bisect_right(self.ages, age)
        if i == len(self.ages):
            return self.points[-1][0] + (age - self.ages[-1]) / self.rate.at(self.points[-1][1])
        (before, cold), (after, warm) = self.points[i - 1], self.points[i]
        return before + self._hours_into(age - self.ages[i - 1], cold, warm, after - before)

    def _hours_into(self, age: float, first_c: float, last_c: float, hours: float) -> float:
        low, high = 0.0, hours
        for _ in range(HALVINGS):
            middle = (low + high) / 2.0
            middle_c = first_c + (last_c - first_c) * middle / hours
            if _interval_age(first_c, middle_c, middle, self.rate) < age:
                low = middle
            else:
                high = middle
        return high


def _interval_age(first_c: float, last_c: float, hours: float, rate: Rate) -> float:
    """Equivalent age of one interval with a linear temperature, by Gauss–Legendre on equal sub-intervals."""
    coldest = min(first_c, last_c) + KELVIN
    rise = last_c - first_c
    count = max(1, ceil(rate.activation * abs(rise) / coldest**2 / STEEPEST))
    inverse = 1.0 / (rate.reference + KELVIN)
    first, activation = first_c + KELVIN, -rate.activation
    total = 0.0
    for piece in range(count):
        for share, weight in GAUSS:
            kelvin = first + rise * (piece + share) / count
            total += weight * exp(activation * (1.0 / kelvin - inverse))
    return total * hours / count
