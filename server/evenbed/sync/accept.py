"""Accepting a push: every change once, in the device's order, applied or refused, and never half a push.

The caller runs this inside one writing transaction and commits it before replying; an error raised here means that
nothing of the push was taken.
"""

from dataclasses import dataclass
from datetime import datetime

from evenbed.sync.check import refusal_of, refuse
from evenbed.sync.clocks import corrected_times
from evenbed.sync.jobs import job_id_of
from evenbed.sync.merge import merge
from evenbed.sync.model import Author, Edit, Entry, Record, Refusal
from evenbed.sync.port import Ledger
from evenbed.sync.upgrade import STEPS, Step, change_today
from evenbed.wire.exchange import Change, FieldValues, PushRequest, PushResult, Role
from evenbed.wire.protocol import PROTOCOL
from evenbed.wire.refusals import Reason


class SyncError(Exception):
    """A whole push that cannot be taken; nothing of it was stored and the phone keeps everything."""


class DeviceForkedError(SyncError):
    """The device's number is already used for another change: it was restored from a copy of itself."""

    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(
            f"Change {number} of this device is already here with another id. "
            "Take a new device id, join again and send the changes once more."
        )


class GapError(SyncError):
    """A number was left out."""

    def __init__(self, expected: int, got: int) -> None:
        self.expected = expected
        super().__init__(f"Expected change {expected} of this device, got {got}. Send from {expected} on.")


class UpdateNeededError(SyncError):
    """The phone is newer than the service."""

    def __init__(self, what: str, got: int, known: int) -> None:
        super().__init__(
            f"The phone speaks {what} {got}, this service knows up to {known}. "
            "Nothing is lost: the changes stay on the phone until the service is updated."
        )


@dataclass(frozen=True)
class Sender:
    """Who hands changes over, and with which rights; `steps` bring older changes up to date."""

    author: Author
    role: Role
    steps: tuple[Step, ...]


def accept_push(
    ledger: Ledger,
    author: Author,
    role: Role,
    push: PushRequest,
    received_at: datetime,
    steps: tuple[Step, ...] = STEPS,
) -> list[PushResult]:
    """What became of each change, in order. Whether the author may write at all is decided before.

    Raises UpdateNeededError, GapError or DeviceForkedError, and then nothing may be committed.
    """
    _check_versions(push, newest_schema=len(steps) + 1)
    ledger.read_ahead(author.device_id, push.changes)
    last = ledger.last_entry(author.device_id)
    edits = [change.device_time for change in push.changes]
    times = corrected_times(edits, push.device_time, received_at, last.at if last else None)
    sender = Sender(author, role, steps)
    results = [
        _accept(ledger, sender, change, (at, received_at)) for change, at in zip(push.changes, times, strict=True)
    ]
    ledger.write()
    return results


def _check_versions(push: PushRequest, newest_schema: int) -> None:
    if push.protocol > PROTOCOL:
        raise UpdateNeededError("protocol", push.protocol, PROTOCOL)
    got = max((change.schema_ for change in push.changes), default=1)
    if got > newest_schema:
        raise UpdateNeededError("record schema", got, newest_schema)


def _accept(ledger: Ledger, sender: Sender, change: Change, moments: tuple[datetime, datetime]) -> PushResult:
    last = ledger.last_entry(sender.author.device_id)
    expected = 1 if last is None else last.number + 1
    if change.number < expected:
        return _repeated(ledger, sender.author, change)
    if change.number > expected:
        raise GapError(expected, change.number)
    return _take(ledger, sender, _entry(sender.author, change, *moments), change)


def _repeated(ledger: Ledger, author: Author, change: Change) -> PushResult:
    entry = ledger.entry(author.device_id, change.number)
    if entry is None or entry.change_id != change.change_id:
        raise DeviceForkedError(change.number)
    if entry.refusal is not None:
        return _refused_result(entry, entry.refusal)
    return _already_applied(entry, ledger.applied(change.change_id))


def _entry(author: Author, change: Change, at: datetime, received_at: datetime) -> Entry:
    return Entry(
        change_id=change.change_id,
        number=change.number,
        outcome="applied",
        author=author,
        kind=change.kind,
        record_id=change.record_id,
        fields=change.fields,
        seen=change.seen,
        schema=change.schema_,
        device_time=change.device_time,
        at=at,
        received_at=received_at,
    )


def _take(ledger: Ledger, sender: Sender, entry: Entry, sent: Change) -> PushResult:
    earlier = ledger.applied(entry.change_id)
    if earlier is not None:
        return _take_again(ledger, entry, earlier)
    change, record = change_today(sent, sender.steps), ledger.record(entry.kind, entry.record_id)
    refusal = refusal_of(change, record, ledger, sender.author, sender.role)
    if refusal is not None:
        return _keep_refused(ledger, entry, refusal)
    return _apply(ledger, entry, change.fields, record)


def _take_again(ledger: Ledger, entry: Entry, earlier: Entry) -> PushResult:
    """A change that reached the service before, from the device's former self: once is enough."""
    same = (entry.kind, entry.record_id, entry.fields) == (earlier.kind, earlier.record_id, earlier.fields)
    if not same:
        return _keep_refused(ledger, entry, refuse(Reason.CHANGE_ID_TAKEN))
    ledger.add_entry(entry.as_already_applied())
    return _already_applied(entry, earlier)


def _keep_refused(ledger: Ledger, entry: Entry, refusal: Refusal) -> PushResult:
    ledger.add_entry(entry.as_refused(refusal))
    return _refused_result(entry, refusal)


def _apply(ledger: Ledger, entry: Entry, fields: FieldValues, record: Record | None) -> PushResult:
    sequence = ledger.next_sequence()
    job_id = record.job_id if record else job_id_of(entry.kind, entry.record_id, fields, ledger.record)
    merged, effect = merge(record, edit_from(entry, sequence, job_id, fields))
    ledger.save_record(merged)
    ledger.add_entry(entry.as_applied(sequence, effect))
    return PushResult(number=entry.number, change_id=entry.change_id, outcome="applied", sequence=sequence)


def edit_from(entry: Entry, sequence: int, job_id: str, fields: FieldValues) -> Edit:
    """The entry as the merge takes it, its fields in today's meaning."""
    return Edit(sequence, entry.author, entry.at, entry.kind, entry.record_id, job_id, fields, entry.seen)


def _refused_result(entry: Entry, refusal: Refusal) -> PushResult:
    return PushResult(
        number=entry.number,
        change_id=entry.change_id,
        outcome="refused",
        reason=refusal.reason,
        message=refusal.message,
    )


def _already_applied(entry: Entry, original: Entry | None) -> PushResult:
    return PushResult(
        number=entry.number,
        change_id=entry.change_id,
        outcome="already_applied",
        sequence=original.sequence if original else None,
    )
