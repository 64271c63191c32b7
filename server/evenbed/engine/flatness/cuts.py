"""A profile cut to a part of it: told once by places alone, so that it serves any heights over them."""

from bisect import bisect_left, bisect_right
from typing import NamedTuple

ONE_KNOT = 1e-7  # mm along a line: nearer knots are one
Knots = tuple[list[float], list[float]]
_Between = tuple[int, float]


class Cut(NamedTuple):
    """Part of a profile: its places, which knots of the whole it has, and between which its ends were cut."""

    along: list[float]
    first: int
    end: int
    cut_before: _Between | None
    cut_after: _Between | None

    def over(self, height: list[float]) -> list[float]:
        """Its heights, from those of the whole profile."""
        part = height[self.first : self.end]
        if self.cut_before is not None:
            part = [_between(height, *self.cut_before), *part]
        if self.cut_after is not None:
            part.append(_between(height, *self.cut_after))
        return part


def cut_at(along: list[float], low: float, high: float) -> Cut | None:
    """What of a profile lies from one distance to another; None where less than ONE_KNOT is left."""
    if not along or min(high, along[-1]) - max(low, along[0]) <= ONE_KNOT:
        return None
    first, end, before, after = 0, len(along), None, None
    part = along
    if low > along[0]:
        first = bisect_right(along, low + ONE_KNOT)
        before = _place(along, first - 1 if along[first - 1] <= low else first - 2, low)
        part = [low, *along[first:]]
    if high < along[-1]:
        end = max(first, bisect_left(along, high - ONE_KNOT))
        after = _place(along, bisect_left(along, high) - 1, high)
        part = [*part[: len(part) - (len(along) - end)], high]
    return Cut(part, first, end, before, after)


def cut_to(along: list[float], height: list[float], low: float, high: float) -> Knots | None:
    """The part of a profile from one distance to another; None where less than ONE_KNOT is left."""
    cut = cut_at(along, low, high)
    return None if cut is None else (cut.along, cut.over(height))


def _place(along: list[float], n: int, at: float) -> _Between:
    """On which piece a place lies, at which share of it."""
    n = min(max(n, 0), len(along) - 2)
    return n, (at - along[n]) / (along[n + 1] - along[n])


def _between(height: list[float], n: int, share: float) -> float:
    return height[n] + share * (height[n + 1] - height[n])
