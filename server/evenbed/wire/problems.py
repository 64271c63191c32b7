"""The one shape of every error reply (RFC 9457, application/problem+json) and the closed set of its codes."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from pydantic import BaseModel, ConfigDict, Field


class Code(StrEnum):
    """Stable codes; a screen in another language makes its own sentence from them."""

    BAD_DOCUMENT = "bad_document"
    MALFORMED = "malformed"
    NOT_JSON = "not_json"
    NOT_JOINED = "not_joined"
    DEVICE_REMOVED = "device_removed"
    WRONG_CODE = "wrong_code"
    NAME_NEEDED = "name_needed"
    DEVICE_TAKEN = "device_taken"
    FOREMAN_ONLY = "foreman_only"
    LAST_FOREMAN = "last_foreman"
    VIEWER_ONLY_LOOKS = "viewer_only_looks"
    TOO_MANY_TRIES = "too_many_tries"
    DEVICE_FORKED = "device_forked"
    GAP = "gap"
    UPDATE_NEEDED = "update_needed"
    NOT_FOUND = "not_found"
    METHOD_NOT_ALLOWED = "method_not_allowed"
    TOO_LARGE = "too_large"
    JSON_REQUIRED = "json_required"
    OCTETS_REQUIRED = "octets_required"
    PHOTO_GAP = "photo_gap"
    PHOTO_DIFFERS = "photo_differs"
    PHOTO_DAMAGED = "photo_damaged"
    PHOTO_UNKNOWN_TYPE = "photo_unknown_type"
    PHOTO_TOO_LARGE = "photo_too_large"
    PHOTO_HAS_POSITION = "photo_has_position"
    SCAN_UNREADABLE = "scan_unreadable"
    SCAN_MISSES_FLOOR = "scan_misses_floor"
    JOB_FILE_NOT_TAKEN = "job_file_not_taken"
    FORECAST_OFF = "forecast_off"
    FORECAST_WITHOUT_PLACE = "forecast_without_place"
    FORECAST_UNREACHABLE = "forecast_unreachable"
    FORECAST_UNREADABLE = "forecast_unreadable"
    BUSY = "busy"
    STORAGE_FULL = "storage_full"
    STORAGE_FAILED = "storage_failed"
    INTERNAL = "internal"


@dataclass(frozen=True)
class About:
    """Status and title of a code."""

    status: int
    title: str


ABOUT: dict[Code, About] = {
    Code.BAD_DOCUMENT: About(422, "The room document gives no plan"),
    Code.MALFORMED: About(422, "The request is not in the agreed shape"),
    Code.NOT_JSON: About(422, "The request is not JSON"),
    Code.NOT_JOINED: About(401, "This device has not joined"),
    Code.DEVICE_REMOVED: About(401, "This device was removed"),
    Code.WRONG_CODE: About(403, "The join code is wrong"),
    Code.NAME_NEEDED: About(422, "A name is needed to join with this code"),
    Code.DEVICE_TAKEN: About(409, "This device belongs to somebody else"),
    Code.FOREMAN_ONLY: About(403, "Only a foreman may do this"),
    Code.LAST_FOREMAN: About(409, "Somebody must remain who may let others in"),
    Code.VIEWER_ONLY_LOOKS: About(403, "A viewer may only look"),
    Code.TOO_MANY_TRIES: About(429, "Too many wrong codes"),
    Code.DEVICE_FORKED: About(409, "This device's numbers are already used for other changes"),
    Code.GAP: About(409, "A change is missing before these"),
    Code.UPDATE_NEEDED: About(426, "This service is older than the phone"),
    Code.NOT_FOUND: About(404, "There is nothing here"),
    Code.METHOD_NOT_ALLOWED: About(405, "This address does not take that method"),
    Code.TOO_LARGE: About(413, "The request is too large"),
    Code.JSON_REQUIRED: About(415, "The request must be application/json"),
    Code.OCTETS_REQUIRED: About(415, "The request must be application/octet-stream"),
    Code.PHOTO_GAP: About(409, "Bytes are missing before these"),
    Code.PHOTO_DIFFERS: About(422, "The photo is not what its record says"),
    Code.PHOTO_DAMAGED: About(422, "The photo did not arrive whole"),
    Code.PHOTO_UNKNOWN_TYPE: About(422, "The photo is of no type that is taken"),
    Code.PHOTO_TOO_LARGE: About(422, "The photo has too many pixels"),
    Code.PHOTO_HAS_POSITION: About(422, "The photo tells where it was taken"),
    Code.SCAN_UNREADABLE: About(422, "The scan cannot be read"),
    Code.SCAN_MISSES_FLOOR: About(422, "The scan shows no floor in the room"),
    Code.JOB_FILE_NOT_TAKEN: About(422, "Nothing was taken from the job file"),
    Code.FORECAST_OFF: About(501, "This service asks nobody for the weather"),
    Code.FORECAST_WITHOUT_PLACE: About(409, "The job does not say where it is"),
    Code.FORECAST_UNREACHABLE: About(502, "The weather could not be asked for"),
    Code.FORECAST_UNREADABLE: About(502, "The weather's answer cannot be read"),
    Code.BUSY: About(503, "The service is busy"),
    Code.STORAGE_FULL: About(507, "The service's disk is full"),
    Code.STORAGE_FAILED: About(500, "The database failed"),
    Code.INTERNAL: About(500, "The service made a mistake"),
}


class ProblemItem(BaseModel):
    """One thing wrong: where, what, and the numbers that belong to it (lengths in mm)."""

    model_config = ConfigDict(frozen=True)

    path: str
    code: str
    message: str
    values: dict[str, float | str] = Field(default_factory=dict)


class ProblemReply(BaseModel):
    """An error, in the same shape everywhere."""

    model_config = ConfigDict(frozen=True)

    type: str
    title: str
    status: int
    code: Code
    detail: str | None = None
    problems: list[ProblemItem] | None = None
    expected: int | None = Field(
        default=None, description="With `gap` and `photo_gap`: the number the service waits for"
    )
    retry_after: int | None = Field(default=None, description="With `too_many_tries` and `busy`: seconds to wait")


def reply_for(code: Code, detail: str | None = None, **extra: Any) -> ProblemReply:
    """The reply for a code. `extra` are the members of `ProblemReply` that belong to it."""
    about = ABOUT[code]
    return ProblemReply(
        type=f"urn:evenbed:{code}", title=about.title, status=about.status, code=code, detail=detail, **extra
    )
