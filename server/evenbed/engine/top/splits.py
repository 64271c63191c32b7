"""A room as a drain sees it: the part it sees whole, and parts beyond cuts along walls.

A cut draws a wall on at an inner corner. From everywhere in the part beyond it the straight way down, square to the
cut, stays in that part; the cut then counts as a wall of the part with the drain.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Plane, Ring, edge_of, is_inside, nearest_on_segment
from evenbed.engine.top.chords import Chord, chords_of, inner_corners, parts_by
from evenbed.engine.top.facets import side_of
from evenbed.engine.top.ways import ON_LINE, OUT_OF_SQUARE, blocked_at

POSITION = 1e-9  # walls: nearer places along the ring are one
SEEN = 1.0  # mm before a wall's line that a drain must lie to see the wall
LOWER = 1e-6  # mm by which a split must beat those before it
MOST_WORK = 1_000_000  # corners held against cuts before the best so far stands; no floor in use comes near it


@dataclass(frozen=True)
class Cut:
    """A cut and the part beyond it, which runs along the ring from place `begin` to place `end` (wall and share)."""

    begin: float
    end: float
    beyond: Ring

    @cached_property
    def way(self) -> Plane:
        """Distance from the cut into the part beyond."""
        return side_of(self.beyond[-1], self.beyond[0])

    @cached_property
    def depth(self) -> float:
        """The longest straight way down to the cut, mm."""
        return max(self.way.over(self.beyond))

    @property
    def is_before_its_part(self) -> bool:
        """True where the part beyond is no wider than the cut, but for walls a little out of square."""
        along = Plane(0.0, self.way.c, -self.way.b)
        first, last = along.at(*self.beyond[-1]), along.at(*self.beyond[0])
        slack = ON_LINE + OUT_OF_SQUARE * self.depth
        places = along.over(self.beyond)
        return first - slack <= min(places) and max(places) <= last + slack

    def holds_wall(self, wall: int, count: int) -> bool:
        """True where a whole wall of the ring lies beyond."""
        return (wall - self.begin) % count + 1 <= self._length(count) + POSITION

    def holds(self, place: float, count: int) -> bool:
        """True for a place along the ring between the cut's ends."""
        return POSITION < (place - self.begin) % count < self._length(count) - POSITION

    def meets(self, other: "Cut", count: int) -> bool:
        """True where both have some of the ring beyond them."""
        if abs(self.begin - other.begin) < POSITION:
            return True
        after, before = (other.begin - self.begin) % count, (self.begin - other.begin) % count
        return after < self._length(count) - POSITION or before < other._length(count) - POSITION

    def _length(self, count: int) -> float:
        return (self.end - self.begin) % count


@dataclass(frozen=True)
class Split:
    """The part that the drain sees whole, anticlockwise, and the cuts that end it."""

    seen: Ring
    cuts: tuple[Cut, ...]
    reach: float
    """The longest way from a corner of the part seen to the drain's middle, mm."""

    @property
    def highest(self) -> float:
        """The longest way by which a wall stands above the drain, mm."""
        return self.reach + max((cut.depth for cut in self.cuts), default=0.0)


def split_for(ring: Ring, drain: Point, radius: float, hidden: Sequence[int]) -> Split | None:
    """The split with the lowest highest wall that puts every hidden wall beyond a cut; None where there is none."""
    cuts = tuple(_cuts_of(ring, drain, radius)) if hidden else ()
    choice = _Choice(ring, drain, cuts)
    choice.try_all((), tuple(hidden))
    return choice.best


def hidden_walls(ring: Ring, drain: Point) -> Iterator[int]:
    """The walls whose front the drain does not see."""
    for n in range(len(ring)):
        if side_of(*edge_of(ring, n)).at(*drain) < SEEN:
            yield n


def _cuts_of(ring: Ring, drain: Point, radius: float) -> Iterator[Cut]:
    for corner in inner_corners(ring):
        for chord in chords_of(ring, corner):
            cut = _cut_from(ring, chord, drain)
            ends = cut.beyond[-1], cut.beyond[0]
            is_clear = math.dist(drain, nearest_on_segment(*ends, drain)) > radius and cut.way.at(*drain) < 0
            if is_clear and cut.is_before_its_part and blocked_at(cut.beyond, cut.way) is None:
                yield cut


def _cut_from(ring: Ring, chord: Chord, drain: Point) -> Cut:
    wall = edge_of(ring, chord.wall)
    share = 0.0 if chord.is_corner else math.dist(wall[0], chord.end) / math.dist(*wall)
    ahead, back = parts_by(ring, chord)
    if is_inside(ahead, *drain):
        return Cut(chord.wall + share, float(chord.start), back)
    return Cut(float(chord.start), chord.wall + share, ahead)


class _Choice:
    """Tries cuts for each hidden wall in turn, and remembers the best split."""

    def __init__(self, ring: Ring, drain: Point, cuts: tuple[Cut, ...]) -> None:
        self.ring, self.drain, self.cuts = ring, drain, cuts
        self.best: Split | None = None
        self.work = 0

    def try_all(self, chosen: tuple[Cut, ...], hidden: tuple[int, ...]) -> None:
        """Every way to put the walls still hidden beyond further cuts."""
        count = len(self.ring)
        self.work += count + len(self.cuts)
        if self.work > MOST_WORK or self._is_beaten(chosen):
            return
        if not hidden:
            self._judge(chosen)
            return
        for cut in self.cuts:
            if cut.holds_wall(hidden[0], count) and not any(cut.meets(other, count) for other in chosen):
                self.try_all((*chosen, cut), tuple(w for w in hidden if not cut.holds_wall(w, count)))

    def _is_beaten(self, chosen: tuple[Cut, ...]) -> bool:
        if self.best is None or not chosen:
            return False
        reach = max(math.dist(self.drain, end) for cut in chosen for end in (cut.beyond[0], cut.beyond[-1]))
        return reach + max(cut.depth for cut in chosen) > self.best.highest - LOWER

    def _judge(self, chosen: tuple[Cut, ...]) -> None:
        self.work += len(self.ring) * (1 + len(chosen))
        seen = _left_by(self.ring, chosen)
        if any(True for _ in hidden_walls(seen, self.drain)):
            return
        split = Split(seen, chosen, max(math.dist(self.drain, corner) for corner in seen))
        if self.best is None or split.highest < self.best.highest - LOWER:
            self.best = split


def _left_by(ring: Ring, cuts: Sequence[Cut]) -> Ring:
    """The ring without what lies beyond cuts."""
    count = len(ring)
    kept = [(float(n), p) for n, p in enumerate(ring) if not any(cut.holds(n, count) for cut in cuts)]
    ends = [(place, p) for cut in cuts for place, p in ((cut.begin, cut.beyond[0]), (cut.end, cut.beyond[-1]))]
    whole: list[tuple[float, Point]] = []
    for place, p in sorted([*kept, *ends]):
        if not whole or place - whole[-1][0] > POSITION:
            whole.append((place, p))
    return tuple(p for _, p in whole)
