"""Requests and replies of joining, pushing, pulling and looking back."""

from typing import Annotated, Literal, get_args

from pydantic import BaseModel, ConfigDict, Field, JsonValue

from evenbed.wire.protocol import LONGEST_ID, LONGEST_NAME, MOST_CHANGES, MOST_KNEW, PROTOCOL
from evenbed.wire.records import Kind
from evenbed.wire.refusals import Reason
from evenbed.wire.values import WHOLE, Moment, Uuid

Version = Annotated[int, Field(ge=1, le=1_000_000), WHOLE]
Count = Annotated[int, Field(ge=0, le=2**53), WHOLE]
Numbered = Annotated[int, Field(ge=1, le=2**53), WHOLE]
EnvelopeText = Annotated[str, Field(max_length=LONGEST_ID, pattern=r"^[^\x00-\x1f\x7f]*$")]
SpokenName = Annotated[
    str,
    Field(min_length=1, max_length=LONGEST_NAME, pattern=r"^[^\x00-\x1f\x7f]*[^\x00-\x20\x7f][^\x00-\x1f\x7f]*$"),
]
"""On one line, and not all blanks."""
Role = Literal["foreman", "setter", "viewer"]
"""A foreman sees and decides everything; a setter works on the jobs assigned; a viewer looks at them."""
FieldValues = dict[str, JsonValue]


class Request(BaseModel):
    """What comes in: strict types, and extra names are let through so that newer phones can say more."""

    model_config = ConfigDict(strict=True, extra="ignore", frozen=True)


class Reply(BaseModel):
    """What goes out."""

    model_config = ConfigDict(frozen=True)


class JoinRequest(Request):
    """A device asks to join with the code it was given."""

    code: str = Field(min_length=1, max_length=100)
    device_id: Uuid
    device_name: SpokenName
    person: SpokenName | None = Field(
        default=None, description="Needed where the code does not say who it is for: `name_needed`"
    )


class JoinReply(Reply):
    """The device has joined; `token` is shown this once."""

    device_id: str
    person_id: str
    person: str
    role: Role
    database: str = Field(description="Random identity of the database; changes when it is restored from a backup")
    protocol: int = PROTOCOL
    token: str
    server_time: Moment


class SessionReply(Reply):
    """Who this device is to the service."""

    device_id: str
    device_name: str
    person_id: str
    person: str
    role: Role
    view: int = Field(description="Changes whenever the jobs that this person sees change")
    database: str
    protocol: int = PROTOCOL
    server_time: Moment


class Origin(Request):
    """Where a change comes from that a device read out of a file: it was made by somebody else, or long ago."""

    at: Moment = Field(description="When the edit was made, the device's clock corrected")
    person: SpokenName | None = Field(default=None, description="Who made it; null where the file does not say")
    device_id: Uuid | None = Field(default=None, description="Where it was made; null where the file does not say")
    device_name: SpokenName | None = None
    knew: list[Uuid] = Field(
        default=[],
        max_length=MOST_KNEW,
        description="What its maker had seen of the record: of each device that had edited it, the last change known",
    )


class Change(Request):
    """One edit: small, complete in itself, never edited. It is judged alone, and refused with a reason."""

    change_id: Uuid
    number: Numbered = Field(description="The device's own count: 1, 2, 3 ...")
    kind: EnvelopeText = Field(description=f"One of {', '.join(get_args(Kind))}")
    record_id: EnvelopeText
    fields: FieldValues
    seen: Count = Field(description="The service's number this device had seen when the edit was made")
    device_time: Moment = Field(description="The device's own clock when the edit was made")
    schema_: Version = Field(alias="schema", description="Version of what the fields mean")
    origin: Origin | None = Field(default=None, description="For a change that was read out of a file")


class PushRequest(Request):
    """Changes in the order of their numbers, and what the device's clock says now."""

    protocol: Version
    changes: list[Change] = Field(max_length=MOST_CHANGES)
    device_time: Moment


class PushResult(Reply):
    """What became of one change. `sequence` is the service's number, null where it was refused."""

    number: int
    change_id: str
    outcome: Literal["applied", "already_applied", "refused"]
    reason: Reason | None = None
    message: str | None = None
    sequence: int | None = None


class PushReply(Reply):
    """Everything up to here is stored for good."""

    database: str
    server_time: Moment
    latest: int
    results: list[PushResult]


class Conflict(Reply):
    """A value that lost against another made without knowing of it. An edit that has seen `sequence` closes it."""

    value: JsonValue
    person: str
    device_id: str
    at: Moment = Field(description="When that edit was made, the device's clock corrected")
    sequence: int = Field(description="The service's number of the change that brought the two together")


class PulledRecord(Reply):
    """A record as it stands; `sequence` is that of its newest change."""

    kind: Kind
    id: str
    fields: FieldValues
    sequence: int
    created_by: str
    changed_by: str
    changed_at: Moment
    times: dict[str, Moment] = Field(
        default_factory=dict,
        description="By field: when it was set, where that was before `changed_at`; every other one was set then. A "
        "service of an earlier version does not tell",
    )
    conflicts: dict[str, list[Conflict]] = Field(
        description="By field: what lost against the value that stands, until somebody who saw both decides"
    )


class PullReply(Reply):
    """One page of what changed after a number. Ask again after `next` while `more` is true."""

    database: str
    protocol: int = PROTOCOL
    server_time: Moment
    latest: int
    view: int = Field(
        description="The jobs this person sees. Where it differs from the one asked for, this page is the first of a "
        "snapshot: at its end, drop every stored record that did not come with it"
    )
    more: bool
    next: int
    records: list[PulledRecord]


class Bringer(Reply):
    """Who brought a change in a file, and on which device."""

    person: str
    device_id: str
    device_name: str


class HistoryEntry(Reply):
    """One change of a record: what it said, what it replaced, and what else was going on."""

    sequence: int
    change_id: str
    person: str
    device_id: str
    device_name: str
    at: Moment = Field(description="When the edit was made, the device's clock corrected")
    fields: FieldValues
    replaced: FieldValues = Field(description="The values that stood before, where this change took their place")
    concurrent: list[str] = Field(
        description="Fields where this change and the value it met were made without knowing of each other"
    )
    overruled: list[str] = Field(
        description="Those among `concurrent` where the value it met was the later edit and stayed"
    )
    brought_by: Bringer | None = Field(default=None, description="Who brought it in a file; null where nobody did")


class JobChange(Reply):
    """One change of a job's records as it was sent, with what a file needs to tell of it."""

    sequence: int
    change_id: str
    kind: Kind
    record_id: str
    fields: FieldValues
    schema_: int = Field(alias="schema", description="Version of what the fields mean")
    at: Moment = Field(description="When the edit was made, the device's clock corrected")
    person: str
    device_id: str
    device_name: str
    knew: list[str] = Field(
        description="What its maker had seen of the record: of every device that had edited it, the last change known"
    )
    overruled: list[str] = Field(description="Fields where the value it met was the later edit and stayed")
    brought_by: Bringer | None = Field(default=None, description="Who brought it in a file; null where nobody did")


class JobHistoryReply(Reply):
    """A page of the changes of a job's records. Ask again after `next` while `more` is true."""

    database: str
    latest: int
    more: bool
    next: int
    changes: list[JobChange]


class HistoryReply(Reply):
    """Every change of one record, oldest first."""

    entries: list[HistoryEntry]


class LatestEvent(Reply):
    """There is something to pull."""

    latest: int
    view: int


class HealthReply(Reply):
    """The service is up and its database answers."""

    status: Literal["ok"] = "ok"
    protocol: int = PROTOCOL
    version: str
    database: str
