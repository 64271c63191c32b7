"""A company to measure with: devices that have joined, and readings that wait on them to be sent."""

from collections.abc import Iterator, Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

from evenbed.store.work import Store
from evenbed.sync.accept import accept_push
from evenbed.wire.exchange import PushRequest
from evenbed.wire.protocol import MOST_CHANGES, PROTOCOL, SCHEMA
from tests.phones import uuid_text
from tests.stores import START, author_of, fresh_file, join_device, url_of

DEVICE, JOB, ROOM = uuid_text(1), uuid_text(2), uuid_text(3)
BEGUN = 2
"""Changes that the device has made already: the job and the room."""
FEW_BITS = 32


def change(number: int, kind: str, record_id: str, fields: dict[str, Any], phone: int = 0) -> dict[str, Any]:
    """A change as it travels; no two phones make the same one."""
    return {
        "change_id": uuid_text((phone << FEW_BITS) + number),
        "number": number,
        "kind": kind,
        "record_id": record_id,
        "fields": fields,
        "seen": 0,
        "device_time": START.isoformat(),
        "schema": SCHEMA,
    }


def reading(number: int, room_id: str = ROOM, phone: int = 0) -> dict[str, Any]:
    """A reading as the app makes it."""
    fields = {
        "room_id": room_id,
        "at": [float(number % 97) * 61.0, float(number % 89) * 53.0],
        "down": 1000.0 + (number * 7919 % 400) / 16.0,
        "setup": "s1",
        "typed": "39 5/16 in",
        "taken_at": START.isoformat(),
    }
    return change(number, "reading", uuid_text((phone << FEW_BITS) + (1 << FEW_BITS - 1) + number), fields, phone)


def pushes(changes: Sequence[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    """The changes as they travel, in pushes as large as the phone's."""
    for first in range(0, len(changes), MOST_CHANGES):
        told = list(changes[first : first + MOST_CHANGES])
        yield {"protocol": PROTOCOL, "changes": told, "device_time": START.isoformat()}


def requests(changes: Sequence[dict[str, Any]]) -> list[PushRequest]:
    """The same, read."""
    return [PushRequest.model_validate(told) for told in pushes(changes)]


def apply(store: Store, push: PushRequest, device_id: str = DEVICE) -> None:
    """What the service does with a push once it is read."""
    with store.writing() as work:
        accept_push(work.ledger(), author_of(device_id), "foreman", push, START)
        work.commit()


def company(folder: Path) -> tuple[Path, str]:
    """A database in the folder in which one device has begun a job and a room; the device's token."""
    file, _ = fresh_file(folder)
    with closing(Store(url_of(file))) as store:
        _, token = join_device(store, DEVICE)
        begun = [
            change(1, "job", JOB, {"name": "Mill End 4"}),
            change(2, "room", ROOM, {"job_id": JOB, "name": "Hall"}),
        ]
        for push in requests(begun):
            apply(store, push)
    return file, token
