"""The records, made again from the log alone: the proof that the log holds everything."""

from collections.abc import Iterable

from evenbed.sync.jobs import job_id_of
from evenbed.sync.merge import merge
from evenbed.sync.model import Edit, Entry, Record
from evenbed.sync.upgrade import STEPS, Step, fields_today
from evenbed.wire.exchange import FieldValues

Key = tuple[str, str]


def records_from(entries: Iterable[Entry], steps: tuple[Step, ...] = STEPS) -> dict[Key, Record]:
    """The records by kind and id. `entries` come in the order of their sequence; those without one are skipped."""
    records: dict[Key, Record] = {}
    for entry in entries:
        if entry.sequence is not None:
            key = (entry.kind, entry.record_id)
            fields = fields_today(entry.kind, entry.fields, entry.schema, steps)
            edit = _edit(entry, entry.sequence, _job_id(records, key, fields), fields)
            records[key], _ = merge(records.get(key), edit)
    return records


def _edit(entry: Entry, sequence: int, job_id: str, fields: FieldValues) -> Edit:
    return Edit(sequence, entry.author, entry.at, entry.kind, entry.record_id, job_id, fields, entry.seen)


def _job_id(records: dict[Key, Record], key: Key, fields: FieldValues) -> str:
    known = records.get(key)
    return known.job_id if known else job_id_of(*key, fields, lambda kind, id_: records.get((kind, id_)))
