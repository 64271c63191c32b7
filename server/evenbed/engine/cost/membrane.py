"""Cleavage membrane from the roll: strips side by side over the room, each as long as the room is there."""

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from evenbed.engine.document.supplies import Membrane
from evenbed.engine.frame import frame_at, way_of
from evenbed.engine.geometry import Ring, edges_of
from evenbed.engine.region import Interval, Region, split_by_line

MOST_STRIPS = 2000  # side by side in one room; a hall of two kilometres has fewer
MOST_CUTS = 200_000  # strips times corners of the room: more would keep people waiting for seconds
EVEN = 1e-9  # of a strip: rounding that calls for no further one


@dataclass(frozen=True)
class Strips:
    """Strips of membrane laid along `way` (degrees): how many pieces are cut, and their length in all, mm."""

    way: float
    pieces: int
    length: float


def best_strips(regions: Sequence[Region], vertices: Ring, membrane: Membrane) -> Strips:
    """The shortest of four ways to lay a room out: along its longest wall or across it, begun at either side.

    A strip is as long as what it covers, and turns up at both ends; where a cutout or a jog parts what it covers it
    is cut into pieces. The first and the last turn up along their sides too. Joins end to end are the roll's matter.
    """
    longest = max(edges_of(vertices), key=lambda wall: math.dist(*wall))
    way = way_of(*longest)
    laid = [strips for turned in (way, (way + 90.0) % 180.0) for strips in _strips_along(regions, turned, membrane)]
    return min(laid, key=lambda strips: round(strips.length, 6))


def roll_yield(membrane: Membrane) -> float:
    """Area that one roll gives, m²: it laps what it is joined to at its end."""
    return membrane.roll_width * (membrane.roll_length - membrane.lap) / 1e6


def count_across(extent: float, membrane: Membrane) -> int:
    """Strips side by side that cover `extent` (mm, > 0) and turn up at both sides."""
    left = extent + 2.0 * membrane.turned_up - membrane.roll_width
    return 1 + max(0, math.ceil(left / (membrane.roll_width - membrane.lap) - EVEN))


def _strips_along(regions: Sequence[Region], way: float, membrane: Membrane) -> Iterator[Strips]:
    """Strips along `way`, begun at the one side and at the other."""
    frame = frame_at(way)
    turned = [frame.turned_region(region) for region in regions]
    low, high = min(r.box[1] for r in turned), max(r.box[3] for r in turned)
    pitch, count = membrane.roll_width - membrane.lap, count_across(high - low, membrane)
    spare = (count - 1) * pitch + membrane.roll_width - (high - low) - 2.0 * membrane.turned_up
    for first in (low - membrane.turned_up, low - membrane.turned_up - spare):
        starts = [first + n * pitch for n in range(count)]
        pieces = _pieces(turned, [(start, start + membrane.roll_width) for start in starts])
        lengths = [end - start + 2.0 * membrane.turned_up for start, end in pieces]
        yield Strips(way, len(lengths), math.fsum(lengths))


def _pieces(regions: Sequence[Region], bands: Sequence[Interval]) -> Iterator[Interval]:
    """What each band covers, as intervals along it; bands may overlap."""
    lines = sorted({line for band in bands for line in band})
    cells = _cells(regions, lines)
    for low, high in bands:
        within = cells[bisect_left(lines, low) + 1 : bisect_left(lines, high) + 1]
        yield from _joined((r.box[0], r.box[2]) for cell in within for r in cell)


def _cells(regions: Sequence[Region], lines: Sequence[float]) -> list[tuple[Region, ...]]:
    """What lies below the first line, between each two and above the last."""
    if not lines:
        return [tuple(regions)]
    middle = len(lines) // 2
    above, below = split_by_line(regions, (0.0, lines[middle]), (1.0, 0.0))
    return _cells(below, lines[:middle]) + _cells(above, lines[middle + 1 :])


def _joined(intervals: Iterable[Interval]) -> list[Interval]:
    """Intervals that overlap or touch made one, in order."""
    joined: list[Interval] = []
    for low, high in sorted(intervals):
        if joined and low <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(high, joined[-1][1]))
        else:
            joined.append((low, high))
    return joined
