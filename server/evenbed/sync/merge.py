"""Merging a change into a record, field by field.

A device that had seen a field's value may replace it, whatever the clocks say: it knew better. Where two devices
edited the same field without having seen each other, the later edit stands by corrected time, even if it arrives
first; at the very same time, the one that arrives later stands. The other value stays in the history, listed as
concurrent, and either can be restored by another change.

An edit counts as no earlier than any value it knowingly replaced, so that a chain of edits never loses to a value
that one of them had already replaced.
"""

import json
from dataclasses import replace

from evenbed.sync.model import Edit, Effect, Record, Stamp


def merge(record: Record | None, edit: Edit) -> tuple[Record, Effect]:
    """The record after the edit, and what the edit did. `record` is None where the edit is its first."""
    if record is None:
        return _first(edit), Effect()
    concurrent = tuple(name for name in edit.fields if _is_concurrent(record, edit, name))
    overruled = tuple(name for name in concurrent if edit.at < record.stamps[name].at)
    standing = [name for name in edit.fields if name not in overruled]
    replaced = {n: record.fields[n] for n in standing if n in record.fields and _differs(record, edit, n)}
    return _merged(record, edit, standing), Effect(replaced, concurrent, overruled)


def _first(edit: Edit) -> Record:
    person = edit.author.person
    stamps = {name: Stamp(edit.sequence, edit.author.device_id, edit.at) for name in edit.fields}
    return Record(edit.kind, edit.record_id, edit.fields, stamps, edit.sequence, person, person, edit.at)


def _is_concurrent(record: Record, edit: Edit, name: str) -> bool:
    stamp = record.stamps.get(name)
    return stamp is not None and not _had_seen(edit, stamp) and _differs(record, edit, name)


def _had_seen(edit: Edit, stamp: Stamp) -> bool:
    """A number the service has not given yet comes from another database: it proves nothing."""
    seen = edit.seen if edit.seen < edit.sequence else 0
    return stamp.device_id == edit.author.device_id or stamp.sequence <= seen


def _differs(record: Record, edit: Edit, name: str) -> bool:
    """Compared as JSON: to Python 1 equals true, to the person who typed it it does not."""
    before, after = record.fields[name], edit.fields[name]
    return json.dumps(before, sort_keys=True) != json.dumps(after, sort_keys=True)


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
    return Stamp(edit.sequence, edit.author.device_id, at)
