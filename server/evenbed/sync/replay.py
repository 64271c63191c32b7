"""The records, made again from the log alone: the proof that the log holds everything."""

from collections.abc import Iterable

from evenbed.sync.jobs import job_id_of
from evenbed.sync.knowledge import NOTHING, Told, brought_by, known_from_file
from evenbed.sync.merge import merge
from evenbed.sync.model import Edit, Entry, Record
from evenbed.sync.upgrade import STEPS, Step, fields_today
from evenbed.wire.exchange import FieldValues

Key = tuple[str, str]


def records_from(entries: Iterable[Entry], steps: tuple[Step, ...] = STEPS) -> dict[Key, Record]:
    """The records by kind and id. `entries` come in the order of their sequence; those without one are skipped."""
    records: dict[Key, Record] = {}
    stories: dict[Key, list[Told]] = {}
    for entry in entries:
        if entry.sequence is not None:
            key = (entry.kind, entry.record_id)
            story = stories.setdefault(key, [])
            fields = fields_today(entry.kind, entry.fields, entry.schema, steps)
            edit = _edit(entry, entry.sequence, _job_id(records, key, fields), fields, _knew(entry, story))
            records[key], _ = merge(records.get(key), edit)
            story.append(told_of(entry, entry.sequence))
    return records


def told_of(entry: Entry, sequence: int) -> Told:
    """An applied change as a part of its record's story."""
    return Told(sequence, entry.change_id, entry.maker.device_id, entry.author.device_id if entry.origin else None)


def _knew(entry: Entry, story: list[Told]) -> frozenset[int]:
    if entry.origin is not None:
        return known_from_file(story, entry.origin.knew)
    return brought_by(story, entry.author.device_id) or NOTHING


def _edit(entry: Entry, sequence: int, job_id: str, fields: FieldValues, knew: frozenset[int]) -> Edit:
    seen = 0 if entry.origin else entry.seen
    return Edit(sequence, entry.maker, entry.at, entry.kind, entry.record_id, job_id, fields, seen, knew)


def _job_id(records: dict[Key, Record], key: Key, fields: FieldValues) -> str:
    known = records.get(key)
    return known.job_id if known else job_id_of(*key, fields, lambda kind, id_: records.get((kind, id_)))
