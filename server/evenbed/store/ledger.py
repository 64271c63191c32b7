"""The ledger of sync over the tables."""

from sqlalchemy import desc
from sqlmodel import Session, col, select

from evenbed.store.people import People
from evenbed.store.rows import change_row_from, entry_from, record_from, record_row_from
from evenbed.store.tables import ChangeRow, RecordRow, ServiceRow
from evenbed.sync.model import Entry, Record


class SqlLedger:
    """Keeps the promises of `evenbed.sync.port.Ledger` inside one writing session."""

    def __init__(self, session: Session, counter: ServiceRow) -> None:
        self._session = session
        self._counter = counter

    def last_entry(self, device_id: str) -> Entry | None:
        """The device's change with the highest number."""
        of_device = select(ChangeRow).where(ChangeRow.device_id == device_id)
        row = self._session.exec(of_device.order_by(desc(col(ChangeRow.number))).limit(1)).first()
        return entry_from(row) if row else None

    def entry(self, device_id: str, number: int) -> Entry | None:
        """The device's change with that number."""
        row = self._session.get(ChangeRow, (device_id, number))
        return entry_from(row) if row else None

    def applied(self, change_id: str) -> Entry | None:
        """The applied change with that id."""
        with_id = select(ChangeRow).where(ChangeRow.change_id == change_id)
        row = self._session.exec(with_id.where(col(ChangeRow.sequence).is_not(None))).first()
        return entry_from(row) if row else None

    def record(self, kind: str, record_id: str) -> Record | None:
        """The record as it stands."""
        row = self._session.get(RecordRow, (kind, record_id))
        return record_from(row) if row else None

    def next_sequence(self) -> int:
        """The counter row, bumped in this very transaction: no clock and no database sequence, both skip changes."""
        self._counter.latest += 1
        return self._counter.latest

    def add_entry(self, entry: Entry) -> None:
        """Keep a change in the log."""
        self._session.add(change_row_from(entry))
        self._session.flush()

    def save_record(self, record: Record) -> None:
        """Keep the record in place of what stood before; with a job, who sees it."""
        self._session.merge(record_row_from(record))
        self._session.flush()
        if record.kind == "job":
            People(self._session).assign(record)
