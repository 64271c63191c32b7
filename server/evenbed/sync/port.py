"""What the rules need of whatever keeps the records."""

from collections.abc import Sequence
from typing import Protocol

from evenbed.sync.knowledge import Told
from evenbed.sync.model import Entry, Record
from evenbed.wire.exchange import Change


class Ledger(Protocol):
    """A log of changes and the records made from it, inside one writing transaction.

    Promises: nobody else writes while it is open; what was added is found again at once; nothing lasts unless the
    transaction is committed. What is read ahead and when it is written is its own affair, between `read_ahead` before
    the first change of a push and `write` after the last.
    """

    def read_ahead(self, device_id: str, changes: Sequence[Change]) -> None:
        """These changes of the device will be asked about."""

    def last_entry(self, device_id: str) -> Entry | None:
        """The device's change with the highest number, or None before its first."""

    def entry(self, device_id: str, number: int) -> Entry | None:
        """The device's change with that number."""

    def applied(self, change_id: str) -> Entry | None:
        """The applied change with that id, whichever device sent it."""

    def record(self, kind: str, record_id: str) -> Record | None:
        """The record as it stands."""

    def story(self, kind: str, record_id: str) -> Sequence[Told]:
        """The applied changes of the record, in the order of their numbers."""

    def has_brought(self, device_id: str) -> bool:
        """True where this device has brought changes out of a file."""

    def next_sequence(self) -> int:
        """The next number of the service: 1, 2, 3 ..., without a hole among what is committed."""

    def add_entry(self, entry: Entry) -> None:
        """Keep a change in the log."""

    def save_record(self, record: Record) -> None:
        """Keep the record in place of what stood before."""

    def write(self) -> None:
        """Everything added and saved so far goes into the transaction."""
