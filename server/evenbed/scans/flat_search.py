"""A straightedge laid on rows of heights at every place at once: where it stands open most.

A straightedge lies on the upper hull of what is under it. The hull's edge that begins at a height goes to where the
rise from there is steepest; as far as the straightedge reaches, no other edge from there lies higher. So one edge a
height, found from either side, tells the most that stands open over every place. Where the length is no whole number
of steps, the far end is tried between two heights too, at the full length.
"""

import heapq
from dataclasses import dataclass

import numpy as np

from evenbed.scans.cloud import Numbers, Truth, Whole

AT_ONCE = 100_000  # heights looked at in one go
WHOLE_STEP = 1e-9
LEAST_GAP = 1e-6  # mm: what rounding may show


@dataclass(frozen=True)
class OpenPlace:
    """Where it stands open. Places along the row in steps, counted from its first height."""

    gap: float
    row: int
    at: float
    rests: tuple[float, float]


@dataclass(frozen=True)
class Edges:
    """Edges of hulls: the row and step where each begins, its height there, its rise a step and how far it goes.

    `most` is what stands open under it at most: from its higher end down to the lowest height under it.
    """

    row: Whole
    start: Whole
    height: Numbers
    rise: Numbers
    reach: Numbers
    most: Numbers

    def some(self, which: slice | Whole) -> "Edges":
        """Some of them."""
        return Edges(
            self.row[which],
            self.start[which],
            self.height[which],
            self.rise[which],
            self.reach[which],
            self.most[which],
        )


def open_places(
    heights: Numbers, reach: float, limit: float, least: float = LEAST_GAP, count: int = 1
) -> tuple[list[OpenPlace], Truth]:
    """The worst places under a straightedge `reach` steps long, and which heights lie open by more than the limit.

    `heights` has a row for each line, equally far apart in it, NaN where nothing was read: no straightedge lies
    across that. At most `count` places, the worst first, that stand open by more than `least`; one for an edge of the
    hull. None where it is shorter than two steps.
    """
    places: list[OpenPlace] = []
    beyond = np.zeros(heights.shape, bool)
    for is_turned, seen in ((False, heights), (True, heights[:, ::-1])):
        found, deep = _under(seen, _edges(seen, reach), limit, least, count)
        beyond |= deep[:, ::-1] if is_turned else deep
        places += [_turned(one, seen.shape[1] - 1) for one in found] if is_turned else found
    return heapq.nlargest(count, places, key=lambda place: place.gap), beyond


def _turned(found: OpenPlace, last: int) -> OpenPlace:
    a, b = found.rests
    return OpenPlace(found.gap, found.row, last - found.at, (last - b, last - a))


class _Steepest:
    """From every height the steepest rise so far, how far off that is, and the lowest height before it."""

    def __init__(self, heights: Numbers) -> None:
        self.heights, self.is_known = heights, np.isfinite(heights)
        self.is_read = self.is_known.copy()
        self.rise, self.reach = np.full(heights.shape, -np.inf), np.zeros(heights.shape)
        self.passed, self.lowest = np.full(heights.shape, np.inf), np.zeros(heights.shape)

    def look(self, there: Numbers, known: Truth, reach: float) -> None:
        """To what lies so many steps on, where all between was read: the edge goes to the steepest."""
        end = there.shape[1]
        is_read, rise = self.is_read[:, :end], self.rise[:, :end]
        is_read &= known
        found = (there - self.heights[:, :end]) / reach
        is_steeper = is_read & (found >= rise)
        np.copyto(rise, found, where=is_steeper)
        np.copyto(self.reach[:, :end], reach, where=is_steeper)
        np.copyto(self.lowest[:, :end], self.passed[:, :end], where=is_steeper)

    def go_by(self, there: Numbers) -> None:
        """What was looked to lies before what is looked to next."""
        passed = self.passed[:, : there.shape[1]]
        np.fmin(passed, there, out=passed)


def _edges(heights: Numbers, reach: float) -> Edges:
    """The edge from every height with something under it, towards the end of its row."""
    count = heights.shape[1]
    whole = min(count - 1, int(reach + WHOLE_STEP))
    seen = _Steepest(heights)
    for steps in range(1, whole + 1):
        there = heights[:, steps:]
        seen.look(there, seen.is_known[:, steps:], float(steps))
        seen.go_by(there)
    if reach - whole > WHOLE_STEP and whole + 1 < count:
        share, end = reach - whole, count - whole - 1
        there = heights[:, whole : whole + end] * (1 - share) + heights[:, whole + 1 :] * share
        seen.look(there, seen.is_known[:, whole + 1 :], reach)
    row, start = np.nonzero(seen.reach > 1.0)
    height, rise, far = heights[row, start], seen.rise[row, start], seen.reach[row, start]
    most = np.maximum(height, height + rise * far) - seen.lowest[row, start]
    return Edges(row, start, height, rise, far, most)


def _under(heights: Numbers, edges: Edges, limit: float, least: float, count: int) -> tuple[list[OpenPlace], Truth]:
    """The worst places under some edges, and which heights lie deeper than the limit.

    Edges under which most can stand open come first; the last of them that cannot matter are not looked at.
    """
    places: list[OpenPlace] = []
    beyond = np.zeros(heights.shape, bool)
    edges = edges.some(np.flatnonzero(edges.most > min(limit, least)))
    edges = edges.some(np.argsort(-edges.most, kind="stable"))
    first = 0
    while first < len(edges.row) and edges.most[first] > min(limit, least):
        steps = np.arange(1, int(np.ceil(edges.reach[first:].max() - WHOLE_STEP)))
        some = edges.some(slice(first, first + max(1, AT_ONCE // len(steps))))
        first += len(some.row)
        place = np.minimum(some.start[:, None] + steps, heights.shape[1] - 1)
        gap = some.height[:, None] + some.rise[:, None] * steps - heights[some.row[:, None], place]
        gap[steps >= some.reach[:, None]] = -np.inf
        deep, under = np.nonzero(gap > limit)
        beyond[some.row[deep], place[deep, under]] = True
        places = heapq.nlargest(count, [*places, *_places(some, gap, least, count)], key=lambda one: one.gap)
        if len(places) == count:
            least = places[-1].gap
    return places, beyond


def _places(edges: Edges, gaps: Numbers, least: float, count: int) -> list[OpenPlace]:
    """The worst place under each of the worst of some edges."""
    under = gaps.argmax(axis=1)
    worst = gaps[np.arange(len(gaps)), under]
    found = np.argsort(-worst, kind="stable")[:count]
    return [
        OpenPlace(
            float(worst[n]),
            int(edges.row[n]),
            float(edges.start[n] + 1 + under[n]),
            (float(edges.start[n]), float(edges.start[n] + edges.reach[n])),
        )
        for n in found
        if worst[n] > least
    ]
