"""Jobs go as files from phone to phone, past the service."""

from base64 import b64decode
from datetime import datetime
from pathlib import Path
from tempfile import NamedTemporaryFile

from hypothesis import strategies as st

from evenbed.jobfile.faults import Fault, JobFileError
from evenbed.jobfile.parts import opened
from evenbed.jobfile.reading import read
from evenbed.jobfile.taking import hand_over
from evenbed.sync.model import Author
from evenbed.wire.protocol import MOST_CHANGES
from tests.ledgers import MemoryLedger
from tests.machine.base import numbers
from tests.machine.happenings import NothingToDoError, happens
from tests.machine.phones import Phone, Row
from tests.machine.work import Work
from tests.phones import uuid_text


def why_not_taken(file: str, at: datetime) -> Fault | None:
    """What a service that knows nothing yet finds wrong with a file; None where it would take it."""
    author = Author(uuid_text(999), uuid_text(998), "Nobody")
    with NamedTemporaryFile() as kept:
        kept.write(b64decode(file))
        kept.flush()
        try:
            with opened(Path(kept.name)) as parts:
                history = read(parts).contents.history
            ledger = MemoryLedger()
            for start in range(0, len(history), MOST_CHANGES):
                hand_over(ledger, author, history[start : start + MOST_CHANGES], at)
        except JobFileError as error:
            return error.fault
    return None


class Carrying(Work):
    """What a phone knows of a job comes to another that knows it, knows some of it, or has never heard of it."""

    @happens(n=numbers, data=st.data())
    def a_job_is_opened(self, n: int, data: st.DataObject) -> None:
        """From then on the phone fetches the job's history, so that it has it for a file."""
        self.tool.open_job(self.phones[n], self.pick(data, n, "job")[1])

    @happens(often=2, n=numbers, further=st.integers(1, 2), data=st.data())
    def a_job_goes_by_file(self, n: int, further: int, data: st.DataObject) -> None:
        """Taken in twice: the second time nothing is new."""
        job_id = self.pick(data, n, "job")[1]
        file = self.tool.job_file(self.phones[n], job_id)
        if file is None:
            raise NothingToDoError
        other = self.phones[(n + further) % len(self.phones)]
        if self.take_in(other, file):
            assert not self.take_in(other, file)

    def take_in(self, phone: Phone, file: str) -> list[Row]:
        """The changes that are new in the phone's queue: all that it said, or none where it could not say so.

        Where something in the file is wrong the phone takes nothing of it, as the service would.
        """
        before = {change["change_id"] for change in self._waiting(phone)}
        told = self.tool.take_job(phone, file)
        new = [change for change in self._waiting(phone) if change["change_id"] not in before]
        if told is not None:
            fault = why_not_taken(file, self.time.now)
            assert told == ({"changes": len(new)} if fault is None else {"fault": fault})
            self.met[f"file_{fault or 'taken'}"] += 1
        self.memory.brought(new, phone, self.time.now)
        return new

    def _waiting(self, phone: Phone) -> list[Row]:
        return self.tool.contents(phone)["changes"]
