"""Pictures made for tests, good ones and bad ones, and the phone's part in sending them."""

import struct
import zlib
from dataclasses import dataclass
from hashlib import sha256
from io import BytesIO
from typing import Any

import httpx
from PIL import ExifTags, Image
from PIL.PngImagePlugin import PngInfo

from evenbed.pictures import Said
from tests.clients import Client, change
from tests.phones import uuid_text

JOB, ROOM = uuid_text(1), uuid_text(2)
XMP = (
    '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
    '<rdf:Description xmlns:exif="http://ns.adobe.com/exif/1.0/" exif:GPSLatitude="33,26.9N"/></rdf:RDF></x:xmpmeta>'
)


@dataclass(frozen=True)
class Picture:
    """A file and what a record says of it."""

    content: bytes
    media_type: str = "image/jpeg"
    width: int = 640
    height: int = 480

    @property
    def hash(self) -> str:
        """By which it travels."""
        return sha256(self.content).hexdigest()

    @property
    def size(self) -> int:
        """Bytes."""
        return len(self.content)

    def said(self) -> Said:
        """What its record says."""
        return Said(self.hash, self.media_type, self.width, self.height, self.size)

    def fields(self, room_id: str = ROOM) -> dict[str, Any]:
        """The fields of its record."""
        told = {"hash": self.hash, "media_type": self.media_type, "width": self.width, "height": self.height}
        return told | {"room_id": room_id, "size": self.size}


def drawn(width: int = 640, height: int = 480, colour: int = 0) -> Image.Image:
    """A picture with something in it."""
    picture = Image.linear_gradient("L").resize((width, height)).convert("RGB")
    picture.paste((colour % 256, 90, 40), (width // 4, height // 4, width // 2, height // 2))
    return picture


def saved(picture: Image.Image, kind: str = "JPEG", **told: Any) -> bytes:
    """The picture as a file."""
    file = BytesIO()
    picture.save(file, kind, **told)
    return file.getvalue()


def jpeg(colour: int = 0, **told: Any) -> Picture:
    """A plain JPEG; another colour is another picture."""
    return Picture(saved(drawn(colour=colour), **told))


def png(**told: Any) -> Picture:
    """A plain PNG."""
    return Picture(saved(drawn(), "PNG", **told), "image/png")


def webp(**told: Any) -> Picture:
    """A plain WebP."""
    return Picture(saved(drawn(), "WEBP", **told), "image/webp")


def position() -> bytes:
    """Exif that tells a place: the GPS directory of JEITA CP-3451, 4.6.6."""
    exif = Image.Exif()
    gps = exif.get_ifd(ExifTags.IFD.GPSInfo)
    gps[ExifTags.GPS.GPSLatitudeRef], gps[ExifTags.GPS.GPSLatitude] = "N", (33.0, 26.0, 54.0)
    gps[ExifTags.GPS.GPSLongitudeRef], gps[ExifTags.GPS.GPSLongitude] = "W", (112.0, 4.0, 26.0)
    return exif.tobytes()


def camera() -> Image.Exif:
    """Exif without a place."""
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation], exif[ExifTags.Base.Software] = 6, "a camera"
    return exif


def text_in_png(name: str, text: str, *, packed: bool) -> PngInfo:
    """A text beside the pixels of a PNG, plain or packed."""
    info = PngInfo()
    info.add_itxt(name, text, zip=packed)
    return info


def png_part(name: bytes, content: bytes) -> bytes:
    """One chunk of a PNG (ISO/IEC 15948, 5.3)."""
    return struct.pack(">I", len(content)) + name + content + struct.pack(">I", zlib.crc32(name + content))


def png_bomb(side: int) -> bytes:
    """A small PNG that says, and truly has, side times side pixels of one bit each."""
    rows = zlib.compress(bytes(side * (1 + (side + 7) // 8)), 9)
    head = struct.pack(">IIBBBBB", side, side, 1, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + png_part(b"IHDR", head) + png_part(b"IDAT", rows) + png_part(b"IEND", b"")


def webp_bomb(side: int) -> bytes:
    """The beginning of a WebP that announces a canvas of side times side pixels (RFC 9649, 2.7)."""
    edge = (side - 1).to_bytes(3, "little")
    head = b"WEBPVP8X" + struct.pack("<I", 10) + bytes(4) + edge + edge
    return b"RIFF" + struct.pack("<I", len(head)) + head


def make_room(phone: Client) -> None:
    """A job with a room, as the first two changes of a device."""
    phone.push(change(1, "job", JOB, {"name": "Alder"}), change(2, "room", ROOM, {"job_id": JOB, "name": "Hall"}))


def name_photo(phone: Client, picture: Picture, number: int = 3, room_id: str = ROOM) -> str:
    """A record for the picture; its id."""
    record_id = uuid_text(100 + number)
    reply = phone.push(change(number, "photo", record_id, picture.fields(room_id)))
    assert reply.json()["results"][0]["outcome"] == "applied", reply.text
    return record_id


def path_of(picture: Picture, more: str = "") -> str:
    """Its address."""
    return f"/api/photos/{picture.hash}{more}"


def send_part(
    phone: Client, picture: Picture, offset: int, content: bytes, size: int | None = None
) -> httpx.Response:
    """One part."""
    told = {"offset": offset, "size": picture.size if size is None else size}
    headers = {"Content-Type": "application/octet-stream"}
    return phone.send("PUT", path_of(picture), params=told, content=content, headers=headers)


def send_all(phone: Client, picture: Picture, step: int = 262_144) -> httpx.Response:
    """Every part in order; the reply to the last."""
    parts = [send_part(phone, picture, at, picture.content[at : at + step]) for at in range(0, picture.size, step)]
    return parts[-1]
