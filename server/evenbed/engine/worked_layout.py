"""The rails of a room and the sections between them, whatever was recorded of setting and filling them.

A check, a batch or the time of day moves no rail: the last lay-outs are kept, and answers are the same with and
without that.
"""

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from evenbed.engine.document.filling import FillDesign
from evenbed.engine.document.room import Document
from evenbed.engine.document.waiting import Curing
from evenbed.engine.filling.edges import doorway_edges
from evenbed.engine.filling.sections import SectionPlan, WayOut, sections_from, way_out_from
from evenbed.engine.filling.shapes import OpenEdge
from evenbed.engine.outline import ends_of_opening
from evenbed.engine.rails.areas import HandPlan, hand_plan_of
from evenbed.engine.rails.laid import RailPlan, rails_from
from evenbed.engine.worked_bed import WorkedBed, without_records

LAYOUTS_KEPT = 2  # the one being worked on, and one looked at between


@dataclass(frozen=True)
class WorkedLayout:
    """One lay-out over its bed, each step worked out once, from a checked document that has no records.

    Any step raises BadDocumentError where the document allows none.
    """

    document: Document
    bed: WorkedBed

    @cached_property
    def way_out(self) -> WayOut:
        """Where the crew leaves."""
        return way_out_from(self.document.openings, self.bed.figure.vertices, self.document.filling.mixer)

    @cached_property
    def rails(self) -> RailPlan:
        """The rails with their stations."""
        return rails_from(
            self.bed.regions,
            self.document.fixtures,
            self.document.rails,
            self.way_out.exits,
            subfloor=self.bed.surface.height_at,
            top=self.bed.top.at,
            planes=self.bed.top.pieces if len(self.bed.top.cells) > 1 else None,
        )

    @cached_property
    def hand(self) -> HandPlan:
        """What no straightedge on the rails serves."""
        vertices = self.bed.figure.vertices
        doorways = [ends_of_opening(opening, vertices) for opening in self.document.openings]
        return hand_plan_of(self.rails.layouts, self.document.rails, doorways)

    @cached_property
    def sections(self) -> SectionPlan:
        """The bed in the order it is filled."""
        return sections_from(
            self.rails.layouts,
            self.document.rails,
            self.way_out,
            volume_over=self.bed.mortar.volume_over,
            batch_yield=self.bed.mix.batch.volume,
            waste=self.document.mix.waste,
            rails=self.rails.rails,
        )

    @cached_property
    def edges(self) -> tuple[OpenEdge, ...]:
        """Edges in doorways that get a form at bed height."""
        return doorway_edges(self.document.openings, self.bed.ground, self.bed.top)


def layout_of_room(document: Document, bed: WorkedBed) -> WorkedLayout:
    """The lay-out of a room document with its bed: the one kept where an equal one was asked for lately."""
    filling = FillDesign(mixer=document.filling.mixer)
    return _kept(replace(without_records(document), filling=filling, curing=Curing()), bed)


@lru_cache(maxsize=LAYOUTS_KEPT)
def _kept(document: Document, bed: WorkedBed) -> WorkedLayout:
    return WorkedLayout(document, bed)
