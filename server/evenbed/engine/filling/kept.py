"""The room behind the fill clock, kept while its clock is asked for again and again.

Taps tell what was mixed, placed and packed; none of that moves a rail or a section. So the room without its records
is worked out once, and answers are the same with and without that.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache

from evenbed.engine.document.room import Document
from evenbed.engine.filling.sections import SectionPlan
from evenbed.engine.filling.stopping import Edge, edges_from
from evenbed.engine.worked import WorkedRoom
from evenbed.engine.worked_bed import without_records

ROOMS_KEPT = 2  # the one being filled, and one looked at between


@dataclass(frozen=True)
class FillRoom:
    """What the clock needs of a room. Any part raises BadDocumentError where the document allows none."""

    room: WorkedRoom

    @property
    def plan(self) -> SectionPlan:
        """The sections, and the ways between them."""
        return self.room.sections

    @cached_property
    def names(self) -> tuple[str, ...]:
        """The sections' ids in their order."""
        return tuple(section.id for section in self.plan.sections)

    @cached_property
    def edges(self) -> tuple[Edge, ...]:
        """The sides between sections, and what kind of edge each would be."""
        return edges_from(self.plan.ways.sides, self.room.rails.rails, self.room.joints.answer.field)

    @property
    def batch_yield(self) -> float:
        """The bed that one batch makes, waste taken off, m³."""
        return self.room.mix.batch.volume / (1.0 + self.room.document.mix.waste)


def fill_room_of(document: Document) -> FillRoom:
    """The room of a document, whatever was recorded in it."""
    return _kept(without_records(document))


@lru_cache(maxsize=ROOMS_KEPT)
def _kept(document: Document) -> FillRoom:
    return FillRoom(WorkedRoom(document))
