"""How the strips lie: their ends against the top of bed, and about which height they lie together."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.truing.equations import SET_SIGMA, System
from evenbed.engine.truing.places import Ends, Rails, groups_of
from evenbed.engine.truing.solved import Solution

SAME = 6  # digits after the point, mm, beyond which two heights are one


@dataclass(frozen=True)
class Lying:
    """The lies as the readings have them. `reach` is the longest straightedge, `fine` how far out may stay."""

    rails: Rails
    system: System
    solution: Solution
    reach: float
    fine: float

    @cached_property
    def now(self) -> frozenset[int]:
        """The lies that are there now, one of each rail: before them is finished bed, after them no strip yet."""
        return frozenset(self.system.now)

    @cached_property
    def counts(self) -> list[int]:
        """How many readings tell of each lie as it lies."""
        found = [0] * len(self.rails.lies)
        for read in self.system.reads:
            if read.counts and read.span is not None:
                for n in {read.span.start[0], read.span.end[0]}:
                    found[n] += 1
        return found

    @cached_property
    def told_of(self) -> set[int]:
        """The lies that any reading tells of, be it of how they lay before."""
        seen = {unknown for one in self.system.equations if one.check is not None for unknown in one.terms}
        return {n for (n, _), first in self.system.place.items() if first in seen}

    @cached_property
    def along(self) -> set[int]:
        """The lies that a level was laid along, as they lie."""
        spans = [read.span for read in self.system.reads if read.counts]
        return {span.start[0] for span in spans if span is not None and span.is_along}

    @cached_property
    def bridged(self) -> list[tuple[int, int]]:
        """The pairs of lies that were read across, as they lie."""
        spans = [read.span for read in self.system.reads if read.counts]
        return [(span.start[0], span.end[0]) for span in spans if span is not None and not span.is_along]

    @cached_property
    def within_reach(self) -> list[tuple[int, int]]:
        """The pairs of lies, of those that are there now and reckoned with, that the longest straightedge bridges."""
        known = [n for n, holds in self.system.place if holds and n in self.now]
        pairs = [(a, b) for a in known for b in known if a < b]
        return [pair for pair in pairs if self.rails.crossings(*pair, self.reach, 1)]

    @cached_property
    def tied(self) -> list[int]:
        """Which lies were tied to each other by readings across: the first lie of each one's lot."""
        return groups_of(len(self.rails.lies), self.bridged)

    @cached_property
    def group(self) -> list[int]:
        """Which lies can be tied to each other: the first lie of each one's group."""
        return groups_of(len(self.rails.lies), [*self.bridged, *self.within_reach])

    @cached_property
    def members(self) -> dict[int, list[int]]:
        """The lies of each group that are reckoned with."""
        found: dict[int, list[int]] = {}
        for n in range(len(self.rails.lies)):
            if (n, True) in self.system.place:
                found.setdefault(self.group[n], []).append(n)
        return found

    def raw(self, n: int) -> Ends:
        """A lie's ends where all together lie as they were set."""
        first = self.system.place[n, True]
        return self.solution.values[first], self.solution.values[first + 1]

    @cached_property
    def common(self) -> dict[int, float]:
        """Of each group, about which height its lies are taken to lie."""
        return {lead: self._common(members) for lead, members in self.members.items()}

    def _common(self, members: Sequence[int]) -> float:
        """The height that leaves most lies as they are, within three standard errors of how high they were set.

        Of such heights the one that leaves them flattest, then the nearest. No level tells it, so any will do.
        """
        ends = [self.raw(n) for n in members if self.counts[n]]
        bound = 3.0 * SET_SIGMA / math.sqrt(2.0 * len(members))
        tries = [0.0] + [h for one in ends for h in (max(one) - self.fine, min(one) + self.fine)]
        best, found = (0, 0.0, 0.0), 0.0
        for height in tries:
            kept = [e for e in ends if max(e) - self.fine <= height + 1e-9 and min(e) + self.fine >= height - 1e-9]
            if kept:
                high, low = max(max(e) for e in kept), min(min(e) for e in kept)
                middle = (high + low) / 2.0
                rank = (len(kept), -round(high - low, SAME), -round(abs(middle), SAME))
                if abs(middle) <= bound and rank > best:
                    best, found = rank, middle
        return found

    def off(self, n: int) -> Ends:
        """How much a lie's beginning and end stand too high; nothing for one that no reading tells of."""
        if n not in self.told_of:
            return 0.0, 0.0
        start, end = self.raw(n)
        common = self.common[self.group[n]]
        return start - common, end - common

    @cached_property
    def sigmas(self) -> list[Ends]:
        """Standard errors of a lie's two ends against the mean of its group."""
        found = [(SET_SIGMA, SET_SIGMA)] * len(self.rails.lies)
        rows = self.solution.covariances
        for members in self.members.values():
            ends = [self.system.place[n, True] + end for n in members for end in (0, 1)]
            shares = [sum(rows[i][j] for j in ends) / len(ends) for i in range(self.system.size)]
            mean = sum(shares[i] for i in ends) / len(ends)
            for n in members:
                first = self.system.place[n, True]
                pair = [math.sqrt(max(0.0, rows[i][i] - 2.0 * shares[i] + mean)) for i in (first, first + 1)]
                found[n] = (pair[0], pair[1])
        return found

    @property
    def is_all_read(self) -> bool:
        """True where a level lay along every lie that is there now, and across from each to all within reach."""
        return self.now <= self.along and self.tied == self.group
