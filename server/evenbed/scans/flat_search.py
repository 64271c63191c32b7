"""A straightedge laid on rows of heights at every place at once: how far it stands open under it at most.

A straightedge lies on the upper hull of what is under it. The hull's edge that begins at a height goes to where the
rise from there is steepest; as far as the straightedge reaches, no other edge from there lies higher. So one edge a
height, found from either side, tells the most that stands open over every place. Where the length is no whole number
of steps, the far end is tried between two heights too, at the full length.
"""

from dataclasses import dataclass

import numpy as np

from evenbed.scans.cloud import Numbers, Truth, Whole

AT_ONCE = 1_000_000  # heights looked at in one go
WHOLE_STEP = 1e-9
LEAST_GAP = 1e-6  # mm: what rounding may show


@dataclass(frozen=True)
class OpenPlace:
    """Where it stands open most. Places along the row in steps, counted from its first height."""

    gap: float
    row: int
    at: float
    rests: tuple[float, float]


@dataclass(frozen=True)
class _Edges:
    """Edges of hulls: the row and step where each begins, its height there, its rise a step and how far it goes."""

    row: Whole
    start: Whole
    height: Numbers
    rise: Numbers
    reach: Numbers

    def part(self, first: int, count: int) -> "_Edges":
        """Some of them."""
        some = slice(first, first + count)
        return _Edges(self.row[some], self.start[some], self.height[some], self.rise[some], self.reach[some])


def open_places(heights: Numbers, reach: float, limit: float) -> tuple[OpenPlace | None, Truth]:
    """The worst place under a straightedge `reach` steps long, and which heights lie open by more than the limit.

    `heights` has a row for each line, equally far apart in it, NaN where nothing was read: no straightedge lies
    across that. None where nothing stands open anywhere, which is also so where it is shorter than two steps.
    """
    worst, beyond = None, np.zeros(heights.shape, bool)
    for is_turned, seen in ((False, heights), (True, heights[:, ::-1])):
        found, deep = _under(seen, _edges(seen, reach), limit)
        beyond |= deep[:, ::-1] if is_turned else deep
        if found is not None and (worst is None or found.gap > worst.gap):
            worst = _turned(found, seen.shape[1] - 1) if is_turned else found
    return worst, beyond


def _turned(found: OpenPlace, last: int) -> OpenPlace:
    a, b = found.rests
    return OpenPlace(found.gap, found.row, last - found.at, (last - b, last - a))


def _edges(heights: Numbers, reach: float) -> _Edges:
    """The edge from every height with something under it, towards the end of its row."""
    count = heights.shape[1]
    whole = min(count - 1, int(reach + WHOLE_STEP))
    rise, far = np.full(heights.shape, -np.inf), np.zeros(heights.shape)
    is_known = np.isfinite(heights)
    is_read = is_known.copy()
    for steps in range(1, whole + 1):
        end = count - steps
        is_read[:, :end] &= is_known[:, steps:]
        is_read[:, end:] = False
        _steeper(rise, far, heights[:, steps:], (heights, is_read), float(steps))
    if reach - whole > WHOLE_STEP and whole + 1 < count:
        share, end = reach - whole, count - whole - 1
        is_read[:, :end] &= is_known[:, whole + 1 :]
        there = heights[:, whole : whole + end] * (1 - share) + heights[:, whole + 1 :] * share
        _steeper(rise, far, there, (heights, is_read), reach)
    row, start = np.nonzero(far > 1.0)
    return _Edges(row, start, heights[row, start], rise[row, start], far[row, start])


def _steeper(rise: Numbers, far: Numbers, there: Numbers, here: tuple[Numbers, Truth], reach: float) -> None:
    """Where it is at least as steep to there, the edge goes there."""
    end = there.shape[1]
    heights, is_read = here[0][:, :end], here[1][:, :end]
    found = (there - heights) / reach
    is_steeper = is_read & (found >= rise[:, :end])
    rise[:, :end][is_steeper] = found[is_steeper]
    far[:, :end][is_steeper] = reach


def _under(heights: Numbers, edges: _Edges, limit: float) -> tuple[OpenPlace | None, Truth]:
    """The worst place under some edges, and which heights lie deeper than the limit."""
    beyond = np.zeros(heights.shape, bool)
    if len(edges.row) == 0:
        return None, beyond
    steps = np.arange(1, int(np.ceil(edges.reach.max() - WHOLE_STEP)))
    worst, many = None, max(1, AT_ONCE // len(steps))
    for first in range(0, len(edges.row), many):
        some = edges.part(first, many)
        place = np.minimum(some.start[:, None] + steps, heights.shape[1] - 1)
        gap = some.height[:, None] + some.rise[:, None] * steps - heights[some.row[:, None], place]
        gap[steps >= some.reach[:, None]] = -np.inf
        deep, under = np.nonzero(gap > limit)
        beyond[some.row[deep], place[deep, under]] = True
        n, t = divmod(int(np.argmax(gap)), len(steps))
        if gap[n, t] > (worst.gap if worst else LEAST_GAP):
            begins = float(some.start[n])
            rests = (begins, begins + float(some.reach[n]))
            worst = OpenPlace(float(gap[n, t]), int(some.row[n]), begins + float(steps[t]), rests)
    return worst, beyond
