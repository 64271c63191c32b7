"""A job file, looked into: its contents in today's shape, or the reason why it is not taken."""

import json
import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256
from math import inf
from typing import Any

from pydantic import BaseModel, ValidationError

from evenbed.jobfile.faults import Fault, JobFileError
from evenbed.jobfile.parts import JOB, PHOTO, Parts
from evenbed.jobfile.shapes import EXTENSIONS, VERSION, ChangeShape, JobShape, PhotoShape
from evenbed.sync.jobs import PARENTS
from evenbed.wire.protocol import SCHEMA
from evenbed.wire.values import DEEPEST, PhotoType, is_uuid

KINDS = {"job", *PARENTS}
DEEPEST_FILE = DEEPEST + 5
"""Fields stand five deep in the file: document, list, change, fields, value."""
_MARKS: dict[PhotoType, re.Pattern[bytes]] = {
    "image/jpeg": re.compile(rb"\xff\xd8\xff"),
    "image/png": re.compile(rb"\x89PNG\r\n\x1a\n"),
    "image/webp": re.compile(rb"RIFF.{4}WEBP", re.DOTALL),
}
"""With which files of a type begin (ISO/IEC 10918-1, ISO/IEC 15948, RFC 9649)."""
MOST_VALUES = 4_000_000
"""Lists, objects and what is in them: the largest job has fewer; empty lists alone would fill the memory."""
MOST_NAMES = 10_000
"""In one object."""
_OBJECT, _COMMA = b"{,"
_STRUCTURE = re.compile(rb'"[^"\\]*+(?:\\.[^"\\]*+)*+"?+|[\[{\]},]', re.DOTALL)


@dataclass(frozen=True)
class JobFile:
    """What is in the file; `unknown` are names in it that this version does not know, and leaves out."""

    contents: JobShape
    photos: Mapping[str, str]
    unknown: tuple[str, ...]

    def photo(self, parts: Parts, photo_hash: str) -> bytes:
        """The bytes of a photo in it, by hash. Raises JobFileError where they are not its."""
        content = parts.photo(self.photos[photo_hash])
        if sha256(content).hexdigest() != photo_hash:
            raise JobFileError(Fault.PHOTO_DIFFERS, photo_hash)
        return content


def read(parts: Parts) -> JobFile:
    """Its contents, as far as they can be judged without a database; every photo read once. Raises JobFileError."""
    document = _document(parts.job())
    contents = _contents(document)
    _check_history(contents)
    file = JobFile(contents, _photos(contents, parts.names()), tuple(sorted(set(_unknown(contents)))))
    for photo in contents.photos:
        if photo.hash in file.photos:
            _check_photo(file.photo(parts, photo.hash), photo)
    return file


def _check_photo(content: bytes, told: PhotoShape) -> None:
    """By what the phone can see of it too; whether it is whole is looked at where it is kept."""
    if len(content) != told.size or _MARKS[told.media_type].match(content) is None:
        raise JobFileError(Fault.PHOTO_DIFFERS, told.hash)


def _document(content: bytes) -> dict[str, Any]:
    check_depth(content)
    try:
        document = json.loads(content.decode("utf-8-sig"), parse_constant=_no_number, parse_float=_number)
        _check_values(document)
    except (ValueError, RecursionError) as error:
        raise JobFileError(Fault.NOT_JSON, JOB) from error
    if not isinstance(document, dict) or type(document.get("evenbed_job")) is not int:
        raise JobFileError(Fault.NOT_A_JOB_FILE, JOB)
    return document


def check_depth(content: bytes) -> None:
    """Raises JobFileError where lists and objects stand too deep within each other, or hold too much.

    Nothing is built to find out.
    """
    values = 0
    names: list[float] = []  # of each object that is open; a list counts none
    for found in _STRUCTURE.finditer(content):
        mark = content[found.start()]
        if mark in b"[{":
            names.append(0 if mark == _OBJECT else -inf)
            if len(names) > DEEPEST_FILE:
                raise JobFileError(Fault.TOO_DEEP, JOB)
        elif mark in b"]}":
            del names[-1:]
        elif mark == _COMMA and names:
            names[-1] += 1
        values += mark in b"[{,"
        if values > MOST_VALUES or (names and names[-1] > MOST_NAMES):
            raise JobFileError(Fault.TOO_LARGE, JOB)


def _no_number(text: str) -> None:
    raise ValueError(f"{text} is no number")


def _number(text: str) -> float:
    """A whole one is an integer however it is written, as it is to the phone."""
    value = float(text)
    return int(value) if value.is_integer() and abs(value) < 2**53 else value


def _check_values(value: Any) -> None:
    """Raises ValueError for what could not be sent on to every phone: half characters, numbers beyond all limits."""
    if isinstance(value, str):
        value.encode()
    elif isinstance(value, float | int):
        if not -sys.float_info.max <= value <= sys.float_info.max:
            raise ValueError("a number is beyond all limits")
    elif isinstance(value, list):
        for part in value:
            _check_values(part)
    elif isinstance(value, dict):
        for name, part in value.items():
            _check_values(name)
            _check_values(part)


def _contents(document: dict[str, Any]) -> JobShape:
    if document["evenbed_job"] > VERSION or _newest_schema(document) > SCHEMA:
        raise JobFileError(Fault.NEWER_VERSION, JOB)
    try:
        return JobShape.model_validate(document)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        raise JobFileError(Fault.WRONG_SHAPE, ".".join(map(str, first["loc"]))) from error


def _newest_schema(document: dict[str, Any]) -> int:
    history = document.get("history")
    changes = [one for one in history if isinstance(one, dict)] if isinstance(history, list) else []
    told = [one.get("schema") for one in (document, *changes)]
    return max((schema for schema in told if isinstance(schema, int)), default=1)


def _check_history(contents: JobShape) -> None:
    made: set[tuple[str, str]] = set()
    ids: set[str] = set()
    for change in contents.history:
        _check_envelope(change, ids)
        if (change.kind, change.record_id) not in made:
            _check_place(contents.job, change, made)
            made.add((change.kind, change.record_id))
    _check_records(contents, made)


def _check_records(contents: JobShape, made: set[tuple[str, str]]) -> None:
    """Each record once, and each that the history made."""
    standing: set[tuple[str, str]] = set()
    for record in contents.records:
        if (record.kind, record.id) in standing or (record.kind, record.id) not in made:
            raise JobFileError(Fault.RECORDS_DIFFER, f"{record.kind} {record.id}")
        standing.add((record.kind, record.id))
    lacking = sorted({("job", contents.job), *made} - standing)
    if lacking:
        raise JobFileError(Fault.RECORDS_DIFFER, " ".join(lacking[0]))


def _check_envelope(change: ChangeShape, ids: set[str]) -> None:
    if change.kind not in KINDS:
        raise JobFileError(Fault.UNKNOWN_KIND, change.kind)
    wrong = next((one for one in (change.change_id, change.record_id) if not is_uuid(one)), None)
    if wrong is not None:
        raise JobFileError(Fault.BAD_ID, wrong)
    if change.change_id in ids:
        raise JobFileError(Fault.DOUBLE_CHANGE, change.change_id)
    ids.add(change.change_id)


def _check_place(job_id: str, change: ChangeShape, made: set[tuple[str, str]]) -> None:
    """A record's first change names what it belongs to, which was made before it: so nothing can go round."""
    told = f"{change.kind} {change.record_id}"
    if change.kind == "job":
        if change.record_id != job_id:
            raise JobFileError(Fault.OTHER_JOB, told)
        return
    parent, field = PARENTS[change.kind]
    named = change.fields.get(field)
    if isinstance(named, str) and (parent, named) in made:
        return
    if parent == "job" and isinstance(named, str) and named != job_id:
        raise JobFileError(Fault.OTHER_JOB, told)
    raise JobFileError(Fault.NO_PARENT, told)


def _photos(contents: JobShape, names: frozenset[str]) -> dict[str, str]:
    """The names of the photos' parts, by hash."""
    _check_told(contents)
    told = {photo.hash: _name_of(photo) for photo in contents.photos}
    there = {name for name in names if PHOTO.fullmatch(name)}
    unnamed = sorted(there - set(told.values()))
    if unnamed:
        raise JobFileError(Fault.PHOTO_UNNAMED, unnamed[0])
    missing = next((h for h, name in told.items() if name not in there and h not in contents.complete.photos), None)
    if missing is not None:
        raise JobFileError(Fault.PHOTO_MISSING, missing)
    return {photo_hash: name for photo_hash, name in told.items() if name in there}


def _check_told(contents: JobShape) -> None:
    """Each photo is told of once, and a record names it."""
    named = [change.fields.get("hash") for change in contents.history if change.kind == "photo"]
    pictures = {one for one in named if isinstance(one, str)}
    hashes: set[str] = set()
    for photo in contents.photos:
        if photo.hash in hashes:
            raise JobFileError(Fault.DOUBLE_NAME, photo.hash)
        if photo.hash not in pictures:
            raise JobFileError(Fault.PHOTO_UNNAMED, photo.hash)
        hashes.add(photo.hash)


def _name_of(photo: PhotoShape) -> str:
    return part_name(photo.hash, EXTENSIONS[photo.media_type])


def part_name(photo_hash: str, extension: str) -> str:
    """Of a photo's part in the file."""
    return f"photos/{photo_hash}.{extension}"


def _unknown(shape: BaseModel) -> Iterator[str]:
    """The names that the version does not know, of the whole and of all in it."""
    yield from shape.model_extra or {}
    for name in type(shape).model_fields:
        value = getattr(shape, name)
        for part in value if isinstance(value, list) else [value]:
            if isinstance(part, BaseModel):
                yield from _unknown(part)
