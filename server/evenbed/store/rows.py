"""From rows to what sync works on, and back."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any, cast

from sqlalchemy import Row
from sqlmodel import col

from evenbed.store.tables import ChangeRow, RecordRow
from evenbed.store.times import moment_from_text, text_from_moment
from evenbed.sync.model import Author, Conflict, Effect, Entry, Origin, Outcome, Record, Refusal, Stamp
from evenbed.wire.exchange import FieldValues
from evenbed.wire.records import Kind
from evenbed.wire.refusals import Reason


def change_values_from(entry: Entry) -> dict[str, Any]:
    """The log's row of an entry, by column."""
    return {
        "device_id": entry.author.device_id,
        "number": entry.number,
        "change_id": entry.change_id,
        "sequence": entry.sequence,
        "outcome": entry.outcome,
        "person_id": entry.author.person_id,
        "person": entry.author.person,
        "kind": entry.kind,
        "record_id": entry.record_id,
        "fields": entry.fields,
        "seen": entry.seen,
        "schema_version": entry.schema,
        "device_time": entry.device_time,
        "at": text_from_moment(entry.at),
        "received_at": text_from_moment(entry.received_at),
        "replaced": entry.effect.replaced,
        "concurrent": list(entry.effect.concurrent),
        "overruled": list(entry.effect.overruled),
        "reason": entry.refusal.reason.value if entry.refusal else None,
        "message": entry.refusal.message if entry.refusal else None,
        "origin": _json_from_origin(entry.origin) if entry.origin else None,
    }


def entry_from(row: ChangeRow | Row[Any]) -> Entry:
    """The entry of a log's row."""
    return Entry(
        change_id=row.change_id,
        number=row.number,
        outcome=cast("Outcome", row.outcome),
        author=Author(row.device_id, row.person_id, row.person),
        kind=row.kind,
        record_id=row.record_id,
        fields=row.fields,
        seen=row.seen,
        schema=row.schema_version,
        device_time=row.device_time,
        at=moment_from_text(row.at),
        received_at=moment_from_text(row.received_at),
        sequence=row.sequence,
        effect=Effect(row.replaced, tuple(row.concurrent), tuple(row.overruled)),
        refusal=Refusal(Reason(row.reason), row.message or "") if row.reason else None,
        origin=_origin_from_json(row.origin) if row.origin else None,
    )


def _json_from_origin(origin: Origin) -> dict[str, Any]:
    return asdict(origin) | {"at": text_from_moment(origin.at), "knew": list(origin.knew)}


def _origin_from_json(value: dict[str, Any]) -> Origin:
    return Origin(**(value | {"at": moment_from_text(value["at"]), "knew": tuple(value["knew"])}))


def record_values_from(record: Record) -> dict[str, Any]:
    """The row of a record, by column."""
    return {
        "kind": record.kind,
        "id": record.id,
        "job_id": record.job_id,
        "owner_id": record.owner_id,
        "sequence": record.sequence,
        "fields": record.fields,
        "stamps": {name: _json_from_stamp(stamp) for name, stamp in record.stamps.items()},
        "conflicts": {name: [_json_from_conflict(one) for one in lost] for name, lost in record.conflicts.items()},
        "created_by": record.created_by,
        "changed_by": record.changed_by,
        "changed_at": text_from_moment(record.changed_at),
        "photo_hash": str(record.fields["hash"]) if record.kind == "photo" else None,
    }


def record_from(row: RecordRow | Row[Any]) -> Record:
    """The record of a row."""
    return Record(
        kind=row.kind,
        id=row.id,
        job_id=row.job_id,
        owner_id=row.owner_id,
        fields=row.fields,
        stamps={name: _stamp_from_json(value) for name, value in row.stamps.items()},
        sequence=row.sequence,
        created_by=row.created_by,
        changed_by=row.changed_by,
        changed_at=moment_from_text(row.changed_at),
        conflicts=_conflicts_from_json(row.conflicts),
    )


@dataclass(frozen=True)
class Shown:
    """A record as people see it: without who set each field, which only merging needs.

    `times` say when a field was set, of those alone that were set before the record's newest change.
    """

    kind: Kind
    id: str
    fields: FieldValues
    sequence: int
    created_by: str
    changed_by: str
    changed_at: datetime
    times: Mapping[str, datetime]
    conflicts: Mapping[str, tuple[Conflict, ...]]


SHOWN = (
    col(RecordRow.kind),
    col(RecordRow.id),
    col(RecordRow.fields),
    col(RecordRow.sequence),
    col(RecordRow.created_by),
    col(RecordRow.changed_by),
    col(RecordRow.changed_at),
    col(RecordRow.stamps),
    col(RecordRow.conflicts),
)
"""What must be read for it."""


def shown_from(row: Row[Any]) -> Shown:
    """The record of a row of those columns."""
    return Shown(
        kind=row.kind,
        id=row.id,
        fields=row.fields,
        sequence=row.sequence,
        created_by=row.created_by,
        changed_by=row.changed_by,
        changed_at=moment_from_text(row.changed_at),
        times={name: moment_from_text(at) for name, (*_who, at) in row.stamps.items() if at != row.changed_at},
        conflicts=_conflicts_from_json(row.conflicts),
    )


def _conflicts_from_json(value: dict[str, list[dict[str, Any]]]) -> dict[str, tuple[Conflict, ...]]:
    return {name: tuple(_conflict_from_json(one) for one in lost) for name, lost in value.items()}


def _json_from_stamp(stamp: Stamp) -> list[Any]:
    return [stamp.sequence, stamp.device_id, stamp.person, text_from_moment(stamp.at)]


def _stamp_from_json(value: list[Any]) -> Stamp:
    sequence, device_id, person, at = value
    return Stamp(sequence, device_id, person, moment_from_text(at))


def _json_from_conflict(conflict: Conflict) -> dict[str, Any]:
    return asdict(conflict) | {"at": text_from_moment(conflict.at)}


def _conflict_from_json(value: dict[str, Any]) -> Conflict:
    return Conflict(**(value | {"at": moment_from_text(value["at"])}))
