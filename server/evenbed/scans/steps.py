"""Pieces of floor within a cell: spots that go over into each other, parted where the floor steps up or down.

So a step or a ridge in a cell is not smeared into a slope: each side of it becomes a reading of its own. A spot alone
that agrees with none beside it (a leg, a heap of strays) is no piece of the floor.
"""

from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from evenbed.scans.cloud import Numbers, Truth, Whole
from evenbed.scans.grid import Grid
from evenbed.scans.spots import Spots

AnyValues = TypeVar("AnyValues", Numbers, Whole, Truth)
LEAST_STEP = 2.5  # mm
STEEPEST = 0.03  # mm to a mm, beside the floor's own slope: what rises more from spot to spot is a step
CERTAIN = 5.0  # standard errors that a step has to stand out by
SLIVER = 0.05  # of the points that half the pieces have: with fewer, a wall beside it may be half of it
SHARE = 8  # a piece has at least one in so many of its cell's spots


@dataclass(frozen=True)
class Pieces:
    """Of every spot the number of its piece, -1 where it is of none; of every piece its cell."""

    piece: Whole
    cell: Whole

    @property
    def count(self) -> int:
        """How many there are."""
        return len(self.cell)


def pieces_of(spots: Spots, grid: Grid, minimum_points: int) -> Pieces:
    """The pieces of floor in every cell, those with too few spots or points left out."""
    labels = _labels(spots, grid)
    first, piece = np.unique(labels[spots.is_read], return_inverse=True)
    number = np.full(len(labels), -1)
    number[spots.is_read] = piece
    cell = first // grid.side**2
    sizes = np.bincount(piece, minlength=len(first))
    points = np.bincount(piece, spots.points[spots.is_read], len(first))
    in_cell = np.bincount(cell, sizes, grid.cells)[cell]
    least = max(float(minimum_points), SLIVER * float(np.median(points))) if len(points) else 0.0
    stays = (sizes * SHARE >= in_cell) & (points >= least)
    renumbered = np.where(stays, np.cumsum(stays) - 1, -1)
    return Pieces(np.where(number >= 0, renumbered[number], -1), cell[stays])


def _labels(spots: Spots, grid: Grid) -> Whole:
    """The lowest number of all spots that each one hangs together with inside its cell."""
    side = grid.side
    shape = (grid.cells, side, side)
    labels: Whole = np.arange(grid.spots, dtype=np.int64).reshape(shape)
    height, is_read = spots.height.reshape(shape), spots.is_read.reshape(shape)
    error: Numbers = (spots.noise**2 / np.maximum(spots.points, 1)).reshape(shape)
    joints = [_joined(height, is_read, error, axis, grid.pitch[2 - axis]) for axis in (1, 2)]
    for _ in range(side * side):
        before = labels.copy()
        for axis, joint in zip((1, 2), joints, strict=True):
            here, there = _pairs(labels, axis)
            lower = np.minimum(here, there)
            here[joint] = lower[joint]
            there[joint] = lower[joint]
        if np.array_equal(before, labels):
            break
    return labels.ravel()


def _pairs(values: AnyValues, axis: int) -> tuple[AnyValues, AnyValues]:
    """Views of every spot and of its neighbour along an axis."""
    return (values[:, :-1], values[:, 1:]) if axis == 1 else (values[:, :, :-1], values[:, :, 1:])


def _joined(height: Numbers, is_read: Truth, error: Numbers, axis: int, pitch: float) -> Truth:
    here, there = _pairs(height, axis)
    variance = np.add(*_pairs(error, axis))
    both: Truth = np.logical_and(*_pairs(is_read, axis))
    limit = np.maximum(LEAST_STEP + STEEPEST * pitch, CERTAIN * np.sqrt(variance))
    return both & (np.abs(there - here) <= limit)
