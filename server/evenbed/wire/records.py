"""The fields of every kind of record. A change carries some of them; a pulled record carries all that were ever set.

Dotted names (`bed.top`) are fields of their own, so that two people's choices merge one by one. Every field may be
null, which means "not chosen", except those a record cannot be without.
"""

from typing import Annotated, Literal

from pydantic import Field

from evenbed.wire.floor import BatchFields, EntryFields, PlacementFields, RailCheckFields, StationFields
from evenbed.wire.handover import (
    ForecastDayFields,
    GapFields,
    HeightLineFields,
    SignOffFields,
    TemperatureLogFields,
)
from evenbed.wire.supplies import PricesFields, SuppliesFields, SupplyChoices
from evenbed.wire.values import (
    MOST_ENTRIES,
    MOST_LIMITS,
    MOST_PHOTO_BYTES,
    MOST_PHOTO_PIXELS,
    Fields,
    FixturePart,
    GapLimitPart,
    InstrumentCheckPart,
    InstrumentPart,
    Latitude,
    Line,
    LocalId,
    Longitude,
    MarkPart,
    MilestonePart,
    Moment,
    Name,
    Number,
    OpeningPart,
    OutlinePart,
    PhotoType,
    Point,
    RailLinePart,
    SetupPart,
    Sha256,
    Standard,
    StripsPart,
    Text,
    TopPart,
    Typed,
    Uuid,
)

Kind = Literal[
    "job",
    "room",
    "reading",
    "placement",
    "batch",
    "station",
    "rail_check",
    "entry",
    "climate",
    "photo",
    "alternative",
    "gap",
    "height_line",
    "temperature_log",
    "forecast_day",
    "sign_off",
    "prices",
    "supplies",
]


class JobFields(Fields):
    """A job: one address, one customer, some rooms."""

    name: Name | None = None
    place: Text | None = None
    note: Text | None = None
    units: Literal["imperial", "metric"] | None = None
    latitude: Latitude | None = Field(None, description="Where it is, degrees north; for the weather to come")
    longitude: Longitude | None = Field(None, description="Degrees east")
    crew: Annotated[list[Uuid], Field(max_length=MOST_ENTRIES)] | None = Field(
        None, description="Who is assigned, by person id; a foreman's choice. Never set: whoever made the job"
    )


class RoomFields(Fields, SupplyChoices):
    """A room and every choice made for it; its supplies where they differ from the company's."""

    job_id: Uuid
    name: Name | None = None
    note: Text | None = None
    outline: OutlinePart | None = None
    openings: Annotated[list[OpeningPart], Field(max_length=MOST_ENTRIES)] | None = None
    fixtures: Annotated[list[FixturePart], Field(max_length=MOST_ENTRIES)] | None = None
    setups: Annotated[list[SetupPart], Field(max_length=MOST_ENTRIES)] | None = None
    marks: Annotated[list[MarkPart], Field(max_length=MOST_ENTRIES)] | None = None
    instruments: Annotated[list[InstrumentPart], Field(max_length=MOST_ENTRIES)] | None = None
    instrument_checks: Annotated[list[InstrumentCheckPart], Field(max_length=MOST_ENTRIES)] | None = None
    adjustment_datum: Literal["fixed", "free"] | None = Field(None, alias="adjustment.datum")
    levels_skipped: Annotated[list[Point], Field(max_length=MOST_ENTRIES)] | None = Field(
        None, alias="levels.skipped", description="Proposed places that are not read, as somebody decided"
    )
    bed_build: Literal["unbonded", "bonded"] | None = Field(None, alias="bed.build")
    bed_minimum_thickness: Number | None = Field(None, alias="bed.minimum_thickness")
    bed_maximum_thickness: Number | None = Field(None, alias="bed.maximum_thickness")
    bed_top: TopPart | None = Field(None, alias="bed.top")
    bed_covering_tile_thickness: Number | None = Field(None, alias="bed.covering.tile_thickness")
    bed_covering_bond_thickness: Number | None = Field(None, alias="bed.covering.bond_thickness")
    bed_covering_longest_edge: Number | None = Field(None, alias="bed.covering.longest_edge")
    bed_chip_depth: Number | None = Field(None, alias="bed.chip_depth")
    rails_straightedge: Number | None = Field(None, alias="rails.straightedge")
    rails_bearing: Number | None = Field(None, alias="rails.bearing")
    rails_inset: Number | None = Field(None, alias="rails.inset")
    rails_strip_thickness: Number | None = Field(None, alias="rails.strip.thickness")
    rails_strip_width: Number | None = Field(None, alias="rails.strip.width")
    rails_strip_length: Number | None = Field(None, alias="rails.strip.length")
    rails_overlap: Number | None = Field(None, alias="rails.overlap")
    rails_station_spacing: Number | None = Field(None, alias="rails.station_spacing")
    rails_direction: Number | Literal["auto"] | None = Field(None, alias="rails.direction")
    rails_strips: Annotated[list[StripsPart], Field(max_length=MOST_ENTRIES)] | None = Field(
        None, alias="rails.strips", description="Strips on hand, of several lengths and thicknesses"
    )
    rails_straightedges: Annotated[list[Number], Field(max_length=MOST_ENTRIES)] | None = Field(
        None, alias="rails.straightedges", description="Further straightedges on hand, by length"
    )
    rails_lines: Annotated[list[RailLinePart], Field(max_length=MOST_ENTRIES)] | None = Field(
        None, alias="rails.lines", description="The rails as a person placed them; null for the ones proposed"
    )
    rails_tolerance: Number | None = Field(None, alias="rails.tolerance")
    rails_wood: bool | None = Field(None, alias="rails.wood")
    filling_mixer: Point | None = Field(None, alias="filling.mixer")
    filling_day_ends: Moment | None = Field(None, alias="filling.day_ends")
    mix_cement: Number | None = Field(None, alias="mix.cement")
    mix_lime: Number | None = Field(None, alias="mix.lime")
    mix_sand: Number | None = Field(None, alias="mix.sand")
    mix_bag_mass: Number | None = Field(None, alias="mix.bag_mass")
    mix_water_cement: Number | None = Field(None, alias="mix.water_cement")
    mix_air: Number | None = Field(None, alias="mix.air")
    mix_waste: Number | None = Field(None, alias="mix.waste")
    mix_batch_volume: Number | None = Field(None, alias="mix.batch_volume")
    mix_sand_moisture: Number | None = Field(None, alias="mix.sand_moisture")
    mix_sand_bulking: Number | None = Field(None, alias="mix.sand_bulking")
    joints_exposure: Literal["indoors", "sun_or_wet", "outdoors"] | None = Field(None, alias="joints.exposure")
    joints_spacing: Number | None = Field(None, alias="joints.spacing")
    joints_temperature_range: Number | None = Field(None, alias="joints.temperature_range")
    joints_expansion: Number | None = Field(None, alias="joints.expansion")
    joints_sealant_movement: Number | None = Field(None, alias="joints.sealant_movement")
    joints_slab_joints: Annotated[list[Line], Field(max_length=MOST_ENTRIES)] | None = Field(
        None, alias="joints.slab_joints", description="Joints of the slab below, each from one end to the other"
    )
    curing_activation: Number | None = Field(None, alias="curing.activation")
    curing_reference: Number | None = Field(None, alias="curing.reference")
    curing_assumed: Number | None = Field(None, alias="curing.assumed")
    curing_working_time: Number | None = Field(None, alias="curing.working_time")
    curing_method: Literal["equivalent_age", "temperature_time"] | None = Field(None, alias="curing.method")
    curing_datum: Number | None = Field(None, alias="curing.datum")
    curing_early: Number | None = Field(None, alias="curing.early")
    curing_late: Number | None = Field(None, alias="curing.late")
    curing_forecast_doubt: Number | None = Field(None, alias="curing.forecast_doubt")
    curing_follows: Number | None = Field(None, alias="curing.follows")
    curing_fresh_window: Number | None = Field(None, alias="curing.fresh_window")
    curing_tile_when: Literal["same_day", "overnight"] | None = Field(None, alias="curing.tile_when")
    curing_moisture_sensitive: bool | None = Field(None, alias="curing.moisture_sensitive")
    flatness_standard: Standard | None = Field(None, alias="flatness.standard")
    flatness_own: Annotated[list[GapLimitPart], Field(max_length=MOST_LIMITS)] | None = Field(
        None, alias="flatness.own", description="The company's own limits, one a length of straightedge"
    )
    curing_milestones: Annotated[list[MilestonePart], Field(max_length=MOST_ENTRIES)] | None = Field(
        None, alias="curing.milestones"
    )
    typed: Typed | None = None


class ReadingFields(Fields):
    """One rod reading. Never edited: a correction is a new reading that supersedes it."""

    room_id: Uuid
    down: Number
    setup: LocalId | None = None
    at: Point | None = None
    mark: LocalId | None = None
    stage: Literal["subfloor", "bed"] | None = None
    typed: Text | Typed | None = None
    sight: Number | None = None
    taken_at: Moment | None = None
    supersedes: Uuid | None = None
    note: Text | None = None


class ClimateFields(Fields):
    """One measured or forecast moment: °C, %, km/h."""

    room_id: Uuid
    at: Moment
    bed: Number | None = None
    air: Number | None = None
    humidity: Number | None = None
    wind: Number | None = None
    forecast: bool | None = None


class PhotoFields(Fields):
    """A photo of a room, or of one reading in it. The picture travels apart, by its hash. Pixels and bytes."""

    room_id: Uuid
    hash: Sha256
    media_type: PhotoType
    width: Annotated[int, Field(ge=1, le=MOST_PHOTO_PIXELS)]
    height: Annotated[int, Field(ge=1, le=MOST_PHOTO_PIXELS)]
    size: Annotated[int, Field(ge=1, le=MOST_PHOTO_BYTES)]
    note: Text | None = None
    taken_at: Moment | None = None
    reading_id: Uuid | None = None
    entry_id: Uuid | None = Field(None, description="The line of the day book it belongs to")


class AlternativeFields(Fields):
    """A top of bed that was thought of for a room. Chosen ones say when and by whom: a decision."""

    room_id: Uuid
    name: Name | None = None
    top: TopPart | None = None
    note: Text | None = None
    chosen_at: Moment | None = None
    chosen_by: Name | None = Field(None, description="The name of whoever chose it")


SHAPES: dict[str, type[Fields]] = {
    "job": JobFields,
    "room": RoomFields,
    "reading": ReadingFields,
    "placement": PlacementFields,
    "batch": BatchFields,
    "station": StationFields,
    "rail_check": RailCheckFields,
    "entry": EntryFields,
    "climate": ClimateFields,
    "photo": PhotoFields,
    "alternative": AlternativeFields,
    "gap": GapFields,
    "height_line": HeightLineFields,
    "temperature_log": TemperatureLogFields,
    "forecast_day": ForecastDayFields,
    "sign_off": SignOffFields,
    "prices": PricesFields,
    "supplies": SuppliesFields,
}
