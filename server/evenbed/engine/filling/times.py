"""Moments of the filling as hours from now, and the time in which work stood still."""

import math
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import MAXYEAR, MINYEAR, datetime, timedelta
from functools import cached_property
from itertools import accumulate

from evenbed.engine.cure import HOUR, moment_from_time
from evenbed.engine.document.filling import Stoppage

Span = tuple[float, float]
SOON = 0.5 / 3600.0  # h: what is told to the second must be further off than this to lie in the future


@dataclass(frozen=True)
class Clock:
    """Hours from `now`, what is past being negative; whatever offset a text carries, only hours that passed count."""

    now: datetime

    def hour(self, text: str) -> float:
        """Hours from now to a moment."""
        return (moment_from_time(text) - self.now) / HOUR

    def hour_or_none(self, text: str | None) -> float | None:
        """The same, None for what did not happen."""
        return None if text is None else self.hour(text)

    def text(self, hour: float) -> str:
        """The moment so many hours from now, to the nearest second, in the offset of `now`; the calendar ends it."""
        whole = self.now.replace(microsecond=0)
        try:
            moment = whole + timedelta(seconds=round(hour * 3600.0 + self.now.microsecond / 1e6))
        except OverflowError:
            year = MAXYEAR if hour > 0.0 else MINYEAR
            moment = datetime(year, 6, 30, tzinfo=whole.tzinfo)
        return moment.isoformat(timespec="seconds")


@dataclass(frozen=True)
class Stops:
    """Times in which nobody worked: spans in order that do not overlap, hours from now."""

    spans: tuple[Span, ...]

    @cached_property
    def _starts(self) -> list[float]:
        return [start for start, _ in self.spans]

    @cached_property
    def _sums(self) -> list[float]:
        return [0.0, *accumulate(end - start for start, end in self.spans)]

    def stopped(self, start: float, end: float) -> float:
        """Hours stopped from start to end; 0 where end is not after start."""
        return max(0.0, self._until(end) - self._until(start))

    def _until(self, hour: float) -> float:
        n = bisect_right(self._starts, hour)
        return self._sums[n] - (max(0.0, self.spans[n - 1][1] - hour) if n else 0.0)

    def worked(self, start: float, end: float) -> float:
        """Working hours from start to end; negative where end is before start."""
        return end - start - self.stopped(start, end) if end > start else end - start

    def after(self, start: float, hours: float) -> float:
        """When so many working hours from start on are over."""
        at = start
        for low, high in self.spans:
            if high > at:
                if at + hours <= low:
                    break
                hours -= max(0.0, low - at)
                at = high
        return at + hours


def stops_from(stoppages: Sequence[Stoppage], clock: Clock) -> Stops:
    """The stoppages, overlapping ones joined; one that lasts ends now. One that ends before it begins is left out."""
    spans = sorted(_spans(stoppages, clock))
    joined: list[Span] = []
    for start, end in spans:
        if joined and start <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(end, joined[-1][1]))
        else:
            joined.append((start, end))
    return Stops(tuple(joined))


def _spans(stoppages: Sequence[Stoppage], clock: Clock) -> Iterable[Span]:
    for stoppage in stoppages:
        start, end = clock.hour(stoppage.start), clock.hour_or_none(stoppage.end)
        until = 0.0 if end is None else end
        if until > start:
            yield (start, until)


def is_stopped(stoppages: Sequence[Stoppage], clock: Clock) -> bool:
    """Whether a stoppage lasts now."""
    spans = ((clock.hour(s.start), math.inf if s.end is None else clock.hour(s.end)) for s in stoppages)
    return any(start <= 0.0 < end for start, end in spans)
