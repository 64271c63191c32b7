"""What stands in `job.json`, version 1. Names that are not told here are left out when a file is read, and listed."""

import re
from datetime import datetime
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from evenbed.wire.exchange import FieldValues, SpokenName
from evenbed.wire.protocol import MOST_KNEW
from evenbed.wire.values import MOST_PHOTO_BYTES, PhotoType, Sha256, Uuid

VERSION = 1
EXTENSIONS: dict[PhotoType, str] = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp"}
"""By which a photo's part of the file is named after its hash."""
MOST_RECORDS = 200_000
MOST_CHANGES = 500_000
MOST_PHOTOS = 2_000
_MOMENT = re.compile(
    r"(19|20|21)\d\d-\d\d-\d\dT([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d{1,9})?)?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)",
    re.ASCII,
)


def check_moment(text: str) -> str:
    """The same text, where it is a time of RFC 3339 that every clock and database can hold. Raises ValueError."""
    if _MOMENT.fullmatch(text) is None:
        raise ValueError("a time is written as 2026-05-04T08:30:00-05:00, of the years 1900 to 2199")
    datetime.fromisoformat(text)
    return text


Moment = Annotated[str, AfterValidator(check_moment)]


class Shape(BaseModel):
    """Strict types; other names are let through, and are not read."""

    model_config = ConfigDict(strict=True, extra="allow", frozen=True)


class Maker(Shape):
    """Who made the file, on which device, with which version of the app; null where nobody joined."""

    person: SpokenName | None
    device: SpokenName | None
    app: str = Field(max_length=100)


class DeviceShape(Shape):
    """The device a change was made on."""

    id: Uuid
    name: SpokenName | None


class RecordShape(Shape):
    """A record as it stands, deleted ones too."""

    kind: str
    id: str
    fields: FieldValues


class ChangeShape(Shape):
    """One change, in the order in which they took effect."""

    change_id: str
    kind: str
    record_id: str
    fields: FieldValues
    schema_: int = Field(alias="schema", ge=1, le=1_000_000)
    at: Moment = Field(description="When it was made, the device's clock corrected")
    person: SpokenName | None
    device: DeviceShape | None
    knew: Annotated[list[Uuid], Field(max_length=MOST_KNEW)] = Field(
        description="What its maker had seen of the record: of each device that had edited it, the last change known"
    )


class PhotoShape(Shape):
    """A photo that a record names; its bytes are the part `photos/<hash>.<jpg, png or webp>`."""

    hash: Sha256
    media_type: PhotoType
    size: Annotated[int, Field(ge=1, le=MOST_PHOTO_BYTES)]


class Complete(Shape):
    """What is in the file: the whole history or not, and the hashes of photos that are not in it."""

    history: bool
    photos: list[Sha256]


class JobShape(Shape):
    """The whole of `job.json`."""

    evenbed_job: Literal[1]
    made_at: Moment
    made_by: Maker
    schema_: int = Field(alias="schema", ge=1, le=1_000_000)
    job: Uuid
    records: list[RecordShape] = Field(max_length=MOST_RECORDS)
    history: list[ChangeShape] = Field(max_length=MOST_CHANGES)
    photos: list[PhotoShape] = Field(max_length=MOST_PHOTOS)
    complete: Complete
