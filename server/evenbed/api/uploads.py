"""Taking a photo in parts: each kept as it comes; the last one joins them, and the whole is looked into.

The last part is not kept as a part: until the picture was found good the photo stays as it was before it, so that a
service stopped in between, or a reply lost, leaves nothing half done. The looking holds no lock of the database.
"""

import asyncio
from dataclasses import dataclass

from fastapi import Request
from fastapi.concurrency import run_in_threadpool
from starlette.requests import ClientDisconnect

from evenbed.access.rights import check_writer, device_now
from evenbed.api.problems import ProblemError
from evenbed.api.service import Service, now
from evenbed.pictures import BadPictureError, Said, check_picture
from evenbed.store.devices import Device
from evenbed.store.photos import Expected
from evenbed.store.work import UnitOfWork
from evenbed.wire.photos import PhotoReply
from evenbed.wire.problems import Code
from evenbed.wire.protocol import MOST_PART_BYTES


@dataclass(frozen=True)
class Part:
    """Bytes of a photo from an offset on; `size` is what the phone says the whole has."""

    hash: str
    offset: int
    size: int
    content: bytes


@dataclass(frozen=True)
class Joined:
    """All bytes of a photo, not yet looked into."""

    photo: Expected
    content: bytes


def check_octets(request: Request) -> None:
    """Raises ProblemError where the body is not declared as application/octet-stream.

    A page of another origin cannot send that type without asking first, so a device's cookie is no use to it.
    """
    if request.headers.get("content-type", "").partition(";")[0].strip().lower() != "application/octet-stream":
        raise ProblemError(Code.OCTETS_REQUIRED, "Send the header Content-Type: application/octet-stream.")


async def octets_of(request: Request) -> bytes:
    """The body of a request. Raises ProblemError where it is no application/octet-stream, or too large a part."""
    check_octets(request)
    content = bytearray()
    try:
        async for chunk in request.stream():
            content += chunk
            if len(content) > MOST_PART_BYTES:
                raise ProblemError(Code.TOO_LARGE, f"At most {MOST_PART_BYTES} bytes are taken in one part.")
    except ClientDisconnect:
        raise ProblemError(Code.PHOTO_DAMAGED, "The part was cut off on its way.") from None
    return bytes(content)


async def take_part(service: Service, device: Device, part: Part) -> PhotoReply:
    """Keep a part, or see that it is here already; with the last one the photo is complete."""
    step = await run_in_threadpool(_keep_part, service, device, part)
    if isinstance(step, PhotoReply):
        return step
    return await _look_into(service, device, await run_in_threadpool(_joined, service, step, part))


def _keep_part(service: Service, device: Device, part: Part) -> PhotoReply | Expected:
    """How the photo stands with it; where it is the last part, what is expected of the whole."""
    with service.store.writing() as work:
        photo = _expected(work, device, part)
        if photo.complete or part.offset < photo.received:
            return reply_from(photo)
        _check_follows(photo, part)
        if part.offset + len(part.content) == part.size:
            return photo
        work.photos.add_part(photo, part.content, now())
        work.commit()
    return PhotoReply(size=part.size, received=part.offset + len(part.content), complete=False)


def _joined(service: Service, photo: Expected, part: Part) -> Joined:
    with service.store.reading() as work:
        return Joined(photo, work.photos.parts(photo) + part.content)


def _expected(work: UnitOfWork, device: Device, part: Part) -> Expected:
    photo = expected(work, device, part.hash)
    check_writer(device_now(work, device))
    if photo.size != part.size:
        raise ProblemError(Code.PHOTO_DIFFERS, f"The photo's record says {photo.size} bytes, not {part.size}.")
    return photo


def _check_follows(photo: Expected, part: Part) -> None:
    if part.offset > photo.received:
        raise ProblemError(Code.PHOTO_GAP, f"Go on from byte {photo.received}.", expected=photo.received)
    if not part.content or part.offset + len(part.content) > part.size:
        raise ProblemError(
            Code.PHOTO_DIFFERS,
            f"{len(part.content)} bytes from {part.offset} on are no part of a photo of {part.size} bytes.",
        )


async def _look_into(service: Service, device: Device, joined: Joined) -> PhotoReply:
    photo, most = joined.photo, service.settings.photo_pixels
    said = Said(photo.hash, photo.media_type, photo.width, photo.height, photo.size)
    looking = asyncio.get_running_loop().run_in_executor(service.looking, check_picture, joined.content, said, most)
    try:
        thumbnail = await looking
    except BadPictureError as error:
        await run_in_threadpool(_drop, service, photo)
        raise ProblemError(error.code, str(error)) from error
    return await run_in_threadpool(_keep, service, device, joined, thumbnail)


def _drop(service: Service, photo: Expected) -> None:
    """What is here of the photo is good for nothing; where another phone has completed it meanwhile, it stays."""
    with service.store.writing() as work:
        work.photos.drop(photo)
        work.commit()


def _keep(service: Service, device: Device, joined: Joined, thumbnail: bytes) -> PhotoReply:
    with service.store.writing() as work:
        photo = expected(work, device, joined.photo.hash)
        check_writer(device_now(work, device))
        if photo.job_id == joined.photo.job_id and not photo.complete:
            work.photos.keep(joined.photo, joined.content, thumbnail, now())
        reply = reply_from(expected(work, device, photo.hash))
        work.commit()
    return reply


def expected(work: UnitOfWork, device: Device, photo_hash: str) -> Expected:
    """The photo as the device's person sees it named. Raises ProblemError `not_found`."""
    photo = work.photos.expected(device_now(work, device).person, photo_hash)
    if photo is None:
        raise ProblemError(Code.NOT_FOUND, "No record that this person sees names such a photo.")
    return photo


def reply_from(photo: Expected) -> PhotoReply:
    """What is here of it."""
    received = photo.size if photo.complete else photo.received
    return PhotoReply(size=photo.size, received=received, complete=photo.complete)
