"""How a hand area is finished: with which straightedge that is on hand, or with the float from the finished edge.

A straightedge is of use where it rests on finished bed: on both sides of the place with its bearing at least, or on
one side with at least as much as sticks out, or it would tip. What is no deeper than `FLOAT_REACHES` is floated.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.rails.choice import LEAST_MARGIN, Layout
from evenbed.engine.rails.cover import Cell, Cross, bands_of
from evenbed.engine.rails.hand import Place
from evenbed.engine.rails.kinds import TOUCHES, Ends
from evenbed.engine.rails.shapes import HandWay
from evenbed.engine.region import Interval

FLOAT_REACHES = LEAST_MARGIN


@dataclass(frozen=True)
class Edge:
    """What is served along one end of a place: its extent across the rails, how much of that, how far along them."""

    low: float
    high: float
    served: float
    rest: float


NOTHING = Edge(0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True)
class Surroundings:
    """What meets the hand areas of one layout."""

    layout: Layout

    def ends_of(self, place: Place) -> Ends:
        """What meets a place along the rails."""
        pieces = [p for p in self.layout.pieces if place.low - TOUCHES <= p.v <= place.high + TOUCHES]
        has_rails = any(abs(p.end - place.start) < TOUCHES or abs(p.start - place.end) < TOUCHES for p in pieces)
        served = (self.before(place).served, self.after(place).served)
        return Ends(has_rails, served, (self._walled_before(place.cells[0]), self._walled_after(place.cells[-1])))

    def _walled_before(self, cell: Cell) -> float:
        low, high = cell.low.start, cell.high.start
        return high - low - sum(_overlap(c.low.end, c.high.end, low, high) for c in self._by_end[cell.start])

    def _walled_after(self, cell: Cell) -> float:
        low, high = cell.low.end, cell.high.end
        return high - low - sum(_overlap(c.low.start, c.high.start, low, high) for c in self._by_start[cell.end])

    def before(self, place: Place) -> Edge:
        """What is served where the place begins."""
        first = place.cells[0]
        return self._edge(self._by_end[first.start], (first.low.start, first.high.start), first.start, 0)

    def after(self, place: Place) -> Edge:
        """What is served where the place ends."""
        last = place.cells[-1]
        return self._edge(self._by_start[last.end], (last.low.end, last.high.end), last.end, 1)

    def thinnest_beside(self, place: Place) -> float:
        """The least depth of what is served beside a place, across the rails."""
        return min(self._beside(cell.number, cell.below, cell.above) for cell in place.cells)

    def _beside(self, number: int, *rails: float | None) -> float:
        cross = self.layout.crosses[number]
        inside = self._served(cross)
        near = [high - low for low, high in inside for v in rails if v is not None and low <= v <= high]
        return min(near, default=0.0)

    def _edge(self, crosses: Sequence[Cross], across: Interval, u: float, end: int) -> Edge:
        parts = [
            (max(low, across[0]), min(high, across[1]), cross)
            for cross in crosses
            for low, high in self._served(cross)
            if min(high, across[1]) > max(low, across[0])
        ]
        if not parts:
            return NOTHING
        pieces = [self.layout.pieces[i] for *_, cross in parts for i in cross.rails]
        rest = min((p.end - u) if end else (u - p.start) for p in pieces)
        served = sum(high - low for low, high, _ in parts)
        return Edge(min(p[0] for p in parts), max(p[1] for p in parts), served, rest)

    def _served(self, cross: Cross) -> list[Interval]:
        low, high = max(cross.low[:2]), min(cross.high[:2])
        vs = [self.layout.pieces[i].v for i in cross.rails]
        bands = bands_of(vs, cross.posts, self.layout.reach)
        return [(max(low, a), min(high, b)) for a, b in bands if min(high, b) > max(low, a)]

    @cached_property
    def _by_start(self) -> dict[float, list[Cross]]:
        return _indexed(self.layout.crosses, 0)

    @cached_property
    def _by_end(self) -> dict[float, list[Cross]]:
        return _indexed(self.layout.crosses, 1)


def _overlap(low: float, high: float, other_low: float, other_high: float) -> float:
    return max(0.0, min(high, other_high) - max(low, other_low))


def _indexed(crosses: Sequence[Cross], end: int) -> dict[float, list[Cross]]:
    found: dict[float, list[Cross]] = defaultdict(list)
    for cross in crosses:
        found[cross[end]].append(cross)  # type: ignore[index]
    return found


def way_of(place: Place, around: Surroundings, lengths: Sequence[float]) -> tuple[HandWay, float | None]:
    """How a place is finished, and with which of the straightedges on hand (`lengths` ascend)."""
    fits = _which_fits(place, around, lengths)
    if fits is None:
        return ("float", None)
    return ("short_straightedge" if fits < lengths[-1] else "overhanging_straightedge", fits)


def _which_fits(place: Place, around: Surroundings, lengths: Sequence[float]) -> float | None:
    """The shortest straightedge that bridges the place or reaches out over it; None for the float."""
    first = place.cells[0]
    if first.is_posted or (first.below is None and first.above is None):
        return None if first.is_posted else _along_rails(place, around, lengths)
    depth = max(max(c.high.start - c.low.start, c.high.end - c.low.end) for c in place.cells)
    rest = around.thinnest_beside(place)
    has_both = first.below is not None and first.above is not None
    return _bridging(depth, (rest, rest if has_both else 0.0), around.layout.reach.bearing, lengths)


def _along_rails(place: Place, around: Surroundings, lengths: Sequence[float]) -> float | None:
    """Laid along the rails, on bed that is finished before the place or behind it."""
    edges = (around.before(place), around.after(place))
    rests = [edge.rest if _faces(edge, place) else 0.0 for edge in edges]
    return _bridging(place.end - place.start, (rests[0], rests[1]), around.layout.reach.bearing, lengths)


def _faces(edge: Edge, place: Place) -> bool:
    """Whether what is served faces all of the place but for what the float reaches at its sides."""
    whole = edge.served >= edge.high - edge.low - TOUCHES
    return whole and edge.low - place.low <= FLOAT_REACHES and place.high - edge.high <= FLOAT_REACHES


def _bridging(depth: float, rests: tuple[float, float], bearing: float, lengths: Sequence[float]) -> float | None:
    if depth <= FLOAT_REACHES:
        return None
    if min(rests) >= bearing and min(rests) > 0.0:
        return next((s for s in lengths if depth + 2.0 * bearing <= s <= depth + sum(rests)), None)
    return next((s for s in lengths if 2.0 * depth <= s <= depth + max(rests)), None)
