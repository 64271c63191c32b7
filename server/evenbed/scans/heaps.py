"""All points heaped up: how many lie in each spot at each height about the floor, and the sum of their heights.

One pass over the points, in blocks. Heights and places are taken to whole steps before they are added up, so that the
sums are exact and no order of the points changes a digit.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from evenbed.engine.geometry import Plane
from evenbed.scans.cloud import Block, Cloud, Numbers, Short, Tell, Truth, Whole
from evenbed.scans.floor import REACH
from evenbed.scans.grid import ACROSS, CUT, Grid
from evenbed.scans.placing import Rule, Seat
from evenbed.scans.room import Room

STEP = 2.0  # mm of height in one heap
STEPS = int(2 * REACH / STEP)
FINE_BITS = 11
FINE = (1 << FINE_BITS) / STEP  # fine steps to a mm of height, a whole power of two to a heap
SUM_BITS = 36  # count and sum in one number: MOST_POINTS of less than 2^11 fine steps stay below it
HALF_BITS = 32  # two sums in one number: MOST_POINTS of less than ACROSS steps stay below it


@dataclass
class Tally:
    """Points that are no part of the floor: not in the room, or too far above or below the floor."""

    outside: int = 0
    above: int = 0
    below: int = 0


@dataclass(frozen=True)
class Heaps:
    """By spot and height: `counts`, and `over`, the sum of how far the points lie over the heap's bottom, fine steps.

    By spot: `points` in all its heaps, and their mean place.
    """

    counts: Short
    over: Whole
    points: Whole
    x: Numbers
    y: Numbers
    tally: Tally

    @property
    def near(self) -> int:
        """Points in the room and near the floor."""
        return int(self.points.sum())


@dataclass(frozen=True)
class _Rules:
    """From a scan's own numbers to steps from the table's corner and fine steps of height."""

    across: Rule
    up: Rule
    height: Rule


def _rules(seat: Seat, grid: Grid, floor: Plane) -> _Rules:
    a, b = ACROSS / grid.pitch[0], ACROSS / grid.pitch[1]
    return _Rules(
        seat.rule(a, 0.0, 0.0, ACROSS - a * grid.x),
        seat.rule(0.0, b, 0.0, ACROSS - b * grid.y),
        seat.rule(-FINE * floor.b, -FINE * floor.c, FINE, FINE * (REACH - floor.a) + 0.5),
    )


class _Sums:
    """The sums so far, two in one number each."""

    def __init__(self, spots: int) -> None:
        self.heaps, self.places = np.zeros(spots * STEPS, np.int64), np.zeros(spots, np.int64)

    def add(self, spot: Short, height: Short, across: Short, up: Short) -> None:
        """Take points: their spots, fine heights, and steps across and up."""
        heap = np.add(spot * STEPS, height >> FINE_BITS, dtype=np.intp)
        np.add.at(self.heaps, heap, np.add(height & (1 << FINE_BITS) - 1, 1 << SUM_BITS, dtype=np.int64))
        place = np.left_shift(across & ACROSS - 1, HALF_BITS, dtype=np.int64)
        place += up & ACROSS - 1
        np.add.at(self.places, spot.astype(np.intp), place)


def heaped(cloud: Cloud, seat: Seat, room: Room, grid: Grid, floor: Plane, tell: Tell) -> Heaps:
    """Every point in its heap, counted where it is no part of the floor."""
    tally, sums, rules = Tally(), _Sums(grid.spots), _rules(seat, grid, floor)
    for block in _told(cloud, tell):
        word, across, up = grid.found(rules.across.of(block), rules.up.of(block))
        inside = _inside(room, seat, word, block)
        height = rules.height.of(block)
        near = _near(inside, height, tally)
        sums.add(word[near] & CUT - 1, height[near].astype(np.int32), across[near], up[near])
    return _finished(sums, grid, tally)


def _told(cloud: Cloud, tell: Tell) -> Iterator[Block]:
    seen = 0
    for block in cloud.blocks():
        yield block
        seen += len(block[0])
        tell(seen / cloud.count)


def _inside(room: Room, seat: Seat, word: Short, block: Block) -> Truth:
    inside: Truth = word >= 0
    cut = np.flatnonzero(word >= CUT)
    x, y, _ = seat.placed((block[0][cut], block[1][cut], block[2][cut]))
    inside[cut] = room.holds(x, y)
    return inside


def _near(inside: Truth, height: Numbers, tally: Tally) -> Whole:
    """The points of a block that lie in the room near the floor; the others are counted."""
    is_above = height >= STEPS << FINE_BITS
    near = np.flatnonzero(inside & ~is_above & (height >= 0.0))
    in_room, above = int(np.count_nonzero(inside)), int(np.count_nonzero(inside & is_above))
    tally.outside += len(inside) - in_room
    tally.above += above
    tally.below += in_room - above - len(near)
    return near


def _finished(sums: _Sums, grid: Grid, tally: Tally) -> Heaps:
    counts = np.right_shift(sums.heaps, SUM_BITS, out=np.empty(len(sums.heaps), np.int32), casting="unsafe")
    sums.heaps &= (1 << SUM_BITS) - 1
    rows, over = counts.reshape(-1, STEPS), sums.heaps.reshape(-1, STEPS)
    points = rows.sum(axis=1)
    across, up = (
        (half / np.maximum(points, 1) + 0.5) / ACROSS
        for half in (sums.places >> HALF_BITS, sums.places & (1 << HALF_BITS) - 1)
    )
    left, low = grid.corner_of_spots()
    return Heaps(rows, over, points, left + across * grid.pitch[0], low + up * grid.pitch[1], tally)
