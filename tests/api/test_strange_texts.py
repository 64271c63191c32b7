"""Texts that some database, some JSON or some screen cannot take: kept as they are or refused, never a breakdown."""

import json
from datetime import UTC, datetime
from typing import Any

import pytest
from tests.clients import PHONE, Client, change
from tests.phones import uuid_text
from tests.stores import START

from evenbed.access.joining import FROM_THE_APP, invite

STRANGE = {
    "NUL": "a\0b",
    "control characters": "\x01\x1b\x7f\x85",
    "half a surrogate pair": "a\ud800",
    "the two halves the wrong way round": "\udc00\ud800",
    "no character": "\uffff\ufdd0",
    "beyond the first plane": "🛁\U0010fffd",
    "turned writing": "\u202eabc\u2028",
    "what looks like an escape": "\\u0000 \\x00 %00 %s ::text $1 ?",
    "quotes": "'; DROP TABLE change; --\"",
    "nothing": "",
}
JOB = uuid_text(1)
each = pytest.mark.parametrize


def send(client: Client, method: str, path: str, body: Any) -> tuple[int, Any]:
    """The body as JSON of plain ASCII, in which anything can be written; status and reply."""
    told = {"Content-Type": "application/json"}
    reply = client.send(method, path, content=json.dumps(body).encode(), headers=told)
    return reply.status_code, reply.json()


def push(phone: Client, *changes: Any, **more: Any) -> tuple[int, Any]:
    told = {"protocol": 1, "changes": list(changes), "device_time": START.isoformat()} | more
    return send(phone, "POST", "/api/push", told)


@each("field", ["name", "note", "place"])
def test_a_text_of_a_record_comes_back_as_it_was_or_is_refused(phone: Client, field: str) -> None:
    kept, number = {}, 1
    for n, (what, text) in enumerate(STRANGE.items(), start=1):
        status, reply = push(phone, change(number, "job", uuid_text(n), {field: text}))
        if status == 200:
            assert reply["results"][0]["outcome"] == "applied"
            kept[uuid_text(n)], number = {field: text}, number + 1
        else:
            assert (status, "surrogate" in what or "halves" in what) == (422, True)
    assert {record["id"]: record["fields"] for record in phone.pull()["records"]} == kept
    for record_id, fields in kept.items():
        (entry,) = phone.send("GET", f"/api/records/job/{record_id}/history").json()["entries"]
        assert entry["fields"] == fields


def test_a_strange_name_of_a_field_or_a_part_breaks_nothing(phone: Client) -> None:
    number = 1
    for text in STRANGE.values():
        parts = {"outline": {"walls": [{text: 1}], text: text}, "typed": {text: text}}
        for fields in ({text: 1}, {"job_id": JOB} | parts, {"job_id": text}, {"job_id": JOB, "name": {text: text}}):
            room = uuid_text(100 + number)
            status, _ = push(phone, change(number, "room", room, fields))
            assert status in {200, 422}
            number += status == 200
            if number == 2:
                push(phone, change(number, "job", JOB, {"name": "Alder"}))
                number += 1
    assert number > len(STRANGE)
    assert phone.send("GET", "/api/pull").status_code == 200


@each("place", ["kind", "record_id", "change_id", "device_time"])
def test_a_strange_text_around_a_change_is_refused_as_malformed_or_with_a_reason(phone: Client, place: str) -> None:
    number = 1
    for text in STRANGE.values():
        for told in {START.isoformat().replace("T", one) for one in text} if place == "device_time" else {text}:
            status, _ = push(phone, change(number, "job", uuid_text(number), {"name": "Alder"}) | {place: told})
            assert status in {200, 422}
            number += status == 200
    assert phone.send("GET", "/api/pull").json()["latest"] < number


@each("place", ["code", "device_id", "device_name", "person"])
@pytest.mark.usefixtures("cheap_codes")
def test_a_strange_text_in_joining_is_kept_or_refused(client: Client, place: str) -> None:
    for n, text in enumerate(STRANGE.values()):
        told = {"code": fresh_code(client), "device_id": uuid_text(500 + n), "device_name": "phone", "person": "Ana"}
        status, reply = send(client, "POST", "/api/join", told | {place: text})
        assert status in {200, 403, 422}
        if status == 200:
            assert place in {"device_name", "person"}
            joined = Client(client.app, client.code, {"Authorization": f"Bearer {reply['token']}"})
            assert joined.send("GET", "/api/session").json()[place] == text


def fresh_code(client: Client) -> str:
    """A code for somebody new."""
    with client.store.writing() as work:
        code = invite(work, "foreman", datetime.now(UTC), FROM_THE_APP)
        work.commit()
    return code


def test_a_strange_name_for_a_person_or_a_device_is_kept_or_refused(phone: Client) -> None:
    kept = {"Ana"}
    for text in STRANGE.values():
        status, _ = send(phone, "POST", "/api/invites", {"role": "setter", "name": text})
        renamed, _ = send(phone, "PATCH", f"/api/devices/{PHONE}", {"name": text})
        assert {status, renamed} in ({200}, {422})
        kept |= {text} if status == 200 else set()
        people = phone.send("GET", "/api/people").json()["people"]
        assert {one["name"] for one in people} == kept


@each("token", ["%00", "a%ED%A0%80", "é", "' OR 1=1"])
def test_a_strange_token_opens_nothing(client: Client, token: str) -> None:
    for headers in ({"Authorization": f"Bearer {token}".encode()}, {"Cookie": f"evenbed_device={token}".encode()}):
        assert client.send("GET", "/api/session", headers=headers).status_code == 401
