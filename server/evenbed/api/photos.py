"""Photos by the hash of their bytes: how much is here, the next part, the picture and its thumbnail.

A browser may keep a picture only for itself, and asks at every use whether it is still good: the answer is a few
bytes, and it is no where the device was removed or the job taken away since.
"""

from typing import Annotated, Any

from fastapi import APIRouter, Path, Query, Request, Response

from evenbed.access.rights import device_now
from evenbed.api.problems import ENTRY_CODES, STORE_CODES, ProblemError, declared
from evenbed.api.service import JoinedDevice, TheService, WritingDevice
from evenbed.api.uploads import Part, expected, octets_of, reply_from, take_part
from evenbed.pictures import THUMBNAIL_TYPE, TYPES
from evenbed.wire.photos import PhotoReply
from evenbed.wire.problems import Code
from evenbed.wire.protocol import MOST_PART_BYTES
from evenbed.wire.values import MOST_PHOTO_BYTES

router = APIRouter(prefix="/api/photos/{hash}", tags=["photos"])
Hash = Annotated[str, Path(alias="hash", pattern="^[0-9a-f]{64}$", description="SHA-256 of the picture's bytes")]
LOOK_CODES = (*ENTRY_CODES, Code.NOT_FOUND, Code.MALFORMED, *STORE_CODES)
PICTURE_CODES = (
    Code.PHOTO_DIFFERS,
    Code.PHOTO_DAMAGED,
    Code.PHOTO_UNKNOWN_TYPE,
    Code.PHOTO_TOO_LARGE,
    Code.PHOTO_HAS_POSITION,
)
PART_CODES = (
    *LOOK_CODES,
    Code.VIEWER_ONLY_LOOKS,
    Code.OCTETS_REQUIRED,
    Code.TOO_LARGE,
    Code.PHOTO_GAP,
    *PICTURE_CODES,
)
OCTETS = {"schema": {"type": "string", "format": "binary", "maxLength": MOST_PART_BYTES}}
BODY = {"requestBody": {"required": True, "content": {"application/octet-stream": OCTETS}}}
SAFE = {
    "Cache-Control": "private, no-cache",
    "Content-Security-Policy": "default-src 'none'; sandbox",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Vary": "Authorization, Cookie",
}


def _pictures(*media_types: str) -> dict[int | str, dict[str, Any]]:
    """How a route tells that it answers with a picture, or that the one asked with is still good."""
    content = {one: {"schema": {"type": "string", "format": "binary"}} for one in media_types}
    return {
        200: {"description": "The picture", "content": content},
        304: {"description": "The picture that the browser holds is still good"},
    }


@router.get("", operation_id="photo", responses=declared(*LOOK_CODES))
def photo(photo_hash: Hash, device: JoinedDevice, service: TheService) -> PhotoReply:
    """How much of a photo is here. The next part goes on from there, whichever device sends it."""
    with service.store.reading() as work:
        return reply_from(expected(work, device, photo_hash))


@router.put("", operation_id="sendPhotoPart", openapi_extra=BODY, responses=declared(*PART_CODES))
async def send_photo_part(
    photo_hash: Hash,
    request: Request,
    device: WritingDevice,
    service: TheService,
    offset: Annotated[int, Query(ge=0, le=MOST_PHOTO_BYTES, description="Where in the picture this part begins")],
    size: Annotated[int, Query(ge=1, le=MOST_PHOTO_BYTES, description="Bytes of the whole picture")],
) -> PhotoReply:
    """Send the next bytes of a photo that a record names. What is here already is not taken twice.

    With the last part the whole is looked into: one that is not taken is let go of, and may be sent anew.
    """
    return await take_part(service, device, Part(photo_hash, offset, size, await octets_of(request)))


@router.get(
    "/file",
    operation_id="photoFile",
    response_class=Response,
    responses={**_pictures(*TYPES.values()), **declared(*LOOK_CODES)},
)
def photo_file(photo_hash: Hash, device: JoinedDevice, service: TheService, request: Request) -> Response:
    """The picture."""
    with service.store.reading() as work:
        person = device_now(work, device).person
        if _is_held(request, photo_hash) and work.photos.is_whole(person, photo_hash):
            return _still_good(photo_hash)
        found = work.photos.picture(person, photo_hash)
    return _picture(photo_hash, *(found or (None, None)))


@router.get(
    "/thumbnail",
    operation_id="photoThumbnail",
    response_class=Response,
    responses={**_pictures(THUMBNAIL_TYPE), **declared(*LOOK_CODES)},
)
def photo_thumbnail(photo_hash: Hash, device: JoinedDevice, service: TheService, request: Request) -> Response:
    """The picture made small: at most 320 pixels, with nothing beside them."""
    with service.store.reading() as work:
        person = device_now(work, device).person
        if _is_held(request, photo_hash) and work.photos.is_whole(person, photo_hash):
            return _still_good(photo_hash)
        found = work.photos.thumbnail(person, photo_hash)
    return _picture(photo_hash, THUMBNAIL_TYPE, found)


def _is_held(request: Request, photo_hash: str) -> bool:
    """True where the browser has it: each address has one picture for ever, so its hash is its strong tag."""
    held = (tag.strip().removeprefix("W/") for tag in request.headers.get("if-none-match", "").split(","))
    return any(tag in ("*", f'"{photo_hash}"') for tag in held)


def _still_good(photo_hash: str) -> Response:
    return Response(status_code=304, headers=SAFE | {"ETag": f'"{photo_hash}"'})


def _picture(photo_hash: str, media_type: str | None, content: bytes | None) -> Response:
    if media_type is None or content is None:
        raise ProblemError(Code.NOT_FOUND, "There is no such photo, or it has not arrived yet.")
    name = f"{photo_hash[:12]}.{media_type.removeprefix('image/')}"
    headers = SAFE | {"ETag": f'"{photo_hash}"', "Content-Disposition": f'inline; filename="{name}"'}
    return Response(content, media_type=media_type, headers=headers)
