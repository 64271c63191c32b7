"""One room on its way to a plan: each step of the job worked out once, when it is first asked for."""

from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.bed import Mortar, Quantities, Thickness
from evenbed.engine.chipping.chipping import Chipping
from evenbed.engine.cost.build_up import build_up_materials, check_supplies
from evenbed.engine.cost.material import Material
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.document.room import Document
from evenbed.engine.filling.edges import doorway_edges
from evenbed.engine.filling.sections import SectionPlan, WayOut, sections_from, way_out_from
from evenbed.engine.filling.shapes import OpenEdge
from evenbed.engine.finish.finished import Finished, finished_from
from evenbed.engine.ground import Ground
from evenbed.engine.heights import Levels
from evenbed.engine.joints.room import RoomJoints, joints_from
from evenbed.engine.joints.slab import check_slab_joints
from evenbed.engine.load import BedWeight, covering_load, load_from
from evenbed.engine.mix import MixPlan, materials_for
from evenbed.engine.outline import ON_THE_WALL, Figure, check_openings, ends_of_opening
from evenbed.engine.problems import BadDocumentError, Problem, problem_at
from evenbed.engine.rails.areas import HandPlan, hand_plan_of
from evenbed.engine.rails.laid import RailPlan, check_rail_design, rails_from
from evenbed.engine.readiness import Readiness, readiness_from
from evenbed.engine.region import Region
from evenbed.engine.slips import Suspect
from evenbed.engine.surface import Surface
from evenbed.engine.suspects import suspects_from
from evenbed.engine.top.choose import top_from
from evenbed.engine.top.designed import DesignedTop, minimum_thickness_of
from evenbed.engine.top.facets import BedTop
from evenbed.engine.truing.trued import Trued, trued_from
from evenbed.engine.unknown import Unknown
from evenbed.engine.worked_floor import WorkedFloor, floor_of


@dataclass(frozen=True)
class WorkedRoom:
    """One room on its way to a plan. Any step raises BadDocumentError where the document allows none."""

    document: Document

    @cached_property
    def lying(self) -> WorkedFloor:
        """The floor as it lies; doorways, fixtures, limits and tools that do not fit its figure are told with it."""
        floor = floor_of(self.document)
        figure = floor.figure
        found = [*check_openings(figure, self.document.openings), *_fixture_problems(self.document, figure)]
        found += [*_limit_problems(self.document), *check_rail_design(self.document.rails)]
        found += check_slab_joints(self.document.joints.slab_joints)
        found += check_supplies(self.document, figure)
        if found:
            raise BadDocumentError(found)
        return floor

    @property
    def figure(self) -> Figure:
        """The room's figure."""
        return self.lying.figure

    @property
    def levels(self) -> Levels:
        """Heights of everything read."""
        return self.lying.levels

    @cached_property
    def suspects(self) -> tuple[Suspect, ...]:
        """Readings that look mis-read, the worst first."""
        return suspects_from(self.document, self.levels)

    @property
    def floor(self) -> dict[Point3, str]:
        """Read places of the subfloor, each once with its adjusted height: point → the id of a reading made there."""
        return self.lying.spots

    @property
    def surface(self) -> Surface:
        """The subfloor through the readings."""
        return self.lying.surface

    @property
    def ground(self) -> Ground:
        """The subfloor within the walls."""
        return self.lying.ground

    @cached_property
    def designed_top(self) -> DesignedTop:
        """The top of bed, and what governs it."""
        return top_from(self.document, self.ground)

    @property
    def top(self) -> BedTop:
        """The top of bed."""
        return self.designed_top.top

    @property
    def mortar(self) -> Mortar:
        """The space between ground and top."""
        return self.designed_top.mortar

    @cached_property
    def limits(self) -> tuple[float, float]:
        """Least and greatest thickness in force, mm."""
        return minimum_thickness_of(self.document.bed), self.document.bed.maximum_thickness

    @cached_property
    def quantities(self) -> Quantities:
        """Volume, and areas beyond the limits."""
        return self.mortar.quantities(*self.limits)

    @cached_property
    def thickness(self) -> Thickness:
        """Least, greatest and mean thickness."""
        return self.mortar.thickness(self.quantities.volume)

    @cached_property
    def finished(self) -> Finished:
        """The finished floor at doorways and fixtures, and what lies under it."""
        return finished_from(self.document, self.ground, self.top, self.thickness)

    @cached_property
    def chipping(self) -> Chipping:
        """What chipping the high spots would save."""
        return Chipping(self.document, self.mortar, self.limits[0], self.mix.density)

    @property
    def thickest(self) -> float:
        """Mortar at the thickest spot, mm: none where the top lies below the whole subfloor."""
        return max(0.0, self.thickness.max)

    @cached_property
    def weight(self) -> BedWeight:
        """Mass and load."""
        covering = covering_load(self.document.bed.covering, self.document.supplies.bond_coat.density)
        return load_from(self.quantities.volume, self.figure.area, self.thickest, self.mix.density, covering)

    @cached_property
    def mix(self) -> MixPlan:
        """What to mix and to order."""
        return materials_for(self.quantities.volume, self.document.mix)

    @cached_property
    def build_up(self) -> tuple[Material, ...]:
        """What the bed is built of besides its mortar."""
        return build_up_materials(self.document, self.figure, self.regions)

    @cached_property
    def unknown(self) -> Unknown:
        """What is still unknown of the subfloor."""
        volume = self.quantities.volume
        return Unknown(self.document, self.figure, self.levels, self.top, volume, self.unread_deciders)

    @cached_property
    def mix_in_doubt(self) -> MixPlan:
        """What to mix and to order, with what the doubt of the volume makes of it."""
        return materials_for(self.quantities.volume, self.document.mix, self.unknown.volume_range)

    @cached_property
    def readiness(self) -> Readiness:
        """When the bed can be used."""
        document = self.document
        return readiness_from(document.curing, document.climate, document.placements, document.batches)

    def is_estimated(self, at: Point) -> bool:
        """True where the surface stands on an estimated corner at this very place."""
        return any(self.surface.points[i][:2] == at for i in self.surface.estimated)

    @cached_property
    def way_out(self) -> WayOut:
        """Where the crew leaves."""
        return way_out_from(self.document.openings, self.figure.vertices, self.document.filling.mixer)

    @property
    def regions(self) -> tuple[Region, ...]:
        """The areas that the bed fills, cutouts taken out."""
        return self.lying.regions

    @cached_property
    def rails(self) -> RailPlan:
        """The rails with their stations."""
        return rails_from(
            self.regions,
            self.document.fixtures,
            self.document.rails,
            self.way_out.exits,
            subfloor=self.surface.height_at,
            top=self.top.at,
            planes=self.top.pieces if len(self.top.cells) > 1 else None,
        )

    @cached_property
    def hand(self) -> HandPlan:
        """What no straightedge on the rails serves."""
        vertices = self.figure.vertices
        doorways = [ends_of_opening(opening, vertices) for opening in self.document.openings]
        return hand_plan_of(self.rails.layouts, self.document.rails, doorways)

    @cached_property
    def joints(self) -> RoomJoints:
        """The movement joints."""
        return joints_from(self.document, self.figure)

    @cached_property
    def sections(self) -> SectionPlan:
        """The bed in the order it is filled."""
        return sections_from(
            self.rails.layouts,
            self.document.rails,
            self.way_out,
            volume_over=self.mortar.volume_over,
            batch_yield=self.mix.batch.volume,
            waste=self.document.mix.waste,
            rails=self.rails.rails,
        )

    @cached_property
    def trued(self) -> Trued:
        """How the rails lie, from what a level showed."""
        return trued_from(self.document, self.rails.rails)

    @cached_property
    def edges(self) -> tuple[OpenEdge, ...]:
        """Edges in doorways that get a form at bed height."""
        return doorway_edges(self.document.openings, self.ground, self.top)

    @cached_property
    def unread_deciders(self) -> tuple[Point, ...]:
        """Estimated corners that decide the top or a limit: there a reading is worth most."""
        deciding = (self.ground.extremes[0][:2], self.thickness.min_at, self.thickness.max_at)
        return tuple(at for at in dict.fromkeys(deciding) if self.is_estimated(at))


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
