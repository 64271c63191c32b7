"""How far it is from place to place over the floor."""

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Box, box_of, boxes_meet, crossing_of, edges_of
from evenbed.engine.outline import Figure

THROUGH_A_WALL = 3.0  # times as far: the way round a wall is longer, and how much is not worked out
NEIGHBOURS = 10  # only so many nearest places are tried as the next


@dataclass(frozen=True)
class Ways:
    """The straight ways between places, by index; those through a wall count for longer."""

    figure: Figure
    places: Sequence[Point]
    _known: dict[tuple[int, int], float] = field(default_factory=dict)

    def far(self, i: int, j: int) -> float:
        """How far it is between two places, mm."""
        key = (i, j) if i < j else (j, i)
        if key not in self._known:
            self._known[key] = self._measured(*key)
        return self._known[key]

    def straight(self, i: int, j: int) -> float:
        """As the crow flies, mm: never more than `far`."""
        return math.dist(self.places[i], self.places[j])

    def nearest(self, i: int, others: Collection[int]) -> int:
        """Which of the others is nearest to place i."""
        best, least = -1, math.inf
        for straight, n in sorted((self.straight(i, n), n) for n in others):
            if straight >= least:
                break
            far = self.far(i, n)
            if far < least:
                best, least = n, far
        return best

    @cached_property
    def neighbours(self) -> list[list[int]]:
        """For each place the nearest ones as the crow flies."""
        every = range(len(self.places))
        ranked = (sorted((self.straight(i, n), n) for n in every if n != i) for i in every)
        return [[n for _, n in near[:NEIGHBOURS]] for near in ranked]

    @cached_property
    def _walls(self) -> list[tuple[Box, tuple[Point, Point]]]:
        return [(box_of(edge), edge) for ring in self.figure.rings for edge in edges_of(ring)]

    def _measured(self, i: int, j: int) -> float:
        p, q = self.places[i], self.places[j]
        box = box_of((p, q))
        near = (wall for wall_box, wall in self._walls if boxes_meet(box, wall_box))
        is_through = any(crossing_of(p, q, *wall) is not None for wall in near)
        return math.dist(p, q) * (THROUGH_A_WALL if is_through else 1.0)
