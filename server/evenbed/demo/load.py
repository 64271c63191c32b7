"""Puts the demo job into a database, by the same rules that a phone's changes go through."""

import json
from collections.abc import Iterator
from datetime import UTC, datetime
from importlib.resources import files
from typing import Any

from evenbed.access.codes import hash_of_token, make_token
from evenbed.demo.floor import Described, check_records, floor_records
from evenbed.store.devices import Device
from evenbed.store.work import Store
from evenbed.sync.accept import accept_push
from evenbed.sync.model import Author
from evenbed.wire.exchange import Change, FieldValues, PushRequest
from evenbed.wire.protocol import PROTOCOL, SCHEMA
from evenbed.wire.records import ReadingFields, RoomFields

ROOMS = ("upstairs_bath", "powder_room")
PERSON = "Demo crew"


class DemoRefusedError(Exception):
    """A change of the demo does not pass the rules: the demo's files are wrong."""


def load_demo(store: Store) -> int:
    """Add the demo job. How many changes were new: none where it is there already. Raises DemoRefusedError."""
    at = datetime.now(UTC)
    with store.writing() as work:
        person = work.people.with_id(_id(0)) or work.people.add(_id(0), PERSON, "setter")
        if work.devices.with_id(_id(0)) is None:
            work.devices.save(Device(_id(0), "Demo", person, at), hash_of_token(make_token()))
            work.devices.remove(_id(0), at)  # nobody holds it
        results = accept_push(work.ledger(), Author(_id(0), person.id, PERSON), person.role, _push(at), at)
        refused = [result.message for result in results if result.outcome == "refused"]
        if refused:
            raise DemoRefusedError("; ".join(map(str, refused)))
        work.commit()
    return sum(result.outcome == "applied" for result in results)


def _push(at: datetime) -> PushRequest:
    now = at.isoformat()
    changes = [
        Change(
            change_id=_id(1_000_000 + number),
            number=number,
            kind=kind,
            record_id=_id(number),
            fields=fields,
            seen=0,
            device_time=now,
            schema=SCHEMA,
        )
        for number, (kind, fields) in enumerate(_records(), start=1)
    ]
    return PushRequest(protocol=PROTOCOL, changes=changes, device_time=now)


def _id(number: int) -> str:
    """The demo's own identifiers: the same every time, so that a second loading finds the first."""
    return f"019df2e4-d900-7000-8000-{number:012x}"


def _records() -> Iterator[Described]:
    """Kind and fields in the order of their numbers; the record of change n has the id n."""
    yield "job", _document("job")
    number, rooms = 1, {}
    for name in ROOMS:
        document, rooms[name] = _document(name), _id(number + 1)
        parts = list(_parts(document, rooms[name]))
        yield "room", _room_fields(document, job_id=_id(1))
        yield from parts
        number += 1 + len(parts)
    told = _document("floor")
    for name, room_id in rooms.items():  # last, so that a demo loaded before there were any has its numbers still
        yield from floor_records(_document(name) | told.get(name, {}), room_id)
    for name, room_id in rooms.items():  # and these came later still
        yield from check_records(told.get(name, {}), room_id)


def _document(name: str) -> dict[str, Any]:
    document: dict[str, Any] = json.loads(files(__package__).joinpath(f"{name}.json").read_text(encoding="utf-8"))
    return document


def _room_fields(document: dict[str, Any], job_id: str) -> FieldValues:
    names = (field.alias or name for name, field in RoomFields.model_fields.items())
    told = ((name, _at_path(document, name.split("."))) for name in names)
    return {"job_id": job_id} | {name: value for name, value in told if value is not None}


def _at_path(document: Any, path: list[str]) -> Any:
    for step in path:
        document = document.get(step) if isinstance(document, dict) else None
    return document


def _parts(document: dict[str, Any], room_id: str) -> Iterator[Described]:
    for reading in document["readings"]:
        yield "reading", {"room_id": room_id} | {k: v for k, v in reading.items() if k in ReadingFields.model_fields}
    for placement in document.get("placements", []):
        yield "placement", {"room_id": room_id} | placement
    for row in document.get("climate", []):
        yield "climate", {"room_id": room_id} | row
