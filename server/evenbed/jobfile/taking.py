"""Taking a job file in: all of it in one transaction, by the rules that a phone's changes go through, or nothing.

Ids stay what they were, so that a file taken in twice, or where its job is known, adds what is unknown and no more.
The changes come from a device of its own that nobody holds; who made each, and when, is what the file says.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from evenbed.access.codes import hash_of_token, make_token
from evenbed.jobfile.faults import Fault, JobFileError
from evenbed.jobfile.parts import Parts
from evenbed.jobfile.reading import JobFile
from evenbed.jobfile.shapes import ChangeShape
from evenbed.pictures import BadPictureError, Said, check_picture
from evenbed.store.devices import Device
from evenbed.store.ledger import SqlLedger
from evenbed.store.people import Person
from evenbed.store.photos import Expected
from evenbed.store.work import UnitOfWork
from evenbed.sync.accept import accept_push
from evenbed.sync.model import Author
from evenbed.wire.exchange import Change, Origin, PushRequest, PushResult
from evenbed.wire.protocol import MOST_CHANGES, PROTOCOL

DEVICE_ID = "019df2e4-d900-7000-9000-000000000001"
NAME = "Job files"


@dataclass(frozen=True)
class Taken:
    """What was new, what was here already."""

    changes: int
    known: int
    photos: int


def take_in(work: UnitOfWork, file: JobFile, parts: Parts, at: datetime, most_pixels: int) -> Taken:
    """Take everything in with a foreman's rights; the caller commits. Raises JobFileError: then nothing may be."""
    person = work.people.with_id(DEVICE_ID) or work.people.add(DEVICE_ID, NAME, "setter")
    _carrier(work, person, at)
    results = _push_all(work, Author(DEVICE_ID, person.id, person.name), file.contents.history, at)
    applied = sum(result.outcome == "applied" for result in results)
    photos = _take_photos(work, file, parts, at, most_pixels)
    return Taken(applied, len(results) - applied, photos)


def _carrier(work: UnitOfWork, person: Person, at: datetime) -> None:
    """The device that the log names as the one that brought them: removed from the start, for nobody holds it."""
    if work.devices.with_id(DEVICE_ID) is None:
        work.devices.save(Device(DEVICE_ID, NAME, person, at), hash_of_token(make_token()))
        work.devices.remove(DEVICE_ID, at)


def _push_all(work: UnitOfWork, author: Author, history: Sequence[ChangeShape], at: datetime) -> list[PushResult]:
    ledger, results = work.ledger(), []
    for start in range(0, len(history), MOST_CHANGES):
        results += _push(ledger, author, history[start : start + MOST_CHANGES], at)
    return results


def _push(ledger: SqlLedger, author: Author, some: Sequence[ChangeShape], at: datetime) -> list[PushResult]:
    last = ledger.last_entry(author.device_id)
    first = 1 if last is None else last.number + 1
    changes = [_change(one, number, at) for number, one in enumerate(some, start=first)]
    push = PushRequest(protocol=PROTOCOL, changes=changes, device_time=at.isoformat())
    results = accept_push(ledger, author, "foreman", push, at)
    for change, result in zip(some, results, strict=True):
        if result.outcome == "refused":
            raise JobFileError(Fault.REFUSED, f"{change.kind} {change.record_id}", result.message or "")
    return results


def _change(told: ChangeShape, number: int, at: datetime) -> Change:
    origin = Origin(
        at=told.at,
        person=told.person,
        device_id=told.device.id if told.device else None,
        device_name=told.device.name if told.device else None,
        knew=told.knew,
    )
    return Change(
        change_id=told.change_id,
        number=number,
        kind=told.kind,
        record_id=told.record_id,
        fields=told.fields,
        seen=0,
        device_time=at.isoformat(),
        schema=told.schema_,
        origin=origin,
    )


def _take_photos(work: UnitOfWork, file: JobFile, parts: Parts, at: datetime, most_pixels: int) -> int:
    taken = 0
    for photo in work.photos.expected_in(file.contents.job):
        if photo.complete or photo.hash not in file.photos:
            continue
        content = file.photo(parts, photo.hash)
        work.photos.keep(photo, content, _thumbnail(photo, content, most_pixels), at)
        taken += 1
    return taken


def _thumbnail(photo: Expected, content: bytes, most_pixels: int) -> bytes:
    said = Said(photo.hash, photo.media_type, photo.width, photo.height, photo.size)
    try:
        return check_picture(content, said, most_pixels)
    except BadPictureError as error:
        raise JobFileError(Fault.PHOTO_DIFFERS, photo.hash) from error
