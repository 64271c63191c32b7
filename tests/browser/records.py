"""The room document, composed from what the service gives to a program: a second composer beside the phone's own."""

from collections import defaultdict
from secrets import token_hex
from typing import Any

import httpx
from tests.browser.running import Service

DEVICES = "01a20000-0000-7000-8000-"
GROUPS = ("bed", "rails", "mix", "curing")


def pulled_records(service: Service) -> list[dict[str, Any]]:
    """Every record, pulled by a program that joined with a code of its own."""
    told = {
        "code": service.join_code(),
        "device_id": DEVICES + token_hex(6),
        "device_name": "test",
        "person": "Program",
    }
    with httpx.Client(base_url=service.address) as client:
        token = client.post("/api/join", json=told).raise_for_status().json()["token"]
        reply = client.get("/api/pull?after=0&limit=500", headers={"Authorization": f"Bearer {token}"})
        records: list[dict[str, Any]] = reply.raise_for_status().json()["records"]
        return records


def document_from_records(records: list[dict[str, Any]], room_name: str) -> dict[str, Any]:
    """The document of the room with that name."""
    room = next(r for r in records if r["kind"] == "room" and r["fields"].get("name") == room_name)
    mine = [r for r in records if r["fields"].get("room_id") == room["id"] and not r["fields"].get("deleted")]
    superseded = {r["fields"].get("supersedes") for r in mine}
    readings = [r for r in mine if r["kind"] == "reading" and r["id"] not in superseded]
    document: dict[str, Any] = defaultdict(dict)
    document |= {"document": 1, "outline": room["fields"]["outline"]}
    document |= _levelling(room["fields"], readings)
    document["openings"] = room["fields"].get("openings") or []
    document |= _trued(mine)
    for name, value in room["fields"].items():
        group, _, key = name.partition(".")
        if group in GROUPS and key and "." not in key:
            document[group][key] = value
    return dict(document)


def _levelling(room: dict[str, Any], readings: list[dict[str, Any]]) -> dict[str, Any]:
    """Readings with what they hang from. Readings of the set-up that nobody began name one of their own."""
    kept = ("down", "at", "mark", "taken_at", "sight", "stage")
    fields = [{"id": r["id"], **_given(r["fields"], kept)} for r in readings]
    levelling: dict[str, Any] = {"readings": fields, "marks": _nameless(room.get("marks"))}
    levelling["instrument_checks"] = room.get("instrument_checks") or []
    setups = [{**s, "id": s["id"] or "unbegun"} for s in _nameless(room.get("setups"))]
    if not setups:
        return levelling
    for own, reading in zip(fields, readings, strict=True):
        own["setup"] = reading["fields"].get("setup") or "unbegun"
    begun = {s["id"] for s in setups}
    missing = sorted({r["setup"] for r in fields} - begun)
    return levelling | {"setups": [*({"id": name} for name in missing), *setups]}


def _trued(mine: list[dict[str, Any]]) -> dict[str, Any]:
    """What levels showed on the rails, and which rails were bedded anew."""
    checks = [{"id": r["id"], **_check(r["fields"])} for r in mine if r["kind"] == "rail_check"]
    entries = [r["fields"] for r in mine if r["kind"] == "entry" and r["fields"].get("what") == "trued"]
    truings = [_given(f, ("rail", "lie", "from_raise", "to_raise", "at")) for f in entries]
    return {"checks": checks, "truings": truings}


def _check(fields: dict[str, Any]) -> dict[str, Any]:
    kept = _given(fields, ("from", "to", "off", "length", "reversed_off", "level", "taken_at"))
    other = fields.get("rail_to")
    return kept | ({"rails": [fields["rail"], other]} if other else {"rail": fields["rail"]})


def _given(fields: dict[str, Any], kept: tuple[str, ...]) -> dict[str, Any]:
    return {key: value for key, value in fields.items() if key in kept and value is not None}


def _nameless(entries: list[dict[str, Any]] | None) -> list[dict[str, Any]]:
    return [{k: v for k, v in entry.items() if k != "name"} for entry in entries or []]
