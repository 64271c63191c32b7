"""What the temperature makes of the mortar: how long a batch can be worked, which bed can be walked on."""

from collections.abc import Sequence
from dataclasses import dataclass

from evenbed.engine.cure import AgeCurve, Temperatures
from evenbed.engine.document.room import Document
from evenbed.engine.document.waiting import Curing
from evenbed.engine.filling.progress import Record
from evenbed.engine.filling.times import Clock
from evenbed.engine.readiness import needs_from, working_hours
from evenbed.engine.waiting.hardening import maturity_from
from evenbed.engine.waiting.series import Warmth


@dataclass(frozen=True)
class Mildness:
    """The temperatures of one room round now, and the constants of its mortar."""

    curing: Curing
    temperatures: Temperatures

    def at(self, hour: float) -> float:
        """Temperature at an hour from now, °C."""
        return self.temperatures.at(hour)

    def working(self, hour: float) -> float:
        """How long a batch mixed at an hour from now can be worked, h."""
        return working_hours(self.curing, self.at(hour))

    def hardened(self, records: Sequence[Record]) -> frozenset[int]:
        """Sections that have hardened enough to be walked on by now."""
        filled = {n: at for n, r in enumerate(records) if (at := r.filled) is not None and at < 0.0}
        if not filled:
            return frozenset()
        need, rate = needs_from(self.curing)["walk"], maturity_from(self.curing)
        curve = AgeCurve.of(self.temperatures, min(filled.values()), 0.0, rate)
        age, needed = curve.ages[-1], need.age_h * rate.at(need.temperature_c)
        return frozenset(n for n, at in filled.items() if age - curve.age_at(at) >= needed)


def mildness_of(document: Document, clock: Clock) -> Mildness:
    """The temperatures measured and foretold, or the assumed one. Raises BadDocumentError for contradictions."""
    curing = document.curing
    known = Warmth(document.climate, document.logs, document.forecast).temperatures(curing, clock.now)
    return Mildness(curing, known or Temperatures((0.0,), (curing.assumed,), None))
