"""The lines that a straightedge of one length is laid along on a bed, with their courses: told once, laid many times.

A bed is looked at again and again while its work list is made, every time at other heights. So the courses of a bed
of few readings are kept; of one of more they would take too much room, and are told anew each time.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property, lru_cache

from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.lines import Line, Pair, first_lines, lines_askew, lines_through_two, pairs_in_reach
from evenbed.engine.flatness.mesh import Course

FEW = 70  # readings of a bed whose courses are kept
MOST_SORTED = 100_000  # pairs of readings in reach of each other
KEPT = 3  # beds and lengths

Laid = tuple[Line, Course]


class Courses:
    """Lines over the mesh of one bed, for one length of straightedge; those that cross no bed are left out."""

    def __init__(self, surface: BedSurface, length: float) -> None:
        """`surface` with whatever heights: of many readings only lines through those that stand out may be told."""
        self.surface, self.length = surface, length
        self._through: dict[Pair, tuple[Laid, ...]] = {}
        self.is_small = surface.spots <= FEW

    @cached_property
    def _pairs(self) -> tuple[list[Pair], bool]:
        return pairs_in_reach(self.surface, self.length, MOST_SORTED)

    @property
    def pairs(self) -> Sequence[Pair]:
        """Readings in reach of each other."""
        return self._pairs[0]

    @property
    def is_reduced(self) -> bool:
        """True where they are so many that not all are told."""
        return self._pairs[1]

    @property
    def first(self) -> Iterable[Laid]:
        """Lines square to edges, past corners, and round points with few in reach."""
        return self._first if self.is_small else self.laid(first_lines(self.surface, self.pairs, self.length))

    @property
    def askew(self) -> Iterable[Laid]:
        """More lines across each edge."""
        return self.laid(lines_askew(self.surface, self.length))

    def through(self, pair: Pair) -> Iterable[Laid]:
        """The line through two readings."""
        if not self.is_small:
            return self.laid(lines_through_two(self.surface, (pair,), self.length))
        if pair not in self._through:
            self._through[pair] = tuple(self.laid(lines_through_two(self.surface, (pair,), self.length)))
        return self._through[pair]

    def laid(self, lines: Iterable[Line]) -> Iterator[Laid]:
        """Lines with their courses."""
        mesh = self.surface.mesh
        for line in lines:
            course = mesh.course_along(line.way, line.edge, line.low, line.high)
            if course is not None and course.cuts:
                yield line, course

    @cached_property
    def _first(self) -> tuple[Laid, ...]:
        return tuple(self.laid(first_lines(self.surface, self.pairs, self.length)))


def courses_over(surface: BedSurface, length: float) -> Courses:
    """Those of a bed and a length (mm), kept for beds of FEW readings, whatever their heights."""
    return _kept(surface.levelled, length) if surface.spots <= FEW else Courses(surface, length)


@lru_cache(maxsize=KEPT)
def _kept(levelled: BedSurface, length: float) -> Courses:
    return Courses(levelled, length)
