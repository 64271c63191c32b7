"""The records, made again from the log alone: the proof that the log holds everything."""

from collections.abc import Iterable

from evenbed.sync.accept import edit_from
from evenbed.sync.jobs import job_id_of
from evenbed.sync.merge import merge
from evenbed.sync.model import Entry, Record

Key = tuple[str, str]


def records_from(entries: Iterable[Entry]) -> dict[Key, Record]:
    """The records by kind and id. `entries` come in the order of their sequence; those without one are skipped."""
    records: dict[Key, Record] = {}
    for entry in entries:
        if entry.sequence is not None:
            key = (entry.kind, entry.record_id)
            job_id = _job_id(records, entry)
            records[key], _ = merge(records.get(key), edit_from(entry, entry.sequence, job_id))
    return records


def _job_id(records: dict[Key, Record], entry: Entry) -> str:
    known = records.get((entry.kind, entry.record_id))
    if known is not None:
        return known.job_id
    return job_id_of(entry.kind, entry.record_id, entry.fields, lambda kind, id_: records.get((kind, id_)))


def differences(log: Iterable[Entry], kept: Iterable[Record]) -> tuple[int, list[Key]]:
    """How many records the log makes, and the keys of those that are not kept just so."""
    made = records_from(log)
    standing = {(record.kind, record.id): record for record in kept}
    keys = made.keys() | standing.keys()
    return len(made), sorted(key for key in keys if made.get(key) != standing.get(key))
