"""Records of the finished bed: what was measured on it, the temperatures it hardened at, and what somebody signed."""

from typing import Annotated, Literal

from pydantic import Field

from evenbed.wire.values import MOST_ENTRIES, Fields, Moment, Name, Number, Point, Sha256, Text, Typed, Uuid

MOST_LOGGED = 20_000
MOST_COPY = 2_000_000
"""Characters of a signed copy."""


class GapFields(Fields):
    """What a wedge showed under a straightedge on the bed: from one end to the other, mm."""

    room_id: Uuid
    from_: Point = Field(alias="from")
    to: Point
    gap: Number
    at: Point | None = None
    passed_over: bool | None = Field(
        None, description="The straightedge was passed over the whole bed: the worst it showed"
    )
    typed: Typed | None = None
    taken_at: Moment | None = None


class HeightLineFields(Fields):
    """Heights along a straight line over the bed, equally far apart, mm."""

    room_id: Uuid
    heights: Annotated[list[Number], Field(max_length=MOST_ENTRIES)]
    spacing: Number | None = None
    from_: Point | None = Field(None, alias="from")
    to: Point | None = None
    typed: Typed | None = None
    taken_at: Moment | None = None


class TemperatureLogFields(Fields):
    """What a logger wrote: seconds after `start`, rising, and °C at each."""

    room_id: Uuid
    start: Moment
    seconds: Annotated[list[Number], Field(max_length=MOST_LOGGED)]
    celsius: Annotated[list[Number], Field(max_length=MOST_LOGGED)]
    where: Literal["bed", "air"] | None = None
    name: Name | None = None


class ForecastDayFields(Fields):
    """A day foretold where the job is: its low and high in °C, each at its time; %, km/h. The later record holds."""

    job_id: Uuid
    low: Number
    high: Number
    low_at: Moment
    high_at: Moment
    humidity: Number | None = None
    wind: Number | None = None
    source: Name | None = Field(None, description="Where it is from; null: somebody typed it")


class SignOffFields(Fields):
    """A room signed off: who, when, and a dated copy of what was signed, with the hashes of engine and input."""

    room_id: Uuid
    at: Moment
    by: Name
    engine: Name
    engine_hash: Sha256
    inputs_hash: Sha256
    copy_: Annotated[str, Field(max_length=MOST_COPY)] = Field(
        alias="copy", description="JSON: the document, and what the engine answered to it"
    )
    note: Text | None = None
