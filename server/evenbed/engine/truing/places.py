"""Lies of strips as a level meets them: straight lines, the fall of the top under them, and where a reading lay."""

import math
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.places import Point
from evenbed.engine.document.rails import Check, Truing
from evenbed.engine.geometry import between, nearest_on_segment
from evenbed.engine.rails.shapes import Rail, Setting

LEAST_SPAN = 100.0  # mm between the two places of a reading, and of a level: less is a slip of the finger
PAST_END = 1.0  # mm that a place may lie beyond its lie: the rounding of what was typed
LEAST_SHARE = 0.5  # of a strip between its end stations: with less its own ends tell more surely how it lies
Place = tuple[int, float]  # which lie, counted from 0, and how far from its beginning
Ends = tuple[float, float]


@dataclass(frozen=True)
class Lie:
    """One lie of a strip: a straight line from `first` to `last` mm along its rail. `order` 1 is laid first.

    The line is told at the two end stations, where it is raised; the strip itself lies from `low` to `high`.
    """

    rail: Rail
    order: int
    stations: tuple[int, int]
    first: float
    last: float
    low: float
    high: float
    start: Point
    end: Point

    @cached_property
    def size(self) -> float:
        """How long it is, mm."""
        return math.dist(self.start, self.end)

    def holds(self, along: float) -> bool:
        """True for a place on the strip, told from the rail's beginning."""
        return self.low - PAST_END <= along <= self.high + PAST_END

    def raised(self, truing: Truing) -> Ends:
        """What a truing moved its ends by; one that names no lie moved the whole rail, straight from end to end."""
        whole = math.dist(self.rail.start, self.rail.end)
        if truing.lie is not None or whole <= 0.0:
            return truing.from_raise, truing.to_raise
        shares = self.first / whole, self.last / whole
        start, end = ((1.0 - share) * truing.from_raise + share * truing.to_raise for share in shares)
        return start, end


@dataclass(frozen=True)
class Span:
    """Two places that a level bridged, `run` mm apart, the top rising by `rise` from the first to the second.

    `shares` are their lies with how far along them they are, 0 at the beginning and 1 at the end; a little less or
    more where the strip goes on past its end stations.
    """

    start: Place
    end: Place
    run: float
    rise: float
    shares: tuple[Place, Place]

    @property
    def is_along(self) -> bool:
        """True where both are on one lie."""
        return self.start[0] == self.end[0]


class Rails:
    """The lies of the plan's rails by number; `of` has those of each rail, first to last."""

    def __init__(self, rails: Sequence[Rail]) -> None:
        self.lies: tuple[Lie, ...] = tuple(lie for rail in rails for lie in lies_of(rail))
        self.of: dict[str, list[int]] = {}
        for n, lie in enumerate(self.lies):
            self.of.setdefault(lie.rail.id, []).append(n)

    @cached_property
    def lengths(self) -> tuple[float, ...]:
        """How long each lie is."""
        return tuple(lie.size for lie in self.lies)

    def at(self, place: Place) -> Point:
        """A place on the drawing."""
        n, along = place
        size = self.lengths[n]
        return between(self.lies[n].start, self.lies[n].end, along / size) if size > 0.0 else self.lies[n].start

    def along(self, place: Place) -> float:
        """How far a place is from its rail's beginning."""
        return self.lies[place[0]].first + place[1]

    def top_at(self, place: Place) -> float:
        """Top of bed, straight between the rail's stations."""
        along, stations = self.along(place), self.lies[place[0]].rail.stations
        past = min(max(bisect_right(stations, along, key=lambda s: s.along), 1), len(stations) - 1)
        a, b = stations[past - 1], stations[past]
        run = b.along - a.along
        return a.top + (b.top - a.top) * (along - a.along) / run if run > 0.0 else b.top

    def span(self, start: Place, end: Place) -> Span | None:
        """What lies between two places; None where they are one, or not on their lies."""
        first, last = self._on_lie(start), self._on_lie(end)
        if first is None or last is None:
            return None
        run = math.dist(self.at(first), self.at(last))
        rise = self.top_at(last) - self.top_at(first)
        shares = ((first[0], first[1] / self.lengths[first[0]]), (last[0], last[1] / self.lengths[last[0]]))
        return Span(first, last, run, rise, shares) if run >= LEAST_SPAN else None

    def _on_lie(self, place: Place) -> Place | None:
        lie, along = self.lies[place[0]], self.along(place)
        if lie.size < LEAST_SPAN or not lie.holds(along):
            return None
        return place[0], min(max(along, lie.low), lie.high) - lie.first

    def holding(self, check: Check) -> tuple[list[int], list[int]]:
        """The lies that hold a reading's first place and its second, the earlier first; along, those that hold both.

        None of them where its rails are not there, its places not on them, or its level too short.
        """
        names = (check.rail, check.rail) if check.rail is not None else check.rails
        if names is None or (check.rail is None and names[0] == names[1]) or 0.0 < check.length < LEAST_SPAN:
            return [], []
        first = [n for n in self.of.get(names[0] or "", ()) if self.lies[n].holds(check.start)]
        last = [n for n in self.of.get(names[1] or "", ()) if self.lies[n].holds(check.end)]
        both = [n for n in first if n in last]
        return (both, both) if check.rail is not None else (first, last)

    def trued(self, truing: Truing) -> list[int]:
        """The lies that were bedded anew: all of the rail where none is named, none where it is not there."""
        return [n for n in self.of.get(truing.rail, ()) if truing.lie in {None, self.lies[n].order}]

    def nearest(self, place: Place, other: int) -> Place:
        """The place on another lie that is nearest."""
        lie = self.lies[other]
        return other, math.dist(lie.start, nearest_on_segment(lie.start, lie.end, self.at(place)))

    def crossings(self, one: int, other: int, reach: float, parts: int) -> list[Span]:
        """Ways to bridge two lies from evenly parted places of either, no longer than `reach`."""
        spans = []
        for n in range(parts + 1):
            at: Place = (one, self.lengths[one] * n / parts)
            there = self.nearest(at, other)
            back: Place = (other, self.lengths[other] * n / parts)
            spans += [self.span(at, there), self.span(self.nearest(back, one), back)]
        return [span for span in spans if span is not None and span.run <= reach]


def lies_of(rail: Rail) -> Iterable[Lie]:
    """A rail's lies, first to last; one over its whole length where no strip is moved."""
    size = math.dist(rail.start, rail.end)
    if len(rail.settings) <= 1 or size <= 0.0:
        yield Lie(rail, 1, (0, len(rail.stations) - 1), 0.0, size, 0.0, size, rail.start, rail.end)
        return
    for one in rail.settings:
        stations = _end_stations(rail, one)
        first, last = (rail.stations[n].along for n in stations)
        if last - first < LEAST_SHARE * (one.end - one.start):
            first, last = one.start, one.end
        start, end = (between(rail.start, rail.end, along / size) for along in (first, last))
        yield Lie(rail, one.order, stations, first, last, one.start, one.end, start, end)


def _end_stations(rail: Rail, setting: Setting) -> tuple[int, int]:
    """The stations under the strip that are nearest to its ends; of the rail, where none is under it."""
    under = sorted(setting.stations) or range(len(rail.stations))
    start, end = (
        min(under, key=lambda n: abs(rail.stations[n].along - along)) for along in (setting.start, setting.end)
    )
    return start, end


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
