"""Small shapes shared by the records: numbers, texts, moments, points and the parts of a room's drawing.

They say whether a value can be kept and read back. Whether it makes sense (a wall that crosses another, a bed too
thin) is the engine's judgement: a half-drawn room must be savable too, so parts may be missing and extra names stay.
"""

import re
from datetime import datetime
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field

from evenbed.wire.protocol import LONGEST_ID, LONGEST_NAME, LONGEST_TEXT

MOST_ENTRIES = 2_000
MOST_LIES = 100_000
MOST_LIMITS = 20
MOST_PHOTO_BYTES = 4_000_000
MOST_PHOTO_PIXELS = 8_192
DEEPEST = 20
"""Lists and objects within each other. What could not be sent on to every phone must not be taken from one."""
UUID_PATTERN = r"^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$"
_UUID = re.compile(UUID_PATTERN)
_NESTED = (dict, list)


def is_uuid(text: str) -> bool:
    """True for a UUID in lower-case letters with hyphens."""
    return _UUID.fullmatch(text) is not None


def is_deeper(value: object, most: int = DEEPEST) -> bool:
    """True where lists and objects stand within each other more than `most` deep."""
    if not isinstance(value, _NESTED):
        return False
    parts = value.values() if isinstance(value, dict) else value
    return most == 0 or any(is_deeper(part, most - 1) for part in parts)


def check_moment(text: str) -> str:
    """The same text, if it is ISO 8601 with an offset from UTC. Raises ValueError otherwise."""
    if not text.isprintable():  # any character would do between day and hour
        raise ValueError("a time is written in characters that can be seen")
    if datetime.fromisoformat(text).tzinfo is None:
        raise ValueError("a time needs its offset from UTC, such as 2026-05-04T08:30:00-05:00")
    return text


def whole_from(value: object) -> object:
    """The same, a whole number told with a point (`4.0`) as the integer it is to JSON Schema."""
    return int(value) if isinstance(value, float) and value.is_integer() else value


WHOLE = BeforeValidator(whole_from)
"""To be told last, or the limits before it are lost from the description."""
Number = Annotated[float, Field(allow_inf_nan=False, ge=-1e12, le=1e12)]
Latitude = Annotated[float, Field(allow_inf_nan=False, ge=-90, le=90)]
Longitude = Annotated[float, Field(allow_inf_nan=False, ge=-180, le=180)]
Text = Annotated[str, Field(max_length=LONGEST_TEXT)]
Name = Annotated[str, Field(max_length=LONGEST_NAME)]
LocalId = Annotated[str, Field(max_length=LONGEST_ID)]
Uuid = Annotated[str, Field(pattern=UUID_PATTERN)]
Moment = Annotated[str, Field(max_length=40, json_schema_extra={"format": "date-time"}), AfterValidator(check_moment)]
Typed = Annotated[dict[Name, Text], Field(max_length=MOST_ENTRIES)]
"""What was typed (`3 5/16 in`), by the name of the field it became."""
Sha256 = Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
PhotoType = Literal["image/jpeg", "image/png", "image/webp"]
Standard = Literal[
    "ansi_a108_02",
    "bs_8204_sr1",
    "bs_8204_sr2",
    "bs_8204_sr3",
    "din_18202_2",
    "din_18202_3",
    "din_18202_4",
    "aci_117_20_15",
    "aci_117_25_20",
    "aci_117_35_25",
    "aci_117_45_35",
    "aci_117_60_40",
    "own",
]
"""The rule that a bed's flatness is held against."""
Point = Annotated[list[Number], Field(min_length=2, max_length=2)]
Place = Annotated[list[Number], Field(min_length=3, max_length=3)]
Line = Annotated[list[Point], Field(min_length=2, max_length=2)]
"""From one end to the other."""
Corners = Annotated[list[Point], Field(max_length=MOST_ENTRIES)]


class Fields(BaseModel):
    """What the fields of all kinds share. Unknown names are refused, never dropped."""

    model_config = ConfigDict(strict=True, extra="forbid")

    deleted: bool = False


class Part(BaseModel):
    """A part of a room's drawing: known names are checked, others are kept as they come."""

    model_config = ConfigDict(strict=True, extra="allow")


class WallPart(Part):
    """A wall as taped: its length in mm and the turn to the left after it in degrees."""

    length: Number | None = None
    turn: Number | None = None


class OutlinePart(Part):
    """The room's figure, by corners or by walls, and the areas without a bed."""

    vertices: Corners | None = None
    walls: Annotated[list[WallPart], Field(max_length=MOST_ENTRIES)] | None = None
    cutouts: Annotated[list[Corners], Field(max_length=MOST_ENTRIES)] | None = None


class OpeningPart(Part):
    """A doorway: `from` and `to` in mm along a wall."""

    id: LocalId | None = None
    wall: int | None = None
    from_: Number | None = Field(default=None, alias="from")
    to: Number | None = None
    adjoining_height: Number | None = None
    exit: bool | None = None
    door_bottom: Number | None = None


class FixturePart(Part):
    """A drain, flange or post; a linear drain runs from `at` to `to`."""

    id: LocalId | None = None
    kind: LocalId | None = None
    at: Point | None = None
    to: Point | None = None
    radius: Number | None = None
    height: Number | None = None


class SetupPart(Part):
    """One standing of the instrument; `sigma` in mm, `sigma_per_metre` in mm for each metre of sight."""

    id: LocalId | None = None
    name: Text | None = None
    kind: LocalId | None = None
    sigma: Number | None = None
    sigma_per_metre: Number | None = None
    instrument: LocalId | None = None
    at: Point | None = None
    line_height: Number | None = None


class InstrumentPart(Part):
    """An instrument as the crew calls it, with what it is good for."""

    id: LocalId | None = None
    name: Text | None = None
    kind: LocalId | None = None
    sigma: Number | None = None
    sigma_per_metre: Number | None = None


class InstrumentCheckPart(Part):
    """A test of an instrument: what was read, and whether later readings are corrected by what it found."""

    id: LocalId | None = None
    kind: LocalId | None = None
    instrument: LocalId | None = None
    at: Moment | None = None
    accepted: bool | None = None
    first: Point | None = None
    second: Point | None = None
    sights: Point | None = None
    off: Number | None = None
    reversed_off: Number | None = None
    length: Number | None = None
    offset: Number | None = None


class MarkPart(Part):
    """A mark, with its height in mm where it is known."""

    id: LocalId | None = None
    name: Text | None = None
    height: Number | None = None


class HeldPart(Part):
    """One place where the finished floor is held, between two heights or at what is there."""

    opening: LocalId | None = None
    fixture: LocalId | None = None
    at: Point | None = None
    low: Number | None = None
    high: Number | None = None


class TopPart(Part):
    """How the top of bed is chosen: level, through points, of the least mortar, to a drain, or two levels."""

    kind: LocalId | None = None
    height: Number | None = None
    through: Annotated[list[Place], Field(max_length=MOST_ENTRIES)] | None = None
    holds: Annotated[list[HeldPart], Field(max_length=MOST_ENTRIES)] | None = None
    largest_fall: Number | None = None
    drain: LocalId | None = None
    fall: Number | None = None
    perimeter: Number | None = None
    line: Line | None = None
    left: Number | None = None
    right: Number | None = None
    ramp: Number | None = None


class StripsPart(Part):
    """Strips of one length and thickness that are on hand; mm."""

    thickness: Number | None = None
    length: Number | None = None
    count: int | None = None
    width: Number | None = None


class GapLimitPart(Part):
    """The most that may stand open under a straightedge of one length; mm."""

    length: Number | None = None
    gap: Number | None = None


class RailLinePart(Part):
    """A rail's line as a person placed it."""

    id: LocalId | None = None
    from_: Point | None = Field(default=None, alias="from")
    to: Point | None = None


class MilestonePart(Part):
    """A changed need: hours of equivalent age before something may happen on the bed."""

    milestone: LocalId | None = None
    needs: Number | None = None
