"""Job files that must not be taken, each with the reason: made by a zip library of their own, for phone and service.

`python -m tests.jobfiles.hostile FOLDER` writes them there, with `expected.json`: the reason by file name, null for
those that are good; and `probes.json`, what every field of a record may hold.
"""

import json
import struct
import sys
from collections.abc import Callable, Iterator
from copy import deepcopy
from functools import partial
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import Any
from warnings import catch_warnings
from zipfile import ZIP_BZIP2, ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

from evenbed.jobfile.faults import Fault
from evenbed.wire.protocol import SCHEMA
from tests.jobfiles.bent import bent
from tests.jobfiles.probes import probes
from tests.phones import uuid_text
from tests.pictures import jpeg

JOB, ROOM, READING, OTHER = (uuid_text(n) for n in (1, 2, 3, 4))
PICTURE = jpeg()
PHOTO_PART = f"photos/{PICTURE.hash}.jpg"
Document = dict[str, Any]
Made = tuple[str, Fault | None, bytes]


def good() -> Document:
    """A small whole job."""
    job, room = {"name": "Alder"}, {"job_id": JOB, "name": "Hall"}
    photo = PICTURE.fields(ROOM)
    told = [("job", JOB, job), ("room", ROOM, room), ("photo", READING, photo)]
    return {
        "evenbed_job": 1,
        "made_at": "2026-05-04T13:00:00.000Z",
        "made_by": {"person": "Ana", "device": "phone", "app": "test"},
        "schema": SCHEMA,
        "job": JOB,
        "records": [{"kind": kind, "id": record_id, "fields": fields} for kind, record_id, fields in told],
        "history": [change(n, *one) for n, one in enumerate(told, start=100)],
        "photos": [{"hash": PICTURE.hash, "media_type": "image/jpeg", "size": PICTURE.size}],
        "complete": {"history": True, "photos": []},
    }


def change(number: int, kind: str, record_id: str, fields: Document) -> Document:
    """One change of it."""
    at, device = "2026-05-04T12:00:00Z", {"id": uuid_text(900), "name": "Ana's phone"}
    told = {"change_id": uuid_text(number), "kind": kind, "record_id": record_id, "fields": fields}
    return told | {"schema": SCHEMA, "at": at, "person": "Ana", "device": device, "knew": []}


def zipped(job: bytes | None, *more: tuple[str, bytes], packing: int = ZIP_DEFLATED) -> bytes:
    """A zip of these parts, with the good photo."""
    file = BytesIO()
    with catch_warnings(action="ignore"), ZipFile(file, "w", packing) as parts:  # two parts of one name are meant
        if job is not None:
            parts.writestr("job.json", job)
        parts.writestr(PHOTO_PART, PICTURE.content, ZIP_STORED)
        for name, content in more:
            parts.writestr(_bare(name), content, packing)
    return file.getvalue()


def _bare(name: str) -> ZipInfo:
    """The name as it is, whatever the library thinks of it."""
    info = ZipInfo("x")
    info.filename = name
    return info


def text(document: Document) -> bytes:
    """As it stands in the file."""
    return json.dumps(document).encode()


def _edited(edit: Callable[[Document], Any]) -> bytes:
    document = deepcopy(good())
    edit(document)
    return zipped(text(document))


def files() -> Iterator[Made]:
    """Name, reason, contents."""
    whole = zipped(text(good()))
    yield "good", None, whole
    yield "good_with_more", None, zipped(text(good()), ("README.txt", b"x"))
    yield "good_with_unknown_names", None, _edited(lambda it: it.update(colour="red"))
    yield from _no_zips(whole)
    yield from _bad_parts(whole)
    yield from bent(text(good()), (PHOTO_PART, PICTURE.content))
    yield from _bad_contents()
    yield from _bad_histories()
    yield from _bad_photos()
    yield from _refused()


def _no_zips(whole: bytes) -> Iterator[Made]:
    yield "empty", Fault.NOT_A_ZIP, b""
    yield "a_text", Fault.NOT_A_ZIP, b'{"evenbed_job": 1}'
    yield "cut_in_half", Fault.NOT_A_ZIP, whole[: len(whole) // 2]
    yield "cut_by_a_byte", Fault.NOT_A_ZIP, whole[:-1]
    yield "no_parts", Fault.NO_JOB, b"PK\x05\x06" + bytes(18)


def _bad_parts(whole: bytes) -> Iterator[Made]:
    names = ("../job.json", "/etc/passwd", "photos\\x.jpg", "C:/x", "photos/", "photos/../job.json", "job.json/")
    more = ("JOB.JSON", "photos/x.exe", f"photos/{'A' * 64}.jpg", f"{PHOTO_PART}.exe")
    for number, name in enumerate((*names, *more)):
        yield f"name_{number}", Fault.BAD_NAME, zipped(text(good()), (name, b"x"))
    yield "name_twice", Fault.DOUBLE_NAME, zipped(text(good()), ("job.json", text(good())))
    yield "no_job", Fault.NO_JOB, zipped(None)
    yield "many_parts", Fault.TOO_MANY_PARTS, zipped(text(good()), *((f"{n}", b"") for n in range(2_100)))
    yield "another_packing", Fault.DAMAGED, zipped(text(good()), packing=ZIP_BZIP2)
    yield "locked", Fault.ENCRYPTED, _flagged(whole, 1)
    damaged = whole.index(PICTURE.content) + 500
    yield "damaged_photo", Fault.DAMAGED, whole[:damaged] + b"\xff\x00\xff\x00" + whole[damaged + 4 :]
    yield "damaged_job", Fault.DAMAGED, whole[:60] + b"\xff" * 30 + whole[90:]
    bomb = bytes(65_000_000)
    yield "bomb", Fault.TOO_LARGE, zipped(bomb)
    yield "bomb_that_says_it_is_small", Fault.TOO_LARGE, _lying(bomb)
    yield "photo_bomb", Fault.TOO_LARGE, zipped(text(_naming(bytes(5_000_000))), _named(bytes(5_000_000)))


def _flagged(whole: bytes, flag: int) -> bytes:
    """With a flag set in every header (APPNOTE.TXT 4.4.4)."""
    told = bytearray(whole)
    for mark, place in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        at = told.find(mark)
        while at >= 0:
            told[at + place] |= flag
            at = told.find(mark, at + 4)
    return bytes(told)


def _lying(content: bytes) -> bytes:
    """A part whose headers tell another size than comes out of it."""
    file = bytearray(zipped(content))
    real, told = struct.pack("<I", len(content)), struct.pack("<I", 70_000_000)
    at = file.find(real)
    while at >= 0:
        file[at : at + 4] = told
        at = file.find(real, at + 4)
    return bytes(file)


def _bad_contents() -> Iterator[Made]:
    yield "no_json", Fault.NOT_JSON, zipped(b"{'evenbed_job': 1}")
    yield "no_utf8", Fault.NOT_JSON, zipped(b'{"evenbed_job": 1, "x": "\xff\xfe"}')
    yield "json_cut_off", Fault.NOT_JSON, zipped(text(good())[:-40])
    yield "a_list", Fault.NOT_A_JOB_FILE, zipped(b"[]")
    yield "another_document", Fault.NOT_A_JOB_FILE, zipped(b'{"document": 1}')
    yield "version_as_text", Fault.NOT_A_JOB_FILE, _edited(lambda it: it.update(evenbed_job="1"))
    yield "newer_version", Fault.NEWER_VERSION, _edited(lambda it: it.update(evenbed_job=2))
    yield "newer_schema", Fault.NEWER_VERSION, _edited(lambda it: it.update(schema=SCHEMA + 1))
    yield "newer_change", Fault.NEWER_VERSION, _edited(lambda it: it["history"][1].update(schema=SCHEMA + 1))
    yield "version_zero", Fault.WRONG_SHAPE, _edited(lambda it: it.update(evenbed_job=0))
    yield "deep", Fault.TOO_DEEP, zipped(b"[" * 1_000 + b"]" * 1_000)
    yield "very_deep", Fault.TOO_DEEP, zipped(b'{"evenbed_job":1,"records":' + b"[" * 50_000_000)
    yield "deeper_than_can_be_kept", Fault.TOO_LARGE, zipped(b"[" * 100_000_000)
    yield "deep_value", Fault.TOO_DEEP, _edited(lambda it: it["history"][1]["fields"].update(outline=_nested(40)))
    yield from _bad_values()
    for name in good():
        fault = Fault.NOT_A_JOB_FILE if name == "evenbed_job" else Fault.WRONG_SHAPE
        yield f"without_{name}", fault, _without(name)
    for name in good()["history"][0]:
        yield f"change_without_{name}", Fault.WRONG_SHAPE, _edited(partial(_without_in_change, name))
    for number, at in enumerate(BAD_TIMES):
        yield f"time_{number}", Fault.WRONG_SHAPE, _edited(partial(_at, at))
    yield "fields_as_a_list", Fault.WRONG_SHAPE, _edited(lambda it: it["history"][1].update(fields=[]))
    yield "knew_no_ids", Fault.WRONG_SHAPE, _edited(lambda it: it["history"][1].update(knew=["x"]))


def _bad_values() -> Iterator[Made]:
    """What is JSON to one reader and none to another, or would fill the memory of either."""
    whole = text(good())[:-1]
    for number, value in enumerate((b"NaN", b"-Infinity", b"1e999", b"9" * 400, b'"\\ud800"', b'{"\\udc00": 1}')):
        yield f"value_{number}", Fault.NOT_JSON, zipped(whole + b',"x":' + value + b"}")
    yield "whole_numbers_with_a_point", None, zipped(text(good()).replace(b'"evenbed_job": 1', b'"evenbed_job": 1.0'))
    yield "whole_character", None, zipped(whole + b',"x":"\\ud83d\\ude00"}')
    yield "many_lists", Fault.TOO_LARGE, zipped(whole + b',"x":[' + b"[]," * 2_000_001 + b"0]}")
    yield "many_names", Fault.TOO_LARGE, zipped(whole + b',"x":{' + b'"a":0,' * 10_001 + b'"a":0}}')
    yield "many_escapes", None, zipped(whole + b',"x":"' + b'\\"' * 1_000_000 + b'"}')


BAD_TIMES = ("2026-05-04T12:00:00", "2026-02-30T12:00:00Z", "0001-01-01T00:00:00+14:00", "2026-05-04 12:00:00Z")


def _at(at: str, document: Document) -> None:
    document["history"][1].update(at=at)


def _without_in_change(name: str, document: Document) -> None:
    document["history"][1].pop(name)


def _without(name: str) -> bytes:
    return _edited(lambda it: it.pop(name))


def _nested(depth: int) -> Any:
    return {"x": _nested(depth - 1)} if depth else 1


def _bad_histories() -> Iterator[Made]:
    yield "id_in_capitals", Fault.BAD_ID, _edited(lambda it: it["history"][1].update(record_id=ROOM.upper()))
    yield "id_of_a_path", Fault.BAD_ID, _edited(lambda it: it["history"][1].update(change_id="../../x"))
    yield "unknown_kind", Fault.UNKNOWN_KIND, _edited(lambda it: it["history"][1].update(kind="wall"))
    yield "prices", Fault.UNKNOWN_KIND, _edited(lambda it: it["history"][1].update(kind="prices"))
    yield "kind_of_the_language", Fault.UNKNOWN_KIND, _edited(lambda it: it["history"][1].update(kind="toString"))
    yield "another_job", Fault.OTHER_JOB, _edited(lambda it: it["history"][0].update(record_id=OTHER))
    yield "room_of_another", Fault.OTHER_JOB, _edited(lambda it: it["history"][1]["fields"].update(job_id=OTHER))
    yield "orphan", Fault.NO_PARENT, _edited(lambda it: it["history"][2]["fields"].update(room_id=OTHER))
    yield "parent_as_a_list", Fault.NO_PARENT, _edited(lambda it: it["history"][2]["fields"].update(room_id=[]))
    yield "own_parent", Fault.NO_PARENT, _edited(lambda it: it["history"][2]["fields"].update(room_id=READING))
    yield "job_as_room", Fault.NO_PARENT, _edited(lambda it: it["history"][2]["fields"].update(room_id=JOB))
    yield "parent_later", Fault.NO_PARENT, _edited(lambda it: it["history"].reverse())
    yield "change_twice", Fault.DOUBLE_CHANGE, _edited(lambda it: it["history"].append(it["history"][1]))
    yield "record_without_history", Fault.RECORDS_DIFFER, _edited(lambda it: it["history"].pop())
    yield "history_without_record", Fault.RECORDS_DIFFER, _edited(lambda it: it["records"].pop())
    yield "record_twice", Fault.RECORDS_DIFFER, _edited(lambda it: it["records"].append(it["records"][0]))
    yield "nothing_in_it", Fault.RECORDS_DIFFER, _edited(lambda it: it.update(records=[], history=[]))


def _bad_photos() -> Iterator[Made]:
    other = jpeg(7)
    yield "photo_unnamed", Fault.PHOTO_UNNAMED, zipped(text(good()), (f"photos/{other.hash}.jpg", other.content))
    yield "photo_missing", Fault.PHOTO_MISSING, zipped(text(_naming(other.content)))
    yield "photo_of_no_record", Fault.PHOTO_UNNAMED, _edited(lambda it: it["photos"][0].update(hash=other.hash))
    yield "photo_told_twice", Fault.DOUBLE_NAME, _edited(lambda it: it["photos"].append(it["photos"][0]))
    page = b"<html><script>alert(1)</script></html>"
    yield "photo_that_is_none", Fault.PHOTO_DIFFERS, zipped(text(_naming(page)), _named(page))
    yield "photo_said_missing", None, zipped(text(_naming(other.content, is_missing=True)))
    document = _naming(other.content)
    yield (
        "photo_of_other_bytes",
        Fault.PHOTO_DIFFERS,
        zipped(text(document), (_named(other.content)[0], b"x" * other.size)),
    )
    document["photos"][-1]["size"] += 1
    yield "photo_of_another_size", Fault.PHOTO_DIFFERS, zipped(text(document), _named(other.content))


def _named(content: bytes) -> tuple[str, bytes]:
    return f"photos/{sha256(content).hexdigest()}.jpg", content


def _naming(content: bytes, *, is_missing: bool = False) -> Document:
    document, told = good(), sha256(content).hexdigest()
    document["photos"].append({"hash": told, "media_type": "image/jpeg", "size": min(len(content), 4_000_000)})
    named = PICTURE.fields(ROOM) | {"hash": told, "size": min(len(content), 4_000_000)}
    document["history"].append(change(110, "photo", OTHER, named))
    document["records"].append({"kind": "photo", "id": OTHER, "fields": named})
    document["complete"]["photos"] = [told] if is_missing else []
    return document


def _refused() -> Iterator[Made]:
    """Changes that the rules for a single change refuse."""
    reading = {"room_id": ROOM, "down": 1000.0, "at": [0, 0]}
    rooms: tuple[Document, ...] = ({}, {"colour": "red"}, {"outline": 5}, {"job_id": OTHER}, {"deleted": None})
    for number, fields in enumerate(rooms):
        yield f"room_{number}", Fault.REFUSED, _going_on(("room", ROOM, fields))
    yield "reading_without_a_place", Fault.REFUSED, _going_on(("reading", OTHER, reading | {"at": None}))
    yield "reading_at_two", Fault.REFUSED, _going_on(("reading", OTHER, reading | {"mark": "m"}))
    yield "reading_that_lacks", Fault.REFUSED, _going_on(("reading", OTHER, {"room_id": ROOM, "at": [0, 0]}))
    yield "reading_edited", Fault.REFUSED, _going_on(("reading", OTHER, reading), ("reading", OTHER, {"down": 5}))
    yield "reading_told_again", None, _going_on(("reading", OTHER, reading), ("reading", OTHER, reading))


def _going_on(*more: tuple[str, str, Document]) -> bytes:
    document = good()
    document["history"] += [change(number, *one) for number, one in enumerate(more, start=120)]
    standing = {(one["kind"], one["id"]) for one in document["records"]}
    made = dict.fromkeys((kind, record_id) for kind, record_id, _ in more if (kind, record_id) not in standing)
    document["records"] += [{"kind": kind, "id": record_id, "fields": {}} for kind, record_id in made]
    return zipped(text(document))


def write_all(folder: Path) -> None:
    """All of them into the folder."""
    expected = {}
    for name, fault, content in files():
        (folder / f"{name}.zip").write_bytes(content)
        expected[name] = fault
    (folder / "expected.json").write_text(json.dumps(expected))
    (folder / "probes.json").write_text(json.dumps(probes()))


if __name__ == "__main__":
    write_all(Path(sys.argv[1]))
