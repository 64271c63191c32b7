"""Records of work on the floor: sections, batches, stations, levels on rails, the day book."""

from typing import Annotated, Literal

from pydantic import Field

from evenbed.wire.values import MOST_LIES, Fields, LocalId, Moment, Name, Number, Point, Text, Typed, Uuid


class PlacementFields(Fields):
    """One section's mortar: when it was mixed, in place, cut off, and its channels packed."""

    room_id: Uuid
    section: LocalId | None = None
    at: Point | None = Field(None, description="A place in the section: ids change with the rails, places do not")
    mixed_at: Moment | None = None
    placed_at: Moment | None = None
    screeded_at: Moment | None = None
    channels_at: Moment | None = None


class BatchFields(Fields):
    """One batch from the mixer. `size` is 1 for a full one."""

    room_id: Uuid
    mixed_at: Moment
    section: LocalId | None = None
    at: Point | None = Field(None, description="A place in the section: ids change with the rails, places do not")
    placed_at: Moment | None = None
    thrown_at: Moment | None = None
    size: Number | None = None


class StationFields(Fields):
    """A station that was set: where it stands and how high its ramp was then, mm."""

    room_id: Uuid
    rail: LocalId
    at: Point
    shim: Number
    set_at: Moment | None = None


class RailCheckFields(Fields):
    """What a level showed on one rail, or across two (`rail` and `rail_to`). mm, + where the `to` end is high."""

    room_id: Uuid
    rail: LocalId
    off: Number
    rail_to: LocalId | None = None
    from_: Number | None = Field(None, alias="from")
    to: Number | None = None
    length: Number | None = None
    reversed_off: Number | None = None
    level: LocalId | None = None
    typed: Text | Typed | None = None
    taken_at: Moment | None = None


EntryWhat = Literal[
    "trued", "stopped", "helper", "note", "habit", "habit_off", "form", "milestone", "rubbed", "filled_up"
]


class EntryFields(Fields):
    """A line of the room's day book.

    `trued`: a rail bedded anew, the ends of the `lie`-th lie of its strip moved by `from_raise` and `to_raise` mm, of
    the whole rail where there is no `lie`. `stopped` and `helper`: from `at` until `until`. `note`: a text. `habit`
    and `habit_off`: a habit of the trade, by `code`, done or silenced. `form`: a form set at the edge `code`.
    `milestone`: the bed was looked at (`how`) by somebody (`by`) and let pass the milestone `code`. `rubbed` and
    `filled_up`: the bed was worked over at `place`.
    """

    room_id: Uuid
    what: EntryWhat
    at: Moment
    until: Moment | None = None
    rail: LocalId | None = None
    from_raise: Number | None = None
    to_raise: Number | None = None
    lie: Annotated[int, Field(ge=1, le=MOST_LIES)] | None = None
    section: LocalId | None = None
    code: LocalId | None = None
    place: Point | None = None
    by: Name | None = None
    how: LocalId | None = None
    text: Text | None = None
