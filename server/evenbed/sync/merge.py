"""Merging a change into a record, field by field.

A device that had seen a field's value may replace it, whatever the clocks say: it knew better. Where two devices
edited the same field without having seen each other, the later edit stands by corrected time, even if it arrives
first; at the very same time, the one that arrives later stands. The other value stays in the history and in the
record's conflicts, until somebody who has seen both sets the field again, to whichever value.

An edit counts as no earlier than any value it knowingly replaced, so that a chain of edits never loses to a value
that one of them had already replaced.

What a device has seen is what its service's number says and, of edits read out of a file, what the file says
(`knowledge`).
"""

import json
from dataclasses import replace

from pydantic import JsonValue

from evenbed.sync.model import Conflict, Edit, Effect, Record, Stamp

UNASKED = frozenset({"typed", "set_at"})
"""Fields that repeat others as they were typed, or tell when they were set: nobody is asked to decide a second time.
History has them."""


def merge(record: Record | None, edit: Edit) -> tuple[Record, Effect]:
    """The record after the edit, and what the edit did. `record` is None where the edit is its first."""
    if record is None:
        return _first(edit), Effect()
    concurrent = tuple(name for name in edit.fields if _is_concurrent(record, edit, name))
    overruled = tuple(name for name in concurrent if edit.at < record.stamps[name].at)
    standing = [name for name in edit.fields if name not in overruled]
    replaced = {n: record.fields[n] for n in standing if n in record.fields and _differs(record, edit, n)}
    effect = Effect(replaced, concurrent, overruled)
    merged = _merged(record, edit, standing)
    return replace(merged, conflicts=_conflicts(record, edit, effect, merged)), effect


def _first(edit: Edit) -> Record:
    author = edit.author
    stamp = Stamp(edit.sequence, author.device_id, author.person, edit.at)
    return Record(
        kind=edit.kind,
        id=edit.record_id,
        job_id=edit.job_id,
        owner_id=author.person_id,
        fields=edit.fields,
        stamps=dict.fromkeys(edit.fields, stamp),
        sequence=edit.sequence,
        created_by=author.person,
        changed_by=author.person,
        changed_at=edit.at,
    )


def _is_concurrent(record: Record, edit: Edit, name: str) -> bool:
    stamp = record.stamps.get(name)
    return stamp is not None and not _had_seen(edit, stamp) and _differs(record, edit, name)


def _had_seen(edit: Edit, stamp: Stamp) -> bool:
    return stamp.device_id == edit.author.device_id or knows(edit, stamp.sequence)


def knows(edit: Edit, sequence: int) -> bool:
    """True where the editor had seen the record's change with this number."""
    return sequence <= seen_by(edit) or sequence in edit.knew


def seen_by(edit: Edit) -> int:
    """The number up to which the editor knew. One not given yet comes from another database: it proves nothing."""
    return edit.seen if edit.seen < edit.sequence else 0


def _differs(record: Record, edit: Edit, name: str) -> bool:
    return _is_other(record.fields[name], edit.fields[name])


def _is_other(one: JsonValue, another: JsonValue) -> bool:
    """Compared as JSON: to Python 1 equals true, to the person who typed it it does not."""
    return json.dumps(one, sort_keys=True) != json.dumps(another, sort_keys=True)


def _merged(record: Record, edit: Edit, standing: list[str]) -> Record:
    if not standing:
        return replace(record, sequence=edit.sequence)
    return replace(
        record,
        fields={**record.fields, **{name: edit.fields[name] for name in standing}},
        stamps={**record.stamps, **{name: _stamp(record.stamps.get(name), edit) for name in standing}},
        sequence=edit.sequence,
        changed_by=edit.author.person,
        changed_at=max(edit.at, record.changed_at),
    )


def _stamp(before: Stamp | None, edit: Edit) -> Stamp:
    at = edit.at if before is None else max(edit.at, before.at)
    return Stamp(edit.sequence, edit.author.device_id, edit.author.person, at)


def _conflicts(record: Record, edit: Edit, effect: Effect, merged: Record) -> dict[str, tuple[Conflict, ...]]:
    """By field, what waits for a decision after the edit; a value that stands after all lost nothing."""
    after = dict(record.conflicts)
    for name in edit.fields:
        undecided = _undecided(record, edit, effect, name)
        after[name] = tuple(lost for lost in undecided if _is_other(lost.value, merged.fields[name]))
    return {name: lost for name, lost in after.items() if lost}


def _undecided(record: Record, edit: Edit, effect: Effect, name: str) -> list[Conflict]:
    """What still waits for a decision on a field: not what the editor had seen, nor what was their own."""
    device = edit.author.device_id
    before = [c for c in record.conflicts.get(name, ()) if not knows(edit, c.sequence) and c.device_id != device]
    if name not in effect.concurrent or name in UNASKED:
        return before
    return [*before, _loser(record, edit, name, is_edit=name in effect.overruled)]


def _loser(record: Record, edit: Edit, name: str, *, is_edit: bool) -> Conflict:
    if is_edit:
        return Conflict(edit.fields[name], edit.author.person, edit.author.device_id, edit.at, edit.sequence)
    stamp = record.stamps[name]
    return Conflict(record.fields[name], stamp.person, stamp.device_id, stamp.at, edit.sequence)
