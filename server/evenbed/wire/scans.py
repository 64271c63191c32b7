"""A dense scan on its way to readings: how it may be read, how far it has come, what it became.

A route answers with lines of JSON (application/x-ndjson): any number of `ScanProgress`, and at last one `ScanReply`
or one `ProblemReply` with `ScanItem`s. A line with `stage` is progress, one with `readings` the answer, one with
`code` a problem.

    POST /api/rooms/{room_id}/scan?unit=auto&placing=as_it_is&up=z       the file's bytes, application/octet-stream
        &cell=300 &minimum_points=8                                      both may be left out
        &stage=bed &standard=ansi_a108_02 &longest_edge=600              a scan of the finished bed, and its limits;
                                                                         the room's own where they are left out
        &in_scan=x&in_scan=y&in_scan=x&in_scan=y &in_room=...            with placing=two_points: the same two places
                                                                         in the scan's numbers and in the room (mm)

Nothing is stored: whoever asked looks at the readings and takes them as changes of their own.
"""

from typing import Literal

from pydantic import Field

from evenbed.wire.exchange import Reply
from evenbed.wire.problems import ProblemItem
from evenbed.wire.values import MOST_ENTRIES, Point, Standard

MEDIA_TYPE = "application/x-ndjson"
MOST_READINGS = MOST_ENTRIES
LEAST_CELL, MOST_CELL = 20.0, 5_000.0
ScanUnit = Literal["mm", "cm", "m", "in", "ft"]
UnitWish = Literal["auto", "mm", "cm", "m", "in", "ft"]
Placing = Literal["as_it_is", "corner", "two_points"]
Up = Literal["z", "y"]
ReadingStage = Literal["subfloor", "bed"]
Stage = Literal["waiting", "reading", "placing", "reducing"]
FlatVerdict = Literal["within", "beyond", "too_noisy", "too_sparse"]
"""`too_noisy`: scatter alone would go beyond the limit. `too_sparse`: nothing was found, and too little was seen."""


class ScanProgress(Reply):
    """How far it has come. The upload itself is the browser's to show; `waiting` is for the scan before this one."""

    stage: Stage
    done: float = Field(ge=0, le=1, description="Of this stage")


class ScanReading(Reply):
    """One reading that stands for many points: their height where they are densest, strays left out."""

    at: Point = Field(description="In the room, mm")
    z: float = Field(description="Height as the scan tells it, mm; its zero is the scan's own")
    sigma: float = Field(description="Standard error from the scatter of the points alone, mm")
    points: int = Field(description="How many points stand behind it")


class ScanReport(Reply):
    """What became of the points, and how the scan was understood. Lengths are mm, areas m², angles degrees."""

    points: int = Field(description="In the file")
    used: int = Field(description="Points behind the readings")
    outside: int = Field(description="Points outside the outline or in a cutout")
    above: int = Field(description="Points too far above the floor: ceiling, furniture, upper walls")
    below: int = Field(description="Points too far below the floor: reflections, stairs")
    scattered: int = Field(description="Points near the floor that agree with no surface: legs, lower walls, strays")
    cells: int = Field(description="Cells that the room was divided into")
    cell: float = Field(description="Length of a cell's side")
    split_cells: int = Field(description="Cells with more than one reading, for the floor steps up or down in them")
    empty_cells: int = Field(description="Cells without a reading")
    empty_area: float = Field(description="Area of the room in those cells")
    empty: list[Point] = Field(description="The middles of those cells: where to read by hand")
    spacing: float = Field(description="Mean distance from point to point")
    noise: float = Field(description="Standard deviation of a single point about the floor")
    stage: ReadingStage = Field(description="What was scanned: every reading is of it")
    unit: ScanUnit
    unit_from: Literal["chosen", "size", "two_points"] = Field(description="Why that unit")
    unit_doubtful: bool = Field(description="Another unit would have fitted nearly as well: a person must look")
    scan_size: Point = Field(description="Width and depth of the scan's bulk, in that unit taken to mm")
    room_size: Point = Field(description="Width and depth of the outline")
    shift: Point = Field(description="What was added to the scan's places, after the turn")
    turn: float = Field(description="By how much the scan was turned to the left")
    two_points_off: float | None = Field(
        description="With two points: by how much their distance in the scan is longer than in the room"
    )


class FlatPlace(Reply):
    """A straightedge where it lies worst, by the scan. Places are of the room, lengths mm."""

    start: Point = Field(description="One end of the straightedge")
    end: Point = Field(description="The other end")
    at: Point = Field(description="Where it stands open most, or where the hump is highest")
    rests: list[Point] = Field(min_length=2, max_length=2, description="Where it rests, or the feet of the hump")
    gap: float = Field(description="How far it stands open there, or how high the hump is")
    sigma: float = Field(description="Standard error of that, from the scatter of the points alone")


class FlatCheck(Reply):
    """One length of straightedge over the whole scanned bed, against one limit. Lengths are mm."""

    length: float = Field(description="Length of the straightedge")
    limit: float = Field(description="Most that may stand open under it")
    code: str = Field(description="What the limit rests on, from the engine's closed set")
    decides: bool = Field(description="False for a mere note: the F-numbers decide")
    gap: FlatPlace | None = Field(description="Worst place under it; null where nothing stands open")
    hump: FlatPlace | None = Field(description="Worst hump that it rocks on; null where there is none")
    beyond_share: float = Field(description="Share of the read bed under a gap, or on a hump, beyond the limit")
    judged_share: float = Field(description="Share of the bed where there is a height")
    spacing: float = Field(description="From one height to the next: what is narrower is averaged")
    noise_gap: float = Field(description="The worst that scatter of the points alone would show on a true plane")
    verdict: FlatVerdict
    sure: bool = Field(description="False where scatter alone could turn the verdict")


class FlatNumbers(Reply):
    """F-numbers along lines both ways through the scanned bed, heights 300 mm apart, by ASTM E1155M."""

    ff: float
    fl: float | None = Field(description="Null where no line is long enough; tells nothing of a bed that is to fall")
    lines: int
    heights: int


class ScanFlatness(Reply):
    """How flat the scanned bed is, from all points rather than from the readings made of them."""

    standard: Standard = Field(description="Whose limits hold")
    verdict: FlatVerdict | None = Field(description="The worst of the checks that decide; null where none does")
    checks: list[FlatCheck] = Field(description="The long straightedge first")
    f_numbers: FlatNumbers | None = Field(description="Null where no line is long enough")


class ScanReply(Reply):
    """The clean set of readings, row by row from the low-left corner, the same whatever the order of the points."""

    readings: list[ScanReading] = Field(max_length=MOST_READINGS)
    report: ScanReport
    flatness: ScanFlatness | None = Field(None, description="Of a scan of the finished bed; null for a subfloor")


ScanFault = Literal[
    "scan_empty",
    "scan_packed",
    "scan_not_text",
    "scan_header",
    "scan_no_places",
    "scan_short",
    "scan_long",
    "scan_not_a_number",
    "scan_few_columns",
    "scan_long_line",
    "scan_many_points",
    "scan_points_one",
    "scan_no_floor",
]


class ScanItem(ProblemItem):
    """What is wrong with a scan; `path` is `line 17` or `point 17` where there is such a place."""

    code: ScanFault
