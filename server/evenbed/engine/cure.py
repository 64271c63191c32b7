"""How old a bed is for the work it has done hardening: maturity gathered over a changing temperature.

Equivalent age is the sum of exp(−Q (1/T − 1/Tr)) over time, T in kelvin: an hour at the reference temperature counts
an hour, a cold hour less. Temperatures are linear between rows, or a quadratic where a middle is given; before the
first and after the last, the nearest holds. Times are hours from a zero the caller names, whatever offset a text
carries, so that a change to or from daylight-saving time counts only the hours that passed.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import accumulate, pairwise

from evenbed.engine.document.waiting import ClimateRow
from evenbed.engine.problems import BadDocumentError, Problem, problem_at
from evenbed.engine.waiting.maturity import Maturity, Rate

HOUR = timedelta(hours=1)
HALVINGS = 60  # of an interval, when a moment is sought in it: far below a microsecond


@dataclass(frozen=True)
class Temperatures:
    """What is known of the temperature: `hours` from zero, rising, and °C at each. Never empty.

    `measured_until` is the last measured hour, or None where nothing was measured. `middles` is °C half-way between
    one row and the next, for a temperature that bends between them; empty where all is straight.
    """

    hours: tuple[float, ...]
    celsius: tuple[float, ...]
    measured_until: float | None
    middles: tuple[float, ...] = ()

    def at(self, hour: float) -> float:
        """Temperature at an hour, °C: between rows as they say, the nearest row outside."""
        i = bisect_right(self.hours, hour)
        if i == 0 or i == len(self.hours):
            return self.celsius[max(0, i - 1)]
        share = (hour - self.hours[i - 1]) / (self.hours[i] - self.hours[i - 1])
        straight = self.celsius[i - 1] + share * (self.celsius[i] - self.celsius[i - 1])
        if not self.middles:
            return straight
        bow = self.middles[i - 1] - 0.5 * (self.celsius[i - 1] + self.celsius[i])
        return straight + 4.0 * bow * share * (1.0 - share)

    def between(self, start: float, end: float) -> list[tuple[float, float]]:
        """Hours and °C from start to end (start ≤ end), both ends included."""
        inner = slice(bisect_right(self.hours, start), bisect_right(self.hours, end))
        rows = [*zip(self.hours[inner], self.celsius[inner], strict=True)]
        return [(start, self.at(start)), *rows, (end, self.at(end))]

    def middles_between(self, points: Sequence[tuple[float, float]]) -> list[float]:
        """°C half-way between each of the points of `between` and the next."""
        if not self.middles:
            return [0.5 * (a[1] + b[1]) for a, b in pairwise(points)]
        return [self.at(0.5 * (a[0] + b[0])) for a, b in pairwise(points)]

    def warmer(self, by: float, start: float) -> "Temperatures":
        """The same from an hour on, warmer by so many K (colder where negative); of what went before nothing."""
        points = self.between(start, max(start, self.hours[-1]))[: -1 if start < self.hours[-1] else 1]
        middles = self.middles_between(points) if self.middles else ()
        hours, celsius = zip(*points, strict=True)
        return Temperatures(hours, tuple(c + by for c in celsius), None, tuple(m + by for m in middles))


def moment_from_time(text: str) -> datetime:
    """A moment from ISO 8601 with its offset. Raises ValueError for a text that is none."""
    moment = datetime.fromisoformat(text)
    if moment.utcoffset() is None:
        raise ValueError(f"A moment needs its offset from UTC, got {text}.")
    return moment


def temperatures_from_climate(
    climate: Sequence[ClimateRow], zero: datetime, moments: Sequence[datetime] | None = None
) -> Temperatures | None:
    """The temperatures of the bed, or of the air where the bed's was not measured; None where no row has either.

    Hours count from `zero`, a moment with its offset; near the times of interest they carry most digits. Rows may
    come in any order; one without a temperature is skipped. Within the measured time a forecast is dropped: what was
    measured has overtaken it. `moments` are the rows' own where they are known. Raises BadDocumentError where two
    rows of one kind give one moment two temperatures.
    """
    rows = sorted(_rows(climate, zero, moments or [moment_from_time(row.at) for row in climate]))
    problems = tuple(_contradictions(climate, rows))
    if problems:
        raise BadDocumentError(problems)
    measured = [row[0] for row in rows if not row[1]]
    kept = [row for row in rows if not row[1] or not measured or not measured[0] <= row[0] <= measured[-1]]
    first = {row[0]: row[4] for row in reversed(kept)}
    hours = tuple(sorted(first))
    return Temperatures(hours, tuple(first[h] for h in hours), max(measured, default=None)) if hours else None


_Row = tuple[float, bool, bool, int, float]  # hour, is foretold, is of the air, its place in the list, °C


def _rows(climate: Sequence[ClimateRow], zero: datetime, moments: Sequence[datetime]) -> Iterator[_Row]:
    for i, (row, moment) in enumerate(zip(climate, moments, strict=True)):
        celsius = row.air if row.bed is None else row.bed
        if celsius is not None:
            yield (moment - zero) / HOUR, row.forecast, row.bed is None, i, celsius


def _contradictions(climate: Sequence[ClimateRow], rows: Sequence[_Row]) -> Iterator[Problem]:
    """Rows that give one moment, one kind and one place (bed or air) two temperatures; `rows` sorted."""
    for one, other in pairwise(rows):
        if one[:3] == other[:3] and one[4] != other[4]:
            where = f"climate[{max(one[3], other[3])}]"
            at = climate[other[3]].at
            yield problem_at(where, "contradictory_climate", at=at, first=one[4], second=other[4])


def equivalent_age_from(temperatures: Temperatures, start: float, end: float, rate: Rate) -> float:
    """Equivalent age in hours, gathered from hour start to hour end; 0 where end is not after start.

    Accurate to 1e-10 whatever the temperatures: every interval is split until the exponent changes little.
    """
    return AgeCurve.of(temperatures, start, end, rate).ages[-1] if end > start else 0.0


@dataclass(frozen=True)
class AgeCurve:
    """Maturity since a start: at each of `points` (hour, °C), what was gathered until then in `ages`.

    In hours where `rate` counts equivalent age, in °C·h where it counts the temperature-time factor.
    """

    points: tuple[tuple[float, float], ...]
    middles: tuple[float, ...]
    ages: tuple[float, ...]
    rate: Maturity

    @classmethod
    def of(cls, temperatures: Temperatures, start: float, end: float, rate: Maturity) -> "AgeCurve":
        """The curve from hour start to hour end (≥ start)."""
        points = temperatures.between(start, end)
        middles = temperatures.middles_between(points)
        gained = rate.gained
        gains = (gained(a[1], m, b[1], b[0] - a[0]) for a, b, m in zip(points, points[1:], middles, strict=False))
        return cls(tuple(points), tuple(middles), tuple(accumulate(gains, initial=0.0)), rate)

    def joined(self, later: "AgeCurve") -> "AgeCurve":
        """This curve and another that begins at its end; there the temperature may leap."""
        age, leap = self.ages[-1], later.points[0][1]
        return AgeCurve(
            self.points + later.points,
            (*self.middles, leap, *later.middles),
            self.ages + tuple([age + gained for gained in later.ages]),
            self.rate,
        )

    def age_at(self, hour: float) -> float:
        """What was gathered by an hour: 0 before the first point; after the last its temperature holds."""
        i = bisect_right(self.points, hour, key=lambda point: point[0])
        if i == 0:
            return 0.0
        if i == len(self.points):
            return self.ages[-1] + (hour - self.points[-1][0]) * self.rate.at(self.points[-1][1])
        return self.ages[i - 1] + self._gained_into(i - 1, hour - self.points[i - 1][0])

    def hour_at(self, age: float) -> float:
        """The first hour at which `age` (≥ 0) is reached; after the last point the last temperature holds.

        Infinite where at that temperature nothing is gathered.
        """
        i = bisect_left(self.ages, age)
        if i == 0:
            return self.points[0][0]
        if i == len(self.ages):
            rate = self.rate.at(self.points[-1][1])
            return self.points[-1][0] + (age - self.ages[-1]) / rate if rate > 0.0 else float("inf")
        return self.points[i - 1][0] + self._hours_into(i - 1, age - self.ages[i - 1])

    def _hours_into(self, n: int, age: float) -> float:
        low, high = 0.0, self.points[n + 1][0] - self.points[n][0]
        for _ in range(HALVINGS):
            middle = (low + high) / 2.0
            if self._gained_into(n, middle) < age:
                low = middle
            else:
                high = middle
        return high

    def _gained_into(self, n: int, hours: float) -> float:
        """What the first hours of an interval gather."""
        (start, first), (end, last) = self.points[n], self.points[n + 1]
        rise, bow = last - first, 4.0 * (self.middles[n] - 0.5 * (first + last))
        share = hours / (end - start)
        halfway = first + 0.5 * share * (rise + bow * (1.0 - 0.5 * share))
        return self.rate.gained(first, halfway, first + share * (rise + bow * (1.0 - share)), hours)
