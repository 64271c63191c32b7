"""How one bed hardens over its course of temperature, counted from placing: what every milestone is read from."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo
from functools import cached_property

from evenbed.engine.cure import HOUR, AgeCurve, Temperatures
from evenbed.engine.document.waiting import Curing
from evenbed.engine.waiting.maturity import Factor, Maturity, Rate
from evenbed.engine.waiting.series import Warmth

NO_ZERO = datetime(2000, 1, 1, tzinfo=UTC)  # hours have to count from somewhere where nothing has a time


def rate_from(curing: Curing) -> Rate:
    """How fast this room's mortar hardens."""
    return Rate(curing.activation, curing.reference)


def maturity_from(curing: Curing) -> Maturity:
    """The method that this room's milestones are told by."""
    return rate_from(curing) if curing.method == "equivalent_age" else Factor(curing.datum)


@dataclass(frozen=True)
class Curves:
    """Maturity since placing over the likely temperature, and over a foretold time that is warmer and colder."""

    early: AgeCurve
    likely: AgeCurve
    late: AgeCurve


@dataclass(frozen=True)
class Hardening:
    """One bed's waiting: hours count from `zero`, when its last section was placed.

    Where nothing is placed, zero is the first moment with a temperature. `known` is None where nothing tells a
    temperature: then the assumed one holds. `fresh_from` is the hour at which its first section was placed, 0 or
    before: from there on some of the bed lies in the weather.
    """

    curing: Curing
    zero: datetime
    is_placed: bool
    known: Temperatures | None
    offsets: tuple[tuple[float, tzinfo], ...]
    fresh_from: float = 0.0

    @cached_property
    def temperatures(self) -> Temperatures:
        """The course of the temperature; the assumed one where nothing is known."""
        return self.known or Temperatures((0.0,), (self.curing.assumed,), None)

    @property
    def measured_until(self) -> float | None:
        """The last measured hour, None where nothing was measured."""
        return self.temperatures.measured_until

    @property
    def foretold_from(self) -> float:
        """The hour from which on the temperature is foretold, never before placing."""
        return max(0.0, self.measured_until or 0.0)

    @cached_property
    def ages(self) -> AgeCurve:
        """Equivalent age over the likely temperature."""
        return self._curve(self._measured(rate_from(self.curing)), 0.0)

    @cached_property
    def factors(self) -> AgeCurve:
        """The temperature-time factor over the likely temperature."""
        return self._curve(self._measured(Factor(self.curing.datum)), 0.0)

    @cached_property
    def curves(self) -> Curves:
        """Early, likely and late, by the method that milestones are told by."""
        likely = self.ages if self.curing.method == "equivalent_age" else self.factors
        measured, doubt = self._measured(likely.rate), self.curing.forecast_doubt
        return Curves(self._curve(measured, doubt), likely, self._curve(measured, -doubt))

    def _measured(self, maturity: Maturity) -> AgeCurve:
        return AgeCurve.of(self.temperatures, 0.0, self.foretold_from, maturity)

    def _curve(self, measured: AgeCurve, warmer: float) -> AgeCurve:
        foretold = self.temperatures.warmer(warmer, self.foretold_from)
        return measured.joined(AgeCurve.of(foretold, foretold.hours[0], foretold.hours[-1], measured.rate))

    def hour(self, moment: datetime) -> float:
        """Hours from zero to a moment."""
        return (moment - self.zero) / HOUR

    def time_at(self, hour: float) -> str | None:
        """The moment `hour` hours after zero, in the offset in force there; None beyond the calendar."""
        n = bisect_right(self.offsets, hour, key=lambda known: known[0])
        return time_after(self.zero, hour, self.offsets[n - 1][1] if n else offset_of(self.zero))


def hardening_from(curing: Curing, warmth: Warmth, placed: Sequence[datetime]) -> Hardening:
    """A bed with sections placed at these moments. Raises BadDocumentError for contradictions."""
    moments = warmth.moments()
    zero = max(placed) if placed else min(moments, default=NO_ZERO)
    known = warmth.temperatures(curing, zero)
    fresh_from = (min(placed, default=zero) - zero) / HOUR
    return Hardening(curing, zero, bool(placed), known, _offsets(moments, zero), fresh_from)


def _offsets(moments: Sequence[datetime], zero: datetime) -> tuple[tuple[float, tzinfo], ...]:
    """From which hour on which offset is in force, as the entries from zero on have it."""
    changes: list[tuple[float, tzinfo]] = []
    later = [moment for moment in moments if moment >= zero]
    is_one = len({offset_of(moment) for moment in later}) == 1
    for moment in [min(later)] if is_one else sorted(later):
        offset = offset_of(moment)
        if not changes or offset != changes[-1][1]:
            changes.append(((moment - zero) / HOUR, offset))
    return tuple(changes)


def offset_of(moment: datetime) -> tzinfo:
    """The offset a moment is told in."""
    return moment.tzinfo or UTC


def time_after(start: datetime, hours: float, offset: tzinfo) -> str | None:
    """ISO 8601 to the nearest second; None beyond the calendar."""
    try:
        moment = start + timedelta(seconds=round(hours * 3600.0))
        return moment.astimezone(offset).isoformat(timespec="seconds")
    except OverflowError:
        return None
