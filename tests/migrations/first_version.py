"""A company of the first version: the tables that step 0001 made, filled as that version filled them.

Ana has a phone and the office's browser, Ben a phone. They edited without knowing of each other, were refused, and
one of Ben's changes came twice, from a phone that had been restored. The sequences, effects and stamps are those that
the first version gave.
"""

import json
from datetime import timedelta
from typing import Any

from alembic import command
from sqlalchemy import Connection, text
from tests.phones import uuid_text
from tests.stores import START

from evenbed.access.codes import hash_of_token
from evenbed.store.migrate import config_for
from evenbed.store.times import text_from_moment

PHONE, OFFICE, BENS, BENS_NEW = (uuid_text(n) for n in range(501, 505))
PEOPLE = {PHONE: "Ana", OFFICE: "Ana", BENS: "Ben", BENS_NEW: "Ben"}
JOB, ROOM, READING, SECOND_JOB = (uuid_text(n) for n in range(1, 5))
LATEST = 8
CHANGES: list[dict[str, Any]] = [
    {"by": PHONE, "number": 1, "sequence": 1, "of": ("job", JOB), "fields": {"name": "Alder"}},
    {"by": PHONE, "number": 2, "sequence": 2, "of": ("room", ROOM), "fields": {"job_id": JOB, "name": "Bath"}},
    {
        "by": PHONE,
        "number": 3,
        "sequence": 3,
        "of": ("reading", READING),
        "fields": {"room_id": ROOM, "down": 1003, "at": [0.5, 7], "typed": "1003"},
    },
    {
        "by": BENS,
        "number": 1,
        "sequence": 4,
        "of": ("room", ROOM),
        "fields": {"name": "Shower", "bed.minimum_thickness": 31.75},
        "seen": 3,
        "replaced": {"name": "Bath"},
    },
    {
        "by": OFFICE,
        "number": 1,
        "sequence": 5,
        "of": ("room", ROOM),
        "fields": {"name": "Bathroom", "bed.minimum_thickness": 25},
        "seen": 3,
        "minute": 60,
        "replaced": {"name": "Shower", "bed.minimum_thickness": 31.75},
        "concurrent": ["name", "bed.minimum_thickness"],
    },
    {"by": BENS, "number": 2, "of": ("room", ROOM), "fields": {"colour": "red"}, "reason": "unknown_field"},
    {
        "by": BENS,
        "number": 3,
        "sequence": 6,
        "of": ("job", JOB),
        "fields": {"name": "Elder", "note": "dog in the yard"},
        "seen": 0,
        "minute": -90,
        "concurrent": ["name"],
        "overruled": ["name"],
    },
    {
        "by": BENS_NEW,
        "number": 1,
        "again": 6,
        "of": ("job", JOB),
        "fields": {"name": "Elder", "note": "dog in the yard"},
    },
    {"by": BENS_NEW, "number": 2, "sequence": 7, "of": ("job", SECOND_JOB), "fields": {"name": "Birch"}},
    {"by": PHONE, "number": 4, "sequence": 8, "of": ("reading", READING), "fields": {"deleted": True}, "seen": 7},
]


def token_of(device_id: str) -> str:
    """What the device has in its hands."""
    return f"token of {device_id}"


def make_first_version(connection: Connection) -> None:
    """Step 0001 alone, and the rows of that version."""
    command.upgrade(config_for(connection), "0001")
    at = text_from_moment(START)
    add(connection, "service", id=1, identity="first", latest=LATEST, join_code_hash="x", join_code_made_at=at)
    for device_id, person in PEOPLE.items():
        told = {"name": f"{person}'s", "person": person, "token_hash": hash_of_token(token_of(device_id))}
        add(connection, "device", id=device_id, joined_at=at, **told)
    for change in CHANGES:
        add(connection, "change", **row_of(change))
    for kind, record_id in sorted({change["of"] for change in CHANGES if change.get("sequence")}):
        add(connection, "record", **record_of(kind, record_id))


def row_of(change: dict[str, Any]) -> dict[str, Any]:
    """The row of the log."""
    sequence = change.get("sequence")
    kind, record_id = change["of"]
    outcome = "applied" if sequence else "refused" if "reason" in change else "already_applied"
    made = text_from_moment(START + timedelta(minutes=change.get("minute", change["number"])))
    return {
        "device_id": change["by"],
        "number": change["number"],
        "change_id": uuid_text(1000 + (change.get("again") or sequence or 900 + change["number"])),
        "sequence": sequence,
        "outcome": outcome,
        "person": PEOPLE[change["by"]],
        "kind": kind,
        "record_id": record_id,
        "fields": json.dumps(change["fields"]),
        "seen": change.get("seen", 0),
        "schema_version": 1,
        "device_time": made,
        "at": made,
        "received_at": text_from_moment(START + timedelta(hours=3)),
        "replaced": json.dumps(change.get("replaced", {})),
        "concurrent": json.dumps(change.get("concurrent", [])),
        "overruled": json.dumps(change.get("overruled", [])),
        "reason": change.get("reason"),
        "message": "A room has no field named colour." if "reason" in change else None,
    }


def record_of(kind: str, record_id: str) -> dict[str, Any]:
    """The record that the first version kept: three parts to a stamp, and nothing of conflicts."""
    applied = [row_of(one) for one in CHANGES if one["of"] == (kind, record_id) and one.get("sequence")]
    fields: dict[str, Any] = {}
    stamps: dict[str, list[Any]] = {}
    for row in applied:
        standing = {k: v for k, v in json.loads(row["fields"]).items() if k not in json.loads(row["overruled"])}
        fields |= standing
        stamps |= {name: [row["sequence"], row["device_id"], row["at"]] for name in standing}
    told = {"created_by": applied[0]["person"], "changed_by": applied[-1]["person"], "changed_at": applied[-1]["at"]}
    values = {"fields": json.dumps(fields), "stamps": json.dumps(stamps), "sequence": applied[-1]["sequence"]}
    return {"kind": kind, "id": record_id, **values, **told}


def add(connection: Connection, table: str, **values: Any) -> None:
    """One row."""
    names = ", ".join(f'"{name}"' for name in values)
    places = ", ".join(f":{name}" for name in values)
    connection.execute(text(f"INSERT INTO {table} ({names}) VALUES ({places})"), values)  # noqa: S608 (our own names)
