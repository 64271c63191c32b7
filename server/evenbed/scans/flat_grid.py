"""The heights of a scanned bed as a grid: one for every spot, drawn together where their scatter asks for it."""

from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from evenbed.scans.cloud import Numbers, Truth
from evenbed.scans.grid import Grid
from evenbed.scans.spots import Spots
from evenbed.scans.steps import Pieces

Values = TypeVar("Values", Numbers, Truth)
LEAST_PART = 0.5  # of the spots drawn together must be read
NEIGHBOURS = 5  # of eight, that tell of a single spot without points between them


@dataclass(frozen=True)
class FlatGrid:
    """Heights above one plane, mm, a row for each y. NaN where nothing was read; `sigmas` are of the scatter alone.

    (x, y) is the first height's place, (dx, dy) the way to the next along the row and to the next row.
    """

    x: float
    y: float
    dx: float
    dy: float
    heights: Numbers
    sigmas: Numbers
    in_room: Truth

    @property
    def pitch(self) -> float:
        """From one height to the next, the wider way."""
        return max(self.dx, self.dy)

    @property
    def is_read(self) -> Truth:
        """True where there is a height."""
        return np.isfinite(self.heights)

    @property
    def sigma(self) -> float:
        """Standard error of the middling height; NaN where nothing was read."""
        known = self.sigmas[self.is_read]
        return float(np.median(known)) if len(known) else float("nan")

    def place(self, u: float, v: float) -> tuple[float, float]:
        """The place, mm, of so many steps along the row and from row to row."""
        return self.x + u * self.dx, self.y + v * self.dy

    def with_heights(self, heights: Numbers) -> "FlatGrid":
        """The same places with other heights."""
        return FlatGrid(self.x, self.y, self.dx, self.dy, heights, self.sigmas, self.in_room)


def flat_grid_of(spots: Spots, pieces: Pieces, grid: Grid) -> FlatGrid:
    """A height for every spot that is of a piece of floor; a single one missing lies as its neighbours do."""
    is_read = pieces.piece >= 0
    heights = np.where(is_read, spots.height, np.nan)
    sigmas = np.where(is_read, spots.noise / np.sqrt(np.maximum(spots.points, 1)), np.nan)
    dx, dy = grid.pitch
    in_room = _rows(_is_in_room(grid), grid)
    plain = FlatGrid(grid.x + dx / 2, grid.y + dy / 2, dx, dy, _rows(heights, grid), _rows(sigmas, grid), in_room)
    return _mended(plain)


def _is_in_room(grid: Grid) -> Truth:
    inside = np.zeros(grid.spots, bool)
    inside[grid.numbers] = True
    return inside


def _rows(values: Values, grid: Grid) -> Values:
    """By spot's number to rows of the room."""
    by_cell = values.reshape(grid.ny, grid.nx, grid.side, grid.side).transpose(0, 2, 1, 3)
    return by_cell.reshape(grid.ny * grid.side, grid.nx * grid.side)


def _mended(grid: FlatGrid) -> FlatGrid:
    around = np.pad(np.stack((grid.heights, grid.sigmas)), ((0, 0), (1, 1), (1, 1)), constant_values=np.nan)
    rows, columns = grid.heights.shape
    beside = np.stack(
        [around[:, r : r + rows, c : c + columns] for r in range(3) for c in range(3) if (r, c) != (1, 1)]
    )
    known = np.isfinite(beside[:, 0]).sum(axis=0)
    is_hole = grid.in_room & ~grid.is_read & (known >= NEIGHBOURS)
    means = np.nansum(beside, axis=0) / np.maximum(known, 1)
    heights, sigmas = (np.where(is_hole, mean, old) for mean, old in zip(means, around[:, 1:-1, 1:-1], strict=True))
    return FlatGrid(grid.x, grid.y, grid.dx, grid.dy, heights, sigmas, grid.in_room)


def drawn_together(grid: FlatGrid, side: int) -> FlatGrid:
    """The same bed by the means of `side` by `side` heights each; not read where fewer than half of them are."""
    if side == 1:
        return grid
    weights = np.where(grid.is_read, 1 / grid.sigmas**2, 0.0)
    total, known = _sums(weights, side), _sums(grid.is_read.astype(float), side)
    sums = _sums(np.where(grid.is_read, weights * np.nan_to_num(grid.heights), 0.0), side)
    in_room = _sums(grid.in_room.astype(float), side)
    is_read = known >= LEAST_PART * side**2
    safe = np.where(is_read, total, 1.0)
    off = (side - 1) / 2
    return FlatGrid(
        grid.x + off * grid.dx,
        grid.y + off * grid.dy,
        side * grid.dx,
        side * grid.dy,
        np.where(is_read, sums / safe, np.nan),
        np.where(is_read, 1 / np.sqrt(safe), np.nan),
        in_room >= LEAST_PART * side**2,
    )


def _sums(values: Numbers, side: int) -> Numbers:
    padded = np.pad(values, [(0, -count % side) for count in values.shape])
    rows, columns = (count // side for count in padded.shape)
    return np.asarray(padded.reshape(rows, side, columns, side).sum(axis=(1, 3)), np.float64)
