"""A job file, looked into: its contents in today's shape, or the reason why it is not taken."""

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from pydantic import BaseModel, ValidationError

from evenbed.jobfile.faults import Fault, JobFileError
from evenbed.jobfile.parts import PHOTO, Parts
from evenbed.jobfile.shapes import EXTENSIONS, VERSION, ChangeShape, JobShape, PhotoShape
from evenbed.sync.jobs import PARENTS
from evenbed.wire.protocol import SCHEMA
from evenbed.wire.values import DEEPEST, is_uuid

KINDS = {"job", *PARENTS}
DEEPEST_FILE = DEEPEST + 5
"""Fields stand five deep in the file: document, list, change, fields, value."""
_STRUCTURE = re.compile(rb'"[^"\\]*(?:\\.[^"\\]*)*"?|[\[{\]}]', re.DOTALL)


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
    sizes = {photo.hash: photo.size for photo in contents.photos}
    for photo_hash in file.photos:
        if len(file.photo(parts, photo_hash)) != sizes[photo_hash]:
            raise JobFileError(Fault.PHOTO_DIFFERS, photo_hash)
    return file


def _document(content: bytes) -> dict[str, Any]:
    check_depth(content)
    try:
        document = json.loads(content.decode("utf-8-sig"), parse_constant=_no_number)
        json.dumps(document, ensure_ascii=False).encode()
    except (ValueError, RecursionError) as error:
        raise JobFileError(Fault.NOT_JSON) from error
    if not isinstance(document, dict) or type(document.get("evenbed_job")) is not int:
        raise JobFileError(Fault.NOT_A_JOB_FILE)
    return document


def check_depth(content: bytes) -> None:
    """Raises JobFileError where lists and objects stand too deep within each other; nothing is built to find out."""
    depth = 0
    for found in _STRUCTURE.finditer(content):
        mark = content[found.start()]
        if mark in b"[{":
            depth += 1
            if depth > DEEPEST_FILE:
                raise JobFileError(Fault.TOO_DEEP)
        elif mark in b"]}":
            depth -= 1


def _no_number(text: str) -> None:
    raise ValueError(f"{text} is no number")


def _contents(document: dict[str, Any]) -> JobShape:
    if document["evenbed_job"] > VERSION or _newest_schema(document) > SCHEMA:
        raise JobFileError(Fault.NEWER_VERSION)
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
    records = [(record.kind, record.id) for record in contents.records]
    if len(set(records)) != len(records) or set(records) != made or ("job", contents.job) not in made:
        raise JobFileError(Fault.RECORDS_DIFFER)


def _check_envelope(change: ChangeShape, ids: set[str]) -> None:
    if change.kind not in KINDS:
        raise JobFileError(Fault.UNKNOWN_KIND, change.kind)
    wrong = next((one for one in (change.change_id, change.record_id) if not is_uuid(one)), None)
    if wrong is not None:
        raise JobFileError(Fault.BAD_ID, wrong)
    if change.change_id in ids:
        raise JobFileError(Fault.DOUBLE_CHANGE)
    ids.add(change.change_id)


def _check_place(job_id: str, change: ChangeShape, made: set[tuple[str, str]]) -> None:
    """A record's first change names what it belongs to, which was made before it: so nothing can go round."""
    if change.kind == "job":
        if change.record_id != job_id:
            raise JobFileError(Fault.OTHER_JOB)
        return
    parent, field = PARENTS[change.kind]
    named = change.fields.get(field)
    if (parent, named) in made:
        return
    if parent == "job" and isinstance(named, str) and named != job_id:
        raise JobFileError(Fault.OTHER_JOB)
    raise JobFileError(Fault.NO_PARENT, f"{change.kind} {change.record_id}")


def _photos(contents: JobShape, names: frozenset[str]) -> dict[str, str]:
    """The names of the photos' parts, by hash."""
    told = {photo.hash: _name_of(photo) for photo in contents.photos}
    there = {name for name in names if PHOTO.fullmatch(name)}
    unnamed = sorted(there - set(told.values()))
    if unnamed:
        raise JobFileError(Fault.PHOTO_UNNAMED, unnamed[0])
    missing = next((h for h, name in told.items() if name not in there and h not in contents.complete.photos), None)
    if missing is not None:
        raise JobFileError(Fault.PHOTO_MISSING, missing)
    return {photo_hash: name for photo_hash, name in told.items() if name in there}


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
