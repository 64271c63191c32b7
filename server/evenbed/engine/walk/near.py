"""Places by squares of the floor, so that near ones are found without looking at all of them."""

import math
from collections import defaultdict
from collections.abc import Iterator

from evenbed.engine.document.places import Point


class Near:
    """Places that were put in, found again by nearness up to `reach` mm."""

    def __init__(self, reach: float) -> None:
        self._reach = reach
        self._squares: dict[tuple[int, int], list[Point]] = defaultdict(list)

    def put(self, at: Point) -> None:
        """Remember a place."""
        self._squares[self._square(at)].append(at)

    def within(self, at: Point, far: float) -> list[Point]:
        """The places within `far` mm, which may be `reach` at most, the nearest first."""
        found = sorted((math.dist(p, at), p) for p in self._around(at))
        return [p for distance, p in found if distance <= far]

    def distance_at_last(self, at: Point) -> float:
        """Distance to the nearest of all places put in, infinite where there is none."""
        return min((math.dist(p, at) for square in self._squares.values() for p in square), default=math.inf)

    def distance(self, at: Point) -> float:
        """Distance to the nearest place put in, infinite where none is within `reach`."""
        return min((d for p in self._around(at) if (d := math.dist(p, at)) <= self._reach), default=math.inf)

    def _square(self, at: Point) -> tuple[int, int]:
        return math.floor(at[0] / self._reach), math.floor(at[1] / self._reach)

    def _around(self, at: Point) -> Iterator[Point]:
        i, j = self._square(at)
        for di in (-1, 0, 1):
            for dj in (-1, 0, 1):
                yield from self._squares.get((i + di, j + dj), ())
