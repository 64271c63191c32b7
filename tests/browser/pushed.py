"""Rooms that a program brings into the office: there for a phone that joins, without a hand typing every reading."""

from datetime import UTC, datetime
from typing import Any

import httpx
from tests.browser.running import Service
from tests.phones import uuid_text

from evenbed.wire.protocol import PROTOCOL, SCHEMA

Json = dict[str, Any]
JOB, FIRST_ROOM, FIRST_READING, FIRST_CHANGE, PROGRAM = 1, 10, 1000, 100_000, 900_000
MOST_READINGS, FIRST_OTHER = 200, 50_000
LISTS = ("readings", "records")


def push_job(service: Service, job: str, rooms: list[Json]) -> None:
    """A job with rooms: each with `name`, `readings` as in a room document, and fields under their dotted names.

    `records` are further records of the room, as (kind, fields).
    """
    described = [("job", uuid_text(JOB), {"name": job})]
    for n, room in enumerate(rooms):
        described += _records(n, room)
    now = datetime.now(UTC).isoformat()
    changes = [_change(n, kind, record, fields, now) for n, (kind, record, fields) in enumerate(described, 1)]
    _push(service, {"protocol": PROTOCOL, "changes": changes, "device_time": now})


def _records(n: int, room: Json) -> list[tuple[str, str, Json]]:
    room_id = uuid_text(FIRST_ROOM + n)
    fields = {name: value for name, value in room.items() if name not in LISTS} | {"job_id": uuid_text(JOB)}
    first = FIRST_READING + MOST_READINGS * n
    readings = [
        ("reading", uuid_text(first + m), {"room_id": room_id} | reading)
        for m, reading in enumerate(room["readings"])
    ]
    others = [
        (kind, uuid_text(FIRST_OTHER + MOST_READINGS * n + m), {"room_id": room_id} | own)
        for m, (kind, own) in enumerate(room.get("records", []))
    ]
    return [("room", room_id, fields), *readings, *others]


def _change(number: int, kind: str, record: str, fields: Json, now: str) -> Json:
    own: Json = {"change_id": uuid_text(FIRST_CHANGE + number), "number": number, "kind": kind, "record_id": record}
    return own | {"fields": fields, "seen": 0, "device_time": now, "schema": SCHEMA}


def _push(service: Service, request: Json) -> None:
    told = {"code": service.join_code(), "device_id": uuid_text(PROGRAM), "device_name": "test", "person": "Program"}
    with httpx.Client(base_url=service.address) as client:
        token = client.post("/api/join", json=told).raise_for_status().json()["token"]
        reply = client.post("/api/push", json=request, headers={"Authorization": f"Bearer {token}"})
        results = reply.raise_for_status().json()["results"]
    if any(result["outcome"] != "applied" for result in results):
        raise ValueError([result for result in results if result["outcome"] != "applied"])
