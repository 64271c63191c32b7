"""Which strip every rail is made of: of those on hand the thickest that the bed covers, in the fewest moves."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from evenbed.engine.document.rails import RailDesign
from evenbed.engine.rails.breaks import Break, runs_of
from evenbed.engine.rails.moves import LEAST_MOVE, Run, moves_along
from evenbed.engine.rails.shapes import LaidStrip
from evenbed.engine.rails.stations import Place
from evenbed.engine.region import Interval


@dataclass(frozen=True)
class Kind:
    """Strips of one make; `on_hand` is their place in the list of those on hand, None where none were told."""

    on_hand: int | None
    thickness: float
    width: float
    length: float
    count: int | None

    def can_move(self, overlap: float) -> bool:
        """Whether enough of it is left to move on; if not, it serves only what is no longer than itself."""
        return self.length - overlap >= LEAST_MOVE


@dataclass(frozen=True)
class Course:
    """A rail's line before a strip is chosen: its length, its stations' places and the breaks of the top along it."""

    size: float
    places: tuple[Place, ...]
    breaks: tuple[Break, ...]

    @property
    def bed(self) -> float:
        """The least thickness of the bed at its stations, mm."""
        return min(place.bed for place in self.places)


@dataclass(frozen=True)
class Choice:
    """The strips that a rail is made of, all equally thick and wide: one kind for each of its runs."""

    runs: tuple[Run, ...]
    kinds: tuple[Kind, ...]
    moves: int

    @property
    def strip(self) -> LaidStrip:
        """The strip as it is told, the longest where lengths differ."""
        longest = max(self.kinds, key=lambda kind: kind.length)
        return LaidStrip(longest.thickness, longest.width, longest.length)

    @property
    def single(self) -> frozenset[int]:
        """Those of its strips of which there is one alone, by their place in the list of those on hand."""
        return frozenset(k.on_hand for k in self.kinds if k.on_hand is not None and k.count == 1)


def kinds_of(design: RailDesign) -> tuple[Kind, ...]:
    """The strips on hand; where none were told, as many of the usual strip as it takes."""
    usual = design.strip
    if not design.strips:
        return (Kind(None, usual.thickness, usual.width, usual.length, None),)
    return tuple(
        Kind(n, each.thickness, usual.width if each.width is None else each.width, each.length, each.count)
        for n, each in enumerate(design.strips)
    )


def with_widest_strip(design: RailDesign) -> RailDesign:
    """The design with the usual strip as wide as the widest on hand, for keeping clear of walls and fixtures."""
    return replace(design, strip=replace(design.strip, width=max(kind.width for kind in kinds_of(design))))


def choices_for(
    courses: Sequence[Course],
    kinds: Sequence[Kind],
    overlap: float,
    neighbours: Sequence[Iterable[int]],
) -> list[Choice]:
    """The strips of every rail, in the rails' order; `neighbours` are those that a straightedge reaches from each.

    For each the thickest strip that is not above the bed at any station, which takes the least ramp; where none fits,
    the thinnest. Among lengths the one with the fewest moves, then the shortest. While a section is filled both rails
    beside it have a strip, one each, moved back as the work goes on: a strip that is alone of its kind is not chosen
    for two neighbours where another one does as well. One of the kinds at least must be able to move.
    """
    chosen: list[Choice] = []
    for n, course in enumerate(courses):
        taken = frozenset(i for m in neighbours[n] if m < n for i in chosen[m].single)
        options = (_choice_of(course, group, overlap, taken) for group in _groups(kinds))
        chosen.append(min((c for c in options if c), key=lambda c: _rank(c, course, taken)))
    return chosen


def _rank(choice: Choice, course: Course, taken: frozenset[int]) -> tuple[bool, bool, float, int, float]:
    """What is better comes first: it fits, it is on hand, its thickness, its moves, its length."""
    thickness = choice.strip.thickness
    fits = all(place.shim_under(thickness) >= 0.0 for place in course.places)
    lengths = math.fsum(kind.length for kind in choice.kinds)
    return not fits, bool(choice.single & taken), -thickness if fits else thickness, choice.moves, lengths


def _groups(kinds: Sequence[Kind]) -> Iterable[list[Kind]]:
    """Kinds that may follow each other in one rail: equally thick and wide."""
    groups: dict[tuple[float, float], list[Kind]] = {}
    for kind in kinds:
        groups.setdefault((kind.thickness, kind.width), []).append(kind)
    return groups.values()


def _choice_of(course: Course, group: Sequence[Kind], overlap: float, taken: frozenset[int]) -> Choice | None:
    """The best strip of a group for each run; None where one cannot be laid with them."""
    stretches = runs_of(course.size, course.breaks, max(kind.length for kind in group))
    rows = [list(_serving(stretch, group, overlap, taken)) for stretch in stretches]
    if not all(rows):
        return None
    best = [min(row)[-1] for row in rows]
    kinds = tuple(group[n] for n in best)
    runs = tuple(Run(*stretch, k.length, k.on_hand) for stretch, k in zip(stretches, kinds, strict=True))
    return Choice(runs, kinds, sum(min(row)[1] for row in rows))


def _serving(
    stretch: Interval, group: Sequence[Kind], overlap: float, taken: frozenset[int]
) -> Iterator[tuple[bool, int, float, int]]:
    """(not on hand any more, moves, length, place in the group) of each kind that a stretch can be laid with."""
    size = stretch[1] - stretch[0]
    for n, kind in enumerate(group):
        if size <= kind.length or kind.can_move(overlap):
            yield kind.on_hand in taken and kind.count == 1, moves_along(size, kind.length, overlap), kind.length, n
