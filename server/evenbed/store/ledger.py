"""The ledger of sync over the tables.

A push of five hundred changes asks for about as many records and adds about as many rows. What it will ask for is
read in a few questions before, and what it adds is written in a few statements after; in between everything is in
memory.
"""

from collections.abc import Sequence
from typing import Any

from sqlalchemy import bindparam, insert, update
from sqlmodel import Session

from evenbed.store.lookups import (
    CHANGES,
    RECORDS,
    Key,
    applied_entries,
    entries_of,
    has_brought,
    last_entry,
    records_with,
    stories_of,
)
from evenbed.store.people import People
from evenbed.store.rows import change_values_from, record_values_from
from evenbed.store.tables import ServiceRow
from evenbed.sync.jobs import crew_of, named_by
from evenbed.sync.knowledge import Told
from evenbed.sync.model import Entry, Record
from evenbed.sync.replay import told_of
from evenbed.wire.exchange import Change
from evenbed.wire.records import SHAPES
from evenbed.wire.values import is_uuid

_CHANGE_RECORD = update(RECORDS).where(RECORDS.c.kind == bindparam("of_kind"), RECORDS.c.id == bindparam("of_id"))


class SqlLedger:
    """Keeps the promises of `evenbed.sync.port.Ledger` inside one writing session."""

    def __init__(self, session: Session, counter: ServiceRow) -> None:
        self._session = session
        self._counter = counter
        self._latest = counter.latest
        self._last: dict[str, Entry | None] = {}
        self._numbered: dict[tuple[str, int], Entry] = {}
        self._applied: dict[str, Entry | None] = {}
        self._standing: dict[Key, Record | None] = {}
        self._in_table: set[Key] = set()
        self._stories: dict[Key, list[Told]] = {}
        self._brought: dict[str, bool] = {}
        self._added: list[Entry] = []
        self._saved: dict[Key, Record] = {}

    def read_ahead(self, device_id: str, changes: Sequence[Change]) -> None:
        """The device's last change and its changes with these numbers, what has these ids, and the records named."""
        connection, ids = self._session.connection(), [change.change_id for change in changes]
        last, first = self.last_entry(device_id), min((change.number for change in changes), default=1)
        if last is not None and first <= last.number:
            repeated = entries_of(connection, device_id, first, first + len(changes))
            self._numbered |= {(device_id, number): entry for number, entry in repeated.items()}
        self._applied |= dict.fromkeys(ids) | applied_entries(connection, ids)
        self._read_records({key for one in changes for key in named_by(one.kind, one.record_id, one.fields)})
        jobs = {("job", record.job_id) for record in self._standing.values() if record}
        self._read_records(jobs - self._standing.keys())
        if any(change.origin for change in changes) or self.has_brought(device_id):
            self._read_stories({(one.kind, one.record_id) for one in changes})

    def _read_records(self, keys: set[Key]) -> None:
        sound = {key for key in keys if key[0] in SHAPES and is_uuid(key[1])}
        found = records_with(self._session.connection(), sound)
        self._in_table |= found.keys()
        self._standing |= dict.fromkeys(sound) | found

    def _read_stories(self, keys: set[Key]) -> None:
        fresh = {key for key in keys if key[0] in SHAPES and is_uuid(key[1])} - self._stories.keys()
        self._stories |= stories_of(self._session.connection(), fresh)
        for entry in self._added:
            if entry.sequence is not None and (entry.kind, entry.record_id) in fresh:
                self._stories[entry.kind, entry.record_id].append(told_of(entry, entry.sequence))

    def last_entry(self, device_id: str) -> Entry | None:
        """The device's change with the highest number."""
        if device_id not in self._last:
            self._last[device_id] = last_entry(self._session.connection(), device_id)
        return self._last[device_id]

    def entry(self, device_id: str, number: int) -> Entry | None:
        """The device's change with that number."""
        if (device_id, number) not in self._numbered:
            return entries_of(self._session.connection(), device_id, number, number).get(number)
        return self._numbered[device_id, number]

    def applied(self, change_id: str) -> Entry | None:
        """The applied change with that id."""
        if change_id not in self._applied:
            self._applied[change_id] = applied_entries(self._session.connection(), [change_id]).get(change_id)
        return self._applied[change_id]

    def record(self, kind: str, record_id: str) -> Record | None:
        """The record as it stands. No record has an unsound key."""
        if (kind, record_id) not in self._standing:
            self._read_records({(kind, record_id)})
        return self._standing.get((kind, record_id))

    def story(self, kind: str, record_id: str) -> Sequence[Told]:
        """The applied changes of the record, in the order of their numbers."""
        if (kind, record_id) not in self._stories:
            self._read_stories({(kind, record_id)})
        return self._stories[kind, record_id]

    def has_brought(self, device_id: str) -> bool:
        """True where this device has brought changes out of a file."""
        if device_id not in self._brought:
            self._brought[device_id] = has_brought(self._session.connection(), device_id)
        return self._brought[device_id]

    def next_sequence(self) -> int:
        """The counter row, bumped in this very transaction: no clock and no database sequence, both skip changes."""
        self._latest += 1
        return self._latest

    def add_entry(self, entry: Entry) -> None:
        """Keep a change in the log."""
        self._added.append(entry)
        self._last[entry.author.device_id] = entry
        self._numbered[entry.author.device_id, entry.number] = entry
        if entry.sequence is not None:
            self._applied[entry.change_id] = entry
            self._tell(entry, entry.sequence)

    def _tell(self, entry: Entry, sequence: int) -> None:
        if (entry.kind, entry.record_id) in self._stories:
            self._stories[entry.kind, entry.record_id].append(told_of(entry, sequence))
        if entry.origin is not None:
            self._brought[entry.author.device_id] = True

    def save_record(self, record: Record) -> None:
        """Keep the record in place of what stood before; with a job, who sees it."""
        self._standing[record.kind, record.id] = self._saved[record.kind, record.id] = record

    def write(self) -> None:
        """The rows of all that was added and saved, in few statements; who sees the jobs among it; the counter."""
        fresh, self._in_table = self._saved.keys() - self._in_table, self._in_table | self._saved.keys()
        self._write_records(fresh)
        if self._added:
            self._session.connection().execute(insert(CHANGES), [change_values_from(entry) for entry in self._added])
        crews = {record.id: crew_of(record) for record in self._saved.values() if record.kind == "job"}
        People(self._session).assign(crews, frozenset(record_id for kind, record_id in fresh if kind == "job"))
        self._added, self._saved = [], {}
        self._counter.latest = self._latest
        self._session.flush()

    def _write_records(self, fresh: set[Key]) -> None:
        made = [record_values_from(record) for key, record in self._saved.items() if key in fresh]
        changed = [_changed_values_from(record) for key, record in self._saved.items() if key not in fresh]
        if made:
            self._session.connection().execute(insert(RECORDS), made)
        if changed:
            self._session.connection().execute(_CHANGE_RECORD, changed)


def _changed_values_from(record: Record) -> dict[str, Any]:
    values = record_values_from(record)
    return values | {"of_kind": values.pop("kind"), "of_id": values.pop("id")}
