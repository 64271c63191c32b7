"""Joints that keep panels within the spacing: straight through a panel, even, moved to whole tiles."""

import math
from collections.abc import Iterable, Iterator, Sequence

from evenbed.engine.joints.lines import inner_chords
from evenbed.engine.joints.rules import Rules, Stretch, axis_of, line_at
from evenbed.engine.region import Region, split_by_line

ROUNDING = 1e-9  # of a panel
IN_LINE = 0.25  # of the spacing: how far from even a joint may stand to run on in line with another


def cut_to_spacing(
    region: Region, rules: Rules, others: Sequence[Stretch] = ()
) -> tuple[list[Region], list[Stretch]]:
    """The region in panels no longer than the spacing either way, by the fewest lines, in line with other joints."""
    low_u, low_v, high_u, high_v = region.box
    places = [(axis, _lines_of(others, axis)) for axis in (0, 1)]
    ends = ((low_u, high_u), (low_v, high_v))
    lines = [line_at(axis, at) for axis, used in places for at in _places(axis, ends[axis], rules, used)]
    panels = [region]
    for line in lines:
        left, right = split_by_line(panels, line.point, line.way)
        panels = [*left, *right]
    return panels, [Stretch(line, chord, "spacing") for line in lines for chord in inner_chords(region, line)]


def _lines_of(others: Iterable[Stretch], axis: int) -> list[float]:
    """Where other joints keep the coordinate along an axis."""
    return sorted({one.line.point[axis] for one in others if axis_of(one.line) == axis})


def count_between(low: float, high: float, most: float) -> int:
    """How many panels a length takes."""
    return max(1, math.ceil((high - low) / most - ROUNDING))


def _places(axis: int, ends: tuple[float, float], rules: Rules, used: Sequence[float]) -> Iterator[float]:
    """Places along an axis that divide a length evenly, each moved where the spacing allows.

    In line with another joint where one is not far off, else to a whole tile.
    """
    before, high = ends
    for left in range(count_between(before, high, rules.most) - 1, 0, -1):
        at = before + (high - before) / (left + 1)
        least = max(before + min(rules.near, at - before), high - left * rules.most)
        greatest = min(high - left * min(rules.near, high - at), before + rules.most)
        in_line = [one for one in used if abs(one - at) <= IN_LINE * rules.most]
        choices = _within(least, greatest, in_line) or _within(least, greatest, rules.on_module(axis, at))
        before = _nearest(at, choices)
        yield before


def _within(least: float, greatest: float, places: Iterable[float]) -> list[float]:
    return [one for one in places if least <= one <= greatest]


def _nearest(at: float, places: Iterable[float]) -> float:
    return min(places, key=lambda one: abs(one - at), default=at)
