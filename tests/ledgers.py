"""A ledger in memory: the port of sync without a database, to judge the one with a database by."""

from collections.abc import Sequence

from evenbed.sync.knowledge import Told
from evenbed.sync.model import Entry, Record
from evenbed.sync.port import Ledger
from evenbed.sync.replay import told_of
from evenbed.wire.exchange import Change


class MemoryLedger(Ledger):
    """Keeps everything in plain lists."""

    def __init__(self) -> None:
        self.latest = 0
        self.entries: list[Entry] = []
        self.records: dict[tuple[str, str], Record] = {}

    def read_ahead(self, device_id: str, changes: Sequence[Change]) -> None:
        """Everything is at hand."""

    def write(self) -> None:
        """Everything is kept at once."""

    def last_entry(self, device_id: str) -> Entry | None:
        """The device's change with the highest number."""
        own = [entry for entry in self.entries if entry.author.device_id == device_id]
        return max(own, key=lambda entry: entry.number, default=None)

    def entry(self, device_id: str, number: int) -> Entry | None:
        """The device's change with that number."""
        return next((e for e in self.entries if (e.author.device_id, e.number) == (device_id, number)), None)

    def applied(self, change_id: str) -> Entry | None:
        """The applied change with that id."""
        return next((e for e in self.entries if e.change_id == change_id and e.sequence is not None), None)

    def record(self, kind: str, record_id: str) -> Record | None:
        """The record as it stands."""
        return self.records.get((kind, record_id))

    def story(self, kind: str, record_id: str) -> Sequence[Told]:
        """The applied changes of the record, in order."""
        of_record = [e for e in self.entries if (e.kind, e.record_id) == (kind, record_id)]
        return [told_of(e, e.sequence) for e in of_record if e.sequence is not None]

    def has_brought(self, device_id: str) -> bool:
        """True where this device has brought changes out of a file."""
        return any(e.author.device_id == device_id and e.origin is not None for e in self.entries)

    def next_sequence(self) -> int:
        """The next number."""
        self.latest += 1
        return self.latest

    def add_entry(self, entry: Entry) -> None:
        """Keep a change."""
        self.entries.append(entry)

    def save_record(self, record: Record) -> None:
        """Keep the record."""
        self.records[record.kind, record.id] = record
