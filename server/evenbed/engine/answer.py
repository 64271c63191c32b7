"""The plan: what the engine answers. Field names are fixed; other programs read them."""

from dataclasses import dataclass

from evenbed.engine.bed import Thickness, Violation
from evenbed.engine.cautions import Caution
from evenbed.engine.chipping.chips import Chip, ChipPlan
from evenbed.engine.contours import Contour
from evenbed.engine.cost.allowances import Allowance
from evenbed.engine.cost.material import Material
from evenbed.engine.cost.quote import Quote
from evenbed.engine.cost.stacked import Stacked
from evenbed.engine.delaunay import Triangle
from evenbed.engine.document.fields import described, height, length, time
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.doubt import NextReading, Statistics
from evenbed.engine.filling.shapes import OpenEdge, Section
from evenbed.engine.finish.doorways import Doorway
from evenbed.engine.finish.fixtures import FixtureHeight
from evenbed.engine.finish.layers import Layer
from evenbed.engine.flatness.shapes import FlatnessAnswer
from evenbed.engine.heights import (
    DifferenceFit,
    InstrumentError,
    LevelMisclosure,
    MarkHeight,
    ReadHeight,
    SetupHeight,
    Untied,
)
from evenbed.engine.identity import Identity
from evenbed.engine.joints.shapes import JointsAnswer
from evenbed.engine.load import Load
from evenbed.engine.mix import Batch
from evenbed.engine.outline import Misclosure
from evenbed.engine.problems import Problem
from evenbed.engine.rails.shapes import FirstStation, HandArea, Rail
from evenbed.engine.readiness import ReadinessRow, WorkingTime
from evenbed.engine.slips import Suspect
from evenbed.engine.sources import Explanation
from evenbed.engine.top.facets import Facet
from evenbed.engine.top.requirements import Requirement
from evenbed.engine.truing.shapes import Correction, TruingAnswer
from evenbed.engine.waiting.shapes import Drying, EvaporationRow, TileWindow


@dataclass(frozen=True)
class OutlineAnswer:
    """The room's figure, closed."""

    vertices: tuple[Point, ...] = height(about="Corners in the order given, wall n from corner n to the next")
    cutouts: tuple[tuple[Point, ...], ...] = height(about="Areas with no bed, clockwise")
    area: float = described(about="Area of the bed", unit="m2")
    perimeter: float = length(about="Length of the walls, cutouts not counted")
    misclosure: Misclosure = described(about="What the tape missed by, spread over the walls")


@dataclass(frozen=True)
class LevelsFound:
    """Heights of everything read, and how well the measurements fit together."""

    heights: tuple[ReadHeight, ...] = described(about="In the order of the readings")
    setups: tuple[SetupHeight, ...] = described(about="Set-ups")
    marks: tuple[MarkHeight, ...] = described(about="Marks that were read or are known")
    differences: tuple[DifferenceFit, ...] = described(about="Levelled differences")
    sigma0: float | None = described(
        about="Standard error of unit weight, a posteriori; null where nothing is checked"
    )
    redundancy: int = described(about="Measurements beyond those needed")
    misclosures: tuple[LevelMisclosure, ...] = described(about="What the loops miss by, the worst first")
    untied: tuple[Untied, ...] = described(about="Set-ups that nothing ties to the benchmark")
    instruments: tuple[InstrumentError, ...] = described(about="What the tests of the instruments found")
    suspects: tuple[Suspect, ...] = described(about="Readings that look mis-read, the worst first")
    datum: str = described(about="What z = 0 is: `benchmark` or `highest_reading`")


@dataclass(frozen=True)
class LevelsAnswer(LevelsFound):
    """The levels of a room."""

    next_readings: tuple[NextReading, ...] = described(about="Where to read next")


@dataclass(frozen=True)
class LevelsReport(LevelsFound):
    """The levels of a document, whatever room they are of."""

    engine: Identity = described(about="Which engine computed it")
    notices: tuple[Problem, ...] = described(about="Keys and parts of the document that were left out")


@dataclass(frozen=True)
class Extreme:
    """The highest or lowest place of the subfloor."""

    at: Point = height(about="Where")
    z: float = height(about="Height")
    reading: str | None = described(about="The reading that stands there, null where none does")
    estimated: bool = described(about="True for a corner beyond the readings")


@dataclass(frozen=True)
class SurfaceAnswer:
    """The subfloor as triangles, linear in each."""

    points: tuple[Point3, ...] = height(about="Readings, estimated corners, centres of regular cells")
    estimated: tuple[int, ...] = described(about="Which points are corners beyond the readings")
    centres: tuple[int, ...] = described(about="Which points are centres of cells whose corners lie on one circle")
    triangles: tuple[Triangle, ...] = described(about="Anticlockwise, as indices of points")
    highest: Extreme = described(about="High spot")
    lowest: Extreme = described(about="Low spot")
    contours: tuple[Contour, ...] = described(about="Lines of equal height")
    statistics: Statistics | None = described(about="What is still unknown, null where it was not asked for")


@dataclass(frozen=True)
class BedAnswer:
    """The bed under the chosen top."""

    build: str = described(about="`unbonded` or `bonded`")
    minimum_thickness: float = length(about="Least thickness in force")
    maximum_thickness: float = length(about="Thickness beyond which the bed must be designed")
    top: tuple[Facet, ...] = described(about="Planes of the top")
    thickness: Thickness = described(about="How thick, and where")
    volume: float = described(about="Mortar in place", unit="m3")
    volume_range: tuple[float, float] | None = described(
        about="90 % range of the volume under this top, null where it was not asked for", unit="m3"
    )
    mass: float = described(about="Fresh mass of the bed", unit="kg")
    load: Load = described(about="Dead load of the bed alone, of its covering, and of both")
    allowances: tuple[Allowance, ...] = described(about="Published allowances of dead load, never a verdict")
    stacked: Stacked = described(about="The material stacked on the floor before it is mixed")
    doorways: tuple[Doorway, ...] = described(about="What the top makes of each doorway")
    fixtures: tuple[FixtureHeight, ...] = described(about="What the finished floor makes of each fixture")
    build_up: tuple[Layer, ...] = described(
        about="From the subfloor up; the thickness of the bed elsewhere counts the membrane under it"
    )
    chipping: tuple[Chip, ...] = described(about="What chipping each high spot would save, the highest first")
    chip_plan: ChipPlan | None = described(about="The best of it, null where nothing is worth chipping")
    requirements: tuple[Requirement, ...] = described(about="What governs the top, the dearest first")
    violations: tuple[Violation, ...] = described(about="Places beyond a limit, the worst first")
    too_thin_area: float = described(about="Area below the minimum", unit="m2")
    too_thick_area: float = described(about="Area above the maximum", unit="m2")


@dataclass(frozen=True)
class MixAnswer:
    """What the mix makes, and how often it has to be made."""

    batch: Batch = described(about="What goes into the mixer each time")
    batches: int = described(about="How many, the last one not always full")
    bags_range: tuple[int, int] | None = described(about="90 % range of the bags, null where it was not asked for")
    bag_yield: float = described(about="Compacted mortar from one bag", unit="m3")
    density: float = described(about="Mass of fresh mortar", unit="kg/m3")
    mixed_volume: float = described(about="Volume mixed, waste included", unit="m3")


@dataclass(frozen=True)
class Plan:
    """Everything worked out for one room."""

    engine: Identity = described(about="Which engine computed it")
    notices: tuple[Problem, ...] = described(about="Keys and parts of the document that were left out")
    outline: OutlineAnswer = described(about="The room's figure")
    levels: LevelsAnswer = described(about="Heights")
    surface: SurfaceAnswer = described(about="The subfloor")
    bed: BedAnswer = described(about="The bed")
    rails: tuple[Rail, ...] = described(about="Rails, from one side of the room to the other")
    rail_direction: float = described(about="Way the rails run, anticlockwise from +x", unit="degree")
    first_station: FirstStation | None = described(about="Where to start setting, null without rails")
    hand_areas: tuple[HandArea, ...] = described(about="Places that no pair of rails serves")
    hand_share: float = described(about="Their share of the bed")
    truing: TruingAnswer | None = described(about="How the rails lie, null while nothing was read on them")
    corrections: tuple[Correction, ...] = described(about="What to raise or let down, the most first")
    level_error: float | None = described(
        about="What the level that was used most is out by, + where it shows its `to` end too high; null if unknown",
        unit="mm/m",
    )
    sections: tuple[Section, ...] = described(about="Pieces of the bed, in the order they are filled")
    edges: tuple[OpenEdge, ...] = described(about="Edges in doorways that get a form at bed height")
    materials: tuple[Material, ...] = described(about="What to buy or carry in")
    quote: Quote = described(about="What it costs")
    mix: MixAnswer = described(about="Batches and what the mix makes")
    joints: JointsAnswer = described(about="Movement joints")
    flatness: FlatnessAnswer | None = described(
        about="How flat the finished bed is; null until something of it was measured, and in a quick plan"
    )
    readiness: tuple[ReadinessRow, ...] = described(
        about="When the bed may be walked on, tiled, grouted, driven over"
    )
    evaporation: tuple[EvaporationRow, ...] = described(about="Where humidity and wind are known")
    drying: Drying | None = described(about="Null where the covering does not mind moisture")
    tile: TileWindow | None = described(about="When tile can be set: on the fresh bed, or when it has hardened")
    placed_at: str | None = time(about="When the last section was placed, null where nothing is")
    working_time: WorkingTime = described(about="How long a batch can be worked")
    cautions: tuple[Caution, ...] = described(about="What can hurt a person or spoil the bed")
    explanations: dict[str, Explanation] = described(about="What stands behind a figure, by its path")


@dataclass(frozen=True)
class BedDesignAnswer:
    """What a change of the top touches, and nothing else: soon enough to follow a thumb."""

    engine: Identity = described(about="Which engine computed it")
    bed: BedAnswer = described(about="The bed")
    materials: tuple[Material, ...] = described(about="What to buy or carry in")
    quote: Quote = described(about="What it costs")
    mix: MixAnswer = described(about="Batches and what the mix makes")
    cautions: tuple[Caution, ...] = described(about="What can hurt a person or spoil the bed, as far as it goes")
    explanations: dict[str, Explanation] = described(about="What stands behind a figure, by its path in the plan")
