"""Cutting a floor along a stretch of a straight line, and no further."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.region import ON_LINE, Interval, Region, chords_at, split_by_line
from evenbed.engine.touching import regions_joined


@dataclass(frozen=True)
class Line:
    """A line through `point`; `way` has length 1, so that distances along it are mm."""

    point: Point
    way: Point

    def at(self, along: float) -> Point:
        """The place so far along."""
        return self.point[0] + along * self.way[0], self.point[1] + along * self.way[1]

    def along(self, at: Point) -> float:
        """How far along a place lies."""
        return (at[0] - self.point[0]) * self.way[0] + (at[1] - self.point[1]) * self.way[1]

    def off(self, at: Point) -> float:
        """How far left of the line a place lies."""
        return (at[1] - self.point[1]) * self.way[0] - (at[0] - self.point[0]) * self.way[1]


def inner_chords(region: Region, line: Line) -> tuple[Interval, ...]:
    """Where the line has the region on both its sides: a stretch along a wall is none."""
    back = (-line.way[0], -line.way[1])
    right = chords_at(region, line.point, line.way)
    left = [(-end, -start) for start, end in reversed(chords_at(region, line.point, back))]
    return tuple(_common(right, left))


def spans(region: Region, line: Line) -> tuple[Interval, ...]:
    """The inner chords, those that only a hole parts made one."""
    return inner_chords(Region(region.outer), line) if region.holes else inner_chords(region, line)


def within(chords: Iterable[Interval], stretch: Interval) -> list[Interval]:
    """What of the chords lies in a stretch of their line."""
    return list(_common(chords, [stretch]))


def _common(some: Iterable[Interval], others: Iterable[Interval]) -> Iterator[Interval]:
    rest = list(others)
    for start, end in some:
        for low, high in rest:
            if min(end, high) - max(start, low) > 10.0 * ON_LINE:
                yield (max(start, low), min(end, high))


def cut_along(region: Region, line: Line, stretch: Interval) -> tuple[Region, ...]:
    """The region cut along one stretch of a line; whole where the stretch does not part it."""
    left, right = split_by_line([region], line.point, line.way)
    parts = (*left, *right)
    if not left or not right or _covers(stretch, inner_chords(region, line)):
        return parts

    def is_cut(a: Point, b: Point) -> bool:
        middle = (line.along(a) + line.along(b)) / 2.0
        return stretch[0] < middle < stretch[1] and max(abs(line.off(a)), abs(line.off(b))) <= 10.0 * ON_LINE

    return regions_joined(parts, is_cut)


def _covers(stretch: Interval, chords: Sequence[Interval]) -> bool:
    return all(stretch[0] <= start + ON_LINE and end - ON_LINE <= stretch[1] for start, end in chords)
