"""Accepting a push: every change once, in the device's order, applied or refused, and never half a push.

The caller runs this inside one writing transaction and commits it before replying; an error raised here means that
nothing of the push was taken.

A change out of a file keeps its id, its maker and its time; for what may be done counts who brought it.
"""

from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple

from evenbed.sync.check import refusal_of, refuse, without_foremans
from evenbed.sync.clocks import corrected_times
from evenbed.sync.jobs import job_id_of
from evenbed.sync.knowledge import NOTHING, brought_by, known_from_file
from evenbed.sync.merge import merge
from evenbed.sync.model import NO_EFFECT, Author, Edit, Effect, Entry, Origin, Outcome, Refusal, maker_of
from evenbed.sync.port import Ledger
from evenbed.sync.upgrade import STEPS, Step, change_today
from evenbed.wire.exchange import Change, PushRequest, PushResult, Role
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


class Moments(NamedTuple):
    """When an edit was made, by the service's clock, and when it came."""

    at: datetime
    received_at: datetime


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
    before = None if last is None else last.received_at if last.origin else last.at
    times = corrected_times(edits, push.device_time, received_at, before)
    sender = Sender(author, role, steps)
    results = [
        _accept(ledger, sender, change, _moments(change, at, received_at))
        for change, at in zip(push.changes, times, strict=True)
    ]
    ledger.write()
    return results


def _moments(change: Change, at: datetime, received_at: datetime) -> Moments:
    """Of a change out of a file by what the file says; one from the future was made before it came."""
    told = datetime.fromisoformat(change.origin.at) if change.origin else at
    return Moments(min(told, received_at) if change.origin else at, received_at)


def _check_versions(push: PushRequest, newest_schema: int) -> None:
    if push.protocol > PROTOCOL:
        raise UpdateNeededError("protocol", push.protocol, PROTOCOL)
    got = max((change.schema_ for change in push.changes), default=1)
    if got > newest_schema:
        raise UpdateNeededError("record schema", got, newest_schema)


def _accept(ledger: Ledger, sender: Sender, change: Change, moments: Moments) -> PushResult:
    last = ledger.last_entry(sender.author.device_id)
    expected = 1 if last is None else last.number + 1
    if change.number < expected:
        return _repeated(ledger, sender.author, change)
    if change.number > expected:
        raise GapError(expected, change.number)
    return _take(ledger, sender, change, moments)


def _repeated(ledger: Ledger, author: Author, change: Change) -> PushResult:
    entry = ledger.entry(author.device_id, change.number)
    if entry is None or entry.change_id != change.change_id:
        raise DeviceForkedError(change.number)
    if entry.refusal is not None:
        return _refused_result(change, entry.refusal)
    return _already_applied(change, ledger.applied(change.change_id))


def _take(ledger: Ledger, sender: Sender, sent: Change, moments: Moments) -> PushResult:
    earlier = ledger.applied(sent.change_id)
    if earlier is not None:
        return _take_again(ledger, sender, sent, moments, earlier)
    says_nothing, sent = _says_nothing(sent), _allowed(sent, sender.role)
    change, record = change_today(sent, sender.steps), ledger.record(sent.kind, sent.record_id)
    refusal = says_nothing or refusal_of(change, record, ledger, sender.author, sender.role)
    if refusal is not None:
        return _refuse(ledger, sender, sent, moments, refusal)
    sequence = ledger.next_sequence()
    job_id = record.job_id if record else job_id_of(change.kind, change.record_id, change.fields, ledger.record)
    knew = _knew(ledger, sender.author, change)
    merged, effect = merge(record, _edit(sender.author, change, moments.at, sequence, job_id, knew))
    ledger.save_record(merged)
    ledger.add_entry(_entry(sender, sent, moments, "applied", sequence=sequence, effect=effect))
    return PushResult(number=sent.number, change_id=sent.change_id, outcome="applied", sequence=sequence)


def _says_nothing(sent: Change) -> Refusal | None:
    """Of the change as it was sent: that the steps left nothing of it is no fault of the phone."""
    return None if sent.fields else refuse(Reason.NOTHING_CHANGED)


def _take_again(ledger: Ledger, sender: Sender, sent: Change, moments: Moments, earlier: Entry) -> PushResult:
    """A change that reached the service before, from the device's former self: once is enough."""
    if not _is_same(sent, earlier):
        return _refuse(ledger, sender, sent, moments, _why_not_again(sent, earlier))
    ledger.add_entry(_entry(sender, sent, moments, "already_applied"))
    return _already_applied(sent, earlier)


def _why_not_again(sent: Change, earlier: Entry) -> Refusal:
    """A foreman's own change that a setter had brought in a file: what was left behind there was never taken."""
    rest = without_foremans(sent.kind, sent.fields)
    if earlier.origin is None or (sent.kind, sent.record_id, rest) != (
        earlier.kind,
        earlier.record_id,
        earlier.fields,
    ):
        return refuse(Reason.CHANGE_ID_TAKEN)
    return refuse(Reason.CAME_WITHOUT, field=", ".join(sorted(sent.fields.keys() - rest.keys())))


def _is_same(sent: Change, earlier: Entry) -> bool:
    """A change out of a file may have left a foreman's choice behind, here or where the file was made."""
    if (sent.kind, sent.record_id) != (earlier.kind, earlier.record_id):
        return False
    if sent.origin is None:
        return sent.fields == earlier.fields
    return without_foremans(sent.kind, sent.fields) == without_foremans(earlier.kind, earlier.fields)


def _allowed(sent: Change, role: Role) -> Change:
    """Who is no foreman takes out of a file all but the foremen's choices, with which the rest would be refused.

    A change that is nothing else stays whole and is refused, so that its id is free for the foreman's own phone.
    """
    rest = without_foremans(sent.kind, sent.fields)
    if sent.origin is None or role == "foreman" or not rest:
        return sent
    return sent.model_copy(update={"fields": rest})


def _knew(ledger: Ledger, author: Author, change: Change) -> frozenset[int]:
    if change.origin is not None:
        return known_from_file(ledger.story(change.kind, change.record_id), change.origin.knew)
    if not ledger.has_brought(author.device_id):
        return NOTHING
    return brought_by(ledger.story(change.kind, change.record_id), author.device_id)


def _refuse(ledger: Ledger, sender: Sender, sent: Change, moments: Moments, refusal: Refusal) -> PushResult:
    ledger.add_entry(_entry(sender, sent, moments, "refused", refusal=refusal))
    return _refused_result(sent, refusal)


def _edit(author: Author, change: Change, at: datetime, sequence: int, job_id: str, knew: frozenset[int]) -> Edit:
    """The change as the merge takes it. What somebody elsewhere had seen is no number of this service."""
    maker, seen = maker_of(author, origin_of(change)), 0 if change.origin else change.seen
    return Edit(sequence, maker, at, change.kind, change.record_id, job_id, change.fields, seen, knew)


def origin_of(change: Change) -> Origin | None:
    """Where a change out of a file comes from, as the log keeps it."""
    told = change.origin
    if told is None:
        return None
    return Origin(datetime.fromisoformat(told.at), told.person, told.device_id, told.device_name, tuple(told.knew))


def _entry(
    sender: Sender,
    sent: Change,
    moments: Moments,
    outcome: Outcome,
    *,
    sequence: int | None = None,
    effect: Effect = NO_EFFECT,
    refusal: Refusal | None = None,
) -> Entry:
    """The change as the log keeps it: as it was sent."""
    return Entry(
        change_id=sent.change_id,
        number=sent.number,
        outcome=outcome,
        author=sender.author,
        kind=sent.kind,
        record_id=sent.record_id,
        fields=sent.fields,
        seen=sent.seen,
        schema=sent.schema_,
        device_time=sent.device_time,
        at=moments.at,
        received_at=moments.received_at,
        sequence=sequence,
        effect=effect,
        refusal=refusal,
        origin=origin_of(sent),
    )


def _refused_result(sent: Change, refusal: Refusal) -> PushResult:
    return PushResult(
        number=sent.number,
        change_id=sent.change_id,
        outcome="refused",
        reason=refusal.reason,
        message=refusal.message,
    )


def _already_applied(sent: Change, original: Entry | None) -> PushResult:
    return PushResult(
        number=sent.number,
        change_id=sent.change_id,
        outcome="already_applied",
        sequence=original.sequence if original else None,
    )
