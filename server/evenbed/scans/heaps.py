"""All points heaped up: how many lie in each spot at each height about the floor, and the sum of their heights.

One pass over the points, in blocks. Heights and places are taken to whole steps before they are added up, so that the
sums are exact and no order of the points changes a digit.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from evenbed.engine.geometry import Plane
from evenbed.scans.cloud import BLOCK, Block, Cloud, Numbers, Tell, Truth, Whole
from evenbed.scans.floor import REACH
from evenbed.scans.grid import CUT, Grid
from evenbed.scans.placing import Seat
from evenbed.scans.room import Room

STEP = 2.0  # mm of height in one heap
STEPS = int(2 * REACH / STEP)
FINE = 1000.0  # steps to a mm of height
ACROSS = 511.0  # steps to a spot's width
HIGH = float(1 << 26)  # two sums in one number: 2^17 points of 2^9 steps each stay below it
ONE = float(1 << 31)  # count and sum in one number: 2^20 points of 2^11 fine steps stay below it
AT_ONCE = (1 << 20) - BLOCK  # points heaped up together


@dataclass
class Tally:
    """Points that are no part of the floor: not in the room, or too far above or below the floor."""

    outside: int = 0
    above: int = 0
    below: int = 0


@dataclass(frozen=True)
class Heaps:
    """By spot and height: `counts`, and `over`, the sum of how far the points lie over the heap's bottom, fine steps.

    By spot: the points' mean place.
    """

    counts: Whole
    over: Whole
    x: Numbers
    y: Numbers
    tally: Tally

    @property
    def near(self) -> int:
        """Points in the room and near the floor."""
        return int(self.counts.sum())


@dataclass(frozen=True)
class Near:
    """The points of a block that lie in the room near the floor: heap, fine height over its bottom, packed place."""

    heap: Whole
    over: Numbers
    place: Numbers
    spot: Whole


class _Pile:
    """The sums so far, and points that wait to be added to them, many at once."""

    def __init__(self, spots: int) -> None:
        self.counts, self.over = np.zeros(spots * STEPS, np.int64), np.zeros(spots * STEPS, np.int64)
        self.places = np.zeros((2, spots), np.int64)
        self._heap, self._packed, self._held = np.empty(AT_ONCE + BLOCK, np.intp), np.empty(AT_ONCE + BLOCK), 0

    def add(self, near: Near) -> None:
        """Take the points of a block."""
        end = self._held + len(near.heap)
        self._heap[self._held : end], self._packed[self._held : end] = near.heap, near.over
        self._held = end
        sums = np.bincount(near.spot, near.place, self.places.shape[1]).astype(np.int64)
        self.places[0] += sums >> int(HIGH).bit_length() - 1
        self.places[1] += sums & int(HIGH) - 1
        if end >= AT_ONCE:
            self.settle()

    def settle(self) -> None:
        """Add those that wait."""
        heap, packed = self._heap[: self._held], self._packed[: self._held]
        packed += ONE
        sums = np.bincount(heap, packed, len(self.counts)).astype(np.int64)
        self.counts += sums >> int(ONE).bit_length() - 1
        self.over += sums & int(ONE) - 1
        self._held = 0


def heaped(cloud: Cloud, seat: Seat, room: Room, grid: Grid, floor: Plane, tell: Tell) -> Heaps:
    """Every point in its heap, counted where it is no part of the floor."""
    tally, pile = Tally(), _Pile(grid.spots)
    for block in _told(cloud, tell):
        pile.add(_near(block, seat, room, grid, floor, tally))
    pile.settle()
    return _finished(pile, grid, tally)


def _told(cloud: Cloud, tell: Tell) -> Iterator[Block]:
    seen = 0
    for block in cloud.blocks():
        yield block
        seen += len(block[0])
        tell(seen / cloud.count)


def _near(block: Block, seat: Seat, room: Room, grid: Grid, floor: Plane, tally: Tally) -> Near:
    x, y, z = seat.placed(block)
    word, across, up = grid.found(x, y)
    inside = _inside(room, word, x, y)
    above = z - (floor.a + floor.b * x + floor.c * y)
    near = inside & (np.abs(above) < REACH)
    _count(tally, inside, above)
    chosen = np.flatnonzero(near)
    spot = (word[chosen] & (CUT - 1)).astype(np.intp)
    fine = np.minimum(np.rint((above[chosen] + REACH) * FINE), 2 * REACH * FINE - 1)
    step = (fine * (1.0 / (STEP * FINE))).astype(np.intp)
    across, up = across[chosen], up[chosen]
    place = np.rint((across - np.floor(across)) * ACROSS) * HIGH + np.rint((up - np.floor(up)) * ACROSS)
    return Near(spot * STEPS + step, fine - step * (STEP * FINE), place, spot)


def _count(tally: Tally, inside: Truth, above: Numbers) -> None:
    tally.outside += len(inside) - int(np.count_nonzero(inside))
    tally.above += int(np.count_nonzero(inside & (above >= REACH)))
    tally.below += int(np.count_nonzero(inside & (above <= -REACH)))


def _inside(room: Room, word: "np.ndarray[tuple[int], np.dtype[np.int32]]", x: Numbers, y: Numbers) -> Truth:
    inside: Truth = word >= 0
    cut = np.flatnonzero(word >= CUT)
    inside[cut] = room.holds(x[cut], y[cut])
    return inside


def _finished(pile: _Pile, grid: Grid, tally: Tally) -> Heaps:
    rows = pile.counts.reshape(-1, STEPS)
    found = np.maximum(rows.sum(axis=1), 1)
    left, low = grid.corner_of_spots()
    x = left + pile.places[0] / found / ACROSS * grid.pitch[0]
    y = low + pile.places[1] / found / ACROSS * grid.pitch[1]
    return Heaps(rows, pile.over.reshape(-1, STEPS), x, y, tally)
