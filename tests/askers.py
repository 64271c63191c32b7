"""A company as a stranger, a removed device and people of every role find it: one job, whose crew is known."""

from dataclasses import dataclass
from typing import Any

from evenbed.wire.exchange import Role
from tests.clients import Client, change
from tests.phones import uuid_text
from tests.pictures import JOB, ROOM, jpeg, name_photo, send_all
from tests.stores import join_device

MARK = "Quince Hall"
"""In every text of the job; whoever is not of its crew must never read it."""
READING, PLACEMENT, CLIMATE, PHOTO, ALTERNATIVE = (uuid_text(n) for n in (3, 4, 5, 116, 6))
BATCH, STATION, RAIL_CHECK, ENTRY = (uuid_text(n) for n in (7, 8, 9, 10))
GAP, HEIGHT_LINE, TEMPERATURE_LOG, FORECAST_DAY, SIGN_OFF = (uuid_text(n) for n in (11, 12, 13, 14, 15))
WHEN = "2026-05-04T10:00:00+00:00"
REMOVED, SPARE = uuid_text(504), uuid_text(505)
PICTURE = jpeg()
ASKERS = ("nobody", "nonsense", "removed", "viewer", "outsider", "setter", "foreman")
"""From the least to the most. Viewer and setter are of the job's crew, the outsider is a setter who is not."""
NEW: dict[str, dict[str, Any]] = {
    "room": {"job_id": JOB, "name": MARK, "outline": {"vertices": [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]}},
    "reading": {"room_id": ROOM, "down": 1000.0, "mark": MARK},
    "placement": {"room_id": ROOM, "section": MARK},
    "batch": {"room_id": ROOM, "mixed_at": "2026-05-04T09:00:00+00:00", "section": MARK},
    "station": {"room_id": ROOM, "rail": MARK, "at": [152.4, 600.0], "shim": 7.5},
    "rail_check": {"room_id": ROOM, "rail": MARK, "off": 1.5, "from": 0.0, "to": 1219.2},
    "entry": {"room_id": ROOM, "what": "note", "at": "2026-05-04T11:00:00+00:00", "text": MARK},
    "climate": {"room_id": ROOM, "at": "2026-05-04T10:00:00+00:00", "air": 20.0},
    "alternative": {"room_id": ROOM, "name": MARK, "top": {"kind": "level", "height": 40.0}},
    "gap": {"room_id": ROOM, "from": [0, 0], "to": [2000, 0], "gap": 2.5, "typed": {"gap": MARK}},
    "height_line": {"room_id": ROOM, "heights": [0.0, 1.5, 0.5], "spacing": 300.0, "typed": {"heights": MARK}},
    "temperature_log": {"room_id": ROOM, "start": WHEN, "seconds": [0, 600], "celsius": [20.0, 19.5], "name": MARK},
    "forecast_day": {"job_id": JOB, "low": 8, "high": 19, "low_at": WHEN, "high_at": WHEN, "source": MARK},
    "sign_off": {
        "room_id": ROOM,
        "at": WHEN,
        "by": MARK,
        "engine": "1",
        "engine_hash": "0" * 64,
        "inputs_hash": "1" * 64,
        "copy": "{}",
    },
}
RECORDS = {
    "job": JOB,
    "room": ROOM,
    "reading": READING,
    "placement": PLACEMENT,
    "batch": BATCH,
    "station": STATION,
    "rail_check": RAIL_CHECK,
    "entry": ENTRY,
    "climate": CLIMATE,
    "photo": PHOTO,
    "alternative": ALTERNATIVE,
    "gap": GAP,
    "height_line": HEIGHT_LINE,
    "temperature_log": TEMPERATURE_LOG,
    "forecast_day": FORECAST_DAY,
    "sign_off": SIGN_OFF,
}
"""One of every kind that belongs to a job."""
NEXT = len(NEW) + 3
"""The foreman's next number, after the job, what is in it and its photo."""


@dataclass(frozen=True)
class Company:
    """Clients by asker, and the ids of their people."""

    clients: dict[str, Client]
    people: dict[str, str]


def company_of(client: Client) -> Company:
    """A company on a fresh service."""
    devices: tuple[tuple[str, str, Role], ...] = (
        ("foreman", uuid_text(500), "foreman"),
        ("setter", uuid_text(501), "setter"),
        ("outsider", uuid_text(502), "setter"),
        ("viewer", uuid_text(503), "viewer"),
        ("removed", REMOVED, "foreman"),
        ("spare", SPARE, "viewer"),
    )
    clients = {"nobody": client, "nonsense": _with(client, "nonsense")}
    people = {}
    for who, device_id, role in devices:
        person, token = join_device(client.store, device_id, f"{who}'s phone", who, role)
        clients[who], people[who] = _with(client, token), person.id
    _fill(clients["foreman"], [people["setter"], people["viewer"]])
    assert clients["foreman"].send("DELETE", f"/api/devices/{REMOVED}").status_code == 200
    return Company(clients, people)


def _with(client: Client, token: str) -> Client:
    return Client(client.app, client.code, {"Authorization": f"Bearer {token}"})


def _fill(foreman: Client, crew: list[str]) -> None:
    changes = [change(1, "job", JOB, {"name": MARK, "crew": crew})]
    changes += [change(n, kind, RECORDS[kind], fields) for n, (kind, fields) in enumerate(NEW.items(), start=2)]
    results = foreman.push(*changes).json()["results"]
    assert [result["outcome"] for result in results] == ["applied"] * len(changes)
    name_photo(foreman, PICTURE, number=len(changes) + 1)
    assert send_all(foreman, PICTURE).json()["complete"]
