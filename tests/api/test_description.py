"""The OpenAPI description is complete, and true: real replies are valid by it."""

import json
from importlib.resources import files
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from tests.clients import Client, change
from tests.databases import Databases, SqliteFiles
from tests.phones import uuid_text

from evenbed.wire.problems import ABOUT, Code
from evenbed.wire.records import SHAPES

JOB = uuid_text(1)
BATH = files("evenbed.demo").joinpath("upstairs_bath.json").read_text(encoding="utf-8")


@pytest.fixture
def databases() -> Databases:
    """One kind is enough: nothing here depends on what is kept."""
    return SqliteFiles()


@pytest.fixture
def description(client: Client) -> dict[str, Any]:
    """The description as the service gives it."""
    described: dict[str, Any] = client.send("GET", "/api/openapi.json").json()
    return described


def references(part: Any) -> set[str]:
    """Every reference in a description."""
    if isinstance(part, dict):
        own = {part["$ref"]} if isinstance(part.get("$ref"), str) else set()
        return own.union(*(references(value) for value in part.values()))
    return set().union(*(references(value) for value in part)) if isinstance(part, list) else set()


def validator(description: dict[str, Any], schema: dict[str, Any]) -> Draft202012Validator:
    """A reader of one shape, judged by a library that knows nothing of ours."""
    return Draft202012Validator(schema | {"components": description["components"]})


def test_every_reference_leads_somewhere(description: dict[str, Any]) -> None:
    named = {f"#/components/schemas/{name}" for name in description["components"]["schemas"]}
    assert references(description) <= named
    for schema in description["components"]["schemas"].values():
        Draft202012Validator.check_schema(schema)


def test_the_engines_shapes_and_the_fields_of_every_kind_are_described(description: dict[str, Any]) -> None:
    names = set(description["components"]["schemas"])
    assert {"Document", "Plan", "ProblemReply", "Change", "LatestEvent"} <= names
    assert {shape.__name__ for shape in SHAPES.values()} <= names


def test_every_route_tells_its_errors_as_problems(description: dict[str, Any]) -> None:
    for path, methods in description["paths"].items():
        for method, route in methods.items():
            assert route["operationId"], path
            errors = {status: reply for status, reply in route["responses"].items() if int(status) >= 400}
            assert "500" in errors, path
            assert ("401" in errors) == ("security" in route), (method, path)
            assert all(set(reply["content"]) == {"application/problem+json"} for reply in errors.values()), path


def test_replies_are_valid_by_their_description(phone: Client, description: dict[str, Any]) -> None:
    pushed = phone.push(change(1, "job", JOB, {"name": "Alder"}), change(2, "job", JOB, {"colour": "red"}))
    replies = {
        ("post", "/api/push"): pushed,
        ("post", "/api/join"): phone.join(uuid_text(501)),
        ("get", "/api/session"): phone.send("GET", "/api/session"),
        ("get", "/api/pull"): phone.send("GET", "/api/pull"),
        ("get", "/api/records/{kind}/{record_id}/history"): phone.send("GET", f"/api/records/job/{JOB}/history"),
        ("get", "/api/health"): phone.send("GET", "/api/health"),
        ("post", "/api/plan"): phone.send("POST", "/api/plan", content=BATH),
        ("post", "/api/levels"): phone.send("POST", "/api/levels", content=BATH),
    }
    for (method, path), reply in replies.items():
        assert reply.status_code == 200, path
        schema = description["paths"][path][method]["responses"]["200"]["content"]["application/json"]["schema"]
        validator(description, schema).validate(reply.json())


def test_error_replies_are_valid_and_declared(phone: Client, client: Client, description: dict[str, Any]) -> None:
    errors = {
        ("post", "/api/push"): phone.push(change(2, "job", JOB, {"name": "x"})),
        ("get", "/api/pull"): client.send("GET", "/api/pull"),
        ("post", "/api/join"): client.join(code="WRONG"),
        ("post", "/api/plan"): client.send("POST", "/api/plan", content=b"{}"),
    }
    for (method, path), reply in errors.items():
        declared = description["paths"][path][method]["responses"][str(reply.status_code)]
        assert f"`{reply.json()['code']}`" in declared["description"]
        validator(description, declared["content"]["application/problem+json"]["schema"]).validate(reply.json())


def test_the_demo_room_is_a_document_by_the_description(description: dict[str, Any]) -> None:
    schema = {"$ref": "#/components/schemas/Document"}
    reader = validator(description, schema)
    reader.validate(json.loads(BATH))
    assert not reader.is_valid({"document": 1})


def test_every_code_has_a_status_and_a_title() -> None:
    assert set(ABOUT) == set(Code)
    assert all(400 <= about.status <= 599 and about.title for about in ABOUT.values())
