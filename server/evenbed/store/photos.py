"""Photos by the hash of their bytes, each kept for the job that shows it: on their way in parts, then whole.

A photo is there for a person only through a record that they see and that is not deleted. Two jobs may name the same
picture; each keeps its own, brought by somebody who had it: to know a hash is not to have seen the picture.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from hashlib import sha256
from typing import cast

from sqlalchemy import ColumnElement
from sqlmodel import Session, col, delete, select, update

from evenbed.store.archive import seen_by
from evenbed.store.people import Person
from evenbed.store.tables import PhotoPartRow, PhotoRow, RecordRow
from evenbed.store.times import text_from_moment
from evenbed.wire.values import PhotoType

FORGOTTEN_AFTER = timedelta(days=30)
"""Parts of a photo that nobody went on sending; it starts from its first byte again should it come back."""


@dataclass(frozen=True)
class Expected:
    """A photo as a record names it, and how many of its bytes are here. Pixels and bytes."""

    job_id: str
    hash: str
    media_type: str
    width: int
    height: int
    size: int
    received: int
    complete: bool


@dataclass(frozen=True)
class JobPhoto:
    """A photo that a record of a job names, deleted or not."""

    hash: str
    media_type: PhotoType
    size: int
    complete: bool


class Photos:
    """Photos inside one session."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def expected(self, person: Person, photo_hash: str) -> Expected | None:
        """The photo as the person's records name it: first of all where bytes are still missing. None: it is not
        theirs to see, or not named."""
        known = [self._standing(record) for record in self._records(person, photo_hash)]
        return min(known, key=lambda one: (one.complete, one.job_id, one.size), default=None)

    def _records(self, person: Person, photo_hash: str) -> list[RecordRow]:
        naming = select(RecordRow).where(RecordRow.photo_hash == photo_hash, seen_by(person))
        return [row for row in self._session.exec(naming) if row.fields.get("deleted") is not True]

    def _standing(self, record: RecordRow) -> Expected:
        said, photo_hash = record.fields, str(record.photo_hash)
        of_photo = PhotoRow.job_id == record.job_id, PhotoRow.hash == photo_hash
        row = self._session.exec(
            select(PhotoRow.size, PhotoRow.received, PhotoRow.media_type).where(*of_photo)
        ).first()
        size, received, media_type = row or (0, 0, None)
        return Expected(
            job_id=record.job_id,
            hash=photo_hash,
            media_type=said["media_type"],
            width=said["width"],
            height=said["height"],
            size=said["size"],
            received=received if size == said["size"] else 0,
            complete=media_type is not None,
        )

    def parts(self, photo: Expected) -> bytes:
        """All that is here of a photo on its way."""
        of_photo = PhotoPartRow.job_id == photo.job_id, PhotoPartRow.hash == photo.hash
        rows = self._session.exec(select(PhotoPartRow).where(*of_photo).order_by(col(PhotoPartRow.offset)))
        return b"".join(row.content for row in rows)

    def add_part(self, photo: Expected, content: bytes, at: datetime) -> None:
        """The bytes that follow what is here."""
        if photo.received == 0:
            self._begin(photo, at)
        self._session.add(PhotoPartRow(job_id=photo.job_id, hash=photo.hash, offset=photo.received, content=content))
        grown = update(PhotoRow).where(col(PhotoRow.job_id) == photo.job_id, col(PhotoRow.hash) == photo.hash)
        self._session.exec(grown.values(received=photo.received + len(content)))
        self._session.flush()

    def _begin(self, photo: Expected, at: datetime) -> None:
        self._forget_old(at)
        self.drop(photo)
        self._session.add(
            PhotoRow(job_id=photo.job_id, hash=photo.hash, size=photo.size, received=0, begun_at=text_from_moment(at))
        )
        self._session.flush()

    def _forget_old(self, at: datetime) -> None:
        unfinished = select(PhotoRow.job_id, PhotoRow.hash).where(
            col(PhotoRow.media_type).is_(None), PhotoRow.begun_at < text_from_moment(at - FORGOTTEN_AFTER)
        )
        for job_id, photo_hash in self._session.exec(unfinished).all():
            self._drop(job_id, photo_hash)

    def drop(self, photo: Expected) -> None:
        """Let go of what is here of a photo on its way. A whole one has no parts, and stays."""
        self._drop(photo.job_id, photo.hash)

    def _drop(self, job_id: str, photo_hash: str) -> None:
        parts = delete(PhotoPartRow).where(col(PhotoPartRow.job_id) == job_id, col(PhotoPartRow.hash) == photo_hash)
        begun = delete(PhotoRow).where(col(PhotoRow.job_id) == job_id, col(PhotoRow.hash) == photo_hash)
        self._session.exec(parts)
        self._session.exec(begun.where(col(PhotoRow.media_type).is_(None)))

    def keep(self, photo: Expected, content: bytes, thumbnail: bytes, at: datetime) -> None:
        """The whole picture in place of its parts."""
        self.drop(photo)
        self._session.add(
            PhotoRow(
                job_id=photo.job_id,
                hash=photo.hash,
                size=len(content),
                received=len(content),
                begun_at=text_from_moment(at),
                media_type=photo.media_type,
                thumbnail=thumbnail,
                content=content,
            )
        )
        self._session.flush()

    def picture(self, person: Person, photo_hash: str) -> tuple[str, bytes] | None:
        """Type and bytes of a whole photo that the person sees."""
        columns = select(PhotoRow.media_type, PhotoRow.content)
        found = self._session.exec(columns.where(*self._whole(person, photo_hash))).first()
        return (str(found[0]), bytes(found[1] or b"")) if found else None

    def thumbnail(self, person: Person, photo_hash: str) -> bytes | None:
        """The thumbnail of a whole photo that the person sees."""
        return self._session.exec(select(PhotoRow.thumbnail).where(*self._whole(person, photo_hash))).first()

    def is_whole(self, person: Person, photo_hash: str) -> bool:
        """True where the person may look at it."""
        return self._session.exec(select(PhotoRow.hash).where(*self._whole(person, photo_hash))).first() is not None

    def _whole(self, person: Person, photo_hash: str) -> tuple[ColumnElement[bool], ...]:
        jobs = {record.job_id for record in self._records(person, photo_hash)}
        return (
            col(PhotoRow.hash) == photo_hash,
            col(PhotoRow.job_id).in_(sorted(jobs)),
            col(PhotoRow.media_type).is_not(None),
        )

    def expected_in(self, job_id: str) -> tuple[Expected, ...]:
        """The photos that the job's records name, those of deleted records too; each once, in the order of hashes."""
        naming = select(RecordRow).where(RecordRow.job_id == job_id, col(RecordRow.photo_hash).is_not(None))
        named = {str(row.photo_hash): row for row in self._session.exec(naming.order_by(col(RecordRow.id)))}
        return tuple(self._standing(named[photo_hash]) for photo_hash in sorted(named))

    def of_job(self, job_id: str) -> tuple[JobPhoto, ...]:
        """The same, as a file tells them."""
        return tuple(
            JobPhoto(one.hash, cast("PhotoType", one.media_type), one.size, one.complete)
            for one in self.expected_in(job_id)
        )

    def content(self, job_id: str, photo_hash: str) -> bytes | None:
        """The bytes of a whole photo of a job."""
        of_photo = col(PhotoRow.job_id) == job_id, col(PhotoRow.hash) == photo_hash
        return self._session.exec(
            select(PhotoRow.content).where(*of_photo, col(PhotoRow.media_type).is_not(None))
        ).first()

    def proved(self) -> tuple[int, tuple[str, ...]]:
        """How many photos are whole, and the hashes of those whose bytes have another one by now."""
        checked = list(self._checked())
        return len(checked), tuple(photo_hash for photo_hash, is_good in checked if not is_good)

    def _checked(self) -> Iterator[tuple[str, bool]]:
        whole = select(PhotoRow.hash, PhotoRow.content).where(col(PhotoRow.media_type).is_not(None))
        for photo_hash, content in self._session.exec(whole.execution_options(yield_per=8)):
            yield photo_hash, sha256(content or b"").hexdigest() == photo_hash
