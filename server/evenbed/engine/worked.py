"""One room on its way to a plan: each step of the job worked out once, when it is first asked for."""

from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.bed import Mortar, Quantities, Thickness
from evenbed.engine.chipping.chipping import Chipping
from evenbed.engine.contours import Contour
from evenbed.engine.cost.build_up import check_supplies
from evenbed.engine.cost.material import Material
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.document.room import Document
from evenbed.engine.filling.sections import SectionPlan
from evenbed.engine.filling.shapes import OpenEdge
from evenbed.engine.finish.finished import Finished
from evenbed.engine.flatness.worked_flatness import WorkedFlatness, flatness_of
from evenbed.engine.ground import Ground
from evenbed.engine.heights import Levels
from evenbed.engine.joints.room import RoomJoints
from evenbed.engine.joints.slab import check_slab_joints
from evenbed.engine.load import BedWeight
from evenbed.engine.mix import MixPlan
from evenbed.engine.outline import ON_THE_WALL, Figure, check_openings
from evenbed.engine.problems import BadDocumentError, Problem, problem_at
from evenbed.engine.rails.areas import HandPlan
from evenbed.engine.rails.laid import RailPlan, check_rail_design
from evenbed.engine.readiness import Readiness
from evenbed.engine.slips import Suspect
from evenbed.engine.surface import Surface
from evenbed.engine.top.designed import DesignedTop, minimum_thickness_of
from evenbed.engine.top.facets import BedTop
from evenbed.engine.truing.trued import Trued, trued_from
from evenbed.engine.unknown import Unknown
from evenbed.engine.waiting.room import RoomWaiting
from evenbed.engine.worked_bed import WorkedBed, bed_of
from evenbed.engine.worked_floor import floor_of
from evenbed.engine.worked_layout import WorkedLayout, layout_of_room


@dataclass(frozen=True)
class WorkedRoom:
    """One room on its way to a plan. Any step raises BadDocumentError where the document allows none."""

    document: Document

    @cached_property
    def bed(self) -> WorkedBed:
        """The bed; doorways, fixtures, limits and tools that do not fit the floor's figure are told first."""
        figure = floor_of(self.document).figure
        found = [*check_openings(figure, self.document.openings), *_fixture_problems(self.document, figure)]
        found += [*_limit_problems(self.document), *check_rail_design(self.document.rails)]
        found += check_slab_joints(self.document.joints.slab_joints)
        found += check_supplies(self.document, figure)
        if found:
            raise BadDocumentError(found)
        return bed_of(self.document)

    @cached_property
    def layout(self) -> WorkedLayout:
        """The rails, and the sections between them."""
        return layout_of_room(self.document, self.bed)

    @property
    def flatness(self) -> WorkedFlatness:
        """What was measured on the finished bed."""
        return flatness_of(self.document, self.bed)

    @property
    def figure(self) -> Figure:
        """The room's figure."""
        return self.bed.figure

    @property
    def contours(self) -> tuple[Contour, ...]:
        """Lines of equal height of the subfloor."""
        return self.bed.contours

    @property
    def levels(self) -> Levels:
        """Heights of everything read."""
        return self.bed.levels

    @property
    def suspects(self) -> tuple[Suspect, ...]:
        """Readings that look mis-read, the worst first."""
        return self.bed.suspects

    @property
    def floor(self) -> dict[Point3, str]:
        """Read places of the subfloor, each once with its adjusted height: point → the id of a reading made there."""
        return self.bed.floor

    @property
    def surface(self) -> Surface:
        """The subfloor through the readings."""
        return self.bed.surface

    @property
    def ground(self) -> Ground:
        """The subfloor within the walls."""
        return self.bed.ground

    @property
    def designed_top(self) -> DesignedTop:
        """The top of bed, and what governs it."""
        return self.bed.designed_top

    @property
    def top(self) -> BedTop:
        """The top of bed."""
        return self.bed.top

    @property
    def mortar(self) -> Mortar:
        """The space between ground and top."""
        return self.bed.mortar

    @property
    def limits(self) -> tuple[float, float]:
        """Least and greatest thickness in force, mm."""
        return self.bed.limits

    @property
    def quantities(self) -> Quantities:
        """Volume, and areas beyond the limits."""
        return self.bed.quantities

    @property
    def thickness(self) -> Thickness:
        """Least, greatest and mean thickness."""
        return self.bed.thickness

    @property
    def finished(self) -> Finished:
        """The finished floor at doorways and fixtures, and what lies under it."""
        return self.bed.finished

    @property
    def chipping(self) -> Chipping:
        """What chipping the high spots would save."""
        return self.bed.chipping

    @property
    def thickest(self) -> float:
        """Mortar at the thickest spot, mm: none where the top lies below the whole subfloor."""
        return self.bed.thickest

    @property
    def weight(self) -> BedWeight:
        """Mass and load."""
        return self.bed.weight

    @property
    def mix(self) -> MixPlan:
        """What to mix and to order."""
        return self.bed.mix

    @property
    def build_up(self) -> tuple[Material, ...]:
        """What the bed is built of besides its mortar."""
        return self.bed.build_up

    @property
    def unknown(self) -> Unknown:
        """What is still unknown of the subfloor."""
        return self.bed.unknown

    @property
    def mix_in_doubt(self) -> MixPlan:
        """What to mix and to order, with what the doubt of the volume makes of it."""
        return self.bed.mix_in_doubt

    @property
    def joints(self) -> RoomJoints:
        """The movement joints."""
        return self.bed.joints

    @property
    def unread_deciders(self) -> tuple[Point, ...]:
        """Estimated corners that decide the top or a limit: there a reading is worth most."""
        return self.bed.unread_deciders

    def is_estimated(self, at: Point) -> bool:
        """True where the surface stands on an estimated corner at this very place."""
        return self.bed.is_estimated(at)

    @property
    def rails(self) -> RailPlan:
        """The rails with their stations."""
        return self.layout.rails

    @property
    def hand(self) -> HandPlan:
        """What no straightedge on the rails serves."""
        return self.layout.hand

    @property
    def sections(self) -> SectionPlan:
        """The bed in the order it is filled."""
        return self.layout.sections

    @property
    def edges(self) -> tuple[OpenEdge, ...]:
        """Edges in doorways that get a form at bed height."""
        return self.layout.edges

    @cached_property
    def trued(self) -> Trued:
        """How the rails lie, from what a level showed."""
        return trued_from(self.document, self.rails.rails)

    @cached_property
    def waiting(self) -> RoomWaiting:
        """How the bed hardens and dries, and what the weather does to it."""
        return RoomWaiting(self.document, self.thickest)

    @property
    def readiness(self) -> Readiness:
        """When the bed can be used."""
        return self.waiting.readiness


def _fixture_problems(document: Document, figure: Figure) -> list[Problem]:
    """Fixtures outside the room; the ends of a linear drain may lie on a wall."""
    places = [
        (f"fixtures[{n}].at", f.at, 0.0 if f.to is None else ON_THE_WALL) for n, f in enumerate(document.fixtures)
    ]
    places += [(f"fixtures[{n}].to", f.to, ON_THE_WALL) for n, f in enumerate(document.fixtures) if f.to is not None]
    return [
        problem_at(path, "fixture_outside", x=at[0], y=at[1])
        for path, at, margin in places
        if not figure.holds(at, margin)
    ]


def _limit_problems(document: Document) -> list[Problem]:
    minimum, maximum = minimum_thickness_of(document.bed), document.bed.maximum_thickness
    if minimum <= maximum:
        return []
    return [problem_at("bed.maximum_thickness", "minimum_above_maximum", minimum=minimum, maximum=maximum)]
