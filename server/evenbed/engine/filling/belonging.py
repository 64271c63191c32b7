"""Which section an entry belongs to: sections are numbered anew when rails, walls or the mixer move, places stay."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.filling import MixedBatch, Placement
from evenbed.engine.document.places import Point
from evenbed.engine.filling.shapes import Section
from evenbed.engine.geometry import distance_to_ring, is_inside

AT_A_BORDER = 50.0  # mm beside a section within which a place still counts as in it: walls are corrected by so much
OTHER_SHAPE = 50.0  # mm between an entry's place and its section's own: beyond it was made for another shape


@dataclass(frozen=True)
class Belonging:
    """The sections of a room as they are now, asked which of them an entry is for."""

    sections: Sequence[Section]

    @cached_property
    def _numbers(self) -> dict[str, int]:
        return {section.id: n for n, section in enumerate(self.sections)}

    def number(self, entry: Placement | MixedBatch) -> int | None:
        """The section's index: of the one that holds the entry's place; without a place by its id; None for none."""
        if entry.at is not None:
            return self._holding(entry.at)
        return None if entry.section is None else self._numbers.get(entry.section)

    def _holding(self, at: Point) -> int | None:
        inside = (n for n, section in enumerate(self.sections) if is_inside(section.polygon, *at))
        found = next(inside, None)
        return self._beside(at) if found is None else found

    def _beside(self, at: Point) -> int | None:
        distances = ((distance_to_ring(section.polygon, at), n) for n, section in enumerate(self.sections))
        nearest, n = min(distances, default=(math.inf, -1))
        return n if nearest <= AT_A_BORDER else None

    def changed(self, placements: Sequence[Placement]) -> frozenset[int]:
        """Sections that hold a placement made for another shape: its place is not where theirs is now."""
        pairs = ((row.at, self.number(row)) for row in placements)
        return frozenset(
            n
            for at, n in pairs
            if at is not None and n is not None and math.dist(at, self.sections[n].at) > OTHER_SHAPE
        )
