"""The bed of a room, whatever rails it is laid on and whatever was recorded of its filling.

While rails are dragged, checked and filled over, the same bed is asked about again and again: the last ones are kept,
and answers are the same with and without that.
"""

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from evenbed.engine.bed import Mortar, Quantities, Thickness
from evenbed.engine.chipping.chipping import Chipping
from evenbed.engine.contours import Contour
from evenbed.engine.cost.build_up import build_up_materials
from evenbed.engine.cost.material import Material
from evenbed.engine.document.filling import FillDesign
from evenbed.engine.document.flatness import FlatnessDesign, Touch
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.document.rails import RailDesign
from evenbed.engine.document.room import Document
from evenbed.engine.document.waiting import Curing
from evenbed.engine.finish.finished import Finished, finished_from
from evenbed.engine.ground import Ground
from evenbed.engine.heights import Levels
from evenbed.engine.joints.room import RoomJoints, joints_from
from evenbed.engine.load import BedWeight, covering_load, load_from
from evenbed.engine.mix import MixPlan, materials_for
from evenbed.engine.outline import Figure
from evenbed.engine.region import Region
from evenbed.engine.slips import Suspect
from evenbed.engine.surface import Surface
from evenbed.engine.top.choose import top_from
from evenbed.engine.top.designed import DesignedTop, minimum_thickness_of
from evenbed.engine.top.facets import BedTop
from evenbed.engine.unknown import Unknown
from evenbed.engine.worked_floor import WorkedFloor, floor_of

BEDS_KEPT = 2  # the one being worked on, and one looked at between


@dataclass(frozen=True)
class WorkedBed:
    """One bed, each step worked out once, from a document that has passed its checks and tells nothing beside it.

    Any step raises BadDocumentError where the document allows none.
    """

    document: Document

    @cached_property
    def lying(self) -> WorkedFloor:
        """The floor as it lies."""
        return floor_of(self.document)

    @property
    def figure(self) -> Figure:
        """The room's figure."""
        return self.lying.figure

    @property
    def regions(self) -> tuple[Region, ...]:
        """The areas that the bed fills, cutouts taken out."""
        return self.lying.regions

    @property
    def levels(self) -> Levels:
        """Heights of everything read."""
        return self.lying.levels

    @property
    def contours(self) -> tuple[Contour, ...]:
        """Lines of equal height of the subfloor."""
        return self.lying.contours

    @property
    def suspects(self) -> tuple[Suspect, ...]:
        """Readings that look mis-read, the worst first."""
        return self.lying.suspects

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
    def joints(self) -> RoomJoints:
        """The movement joints."""
        return joints_from(self.document, self.figure)

    @cached_property
    def unread_deciders(self) -> tuple[Point, ...]:
        """Estimated corners that decide the top or a limit: there a reading is worth most."""
        deciding = (self.ground.extremes[0][:2], self.thickness.min_at, self.thickness.max_at)
        return tuple(at for at in dict.fromkeys(deciding) if self.is_estimated(at))

    def is_estimated(self, at: Point) -> bool:
        """True where the surface stands on an estimated corner at this very place."""
        return any(self.surface.points[i][:2] == at for i in self.surface.estimated)


def bed_of(document: Document) -> WorkedBed:
    """The bed of a room document: the one kept where an equal one was asked for lately."""
    told = without_records(document)
    return _kept(replace(told, rails=RailDesign(), filling=FillDesign(), curing=Curing()))


def _telling(document: Document) -> tuple[Touch, ...]:
    """The touches, where the bed was read from several set-ups: what was worked over between ties no two of them."""
    setups = {reading.setup for reading in document.readings if reading.stage == "bed"}
    return document.touches if len(setups) > 1 else ()


def without_records(document: Document) -> Document:
    """A room document without what was recorded while its rails were set, its bed filled, waited for and checked."""
    told = replace(document, checks=(), truings=(), placements=(), batches=(), stoppages=(), climate=())
    told = replace(told, logs=(), forecast=(), ticks=(), gaps=(), height_lines=(), touches=_telling(document))
    return replace(told, flatness=FlatnessDesign())


@lru_cache(maxsize=BEDS_KEPT)
def _kept(document: Document) -> WorkedBed:
    return WorkedBed(document)
