"""The room divided into cells, one reading each, and every cell into spots, where points are first drawn together.

Cells fit the outline's box, so that none is a sliver where the room is a rectangle. Each spot is wholly inside the
room, wholly outside, or cut by a wall; only points in cut spots are asked about one by one.
"""

import math
from dataclasses import dataclass

import numpy as np

from evenbed.scans.cloud import Numbers, Short, Truth, Whole
from evenbed.scans.room import Room
from evenbed.wire.scans import LEAST_CELL, MOST_CELL, MOST_READINGS, ReadingStage

USUAL_CELLS = 300
BED_CELL = 150.0  # mm: a finished bed is looked at under straightedges as short as 300 mm
POINTS_A_CELL, POINTS_A_SPOT = 40, 20  # fewer tell too little
MOST_SIDE = 4  # spots along a cell's side
MOST_SPOTS = 16_000
CUT = 1 << 30
OUTSIDE = -1
BITS = 6
ACROSS = 1 << BITS  # steps to a spot's width: what places are counted in


@dataclass(frozen=True)
class Grid:
    """`nx` by `ny` cells of `dx` by `dy` mm from (x, y), each of `side` by `side` spots.

    `table` has a spot's number (cell × side² + row × side + column), OUTSIDE, or the number with the bit CUT; a rim
    of OUTSIDE runs round it.
    """

    x: float
    y: float
    dx: float
    dy: float
    nx: int
    ny: int
    side: int
    table: Short

    @property
    def cells(self) -> int:
        """How many there are, those outside the room too."""
        return self.nx * self.ny

    @property
    def spots(self) -> int:
        """How many there are in all cells."""
        return self.cells * self.side**2

    @property
    def pitch(self) -> tuple[float, float]:
        """From spot to spot, mm."""
        return self.dx / self.side, self.dy / self.side

    def corner_of_spots(self) -> tuple[Numbers, Numbers]:
        """The low-left corner of every spot."""
        number = np.arange(self.spots)
        cell, spot = np.divmod(number, self.side**2)
        row, column = np.divmod(spot, self.side)
        cell_row, cell_column = np.divmod(cell, self.nx)
        x = self.x + (cell_column * self.side + column) * self.pitch[0]
        return x, self.y + (cell_row * self.side + row) * self.pitch[1]

    def is_cut(self) -> Truth:
        """True for every spot that a wall cuts or touches."""
        cut = np.zeros(self.spots, bool)
        numbers = self.table[self.table >= CUT] ^ CUT
        cut[numbers] = True
        return cut

    @property
    def numbers(self) -> Short:
        """The spots that have any of the room in them."""
        return self.table[self.table >= 0] & (CUT - 1)

    def in_room(self) -> Whole:
        """The cells that have any of the room in them."""
        return np.unique(self.numbers // self.side**2)

    def found(self, across: Numbers, up: Numbers) -> tuple[Short, Short, Short]:
        """The table's word for places in steps from its low-left corner; the whole steps, drawn in from far off."""
        columns, rows = self.nx * self.side + 2, self.ny * self.side + 2
        steps, rising = _drawn_in(across, columns), _drawn_in(up, rows)
        number = rising >> BITS
        number *= columns
        number += steps >> BITS
        return self.table.take(number), steps, rising


def _drawn_in(place: Numbers, spots: int) -> Short:
    """Whole steps within so many spots; what is no number becomes 0."""
    np.fmax(place, 0.0, out=place)
    np.fmin(place, spots * ACROSS - 1.0, out=place)
    return place.astype(np.int32)


def grid_of(room: Room, points: int, cell: float | None, stage: ReadingStage = "subfloor") -> Grid:
    """The grid for a room with so many points in it; `cell` in mm, None for one that suits what is read.

    A cell that would make more readings than can be taken is made as much larger as it takes.
    """
    width, depth = room.size
    least = math.sqrt(width * depth / (0.9 * MOST_READINGS))
    area = room.area_in(*room.box[:2], width, depth)
    most_cells = USUAL_CELLS if stage == "subfloor" else max(USUAL_CELLS, round(area / BED_CELL**2))
    usual = math.sqrt(area / max(1, min(most_cells, points // POINTS_A_CELL)))
    wanted = min(MOST_CELL, max(LEAST_CELL, least, cell or usual))
    nx, ny = max(1, round(width / wanted)), max(1, round(depth / wanted))
    most = math.isqrt(MOST_SPOTS // (nx * ny))
    side = max(1, min(MOST_SIDE, most, math.isqrt(points // (POINTS_A_SPOT * nx * ny))))
    return _with_table(room, nx, ny, side)


def _with_table(room: Room, nx: int, ny: int, side: int) -> Grid:
    x, y, *_ = room.box
    width, depth = room.size
    plain = Grid(x, y, width / nx, depth / ny, nx, ny, side, np.empty(0, np.int32))
    left, low = plain.corner_of_spots()
    middle_x, middle_y = left + plain.pitch[0] / 2, low + plain.pitch[1] / 2
    *_, off = room.nearest_edge(middle_x, middle_y)
    numbers = np.arange(plain.spots, dtype=np.int32)
    words = np.where(room.holds(middle_x, middle_y), numbers, OUTSIDE)
    words = np.where(off <= math.hypot(*plain.pitch) * 0.5001, numbers | CUT, words)
    table = np.full((ny * side + 2, nx * side + 2), OUTSIDE, np.int32)
    inner = words.reshape(ny, nx, side, side).transpose(0, 2, 1, 3).reshape(ny * side, nx * side)
    table[1:-1, 1:-1] = inner
    return Grid(x, y, plain.dx, plain.dy, nx, ny, side, table.ravel())
