"""What the rules work on: records with a stamp on every field, and the log from which they can be made again."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Literal

from pydantic import JsonValue

from evenbed.wire.exchange import FieldValues
from evenbed.wire.refusals import Reason

Outcome = Literal["applied", "already_applied", "refused"]


@dataclass(frozen=True)
class Author:
    """Who makes a change, and on which device. `person` is the name they went by at the time."""

    device_id: str
    person_id: str
    person: str


@dataclass(frozen=True)
class Origin:
    """Where a change out of a file was made: when, by whom, on which device, as far as the file says; and, by their
    ids, what its maker knew of the record (see `knowledge`)."""

    at: datetime
    person: str | None = None
    device_id: str | None = None
    device_name: str | None = None
    knew: tuple[str, ...] = ()


@dataclass(frozen=True)
class Stamp:
    """Where a field's value comes from: the change's number at the service, who made it where, its corrected time."""

    sequence: int
    device_id: str
    person: str
    at: datetime


@dataclass(frozen=True)
class Conflict:
    """A value that lost against another made without knowing of it; `sequence` is when the two came together."""

    value: JsonValue
    person: str
    device_id: str
    at: datetime
    sequence: int


@dataclass(frozen=True)
class Record:
    """A record as it stands. `sequence` is that of its newest change, standing or not.

    `job_id` is the job it belongs to for good (a job's own id); `owner_id` the person who made it; `conflicts` hold,
    by field, what lost and waits for somebody to decide.
    """

    kind: str
    id: str
    job_id: str
    owner_id: str
    fields: FieldValues
    stamps: Mapping[str, Stamp]
    sequence: int
    created_by: str
    changed_by: str
    changed_at: datetime
    conflicts: Mapping[str, tuple[Conflict, ...]] = field(default_factory=dict)


@dataclass(frozen=True)
class Effect:
    """What one change did to a record.

    `replaced` holds the values whose place it took; `concurrent` the fields where it and the value it met were made
    without knowing of each other; `overruled` those among them where the value it met was the later edit and stayed.
    """

    replaced: FieldValues = field(default_factory=dict)
    concurrent: tuple[str, ...] = ()
    overruled: tuple[str, ...] = ()


NO_EFFECT = Effect()


@dataclass(frozen=True)
class Edit:
    """A change ready to be merged: numbered by the service, its time corrected, its job known.

    `author` is who made it. `knew` are numbers of the record's changes that they had seen beside those up to `seen`.
    """

    sequence: int
    author: Author
    at: datetime
    kind: str
    record_id: str
    job_id: str
    fields: FieldValues
    seen: int
    knew: frozenset[int] = frozenset()


@dataclass(frozen=True)
class Refusal:
    """Why a change was not applied."""

    reason: Reason
    message: str


@dataclass(frozen=True)
class Entry:
    """One change as the log keeps it for ever, applied or not. `sequence` is None unless it was applied.

    `author` is who sent it. Where it came out of a file, `origin` says who made it, and `at` is when.
    """

    change_id: str
    number: int
    outcome: Outcome
    author: Author
    kind: str
    record_id: str
    fields: FieldValues
    seen: int
    schema: int
    device_time: str
    at: datetime
    received_at: datetime
    sequence: int | None = None
    effect: Effect = NO_EFFECT
    refusal: Refusal | None = None
    origin: Origin | None = None

    @property
    def maker(self) -> Author:
        """Who made it where, as far as that is known; for what they may do it counts who sent it."""
        return maker_of(self.author, self.origin)


def maker_of(author: Author, origin: Origin | None) -> Author:
    """Who made a change that this author sent."""
    if origin is None:
        return author
    return Author(origin.device_id or author.device_id, author.person_id, origin.person or author.person)
