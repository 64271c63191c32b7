"""Taking a job file in: all of it in one transaction, by the rules that a phone's changes go through, or nothing.

Ids stay what they were, so that a file taken in twice, or where its job is known, adds what is unknown and no more.
The changes come from a device of its own that nobody holds; who made each, and when, is what the file says.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from pydantic import ValidationError

from evenbed.access.codes import hash_of_token, make_token
from evenbed.jobfile.faults import Fault, JobFileError
from evenbed.jobfile.parts import Parts
from evenbed.jobfile.reading import JobFile
from evenbed.jobfile.shapes import ChangeShape
from evenbed.pictures import BadPictureError, Said, check_picture
from evenbed.store.devices import Device
from evenbed.store.people import Person
from evenbed.store.photos import Expected
from evenbed.store.work import Store, UnitOfWork
from evenbed.sync.accept import accept_push
from evenbed.sync.model import Author
from evenbed.sync.port import Ledger
from evenbed.wire.exchange import Change, FieldValues, Origin, PushRequest, PushResult
from evenbed.wire.protocol import MOST_CHANGES, PROTOCOL
from evenbed.wire.records import PhotoFields

DEVICE_ID = "019df2e4-d900-7000-9000-000000000001"
NAME = "Job files"


@dataclass(frozen=True)
class Taken:
    """What was new, what was here already."""

    changes: int
    known: int
    photos: int


Bringer = Callable[[UnitOfWork], Person | None]
"""Who brings the file, asked inside the transaction, where it may still be refused; None: nobody who has joined."""


def bring(store: Store, file: JobFile, parts: Parts, at: datetime, most_pixels: int, by: Bringer) -> Taken:
    """Take everything in and commit. The pictures are looked into before: no other writer waits for that.

    Raises JobFileError, and whatever `by` raises: then nothing is kept.
    """
    looked = _looked_into(store, file, parts, most_pixels)
    with store.writing() as work:
        taken = take_in(work, file, parts, at, most_pixels, by=by(work), looked=looked)
        work.commit()
    return taken


def take_in(
    work: UnitOfWork,
    file: JobFile,
    parts: Parts,
    at: datetime,
    most_pixels: int,
    *,
    by: Person | None = None,
    looked: Mapping[Said, bytes] | None = None,
) -> Taken:
    """Take everything in with a foreman's rights; the caller commits. Raises JobFileError: then nothing may be.

    `looked`: thumbnails of pictures that were looked into before.
    """
    carrier = work.people.with_id(DEVICE_ID) or work.people.add(DEVICE_ID, NAME, "setter")
    _carrier(work, carrier, at)
    person = by or carrier
    results = _hand_over_all(work, Author(DEVICE_ID, person.id, person.name), file.contents.history, at)
    applied = sum(result.outcome == "applied" for result in results)
    photos = _take_photos(work, file, parts, at, _Looking(most_pixels, looked or {}))
    return Taken(applied, len(results) - applied, photos)


def _carrier(work: UnitOfWork, person: Person, at: datetime) -> None:
    """The device that the log names as the one that brought them: removed from the start, for nobody holds it."""
    if work.devices.with_id(DEVICE_ID) is None:
        work.devices.save(Device(DEVICE_ID, NAME, person, at), hash_of_token(make_token()))
        work.devices.remove(DEVICE_ID, at)


def _hand_over_all(
    work: UnitOfWork, author: Author, history: Sequence[ChangeShape], at: datetime
) -> list[PushResult]:
    ledger, results = work.ledger(), []
    for start in range(0, len(history), MOST_CHANGES):
        results += hand_over(ledger, author, history[start : start + MOST_CHANGES], at)
    return results


def hand_over(ledger: Ledger, author: Author, some: Sequence[ChangeShape], at: datetime) -> list[PushResult]:
    """Hand the next changes of a file over, no more than a push has. Raises JobFileError where one is refused."""
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


@dataclass(frozen=True)
class _Looking:
    """How pictures are looked into, and the thumbnails of those that were."""

    most_pixels: int
    looked: Mapping[Said, bytes]

    def thumbnail(self, said: Said, content: bytes) -> bytes:
        """Of a picture that is what its record says. Raises JobFileError."""
        return self.looked.get(said) or _thumbnail(said, content, self.most_pixels)


def _take_photos(work: UnitOfWork, file: JobFile, parts: Parts, at: datetime, looking: _Looking) -> int:
    taken = 0
    for photo in work.photos.expected_in(file.contents.job):
        if photo.complete or photo.hash not in file.photos:
            continue
        content = file.photo(parts, photo.hash)
        work.photos.keep(photo, content, looking.thumbnail(_said(photo), content), at)
        taken += 1
    return taken


def _said(photo: Expected) -> Said:
    return Said(photo.hash, photo.media_type, photo.width, photo.height, photo.size)


def _looked_into(store: Store, file: JobFile, parts: Parts, most_pixels: int) -> dict[Said, bytes]:
    """The thumbnails of the pictures that are not here yet, by what the file says of each."""
    with store.reading() as work:
        here = {photo.hash for photo in work.photos.of_job(file.contents.job) if photo.complete}
    told = {_told(change.fields) for change in file.contents.history if change.kind == "photo"}
    lacking = [one for one in told if one is not None and one.hash in file.photos.keys() - here]
    return {one: _thumbnail(one, file.photo(parts, one.hash), most_pixels) for one in lacking}


def _told(fields: FieldValues) -> Said | None:
    """What a change says of a photo; None where it does not tell all of it."""
    try:
        photo = PhotoFields.model_validate(fields)
    except ValidationError:
        return None
    return Said(photo.hash, photo.media_type, photo.width, photo.height, photo.size)


def _thumbnail(said: Said, content: bytes, most_pixels: int) -> bytes:
    try:
        return check_picture(content, said, most_pixels)
    except BadPictureError as error:
        raise JobFileError(Fault.PHOTO_DIFFERS, said.hash) from error
