"""Where in its cell a piece of floor is read: in its middle, or close to the wall where a wall cuts the cell.

A surface ends at its outermost readings; so the readings along a wall stand close to it, and one in each corner.
"""

import math

import numpy as np

from evenbed.scans.cloud import Numbers, Truth, Whole
from evenbed.scans.grid import Grid
from evenbed.scans.planes import Planes
from evenbed.scans.room import Room
from evenbed.scans.spots import Spots
from evenbed.scans.steps import Pieces

OFF_THE_WALL = 10.0  # mm
SUPPORTED = 0.75  # pitches of spots: a place further from every spot of its piece is not read
STEADY = 0.3  # of a single point's noise: where the plane is less sure at the wall, it is read in its middle
FAR = 1e9  # mm
BESIDE = 1e-3  # mm beyond a cell that rounding may put a corner
LEAST_APART = 0.1  # of a cell: nearer readings say the same


def places_of(planes: Planes, pieces: Pieces, spots: Spots, grid: Grid, room: Room) -> tuple[Numbers, Numbers]:
    """One place for every piece, on the piece and in the room wherever any of its spots has its middle there."""
    own_x, own_y = _nearest_spot(planes.x, planes.y, pieces, spots, np.where(room.holds(spots.x, spots.y), 0.0, FAR))
    is_whole = np.bincount(pieces.cell, minlength=grid.cells)[pieces.cell] == 1
    stays = is_whole & room.holds(planes.x, planes.y)
    x, y = np.where(stays, planes.x, own_x), np.where(stays, planes.y, own_y)
    wall_x, wall_y = _off_the_wall(*_wall_place(x, y, pieces, grid, room), x, y)
    near_x, near_y = _nearest_spot(wall_x, wall_y, pieces, spots, np.zeros(grid.spots))
    is_near = np.hypot(near_x - wall_x, near_y - wall_y) <= SUPPORTED * math.hypot(*grid.pitch)
    is_steady = planes.at(wall_x, wall_y)[1] <= STEADY * spots.noise
    to_wall = is_whole & _touches_wall(pieces, grid) & is_near & is_steady & room.holds(wall_x, wall_y)
    return np.where(to_wall, wall_x, x), np.where(to_wall, wall_y, y)


def _nearest_spot(x: Numbers, y: Numbers, pieces: Pieces, spots: Spots, handicap: Numbers) -> tuple[Numbers, Numbers]:
    """Of every piece the place of its spot nearest to one place each; a spot seems further off by its handicap."""
    chosen = np.flatnonzero(pieces.piece >= 0)
    piece = pieces.piece[chosen]
    off = np.hypot(spots.x[chosen] - x[piece], spots.y[chosen] - y[piece]) + handicap[chosen]
    order = np.lexsort((chosen, off, piece))
    first = chosen[order[np.searchsorted(piece[order], np.arange(pieces.count))]]
    return spots.x[first], spots.y[first]


def _touches_wall(pieces: Pieces, grid: Grid) -> Truth:
    """True for every piece with a spot that a wall cuts."""
    cut = grid.is_cut() & (pieces.piece >= 0)
    touches: Truth = np.bincount(pieces.piece[cut], minlength=pieces.count) > 0
    return touches


def _wall_place(x: Numbers, y: Numbers, pieces: Pieces, grid: Grid, room: Room) -> tuple[Numbers, Numbers]:
    """The wall's nearest place to every piece, or the corner of the room that lies in its cell."""
    near_x, near_y, _ = room.nearest_edge(x, y)
    row, column = np.divmod(pieces.cell, grid.nx)
    middle_x, middle_y = grid.x + (column + 0.5) * grid.dx, grid.y + (row + 0.5) * grid.dy
    best = np.full(len(x), np.inf)
    for corner_x, corner_y in room.corners:
        is_here = (np.abs(corner_x - middle_x) <= grid.dx / 2 + BESIDE) & (
            np.abs(corner_y - middle_y) <= grid.dy / 2 + BESIDE
        )
        off = np.where(is_here, np.hypot(corner_x - x, corner_y - y), np.inf)
        is_nearer = off < best
        best = np.where(is_nearer, off, best)
        near_x, near_y = np.where(is_nearer, corner_x, near_x), np.where(is_nearer, corner_y, near_y)
    return near_x, near_y


def _off_the_wall(wall_x: Numbers, wall_y: Numbers, x: Numbers, y: Numbers) -> tuple[Numbers, Numbers]:
    off = np.hypot(x - wall_x, y - wall_y)
    share = np.minimum(1.0, OFF_THE_WALL / np.maximum(off, 1e-9))
    return wall_x + (x - wall_x) * share, wall_y + (y - wall_y) * share


def apart(x: Numbers, y: Numbers, points: Whole, grid: Grid) -> Truth:
    """False for each reading that stands as good as on another one with more points behind it."""
    least = LEAST_APART * min(grid.dx, grid.dy)
    near = (np.abs(np.subtract.outer(x, x)) < least) & (np.abs(np.subtract.outer(y, y)) < least)
    np.fill_diagonal(near, val=False)
    stays = np.ones(len(x), bool)
    crowded = np.flatnonzero(near.any(axis=1))
    for n in crowded[np.lexsort((crowded, -points[crowded]))]:
        if stays[n]:
            stays &= ~near[n]
    return stays
