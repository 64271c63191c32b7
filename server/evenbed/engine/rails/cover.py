"""What rails serve: for every line across the floor, which rails stand there and what a straightedge on them cuts.

The floor is cut into slabs across the rails at every corner and rail end. Inside a slab the same walls and rails
face each other, and distances change evenly: what holds at its two ends holds throughout. A straightedge serves
what lies between two neighbouring rails that it spans, and on both sides of them as far as it sticks out. What stands
in its way, a post, parts the rails on its two sides.
Everything here is in the rails' frame: u along, v across, mm.
"""

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from evenbed.engine.rails.lines import ROUNDING, Floor, Piece
from evenbed.engine.region import Interval

POST = -1  # in place of a wall's number: the side of a post
BAND = -2  # the side of what is served


@dataclass(frozen=True)
class Reach:
    """What the tools at hand reach.

    `span` between rails, `edge` the straightedge's length, `bearing` how much of it rests on a rail. Within `margin`
    of a wall a rail beside it leaves an ordinary strip to the float. `strip` is the longest strip's length, and
    `move` how far it is moved on at a time.
    """

    span: float
    edge: float
    bearing: float
    margin: float
    strip: float
    move: float

    def lies(self, length: float) -> int:
        """How many times a strip is laid along a rail of this length."""
        return 1 + max(0, math.ceil((length - self.strip) / self.move - 1e-9))

    def beyond(self, gap: float) -> float:
        """How far the straightedge sticks out over a rail while its other end bears on the neighbour `gap` away.

        No further than the rails are apart, or it tips.
        """
        out = self.edge - self.bearing - gap
        return out if out < gap else gap


class Side(NamedTuple):
    """One side of a stretch: v at the slab's two ends, and the number of the wall there, POST or BAND."""

    start: float
    end: float
    wall: int


class Cross(NamedTuple):
    """One stretch of floor across the rails in a slab: its sides, the rails in it, and what posts take up of it."""

    start: float
    end: float
    low: Side
    high: Side
    rails: list[int]
    posts: tuple[Interval, ...]


class Cell(NamedTuple):
    """A part of a stretch that no straightedge serves, between two sides; a triangle where they meet.

    `number` counts the stretches; `below` and `above` are the rails at the ends of what is served on its two sides,
    None at a wall; `is_posted` where a post stands in it.
    """

    start: float
    end: float
    low: Side
    high: Side
    number: int
    below: float | None
    above: float | None
    is_posted: bool

    @property
    def area(self) -> float:
        """How much of the floor it is, mm²."""
        return (self.end - self.start) * (self.high.start - self.low.start + self.high.end - self.low.end) / 2.0


def crosses_of(floor: Floor, pieces: Sequence[Piece]) -> list[Cross]:
    """Every stretch of floor across the rails, slab by slab along them."""
    events = [wall[0] for wall in floor.walls]
    events += [u for piece in pieces for u in (piece.start, piece.end)]
    events += [u for o in floor.obstacles if o.core > 0.0 for u in (o.u - o.core, o.u + o.core)]
    slabs = list(pairwise(_apart(events, floor)))
    crosses: list[Cross] = []
    walls = _standing_in(slabs, [(min(w[0], w[2]), max(w[0], w[2])) for w in floor.walls])
    rails = _standing_in(slabs, [(piece.start, piece.end) for piece in pieces])
    posts = _standing_in(slabs, [(o.u - o.core, o.u + o.core) for o in floor.obstacles])
    for slab, *here in zip(slabs, walls, rails, posts, strict=True):
        crosses += _slab(floor, pieces, slab, *here)
    return crosses


def bands_of(vs: Sequence[float], posts: Sequence[Interval], reach: Reach) -> list[Interval]:
    """What straightedges on neighbouring rails at `vs` (ascending) serve, overlapping bands made one."""
    bands: list[Interval] = []
    for a, b in pairwise(vs):
        gap = b - a
        if not ROUNDING < gap <= reach.span + ROUNDING:
            continue
        low, high = a - reach.beyond(gap), b + reach.beyond(gap)
        if posts:
            if any(post[0] < b and post[1] > a for post in posts):
                continue
            low = max(low, *(post[1] for post in posts if post[1] <= a), low)
            high = min(high, *(post[0] for post in posts if post[0] >= b), high)
        while bands and low <= bands[-1][1] + ROUNDING:
            before = bands.pop()
            low, high = min(low, before[0]), max(high, before[1])
        bands.append((low, high))
    return bands


def cells_of(crosses: Sequence[Cross], pieces: Sequence[Piece], reach: Reach) -> Iterator[Cell]:
    """What no straightedge serves, stretch by stretch and upwards in each."""
    for number, cross in enumerate(crosses):
        vs = [pieces[i].v for i in cross.rails]
        before, below = cross.low, None
        for low, high in bands_of(vs, cross.posts, reach):
            yield from _between(cross, before, Side(low, low, BAND), number, (below, _first_from(vs, low)))
            before, below = Side(high, high, BAND), vs[bisect_left(vs, high + ROUNDING) - 1]
        yield from _between(cross, before, cross.high, number, (below, None))


def _first_from(vs: Sequence[float], low: float) -> float:
    return vs[bisect_left(vs, low - ROUNDING)]


def _between(
    cross: Cross, low: Side, high: Side, number: int, rails: tuple[float | None, float | None]
) -> Iterator[Cell]:
    """The part of a stretch between two sides, where the first is the lower one."""
    start, end, left, right = cross.start, cross.end, high.start - low.start, high.end - low.end
    if left <= 0.0 and right <= 0.0:
        return
    if left < 0.0 or right < 0.0:
        share = left / (left - right)
        turn, v = start + (end - start) * share, low.start + (low.end - low.start) * share
        if left < 0.0:
            start, low, high = turn, low._replace(start=v), high._replace(start=v)
        else:
            end, low, high = turn, low._replace(end=v), high._replace(end=v)
    if end > start:
        is_posted = any(post[0] < max(high[:2]) and post[1] > min(low[:2]) for post in cross.posts)
        yield Cell(start, end, low, high, number, *rails, is_posted)


def _apart(events: Iterable[float], floor: Floor) -> list[float]:
    """Events inside the floor, ascending, those a rounding apart made one."""
    first, _, last, _ = floor.region.box
    kept = [first]
    for u in sorted(events):
        if u - kept[-1] > ROUNDING and u <= last:
            kept.append(u)
    return kept


def _standing_in(slabs: Sequence[Interval], spans: Sequence[Interval]) -> Iterator[list[int]]:
    """For each slab the spans (by number) that hold its middle; slabs ascend."""
    coming = sorted(range(len(spans)), key=lambda i: spans[i][0], reverse=True)
    here: list[int] = []
    for start, end in slabs:
        middle = (start + end) / 2.0
        here = [i for i in here if spans[i][1] > middle]
        while coming and spans[coming[-1]][0] <= middle:
            i = coming.pop()
            if spans[i][1] > middle:
                here.append(i)
        yield here


def _slab(
    floor: Floor, pieces: Sequence[Piece], slab: Interval, walls: list[int], rails: list[int], posts: list[int]
) -> Iterator[Cross]:
    start, end = slab
    sides = sorted((_side(floor, i, start, end) for i in walls), key=lambda side: side.start + side.end)
    order = sorted(rails, key=lambda i: (pieces[i].v, pieces[i].start))
    heights = [pieces[i].v for i in order]
    blocks = [(floor.obstacles[i].v, floor.obstacles[i].core) for i in posts if floor.obstacles[i].core > 0.0]
    for low, high in zip(sides[::2], sides[1::2], strict=True):
        middles = (low.start + low.end) / 2.0, (high.start + high.end) / 2.0
        here = order[bisect_left(heights, middles[0] - ROUNDING) : bisect_left(heights, middles[1] + ROUNDING)]
        inside = tuple(sorted((v - r, v + r) for v, r in blocks if middles[0] < v < middles[1]))
        yield Cross(start, end, low, high, here, inside)


def _side(floor: Floor, wall: int, start: float, end: float) -> Side:
    """A wall's heights at a slab's ends, which may lie a rounding beyond its own."""
    ua, va, ub, vb = floor.walls[wall]
    slope = (vb - va) / (ub - ua)
    low, high = (ua, ub) if ua < ub else (ub, ua)
    one, two = (start if start > low else low), (end if end < high else high)
    return Side(va + slope * (one - ua), va + slope * (two - ua), wall)
