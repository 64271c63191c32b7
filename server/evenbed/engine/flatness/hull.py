"""The straightedge laid on a profile: the upper hull over every window of its length, without sampling.

A profile is straight between its knots. A straightedge touches it at two places a and b no further apart than it is
long, and stands open most over a knot p between them: gap = height at p of the line from a to b, less that of the
profile. Of all a and b in one window the upper hull's are the best. While the window moves and both of its ends run
along straight pieces, the gap under the line between the ends is a parabola of the position, whose top is known; else
the best a or b is a knot, and the best window begins or ends at one. A hump is a gap of the profile upside down.

    worst_under((along, height), length) -> Rest(gap, at, first, second) or None
    worst_over((along, height), length)  -> the same of the highest hump
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import NamedTuple

from evenbed.engine.flatness.cuts import ONE_KNOT, Knots

_Touched = tuple[float, float, float | None, float | None]
FLAT = 1e-13  # mm per mm: a knot that bends less than this bends by rounding


class Rest(NamedTuple):
    """How a straightedge lies on a profile: how far it stands open, where, and the two places it rests on."""

    gap: float
    at: float
    first: float
    second: float


def worst_under(knots: Knots, length: float, above: float = 0.0) -> Rest | None:
    """The largest gap under a straightedge of a length anywhere on a profile, exact; None where none is over `above`.

    A straightedge longer than the profile lies on the whole of it. `above` (mm, not negative) leaves out at once what
    is not worth telling.
    """
    return worst_of_both(knots, length, above, math.inf)[0]


def worst_of_both(knots: Knots, length: float, above: float, above_hump: float) -> tuple[Rest | None, Rest | None]:
    """The largest gap and the highest hump, None where they are not over `above` and `above_hump`."""
    along, height = knots
    least = min(above, above_hump)
    if len(along) < 3 or max(height) - min(height) <= least:
        return None, None
    slopes = slopes_of(along, height)
    if (max(slopes) - min(slopes)) * length / 4.0 <= least:
        return None, None  # a gap has two slopes on its sides, and most of it where they are as long
    gap = hump = None
    if above < math.inf:
        gap = _Profile(along, height, slopes).worst(length, above)
    if above_hump < math.inf:
        upside_down = [-z for z in height], [-slope for slope in slopes]
        hump = _Profile(along, *upside_down).worst(length, above_hump)
    return gap, hump


def slopes_of(along: list[float], height: list[float]) -> list[float]:
    """The slope of each piece of a profile."""
    return [(z - y) / (t - s) for s, t, y, z in zip(along, along[1:], height, height[1:], strict=False)]


def worst_over(knots: Knots, length: float, above: float = 0.0) -> Rest | None:
    """The highest hump that a straightedge of a length can rock on; its feet are no further apart than it is long."""
    return worst_of_both(knots, length, math.inf, above)[1]


def is_open_over(knots: Knots, at: float, length: float, limit: float) -> bool:
    """True where a straightedge stands open by more than `limit` over one place, or rocks on it so high."""
    along, height = knots
    n = bisect_left(along, at)
    if not along[0] < at < along[-1] or n == 0:
        return False
    if along[n] > at:
        share = (at - along[n - 1]) / (along[n] - along[n - 1])
        z = height[n - 1] + share * (height[n] - height[n - 1])
        along, height = [*along[:n], at, *along[n:]], [*height[:n], z, *height[n:]]
    slopes = slopes_of(along, height)
    if max(height) - min(height) <= limit or (max(slopes) - min(slopes)) * length / 4.0 <= limit:
        return False
    upside_down = [-z for z in height], [-slope for slope in slopes]
    return any(
        _Profile(along, zs, leans, [n]).worst(length, limit) is not None
        for zs, leans in ((height, slopes), upside_down)
    )


def hull_over(along: list[float], height: list[float], knots: Iterable[int] | None = None) -> list[int]:
    """The upper hull of a profile, or of some of its knots in order: which lie on it, from the first to the last."""
    hull: list[int] = []
    for n in range(len(along)) if knots is None else knots:
        t, z = along[n], height[n]
        while len(hull) > 1:
            a, p = hull[-2], hull[-1]
            if (height[p] - height[a]) * (t - along[a]) > (z - height[a]) * (along[p] - along[a]):
                break  # the last is above the line from the one before it to this one
            hull.pop()
        hull.append(n)
    return hull


class _Profile:
    """A profile with what of it can be touched (`ridges`) and can be open under it (`valleys`): knots bent so."""

    def __init__(
        self, along: list[float], height: list[float], slopes: list[float], asked: list[int] | None = None
    ) -> None:
        """`asked` are the knots that are looked at alone, where they are no valleys too."""
        self.along, self.height, self.slopes = along, height, slopes
        bends = [0.0, *(after - before for before, after in pairwise(slopes)), 0.0]
        self.valleys = [n for n, bend in enumerate(bends) if bend > FLAT] if asked is None else asked
        self.ridges = [n for n, bend in enumerate(bends) if bend < -FLAT]

    def worst(self, length: float, above: float) -> Rest | None:
        """The largest gap under a straightedge anywhere; a longer one lies on the whole profile."""
        if not self.valleys:
            return None
        if length >= self.along[-1] - self.along[0]:
            return self.whole(above)
        return self.sliding(length, above)

    def whole(self, above: float) -> Rest | None:
        """The largest gap under a straightedge over all of it."""
        ends = self.along[0], self.along[-1], self.height[0], self.height[-1]
        return self._under(*ends, self.ridges, self.valleys, above)

    def sliding(self, length: float, above: float) -> Rest | None:
        """The largest gap in any window of a length shorter than the profile."""
        deepest = self._deepest(length)
        deep = [n for n in self.valleys if deepest[n] > above]
        if not deep:
            return None
        touched = self._touched(length)
        best = None
        for n in deep:
            found = self._resting(n, touched, length, above) if deepest[n] > above else None
            if found is not None:
                best, above = found, found.gap
        deep = [n for n in deep if deepest[n] > above]
        for ends, pieces, following in self._slides(length, deep) if deep else ():
            found = self._moving(ends, pieces, following, deep, above)
            if found is not None:
                best, above = found, found.gap
        return best

    def _deepest(self, length: float) -> dict[int, float]:
        """At most so far each valley can be under a straightedge: under hulls of windows half as long again.

        Every window of the length lies in one of them.
        """
        along, step = self.along, length / 2.0
        deepest = dict.fromkeys(self.valleys, 0.0)
        start, last = along[0], along[-1] - length
        while True:
            low = max(0, bisect_left(along, start) - 1)
            high = min(len(along) - 1, bisect_right(along, start + 3.0 * step))
            self._deepen(deepest, low, high)
            start += step
            if start >= last:
                return deepest

    def _deepen(self, deepest: dict[int, float], low: int, high: int) -> None:
        """Take note of how deep valleys lie under the hull from one knot to another."""
        along, height = self.along, self.height
        inner = self.ridges[bisect_right(self.ridges, low) : bisect_left(self.ridges, high)]
        hull = hull_over(along, height, (low, *inner, high))
        a, z, slope, m, end = low, 0.0, 0.0, 0, low
        for n in self.valleys[bisect_right(self.valleys, low) : bisect_left(self.valleys, high)]:
            while end < n:
                m += 1
                a, end = hull[m - 1], hull[m]
                z = height[a]
                slope = (height[end] - z) / (along[end] - along[a])
            gap = z + slope * (along[n] - along[a]) - height[n]
            deepest[n] = max(deepest[n], gap)

    def _touched(self, length: float) -> list[_Touched]:
        """What a straightedge can rest on that is no mere piece: ridges and ends, each with its other ends there."""
        along, height, last = self.along, self.height, len(self.along) - 1
        found = []
        for n in (0, *self.ridges, last):
            t = along[n]
            before, after = t - length, t + length
            left = self._on(self._piece(before), before) if before >= along[0] else None
            right = self._on(self._piece(after), after) if after <= along[last] else None
            found.append((t, height[n], left, right))
        return found

    def _resting(self, n: int, touched: list[_Touched], length: float, above: float) -> Rest | None:
        """The largest gap over one valley under straightedges that rest on a ridge or an end of the profile."""
        t0, z0 = self.along[n], self.height[n]
        lefts = [(t0 - t, z - z0, other) for t, z, _, other in touched if t0 - length < t < t0]
        rights = [(t - t0, z - z0, other) for t, z, other, _ in touched if t0 < t < t0 + length]
        feet, most = None, above
        for u, low, _ in lefts:
            for v, high, _ in rights:
                if u + v > length:
                    break
                gap = (v * low + u * high) / (u + v)
                if gap > most:
                    feet, most = (u, v), gap
        for sides, is_left in ((lefts, True), (rights, False)):
            for u, z, other in sides:
                if other is not None:
                    gap = ((length - u) * z + u * (other - z0)) / length
                    if gap > most:
                        feet, most = ((u, length - u) if is_left else (length - u, u)), gap
        return None if feet is None else Rest(most, t0, t0 - feet[0], t0 + feet[1])

    def _slides(
        self, length: float, valleys: list[int]
    ) -> Iterator[tuple[tuple[float, float, float, float], tuple[int, int], float]]:
        """Windows over valleys whose ends can be moved on pieces that lean together: where they begin, and end."""
        first, last = self.along[valleys[0]] - length, self.along[valleys[-1]]
        for start, following in pairwise(self._starts(length)):
            if following <= first or start >= last:
                continue
            low, high = self._piece(start), self._piece(start + length)
            if self.slopes[high] - self.slopes[low] > FLAT:
                yield (
                    (start, start + length, self._on(low, start), self._on(high, start + length)),
                    (low, high),
                    following,
                )

    def _starts(self, length: float) -> list[float]:
        """Where windows begin that begin or end at a knot or an end of the profile, in order."""
        low, high = self.along[0], self.along[-1] - length
        begun = [t for t in self.along if low < t < high]
        ended = [t - length for t in self.along if low < t - length < high]
        return sorted({low, high, *begun, *ended})

    def _piece(self, at: float) -> int:
        """The piece that a place lies on; of two the one after it, also where rounding puts it a hair before."""
        return min(bisect_right(self.along, at + ONE_KNOT) - 1, len(self.slopes) - 1)

    def _on(self, piece: int, at: float) -> float:
        return self.height[piece] + self.slopes[piece] * (at - self.along[piece])

    def _under(
        self,
        first: float,
        second: float,
        low: float,
        high: float,
        ridges: list[int],
        valleys: list[int],
        above: float,
    ) -> Rest | None:
        """The largest gap under the upper hull of the ends (places, then heights) and the ridges between them."""
        along, height = self.along, self.height
        ts, zs = [first], [low]
        for t, z in (*((along[n], height[n]) for n in ridges), (second, high)):
            while len(ts) > 1 and (zs[-1] - zs[-2]) * (t - ts[-2]) <= (z - zs[-2]) * (ts[-1] - ts[-2]):
                ts.pop()
                zs.pop()
            ts.append(t)
            zs.append(z)
        best, most, m = None, above, 0
        for n in valleys:
            t = along[n]
            while ts[m + 1] < t:
                m += 1
            gap = zs[m] + (zs[m + 1] - zs[m]) * (t - ts[m]) / (ts[m + 1] - ts[m]) - height[n]
            if gap > most:
                best, most = Rest(gap, t, ts[m], ts[m + 1]), gap
        return best

    def _moving(
        self,
        ends: tuple[float, float, float, float],
        pieces: tuple[int, int],
        following: float,
        valleys: list[int],
        above: float,
    ) -> Rest | None:
        """The largest gap under a window that rests on both of its ends, which run along two pieces."""
        first, second, low, high = ends
        rise, fall = self.slopes[pieces[0]], self.slopes[pieces[1]]
        length, span, best, most = second - first, following - first, None, above
        begin = (low - high + rise * length) / (2.0 * (fall - rise))
        for n in valleys:
            inside = self.along[n] - first
            by = begin + inside / 2.0
            if -ONE_KNOT <= by <= span + ONE_KNOT and by < inside < by + length:
                by = min(max(by, 0.0), span)
                a, b = low + rise * by, high + fall * by
                gap = a + (b - a) * (inside - by) / length - self.height[n]
                if gap > most:
                    best, most = Rest(gap, self.along[n], first + by, second + by), gap
        return best
