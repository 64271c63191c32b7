"""What the lay-out of joints keeps to, and the stretches of lines it is made of. All in the joints' frame, mm."""

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.joints.lines import Line
from evenbed.engine.region import Interval

ALONG: Point = (1.0, 0.0)
ACROSS: Point = (0.0, 1.0)
ON_MODULE = 1e-6  # mm: nearer than this a joint lies on the module
TOUCHING = 1e-6  # mm between two stretches of one line that are one
MEETING = 1.0  # mm between a joint and a corner that it meets


@dataclass(frozen=True)
class Rules:
    """The most between joints, the tile they are moved to and never come nearer together than.

    `module` is the tile along and across, 0 where it has no size (dust has none); whole tiles count from `origin`.
    """

    most: float
    near: float
    module: Point
    origin: Point

    def on_module(self, axis: int, value: float) -> tuple[float, float]:
        """The lines of whole tiles on both sides of a place on an axis (0 along, 1 across); itself without tile."""
        size, origin = self.module[axis], self.origin[axis]
        if size <= ON_MODULE:
            return value, value
        count = math.floor((value - origin) / size)
        return origin + count * size, origin + (count + 1) * size

    def off_module(self, line: Line) -> float | None:
        """How far a line lies from the nearest line of whole tiles; None where it slants."""
        axis = axis_of(line)
        if axis is None:
            return None
        value = line.point[axis]
        off = min(abs(value - one) for one in self.on_module(axis, value))
        return 0.0 if off <= ON_MODULE else off


def line_at(axis: int, value: float) -> Line:
    """The line of all places whose coordinate along an axis (0 along, 1 across) is this one."""
    return Line((value, 0.0), ACROSS) if axis == 0 else Line((0.0, value), ALONG)


def axis_of(line: Line) -> int | None:
    """The axis whose coordinate a line keeps, None where it slants."""
    return {ACROSS: 0, ALONG: 1}.get(line.way)


@dataclass(frozen=True)
class Stretch:
    """A joint on a stretch of a line, and what it is there for."""

    line: Line
    reach: Interval
    why: str

    @property
    def kind(self) -> str:
        """`slab` or `field`."""
        return "slab" if self.why == "slab" else "field"

    def meets(self, at: Point) -> bool:
        """True for a place on the joint or at its end."""
        low, high = self.reach
        return abs(self.line.off(at)) <= MEETING and low - MEETING <= self.line.along(at) <= high + MEETING


def merged(stretches: Iterable[Stretch]) -> Iterator[Stretch]:
    """Stretches of one line for one reason that touch made one, in the order in which lines came."""
    lines: dict[tuple[Line, str], list[Interval]] = defaultdict(list)
    for one in stretches:
        lines[one.line, one.why].append(one.reach)
    for (line, why), reaches in lines.items():
        yield from (Stretch(line, reach, why) for reach in _joined(reaches))


def _joined(reaches: list[Interval]) -> list[Interval]:
    joined: list[Interval] = []
    for start, end in sorted(reaches):
        if joined and start - joined[-1][1] <= TOUCHING:
            joined[-1] = (joined[-1][0], max(end, joined[-1][1]))
        else:
            joined.append((start, end))
    return joined
