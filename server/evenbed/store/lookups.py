"""What the ledger reads, many at a time: rows by their keys, and no objects that follow a session."""

from collections.abc import Iterable
from typing import Any

from sqlalchemy import Connection, select

from evenbed.store.rows import entry_from, record_from
from evenbed.store.tables import ChangeRow, RecordRow, table_of
from evenbed.sync.knowledge import Told
from evenbed.sync.model import Entry, Record

Key = tuple[str, str]
CHANGES, RECORDS = table_of(ChangeRow), table_of(RecordRow)
AT_ONCE = 500
"""Keys in one question; a database takes only so many."""


def last_entry(connection: Connection, device_id: str) -> Entry | None:
    """The device's change with the highest number."""
    of_device = select(CHANGES).where(CHANGES.c.device_id == device_id)
    row = connection.execute(of_device.order_by(CHANGES.c.number.desc()).limit(1)).first()
    return entry_from(row) if row else None


def entries_of(connection: Connection, device_id: str, first: int, last: int) -> dict[int, Entry]:
    """The device's changes from one number to another."""
    between = CHANGES.c.device_id == device_id, CHANGES.c.number.between(first, last)
    return {row.number: entry_from(row) for row in connection.execute(select(CHANGES).where(*between))}


def applied_entries(connection: Connection, change_ids: Iterable[str]) -> dict[str, Entry]:
    """The applied changes with these ids."""
    found = {}
    for ids in _in_parts(change_ids):
        applied = CHANGES.c.change_id.in_(ids), CHANGES.c.sequence.is_not(None)
        found.update({row.change_id: entry_from(row) for row in connection.execute(select(CHANGES).where(*applied))})
    return found


def records_with(connection: Connection, keys: Iterable[Key]) -> dict[Key, Record]:
    """The records with these kinds and ids, as they stand."""
    found = {}
    for kind, ids in _by_kind(keys):
        with_ids = RECORDS.c.kind == kind, RECORDS.c.id.in_(ids)
        rows = connection.execute(select(RECORDS).where(*with_ids))
        found.update({(kind, row.id): record_from(row) for row in rows})
    return found


def stories_of(connection: Connection, keys: Iterable[Key]) -> dict[Key, list[Told]]:
    """The applied changes of each of these records, in the order of their numbers."""
    columns = (CHANGES.c.kind, CHANGES.c.record_id, CHANGES.c.sequence, CHANGES.c.change_id)
    whose = (CHANGES.c.device_id, CHANGES.c.origin)
    found: dict[Key, list[Told]] = {key: [] for key in keys}
    for kind, ids in _by_kind(found):
        of_records = CHANGES.c.kind == kind, CHANGES.c.record_id.in_(ids), CHANGES.c.sequence.is_not(None)
        for row in connection.execute(select(*columns, *whose).where(*of_records).order_by(CHANGES.c.sequence)):
            found[kind, row.record_id].append(_told_from(row))
    return found


def _told_from(row: Any) -> Told:
    maker = row.origin["device_id"] if row.origin else None
    return Told(row.sequence, row.change_id, maker or row.device_id, row.device_id if row.origin else None)


def has_brought(connection: Connection, device_id: str) -> bool:
    """True where the device has brought changes out of a file."""
    one = select(CHANGES.c.number).where(CHANGES.c.device_id == device_id, CHANGES.c.origin.is_not(None))
    return connection.execute(one.limit(1)).first() is not None


def _by_kind(keys: Iterable[Key]) -> Iterable[tuple[str, list[str]]]:
    """Their ids, as many as go into one question."""
    by_kind: dict[str, set[str]] = {}
    for kind, record_id in keys:
        by_kind.setdefault(kind, set()).add(record_id)
    return ((kind, ids) for kind, wanted in by_kind.items() for ids in _in_parts(wanted))


def _in_parts(ids: Iterable[str]) -> Iterable[list[str]]:
    every = sorted(ids)
    return (every[start : start + AT_ONCE] for start in range(0, len(every), AT_ONCE))
