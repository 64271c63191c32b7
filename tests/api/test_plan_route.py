"""POST /api/plan: a plan, or every problem with its place; never a mistake of the service."""

import json
from collections.abc import AsyncIterator
from importlib.resources import files

import pytest
from tests.clients import Client
from tests.databases import Databases, SqliteFiles

from evenbed.engine.bridge import answer_text

BATH = files("evenbed.demo").joinpath("upstairs_bath.json").read_text(encoding="utf-8")


@pytest.fixture
def databases() -> Databases:
    """One kind is enough: nothing here depends on what is kept."""
    return SqliteFiles()


def test_the_plan_is_the_engines_own_and_needs_no_device(client: Client) -> None:
    reply = client.send("POST", "/api/plan", content=BATH.encode())
    assert (reply.status_code, reply.headers["content-type"]) == (200, "application/json")
    assert reply.text == answer_text("plan", BATH)


def test_nothing_is_stored_by_a_plan(client: Client) -> None:
    client.send("POST", "/api/plan", content=BATH.encode())
    assert client.joined().pull()["latest"] == 0


def document(**changed: object) -> bytes:
    """The demo room with something changed."""
    return json.dumps(json.loads(BATH) | changed).encode()


BAD = [
    b"",
    b"   ",
    b"{",
    b"null",
    b"[]",
    b"7",
    b'"text"',
    b"{}",
    b"\xff\xfe\x00",
    b"\xef\xbb\xbf{}",
    b"{" * 50_000,
    b"[" * 200_000,
    b'{"a":' * 100_000,
    b'{"document": 1' + b"0" * 5_000 + b"}",
    b'{"document": "\\ud800"}',
    document(readings=[{"down": float("nan"), "at": [0, 0]}]),
    document(readings=[{"down": float("inf"), "at": [0, 0]}]),
    document(readings=[{"down": 1e300, "at": [0, 0]}]),
    document(readings=[]),
    document(readings="many"),
    document(outline={"vertices": [[0, 0], [1, 1]]}),
    document(outline={"vertices": [[0, 0], [1000, 1000], [1000, 0], [0, 1000]]}),
    document(bed={"minimum_thickness": -3}),
    document(document=2),
]


@pytest.mark.parametrize("body", BAD, ids=range(len(BAD)))
def test_a_bad_document_gets_problems_with_places(client: Client, body: bytes) -> None:
    reply = client.send("POST", "/api/plan", content=body)
    assert (reply.status_code, reply.headers["content-type"]) == (422, "application/problem+json")
    told = reply.json()
    assert (told["code"], told["status"]) == ("bad_document", 422)
    assert told["problems"]
    for problem in told["problems"]:
        assert set(problem) == {"path", "code", "message", "values"}


def test_a_document_of_the_most_readings_passes_the_door(client: Client) -> None:
    reading = {"id": "reading 12345", "setup": "laser", "down": 1049.3375, "at": [1234.5678, 2345.6789]}
    body = document(readings=[reading | {"stage": "subfloor", "typed": "3' 5 5/16\""}] * 20_000)
    reply = client.send("POST", "/api/plan", content=body)
    assert (reply.status_code, reply.json()["code"]) == (422, "bad_document")
    assert {problem["code"] for problem in reply.json()["problems"]} <= {"duplicate_id"}


@pytest.mark.parametrize("path", ["/api/plan", "/api/push", "/api/join"])
def test_a_body_beyond_the_limit_is_refused_with_the_limit(client: Client, path: str) -> None:
    limit = client.app.state.service.settings.body_limit

    async def unannounced() -> AsyncIterator[bytes]:
        for _ in range(9):
            yield b" " * (limit // 8)

    for content in (b" " * (limit + 1), unannounced()):
        reply = client.send("POST", path, content=content, headers={"Content-Type": "application/json"})
        assert (reply.status_code, reply.json()["code"]) == (413, "too_large")
        assert str(limit) in reply.json()["detail"]
