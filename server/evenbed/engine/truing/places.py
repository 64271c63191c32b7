"""Rails as a level meets them: straight lines with the fall of the top under them, and where a reading lay."""

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.places import Point
from evenbed.engine.document.rails import Check
from evenbed.engine.geometry import between, nearest_on_segment
from evenbed.engine.rails.shapes import Rail

LEAST_SPAN = 100.0  # mm between the two places of a reading, and of a level: less is a slip of the finger
PAST_END = 1.0  # mm that a place may lie beyond its rail: the rounding of what was typed
Place = tuple[int, float]  # which rail, counted from 0, and how far from its beginning


@dataclass(frozen=True)
class Span:
    """Two places that a level bridged, `run` mm apart, the top rising by `rise` from the first to the second.

    `shares` are their rails with how far along them they are, 0 at the beginning and 1 at the end.
    """

    start: Place
    end: Place
    run: float
    rise: float
    shares: tuple[Place, Place]

    @property
    def is_along(self) -> bool:
        """True where both are on one rail."""
        return self.start[0] == self.end[0]


class Rails:
    """The plan's rails by number and by id."""

    def __init__(self, rails: Sequence[Rail]) -> None:
        self.all = tuple(rails)
        self.number = {rail.id: n for n, rail in enumerate(self.all)}

    @cached_property
    def lengths(self) -> tuple[float, ...]:
        """How long each rail is."""
        return tuple(math.dist(rail.start, rail.end) for rail in self.all)

    def at(self, place: Place) -> Point:
        """A place on the drawing."""
        n, along = place
        size = self.lengths[n]
        return between(self.all[n].start, self.all[n].end, along / size) if size > 0.0 else self.all[n].start

    def top_at(self, place: Place) -> float:
        """Top of bed, straight between the rail's stations."""
        n, along = place
        stations = self.all[n].stations
        past = min(max(bisect_right(stations, along, key=lambda s: s.along), 1), len(stations) - 1)
        a, b = stations[past - 1], stations[past]
        run = b.along - a.along
        return a.top + (b.top - a.top) * (along - a.along) / run if run > 0.0 else b.top

    def span(self, start: Place, end: Place) -> Span | None:
        """What lies between two places; None where they are one, or not on their rails."""
        first, last = self._on_rail(start), self._on_rail(end)
        if first is None or last is None:
            return None
        run = math.dist(self.at(first), self.at(last))
        rise = self.top_at(last) - self.top_at(first)
        shares = ((first[0], first[1] / self.lengths[first[0]]), (last[0], last[1] / self.lengths[last[0]]))
        return Span(first, last, run, rise, shares) if run >= LEAST_SPAN else None

    def _on_rail(self, place: Place) -> Place | None:
        n, along = place
        size = self.lengths[n]
        if size < LEAST_SPAN or along > size + PAST_END:
            return None
        return n, min(along, size)

    def span_of(self, check: Check) -> Span | None:
        """Where a reading lay; None where its rails are not there, its places not on them, or its level too short."""
        names = (check.rail, check.rail) if check.rail is not None else check.rails
        if names is None or (check.rail is None and names[0] == names[1]) or 0.0 < check.length < LEAST_SPAN:
            return None
        start, end = self.number.get(names[0] or ""), self.number.get(names[1] or "")
        return None if start is None or end is None else self.span((start, check.start), (end, check.end))

    def nearest(self, place: Place, other: int) -> Place:
        """The place on another rail that is nearest."""
        rail = self.all[other]
        return other, math.dist(rail.start, nearest_on_segment(rail.start, rail.end, self.at(place)))

    def crossings(self, one: int, other: int, reach: float, parts: int) -> list[Span]:
        """Ways to bridge two rails from evenly parted places of either, no longer than `reach`."""
        spans = []
        for n in range(parts + 1):
            at: Place = (one, self.lengths[one] * n / parts)
            there = self.nearest(at, other)
            back: Place = (other, self.lengths[other] * n / parts)
            spans += [self.span(at, there), self.span(self.nearest(back, one), back)]
        return [span for span in spans if span is not None and span.run <= reach]


def groups_of(count: int, pairs: Sequence[tuple[int, int]]) -> list[int]:
    """For each of `count` things the smallest number among all that pairs join it to."""
    lead = list(range(count))

    def first(n: int) -> int:
        while lead[n] != n:
            lead[n] = lead[lead[n]]
            n = lead[n]
        return n

    for a, b in pairs:
        one, other = first(a), first(b)
        lead[max(one, other)] = min(one, other)
    return [first(n) for n in range(count)]
