"""The records, made again from the log alone: the proof that the log holds everything."""

from collections.abc import Iterable

from evenbed.sync.accept import edit_from
from evenbed.sync.merge import merge
from evenbed.sync.model import Entry, Record


def records_from(entries: Iterable[Entry]) -> dict[tuple[str, str], Record]:
    """The records by kind and id. `entries` come in the order of their sequence; those without one are skipped."""
    records: dict[tuple[str, str], Record] = {}
    for entry in entries:
        if entry.sequence is not None:
            key = (entry.kind, entry.record_id)
            records[key], _ = merge(records.get(key), edit_from(entry, entry.sequence))
    return records
