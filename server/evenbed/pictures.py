"""Looking into a picture that a phone sent: its true type and size, no position in it, whole; and its thumbnail.

Nothing that came with it is believed. The size is read from the header before anything is decoded, so that a small
file that would unpack to gigabytes is refused unopened. Positions: the GPS directory of Exif (JEITA CP-3451, also
CIPA DC-008, tag 34853), wherever in the file an Exif block stands, and the GPS properties of XMP (ISO 16684-1, whose
Exif names are those of CIPA DC-010). What else hides in a file is harmless as long as it is served as a picture.
"""

import struct
import zlib
from dataclasses import dataclass
from hashlib import sha256
from io import BytesIO
from typing import Literal

from PIL import ExifTags, Image, ImageFile, ImageOps, UnidentifiedImageError

from evenbed.wire.problems import Code
from evenbed.wire.values import MOST_PHOTO_PIXELS, PhotoType

TYPES: dict[str, PhotoType] = {"JPEG": "image/jpeg", "PNG": "image/png", "WEBP": "image/webp"}
THUMBNAIL = 320
"""Its longer edge, pixels."""
THUMBNAIL_QUALITY = 78
EXIF_MARK = b"Exif\x00\x00"
LONGEST_EXIF = 65_535
XMP_POSITIONS = (b"GPSLatitude", b"GPSLongitude")
DECODING_FAULTS = (
    *(OSError, SyntaxError, ValueError, TypeError, LookupError, ArithmeticError, AttributeError, RuntimeError),
    *(MemoryError, AssertionError, Warning, struct.error, zlib.error),
)
"""What the decoders raise for files that are not whole; none of it is our own mistake."""

Image.MAX_IMAGE_PIXELS = None  # ours is checked before a picture is opened; the library's own would only warn


class BadPictureError(Exception):
    """The picture is not taken; `code` says why."""

    def __init__(self, code: Code, message: str) -> None:
        self.code = code
        super().__init__(message)


@dataclass(frozen=True)
class Said:
    """What a photo's record says of its picture. Pixels and bytes."""

    hash: str
    media_type: str
    width: int
    height: int
    size: int


def check_picture(content: bytes, said: Said, most_pixels: int) -> bytes:
    """The thumbnail of a picture that is what its record says: a JPEG of at most 320 pixels, with nothing beside it.

    Raises BadPictureError: `photo_damaged` for other bytes than the hash's or a picture that is not whole,
    `photo_unknown_type`, `photo_too_large` for more than `most_pixels`, `photo_has_position`, `photo_differs`.
    """
    if sha256(content).hexdigest() != said.hash:
        raise BadPictureError(Code.PHOTO_DAMAGED, "The bytes do not have the hash they were sent under.")
    _check_webp_canvas(content, most_pixels)
    try:
        return _thumbnail_of(content, said, most_pixels)
    except DECODING_FAULTS as error:
        raise BadPictureError(Code.PHOTO_DAMAGED, f"The picture cannot be read to its end: {error}.") from error


def _check_webp_canvas(content: bytes, most_pixels: int) -> None:
    """The decoder of WebP makes room for the whole canvas as soon as it opens one (RFC 9649, chunk VP8X)."""
    if content[:4] == b"RIFF" and content[8:16] == b"WEBPVP8X" and len(content) >= 30:
        width, height = (1 + int.from_bytes(content[at : at + 3], "little") for at in (24, 27))
        _check_pixels(width, height, most_pixels)


def _check_pixels(width: int, height: int, most: int) -> None:
    if width * height > most or max(width, height) > MOST_PHOTO_PIXELS:
        raise BadPictureError(
            Code.PHOTO_TOO_LARGE,
            f"The picture has {width} x {height} pixels; {most} in all and {MOST_PHOTO_PIXELS} a side are taken.",
        )


def _thumbnail_of(content: bytes, said: Said, most_pixels: int) -> bytes:
    _check_type(content)
    with _opened(content) as picture:
        _check_pixels(*picture.size, most_pixels)
        _check_alike(picture, said)
        picture.load()  # a picture that is cut short fails here
        if _has_position(picture, content):
            raise BadPictureError(
                Code.PHOTO_HAS_POSITION, "The picture tells where it was taken. Take that out first."
            )
        return _jpeg_from(picture)


def _check_type(content: bytes) -> None:
    """One still picture of a type we take. The sums over a PNG's parts are read here: decoding passes over them."""
    try:
        with _opened(content) as picture:
            if picture.format not in TYPES or getattr(picture, "n_frames", 1) != 1:
                raise BadPictureError(
                    Code.PHOTO_UNKNOWN_TYPE, f"{picture.format} with several pictures is not taken."
                )
            picture.verify()
    except UnidentifiedImageError:
        raise BadPictureError(
            Code.PHOTO_UNKNOWN_TYPE, "JPEG, PNG and WebP are taken; this is none of them."
        ) from None


def _opened(content: bytes) -> ImageFile.ImageFile:
    return Image.open(BytesIO(content), formats=tuple(TYPES))


def _check_alike(picture: ImageFile.ImageFile, said: Said) -> None:
    found = TYPES[picture.format or ""], *picture.size
    if found != (said.media_type, said.width, said.height):
        raise BadPictureError(
            Code.PHOTO_DIFFERS,
            f"The record says {said.media_type}, {said.width} x {said.height}; "
            f"the picture is {found[0]}, {found[1]} x {found[2]}.",
        )


def _has_position(picture: ImageFile.ImageFile, content: bytes) -> bool:
    texts = [content, *(_bytes_of(value) for value in {**picture.info, **getattr(picture, "text", {})}.values())]
    return (
        _tells_position(picture.getexif())
        or any(mark in text for text in texts for mark in XMP_POSITIONS)
        or any(_exif_tells_position(text) for text in texts)
    )


def _bytes_of(value: object) -> bytes:
    return value if isinstance(value, bytes) else str(value).encode("utf-8", "replace")


def _exif_tells_position(content: bytes) -> bool:
    """True where any Exif block in there does: those of a second picture behind the first count too."""
    at = content.find(EXIF_MARK)
    while at >= 0:
        if _tells_position(_exif_from(content[at : at + LONGEST_EXIF])):
            return True
        at = content.find(EXIF_MARK, at + 1)
    return False


def _exif_from(block: bytes) -> Image.Exif:
    """The directory of a block; an empty one where the mark stood by chance before something else."""
    exif = Image.Exif()
    try:
        exif.load(block)
    except DECODING_FAULTS:
        return Image.Exif()
    return exif


def _tells_position(exif: Image.Exif) -> bool:
    return ExifTags.IFD.GPSInfo in exif


def _jpeg_from(picture: Image.Image) -> bytes:
    """Upright, small, on white where it is clear, and with nothing of what the file said beside its pixels."""
    small = ImageOps.exif_transpose(picture)
    small.thumbnail((THUMBNAIL, THUMBNAIL))
    clear = small.convert("RGBA")
    bare = Image.new("RGB", clear.size, "white")
    bare.paste(clear, mask=clear)
    kept = BytesIO()
    bare.save(kept, "JPEG", quality=THUMBNAIL_QUALITY, optimize=True)
    return kept.getvalue()


THUMBNAIL_TYPE: Literal["image/jpeg"] = "image/jpeg"
