"""The room document: what the engine is told. Field names are fixed; other programs read them."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.fields import FARTHEST, described, height, length, ratio
from evenbed.engine.document.filling import FillDesign, MixedBatch, Placement, Stoppage
from evenbed.engine.document.flatness import FlatnessDesign, HeightLine, MeasuredGap, Touch
from evenbed.engine.document.joints import JointDesign
from evenbed.engine.document.levelling import Adjustment, Difference, InstrumentCheck, Mark, Reading, Setup
from evenbed.engine.document.places import Point
from evenbed.engine.document.rails import Check, RailDesign, Truing
from evenbed.engine.document.supplies import Prices, Supplies
from evenbed.engine.document.tops import LevelTop, Top
from evenbed.engine.document.waiting import MOST_DAYS, ClimateRow, Curing, ForecastDay, TemperatureLog, Tick


@dataclass(frozen=True)
class Wall:
    """One wall as taped: walk `length`, then turn left by `turn` degrees (negative is right)."""

    length: float = length(about="Taped length", low=0.1)
    turn: float | None = described(
        None,
        about="Turn to the left after this wall; only the last may go without",
        unit="degree",
        low=-360.0,
        high=360.0,
    )


@dataclass(frozen=True)
class Outline:
    """The room's figure: `vertices` or `walls`, and the areas inside it that get no bed."""

    vertices: tuple[Point, ...] | None = described(
        None,
        about="Corners of a simple polygon, either way round",
        unit="mm",
        low=-FARTHEST,
        high=FARTHEST,
        most=500,
    )
    walls: tuple[Wall, ...] | None = described(
        None, about="Walls as taped, starting at the origin along +x", most=500
    )
    cutouts: tuple[tuple[Point, ...], ...] = height((), "Areas with no bed: a hearth, a shaft, a column")


@dataclass(frozen=True)
class Opening:
    """A doorway: part of a wall (0 runs from vertex 0 to 1) with the finished floor beyond it."""

    wall: int = described(about="Which wall, counted from 0", low=0, high=2000)
    start: float = length(about="Where it begins along the wall", key="from")
    end: float = length(about="Where it ends along the wall", key="to")
    id: str = described("", about="Its name in this document")
    adjoining_height: float | None = height(None, "Finished floor beyond, z")
    exit: bool = described(False, about="True where the crew leaves")
    door_bottom: float | None = height(None, "Underside of the door leaf, z, null where it is unknown")


@dataclass(frozen=True)
class Fixture:
    """A drain, flange or post standing in the bed."""

    at: Point = height(about="Its middle")
    kind: Literal["drain", "flange", "post"] = described(about="What it is")
    id: str = described("", about="Its name in this document")
    radius: float = length(0.0, "Radius, 0 where unknown")
    to: Point | None = height(None, "Other end of a linear drain, `at` being one end")
    height: float | None = height(None, "Height of its top, z")


@dataclass(frozen=True)
class Covering:
    """What will lie on the bed."""

    tile_thickness: float = length(9.525, "Tile", high=200.0)
    bond_thickness: float = length(4.7625, "Bond coat under the tile", high=50.0)
    longest_edge: float = length(300.0, "Longest edge of a tile", high=5000.0)


@dataclass(frozen=True)
class BedDesign:
    """How the bed is to be: its build, its limits and its top."""

    build: Literal["unbonded", "bonded"] = described(
        "unbonded", about="On a cleavage membrane, or bonded to the subfloor"
    )
    minimum_thickness: float | None = length(
        None, "Least thickness; null for the build's default", low=1.0, high=500.0
    )
    maximum_thickness: float = length(50.8, "Thickness beyond which the bed must be designed", low=1.0, high=1000.0)
    covering: Covering = described(Covering(), about="What will lie on the bed")
    top: Top = described(LevelTop(), about="The top of bed")
    chip_depth: float = length(12.7, "Most that may be chipped off a high spot", high=200.0)


@dataclass(frozen=True)
class Mix:
    """The mortar: parts by loose volume, and what the mixer takes."""

    cement: float = ratio(1.0, "Cement, parts by loose volume", low=0.01, high=100.0)
    lime: float = ratio(0.0, "Hydrated lime, parts by loose volume", high=100.0)
    sand: float = ratio(5.0, "Damp loose sand, parts by loose volume", low=0.0, high=100.0)
    bag_mass: float = described(42.637683, about="Mass of one bag of cement", unit="kg", low=0.1, high=2000.0)
    water_cement: float = ratio(0.5, "Water to cement by mass, the sand's own water included", low=0.05, high=3.0)
    air: float = ratio(0.1, "Voids as a fraction of the compacted volume", high=0.9)
    waste: float = ratio(0.1, "Fraction mixed and not placed", high=2.0)
    sand_moisture: float = ratio(0.05, "Water in the damp sand, of its dry mass", high=0.5)
    sand_bulking: float = ratio(0.25, "How much more room damp sand takes than flooded sand")
    batch_volume: float | None = described(
        None,
        about="What the mixer or box takes, compacted; null for one bag a batch",
        unit="m3",
        low=0.0001,
        high=100.0,
    )


@dataclass(frozen=True)
class Document:
    """Everything known of one room. Only the outline and the readings are required."""

    document: Literal[1] = described(about="The version of this format")
    outline: Outline = described(about="The room's figure")
    readings: tuple[Reading, ...] = described(about="Levels read in the room")
    openings: tuple[Opening, ...] = described((), about="Doorways")
    fixtures: tuple[Fixture, ...] = described((), about="Drains, flanges, posts")
    setups: tuple[Setup, ...] = described((), about="Standings of the instrument")
    marks: tuple[Mark, ...] = described((), about="Marks and benchmarks")
    differences: tuple[Difference, ...] = described((), about="Levelled differences between marks")
    instrument_checks: tuple[InstrumentCheck, ...] = described((), about="Tests of the instruments")
    adjustment: Adjustment = described(Adjustment(), about="How the network of levels is adjusted")
    bed: BedDesign = described(BedDesign(), about="How the bed is to be")
    rails: RailDesign = described(RailDesign(), about="How rails are laid")
    mix: Mix = described(Mix(), about="The mortar")
    checks: tuple[Check, ...] = described((), about="What a level showed on the rails")
    truings: tuple[Truing, ...] = described((), about="Rails that were bedded anew")
    filling: FillDesign = described(FillDesign(), about="How the filling goes")
    placements: tuple[Placement, ...] = described((), about="What was placed when")
    batches: tuple[MixedBatch, ...] = described((), about="What came from the mixer when")
    stoppages: tuple[Stoppage, ...] = described((), about="Times in which nobody filled")
    flatness: FlatnessDesign = described(FlatnessDesign(), about="Against which limits the bed is checked")
    gaps: tuple[MeasuredGap, ...] = described((), about="What a wedge showed under a straightedge on the bed")
    height_lines: tuple[HeightLine, ...] = described((), about="Profiles measured over the bed, for F-numbers")
    touches: tuple[Touch, ...] = described((), about="Places rubbed down or filled up since")
    climate: tuple[ClimateRow, ...] = described((), about="Measured first, then forecast")
    logs: tuple[TemperatureLog, ...] = described((), about="What temperature loggers wrote")
    forecast: tuple[ForecastDay, ...] = described((), about="Days foretold by their lows and highs", most=MOST_DAYS)
    ticks: tuple[Tick, ...] = described((), about="Milestones that a person looked at and let pass")
    curing: Curing = described(Curing(), about="The constants of the waiting")
    joints: JointDesign = described(JointDesign(), about="What the movement joints follow from")
    supplies: Supplies = described(Supplies(), about="What the bed is built of besides its mortar, as it is sold")
    prices: Prices = described(Prices(), about="What things cost")
