"""What to raise or let down: whole lies, both ends at once, so that one round is enough."""

from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.truing.lying import Lying
from evenbed.engine.truing.places import Ends
from evenbed.engine.truing.shapes import Correction

SIXTEENTH = 25.4 / 16.0  # mm
THIRTY_SECOND = (
    SIXTEENTH / 2.0
)  # mm: raised by these one round is enough; whole sixteenths leave 0.8 mm by themselves
WORTH_MOVING = THIRTY_SECOND / 2.0  # mm: what rounds to none of them is left, even on a rail taken up
DOUBTED = 2.0  # standard errors that an end may be out more than it seems


def fine_within(tolerance: float) -> float:
    """How far out both ends of a rail may be without its being taken up: what doubt and bedding add must fit."""
    return tolerance / 3.0


@dataclass(frozen=True)
class Corrected:
    """What to do to the rails, and how they will lie then, each end raised by whole thirty-seconds of an inch."""

    lying: Lying
    tolerance: float

    @cached_property
    def is_good_enough(self) -> bool:
        """True where all that lies now was read and its worst end, with its doubt, is within the tolerance."""
        return self.lying.is_all_read and all(
            abs(off) + DOUBTED * sigma <= self.tolerance
            for n in self.lying.system.now
            for off, sigma in zip(self.lying.off(n), self.lying.sigmas[n], strict=True)
        )

    def raises(self, n: int) -> Ends:
        """How much to raise a lie's ends; nothing for one that lies well, or that nobody read as it lies."""
        off = self.lying.off(n)
        if self.is_good_enough or not self.lying.counts[n] or max(map(abs, off)) <= self.lying.fine:
            return 0.0, 0.0
        start, end = (-one if abs(one) >= WORTH_MOVING else 0.0 for one in off)
        return start, end

    def after(self, n: int) -> Ends:
        """How the lie's ends will stand, raised by whole thirty-seconds of an inch."""
        pairs = zip(self.lying.off(n), self.raises(n), strict=True)
        start, end = (off + round(by / THIRTY_SECOND) * THIRTY_SECOND for off, by in pairs)
        return start, end

    @cached_property
    def corrections(self) -> tuple[Correction, ...]:
        """Everything to do, rail by rail: what lay before is finished bed and stays."""
        moved = [(n, self.raises(n)) for n in self.lying.system.now]
        return tuple(self._correction(n, end, by[end]) for n, by in moved for end in (0, 1) if by[end] != 0.0)

    def _correction(self, n: int, end: int, by: float) -> Correction:
        lie = self.lying.rails.lies[n]
        wedge = lie.rail.strip.width * self.lying.rails.lengths[n] * by / 2.0 / 1e9
        return Correction(
            check=self._asking(n, end, by),
            rail=lie.rail.id,
            lie=lie.order,
            station=lie.stations[end],
            end="to" if end else "from",
            raise_by=by,
            sixteenths=round(by / SIXTEENTH),
            thirty_seconds=round(by / THIRTY_SECOND),
            millimetres=round(by),
            mortar=wedge,
        )

    def _asking(self, n: int, end: int, by: float) -> str:
        """The reading on this lie that brings the end's estimate furthest to the side it is corrected from."""
        system, solution = self.lying.system, self.lying.solution
        levels = set(system.level.values())
        row = solution.covariances[system.place[n, True] + end]
        shares: dict[int, float] = {}
        for one in system.equations:
            if one.check is not None and system.place[n, True] in one.terms:
                own = sum(factor * solution.values[i] for i, factor in one.terms.items() if i in levels)
                pull = sum(factor * row[i] for i, factor in one.terms.items() if i not in levels)
                share = pull * (one.value - own) / (one.sigma * one.sigma)
                shares[one.check] = shares.get(one.check, 0.0) - share * by
        return system.reads[max(shares, key=lambda n: shares[n])].check.id
