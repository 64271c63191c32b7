"""The way out over floor that is still open: from which sections, through what, how far."""

import heapq
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.places import Point
from evenbed.engine.filling.inside import Inside
from evenbed.engine.filling.sides import Side
from evenbed.engine.geometry import Ring

WALKABLE = 300.0  # mm of shared side that a person with a bucket passes; common practice, no source
LEAST_STEP = 1.0  # mm that a way through one section is longer than the way from its far side
A_SECTION = 1e9  # mm: what one more section counts as where the fewest sections are looked for


@dataclass(frozen=True)
class Gate:
    """Where a section is left on the way out: `walk` is from there on, `onward` the section beyond, None outside."""

    at: Point
    walk: float
    onward: int | None


@dataclass(frozen=True)
class Ways:
    """Pieces of floor by their number, the sides they share, the exits (piece and place), the mixer's piece.

    `mixer` is None where it stands outside.
    """

    rings: tuple[Ring, ...]
    sides: tuple[Side, ...]
    exits: tuple[tuple[int, Point], ...]
    mixer: int | None = None

    @cached_property
    def insides(self) -> tuple[Inside, ...]:
        """Each piece for walking in."""
        return tuple(Inside(ring) for ring in self.rings)

    @cached_property
    def doors(self) -> tuple[Side, ...]:
        """The sides that are walked through: wide ones; the widest of narrower ones where those join nothing up."""
        leader = list(range(len(self.rings)))
        wide = [side for side in self.sides if side.length >= WALKABLE]
        for side in wide:
            _join(leader, side)
        narrow = sorted((s for s in self.sides if s.length < WALKABLE), key=lambda s: (-s.length, s.a, s.b))
        return (*wide, *(side for side in narrow if _join(leader, side)))

    @property
    def is_narrow(self) -> bool:
        """Whether somebody must pass where it is not `WALKABLE` wide."""
        return any(side.length < WALKABLE for side in self.doors)

    @cached_property
    def doors_of(self) -> tuple[tuple[Side, ...], ...]:
        """The doors of each piece."""
        found: list[list[Side]] = [[] for _ in self.rings]
        for side in self.doors:
            found[side.a].append(side)
            found[side.b].append(side)
        return tuple(tuple(sides) for sides in found)

    def gates(
        self, open_floor: Collection[int], exits: Sequence[tuple[int, Point]], per_section: float = 0.0
    ) -> dict[int, Gate]:
        """The shortest way out from every open piece that has one to these exits, over open pieces alone.

        From the side of each to the side of the next; `per_section` mm are added for each section on the way.
        """
        queue = [(0.0, i, at, -1) for i, at in exits if i in open_floor]
        heapq.heapify(queue)
        found: dict[int, Gate] = {}
        while queue:
            walk, i, at, onward = heapq.heappop(queue)
            if i in found:
                continue
            found[i] = Gate(at, walk, None if onward < 0 else onward)
            for side in self.doors_of[i]:
                beyond = side.other(i)
                if beyond in open_floor and beyond not in found:
                    step = max(LEAST_STEP, self.insides[i].walk(side.middle, at)) + per_section
                    heapq.heappush(queue, (walk + step, beyond, side.middle, i))
        return found

    def walk_from(self, i: int, gate: Gate) -> float:
        """The walk from the middle of a piece through its gate and out, mm."""
        inside = self.insides[i]
        return gate.walk + inside.walk(inside.middle, gate.at)

    def reached(self, open_floor: Collection[int], start: Iterable[int]) -> set[int]:
        """Open pieces that can be walked to from these."""
        found = {i for i in start if i in open_floor}
        edge = list(found)
        while edge:
            beyond = {side.other(i) for i in [edge.pop()] for side in self.doors_of[i]}
            new = {i for i in beyond if i in open_floor} - found
            found |= new
            edge += new
        return found


def _join(leader: list[int], side: Side) -> bool:
    """Make the pieces beside a side one group; False where they were."""
    a, b = _leader_of(leader, side.a), _leader_of(leader, side.b)
    leader[max(a, b)] = min(a, b)
    return a != b


def _leader_of(leader: list[int], i: int) -> int:
    while leader[i] != i:
        leader[i] = leader[leader[i]]
        i = leader[i]
    return i
