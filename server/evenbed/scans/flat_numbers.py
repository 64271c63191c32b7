"""F-numbers of a scanned bed, from heights 300 mm apart along lines both ways through it."""

from collections.abc import Iterator

import numpy as np

from evenbed.engine.flatness.fnumbers import SPACINGS, Heights, f_numbers_of
from evenbed.engine.geometry import Plane
from evenbed.scans.cloud import Numbers
from evenbed.scans.flat_grid import FlatGrid
from evenbed.wire.scans import FlatNumbers

SPACING = SPACINGS[0]
APART = 600.0  # mm from line to line (common practice, no source)
OFF_THE_WALL = 300.0  # mm, of the first of them (common practice, no source)


def numbers_from(grid: FlatGrid, floor: Plane) -> FlatNumbers | None:
    """FF and FL of all lines of four heights or more; None where there is none. `floor` is what heights stand on."""
    rows, columns = grid.heights.shape
    far, up = (columns - 1) * grid.dx, (rows - 1) * grid.dy
    lines = [*_across(grid, floor, far, up), *_across(_turned(grid), Plane(floor.a, floor.c, floor.b), up, far)]
    found = f_numbers_of(lines, is_level=True).overall
    if found is None:
        return None
    return FlatNumbers(
        ff=round(found.ff, 1),
        fl=None if found.fl is None else round(found.fl, 1),
        lines=found.lines,
        heights=found.heights,
    )


def _turned(grid: FlatGrid) -> FlatGrid:
    """The same with x and y exchanged."""
    return FlatGrid(grid.y, grid.x, grid.dy, grid.dx, grid.heights.T, grid.sigmas.T, grid.in_room.T)


def _across(grid: FlatGrid, floor: Plane, far: float, up: float) -> Iterator[Heights]:
    """Lines along x, cut where nothing was read."""
    along = np.arange(0.0, far + 1e-9, SPACING)
    for y in np.arange(OFF_THE_WALL, up, APART):
        heights = _at(grid, along, float(y)) + floor.b * along
        for part in np.split(heights, np.flatnonzero(~np.isfinite(heights))):
            known = part[np.isfinite(part)]
            yield Heights("", tuple(known.tolist()), SPACING)


def _at(grid: FlatGrid, along: Numbers, y: float) -> Numbers:
    """Heights along a row at y from the first: straight between the four round each place."""
    up = y / grid.dy
    row = min(int(up), grid.heights.shape[0] - 2)
    line = grid.heights[row] * (row + 1 - up) + grid.heights[row + 1] * (up - row)
    known = np.arange(grid.heights.shape[1]) * grid.dx
    return np.asarray(np.interp(along, known, line), np.float64)
