"""The top that falls to a drain: the heights of its walls and of the drain's edge, what governs them, and why.

The drain's own ring, or the width of a linear one, is floor like any other: level, with mortar under it that is
counted, so that the facets cover the whole room.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.bed import Mortar
from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.room import Document, Fixture
from evenbed.engine.document.tops import DrainTop
from evenbed.engine.ground import Ground
from evenbed.engine.problems import BadDocumentError, problem_at
from evenbed.engine.sources import Explanation, explanation_of
from evenbed.engine.top.designed import STEEPEST, DesignedTop, minimum_thickness_of
from evenbed.engine.top.drain_heights import DrainHeights, Settled
from evenbed.engine.top.facets import BedTop
from evenbed.engine.top.falls import Falls
from evenbed.engine.top.linear_drain import falls_to_line, uncovered
from evenbed.engine.top.round_drain import falls_to_ring
from evenbed.engine.top.savings import requirements_from

LEAST_FALL, MOST_FALL = 0.02, 1 / 24
"""1/4 in per foot, which the code rounds to 2 percent, and 1/2 in per foot: shower floors, IRC P2709.1, as quoted."""
SHORT = 100.0  # mm of floor along a linear drain's line that it may leave out unsaid; common practice, no source


def to_drain(document: Document, top: DrainTop, ground: Ground) -> DesignedTop:
    """The top that falls to a drain.

    Raises BadDocumentError for a drain that is none, that is out of reach, or whose falls cannot be as asked.
    """
    return _Design(document, top, ground).designed


@dataclass(frozen=True)
class _Design:
    document: Document
    top: DrainTop
    ground: Ground

    @cached_property
    def number(self) -> int:
        """Which fixture the drain is."""
        found = next((n for n, f in enumerate(self.document.fixtures) if f.id == self.top.drain), None)
        if found is None:
            raise BadDocumentError([problem_at("bed.top.drain", "unknown_id", id=self.top.drain[:40])])
        if self.document.fixtures[found].kind != "drain":
            raise BadDocumentError([problem_at("bed.top.drain", "not_a_drain", id=self.top.drain[:40])])
        return found

    @property
    def drain(self) -> Fixture:
        """The drain."""
        return self.document.fixtures[self.number]

    @cached_property
    def falls(self) -> Falls:
        """Its falls without their heights."""
        outer, path = self.ground.figure.outer, f"fixtures[{self.number}]"
        if self.drain.to is None:
            return falls_to_ring(outer, self.drain, path, self.top.fall)
        if self.top.perimeter is not None:
            raise BadDocumentError([problem_at("bed.top.perimeter", "perimeter_not_level")])
        return falls_to_line(outer, self.drain, self.drain.to, path)

    @cached_property
    def settled(self) -> Settled:
        """Its heights."""
        covering = self.document.bed.covering
        given = self.drain.height
        edge = None if given is None else given - covering.bond_thickness - covering.tile_thickness
        minimum = minimum_thickness_of(self.document.bed)
        return DrainHeights(self.falls, self.ground, self.top, minimum, edge).settled

    @cached_property
    def bed(self) -> BedTop:
        """The top itself."""
        bed = self.falls.under(self.settled.drain, self.settled.wall, self.top.fall)
        if bed.steepest > STEEPEST:
            path = "bed.top.fall" if self.top.perimeter is None else "bed.top.perimeter"
            values = {"slope": round(bed.steepest, 3), "most": STEEPEST}
            raise BadDocumentError([problem_at(path, "top_too_steep", **values)])
        return bed

    @property
    def designed(self) -> DesignedTop:
        """Everything that it comes to."""
        mortar = Mortar(self.ground, self.bed)
        reliefs = self.settled.reliefs(f"fixtures[{self.number}].height", self.drain)
        governing = requirements_from(mortar, reliefs)
        return DesignedTop(mortar, governing, self.explanation, tuple(self.cautions))

    @property
    def explanation(self) -> Explanation:
        """Why it stands where it does."""
        drain, wall, fall = self.settled.drain, self.settled.wall, self.top.fall
        if self.drain.to is not None:
            return explanation_of(
                "top_to_line", drain=drain, fall=fall, radius=self.drain.radius, uncovered=self.short
            )
        (x, y), longest = self.falls.at, self.falls.longest
        code = "top_to_drain" if self.top.perimeter is None else "top_from_walls"
        values = {"wall": wall, "drain": drain, "fall": fall, "longest": longest, "x": x, "y": y}
        return explanation_of(code, **values, steepest=self.bed.steepest)

    @property
    def short(self) -> float:
        """How much of the floor along a linear drain's line the drain leaves out, mm."""
        end = self.drain.to
        return 0.0 if end is None else uncovered(self.ground.figure.outer, self.drain.at, end)

    @property
    def cautions(self) -> Iterator[Caution]:
        """Falls beyond the published ones for a shower, and a drain shorter than the floor beside it."""
        if self.top.fall < LEAST_FALL:
            yield caution_at("bed.top", "shallow_fall", fall=self.top.fall, least=LEAST_FALL)
        if self.bed.steepest > MOST_FALL * (1 + 1e-9):
            yield caution_at("bed.top", "steep_fall", fall=self.bed.steepest, most=MOST_FALL)
        if self.short > SHORT:
            yield caution_at("bed.top", "drain_short", short=self.short)
