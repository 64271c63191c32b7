"""Lines over a grid of heights in a dozen directions: through every height, read wherever they cross between two."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from evenbed.scans.cloud import Numbers, Truth, Whole
from evenbed.scans.flat_grid import FlatGrid

WAYS = ((1, 0), (0, 1), (1, 1), (1, -1), (2, 1), (2, -1), (1, 2), (1, -2), (3, 1), (3, -1), (1, 3), (1, -3))


@dataclass(frozen=True)
class Lines:
    """All lines in one direction, one a row, read every `step` mm; NaN where there is no height.

    `x` and `y` are the places in `parts` of the grid's steps. Lines end at different places: rows are filled up.
    """

    heights: Numbers
    x: Whole
    y: Whole
    parts: int
    step: float
    grid: FlatGrid

    def at(self, row: int, along: float) -> tuple[float, float]:
        """The place, in the grid's steps, of so many steps along a row."""
        first = min(int(along), self.x.shape[1] - 2)
        share = along - first
        u, v = (float(axis[row, first] * (1 - share) + axis[row, first + 1] * share) for axis in (self.x, self.y))
        return u / self.parts, v / self.parts

    def marked(self, beyond: Truth) -> Truth:
        """The grid's heights nearest to what is marked on the lines."""
        found = np.zeros(self.grid.heights.shape, bool)
        row, along = np.nonzero(beyond)
        found[tuple(_nearest(axis[row, along], self.parts) for axis in (self.y, self.x))] = True
        return found


def lines_over(grid: FlatGrid) -> Iterator[Lines]:
    """Lines in every direction, all that are at least two heights long."""
    for way in WAYS:
        lines = _lines(grid, *way)
        if lines is not None:
            yield lines


def _lines(grid: FlatGrid, across: int, up: int) -> Lines | None:
    rows, columns = grid.heights.shape
    y, x = np.divmod(np.arange(rows * columns), columns)
    begins = ~_is_on(x - across, y - up, grid.heights.shape)
    parts = _parts(across, up)
    longest = min((columns - 1) // abs(across) if across else rows, (rows - 1) // abs(up) if up else columns)
    if longest < 1:
        return None
    along = np.arange(parts * longest + 1)
    line_x = x[begins][:, None] * parts + across * along
    line_y = y[begins][:, None] * parts + up * along
    step = float(np.hypot(across * grid.dx, up * grid.dy)) / parts
    return Lines(_read(grid.heights, line_x, line_y, parts), line_x, line_y, parts, step, grid)


def _is_on(x: Whole, y: Whole, shape: tuple[int, ...]) -> Truth:
    return (x >= 0) & (y >= 0) & (x < shape[1]) & (y < shape[0])


def _parts(across: int, up: int) -> int:
    """Into how many parts a line is cut from one height to the next, so that none of its bends is passed over."""
    return 2 if abs(across) == abs(up) else max(abs(across), abs(up))


def _read(heights: Numbers, x: Whole, y: Whole, parts: int) -> Numbers:
    """The heights at places in parts of a step: between two straight between them, amid four the mean of them."""
    (low_x, over_x), (low_y, over_y) = (np.divmod(axis, parts) for axis in (x, y))
    high_x, high_y, share_x, share_y = low_x + (over_x > 0), low_y + (over_y > 0), over_x / parts, over_y / parts
    low = _height(heights, low_x, low_y) * (1 - share_x) + _height(heights, high_x, low_y) * share_x
    high = _height(heights, low_x, high_y) * (1 - share_x) + _height(heights, high_x, high_y) * share_x
    return low * (1 - share_y) + high * share_y


def _height(heights: Numbers, x: Whole, y: Whole) -> Numbers:
    on = _is_on(x, y, heights.shape)
    return np.where(on, heights[np.where(on, y, 0), np.where(on, x, 0)], np.nan)


def _nearest(place: Whole, parts: int) -> Whole:
    return (2 * place + parts) // (2 * parts)
