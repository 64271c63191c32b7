"""Hand areas: what no straightedge on rails serves, cell by cell made places that a setter can be sent to.

Cells that follow each other along the rails, between the same rails or walls, are one place with one ring. Cells
cover what is left exactly and do not overlap, and neither do places.
Everything here is in the rails' frame: u along, v across, mm.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Ring
from evenbed.engine.rails.cover import Cell
from evenbed.engine.rails.lines import without_straight_corners

NECK = 1.0  # mm: cells that meet along less than this are two places
WIDENS = 0.5  # of the wider of two cells, likewise
SAME = 1e-6  # mm: corners nearer than this are one
DUST = 2e-7  # share of the floor that all places together may take which are too small to be named
SMALL = 100.0  # mm²: such a place is dust


@dataclass(frozen=True)
class Place:
    """Cells in a row along the rails."""

    cells: tuple[Cell, ...]

    @property
    def start(self) -> float:
        """Where it begins."""
        return self.cells[0].start

    @property
    def end(self) -> float:
        """Where it ends."""
        return self.cells[-1].end

    @cached_property
    def low(self) -> float:
        """Its least v."""
        return min(min(cell.low[:2]) for cell in self.cells)

    @cached_property
    def high(self) -> float:
        """Its largest v."""
        return max(max(cell.high[:2]) for cell in self.cells)

    @cached_property
    def area(self) -> float:
        """Its area, mm²."""
        return math.fsum(cell.area for cell in self.cells)

    @cached_property
    def corners(self) -> Ring:
        """Its cells' corners, anticlockwise, straight ones too."""
        lower = [p for c in self.cells for p in ((c.start, c.low.start), (c.end, c.low.end))]
        upper = [p for c in self.cells for p in ((c.start, c.high.start), (c.end, c.high.end))]
        return without_repeats([*lower, *upper[::-1]])

    @cached_property
    def ring(self) -> Ring:
        """Its corners, anticlockwise."""
        return without_straight_corners(self.corners)

    @property
    def middle(self) -> Point:
        """A place inside it, in its largest cell."""
        cell = max(self.cells, key=lambda c: c.area)
        sides = (*cell.low[:2], *cell.high[:2])
        return ((cell.start + cell.end) / 2.0, math.fsum(sides) / 4.0)


def places_of(cells: Sequence[Cell], floor_area: float) -> list[Place]:
    """The places that cells make, in order along the rails and then across; dust is left out.

    Their order is by place, to a thousandth of a mm, so that no rounding of their areas changes it.
    """
    places = [Place(tuple(run)) for run in _runs(cells)]
    kept = _without_dust(places, floor_area)
    return sorted(kept, key=lambda p: (round(p.start, 3), round(p.low, 3)))


def _runs(cells: Sequence[Cell]) -> Iterator[list[Cell]]:
    """Cells in rows: each goes on in the one that it shares most of its end with, if that agrees."""
    begins: dict[float, list[int]] = defaultdict(list)
    for i, cell in enumerate(cells):
        begins[cell.start].append(i)
    onward = {i: _most_shared(cell, cells, begins[cell.end]) for i, cell in enumerate(cells)}
    best: dict[int, int] = {}
    for i, j in onward.items():
        if j is not None and (j not in best or shared(cells[i], cells[j]) > shared(cells[best[j]], cells[j])):
            best[j] = i
    following = {i: j for j, i in best.items()}
    for i in range(len(cells)):
        if i not in best:
            yield [cells[n] for n in _row(i, following)]


def _row(first: int, following: dict[int, int]) -> Iterator[int]:
    at: int | None = first
    while at is not None:
        yield at
        at = following.get(at)


def _most_shared(cell: Cell, cells: Sequence[Cell], others: Iterable[int]) -> int | None:
    alike = [
        i for i in others if _is_alike(cell, cells[i]) and shared(cell, cells[i]) > _least_shared(cell, cells[i])
    ]
    return max(alike, key=lambda i: shared(cell, cells[i]), default=None)


def _least_shared(one: Cell, other: Cell) -> float:
    """Where less than this is shared, the floor widens or narrows so much that another place begins."""
    return max(NECK, WIDENS * (one.high.end - one.low.end), WIDENS * (other.high.start - other.low.start))


def _is_alike(one: Cell, other: Cell) -> bool:
    """Between the same rails or walls, with a post or without one."""
    return (one.below, one.above, one.is_posted) == (other.below, other.above, other.is_posted)


def shared(one: Cell, other: Cell) -> float:
    """How much of its end one cell shares with the other's beginning."""
    return min(one.high.end, other.high.start) - max(one.low.end, other.low.start)


def _without_dust(places: list[Place], floor_area: float) -> list[Place]:
    """The places without the smallest, as long as these are nothing to speak of all together."""
    left = DUST * floor_area
    kept = []
    for place in sorted(places, key=lambda p: p.area):
        if place.area <= min(left, SMALL):
            left -= place.area
        else:
            kept.append(place)
    return kept


def without_repeats(points: Sequence[Point]) -> Ring:
    """The points without those that stand where the one before does."""
    kept: list[Point] = []
    for point in points:
        if not kept or math.dist(point, kept[-1]) > SAME:
            kept.append(point)
    while len(kept) > 1 and math.dist(kept[0], kept[-1]) <= SAME:
        kept.pop()
    return tuple(kept)
