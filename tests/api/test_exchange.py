"""Push, pull and history over HTTP."""

import json
from typing import Any

import pytest
from tests.clients import Client, change
from tests.phones import uuid_text

from evenbed.wire.protocol import PROTOCOL

JOB, ROOM = uuid_text(1), uuid_text(2)


def test_a_push_is_answered_with_numbers_and_pulled_by_others(phone: Client, client: Client) -> None:
    reply = phone.push(
        change(1, "job", JOB, {"name": "Alder"}), change(2, "room", ROOM, {"job_id": JOB, "bed.top": None})
    )
    assert reply.status_code == 200
    assert [(r["number"], r["outcome"], r["sequence"]) for r in reply.json()["results"]] == [
        (1, "applied", 1),
        (2, "applied", 2),
    ]
    other = client.joined(uuid_text(501), "Ben").pull()
    assert (other["latest"], other["next"], other["more"]) == (2, 2, False)
    assert other["records"][0] | {"changed_at": ""} == {
        "kind": "job",
        "id": JOB,
        "fields": {"name": "Alder"},
        "sequence": 1,
        "created_by": "Ana",
        "changed_by": "Ana",
        "changed_at": "",
        "times": {},
        "conflicts": {},
    }
    assert other["records"][1]["fields"] == {"job_id": JOB, "bed.top": None}


def test_a_lost_reply_is_repeated_without_doing_it_twice(phone: Client) -> None:
    first = change(1, "job", JOB, {"name": "Alder"})
    phone.push(first)
    again = phone.push(first).json()
    assert (again["results"][0]["outcome"], again["results"][0]["sequence"], again["latest"]) == (
        "already_applied",
        1,
        1,
    )


def test_pages_follow_each_other_without_a_hole(phone: Client) -> None:
    phone.push(*(change(n, "job", uuid_text(n), {"name": f"job {n}"}) for n in range(1, 8)))
    seen, after, more = [], 0, True
    while more:
        page = phone.pull(after, limit=3)
        seen += [record["sequence"] for record in page["records"]]
        after, more = page["next"], page["more"]
    assert (seen, after) == ([1, 2, 3, 4, 5, 6, 7], 7)


def test_a_phone_of_the_first_version_names_no_view_and_its_pages_go_on(phone: Client) -> None:
    phone.push(*(change(n, "job", uuid_text(n), {"name": f"job {n}"}) for n in range(1, 4)))
    page = phone.send("GET", "/api/pull", params={"after": 2, "limit": 2}).json()
    assert ([record["sequence"] for record in page["records"]], page["more"]) == ([3], False)


def test_a_deleted_record_is_pulled_as_deleted(phone: Client) -> None:
    phone.push(change(1, "job", JOB, {"name": "Alder"}), change(2, "job", JOB, {"deleted": True}))
    (record,) = phone.pull()["records"]
    assert (record["fields"], record["sequence"]) == ({"name": "Alder", "deleted": True}, 2)


def test_history_tells_who_replaced_what_and_who_did_not_know(phone: Client, client: Client) -> None:
    phone.push(change(1, "job", JOB, {"name": "Alder"}))
    ben = client.joined(uuid_text(501), "Ben")
    ben.push(change(1, "job", JOB, {"name": "Birch"}, change_id=uuid_text(77)))
    first, second = phone.send("GET", f"/api/records/job/{JOB}/history").json()["entries"]
    assert (first["person"], first["fields"], first["replaced"]) == ("Ana", {"name": "Alder"}, {})
    assert (second["person"], second["device_id"], second["device_name"]) == ("Ben", uuid_text(501), "phone")
    assert (second["replaced"], second["concurrent"], second["overruled"]) == ({"name": "Alder"}, ["name"], [])


def test_history_of_nothing_is_not_found(phone: Client) -> None:
    reply = phone.send("GET", f"/api/records/job/{JOB}/history")
    assert (reply.status_code, reply.json()["code"]) == (404, "not_found")


def test_a_gap_tells_the_number_expected_and_stores_nothing(phone: Client) -> None:
    reply = phone.push(change(1, "job", JOB, {"name": "Alder"}), change(3, "job", JOB, {"note": "x"}))
    assert (reply.status_code, reply.json()["code"], reply.json()["expected"]) == (409, "gap", 2)
    assert phone.pull()["latest"] == 0


def test_a_forked_device_is_told_and_nothing_of_its_push_is_stored(phone: Client) -> None:
    phone.push(change(1, "job", JOB, {"name": "Alder"}))
    other = change(1, "job", JOB, {"name": "Birch"}, change_id=uuid_text(77))
    reply = phone.push(other, change(2, "job", JOB, {"note": "x"}))
    assert (reply.status_code, reply.json()["code"]) == (409, "device_forked")
    assert phone.pull()["latest"] == 1


def test_a_newer_phone_is_told_that_the_service_needs_an_update(phone: Client) -> None:
    reply = phone.push(protocol=PROTOCOL + 1)
    assert (reply.status_code, reply.json()["code"]) == (426, "update_needed")
    assert "Nothing is lost" in reply.json()["detail"]


def test_a_refused_change_comes_with_reason_and_sentence(phone: Client) -> None:
    (result,) = phone.push(change(1, "room", ROOM, {"job_id": JOB})).json()["results"]
    assert (result["outcome"], result["reason"], result["sequence"]) == ("refused", "unknown_parent", None)
    assert JOB in result["message"]


def test_a_push_of_nothing_and_a_push_of_the_most_are_taken(phone: Client) -> None:
    assert phone.push().json()["results"] == []
    full = [change(n, "job", uuid_text(n), {"name": "x"}) for n in range(1, 501)]
    assert len(phone.push(*full).json()["results"]) == 500
    over = [change(n, "job", uuid_text(n), {"name": "x"}) for n in range(501, 1002)]
    assert phone.push(*over).status_code == 422


MALFORMED: list[tuple[str, Any]] = [
    ("changes[0].number", {"number": 0}),
    ("changes[0].number", {"number": "1"}),
    ("changes[0].number", {"number": True}),
    ("changes[0].change_id", {"change_id": "x"}),
    ("changes[0].fields", {"fields": [1]}),
    ("changes[0].seen", {"seen": -1}),
    ("changes[0].device_time", {"device_time": "yesterday"}),
    ("changes[0].device_time", {"device_time": "2026-05-04T10:00:00"}),
    ("changes[0].schema", {"schema": 0}),
]


@pytest.mark.parametrize(("path", "wrong"), MALFORMED)
def test_a_malformed_push_names_the_place(phone: Client, path: str, wrong: dict[str, Any]) -> None:
    reply = phone.push(change(1, "job", JOB, {"name": "x"}) | wrong)
    assert (reply.status_code, reply.json()["code"]) == (422, "malformed")
    assert [problem["path"] for problem in reply.json()["problems"]] == [path]


NOT_JSON = [b"", b"{", b"\xff\xfe", b'{"protocol": NaN}', b'{"protocol": 1e999}', b'{"x": "\\ud800"}', b"[" * 100_000]


@pytest.mark.parametrize("body", NOT_JSON, ids=range(len(NOT_JSON)))
def test_what_is_no_json_is_a_problem_and_never_a_mistake_of_the_service(phone: Client, body: bytes) -> None:
    reply = phone.send("POST", "/api/push", content=body, headers={"Content-Type": "application/json"})
    assert reply.status_code == 422
    assert reply.headers["content-type"] == "application/problem+json"


def test_whatever_depth_a_push_may_have_can_be_pulled_again(phone: Client) -> None:
    phone.push(change(1, "job", JOB, {"name": "x"}), change(2, "room", ROOM, {"job_id": JOB}))
    number = 3
    for depth in (15, 30, *range(250, 256), 500, 5_000):
        fields = {"outline": {"x": "?"}}
        told = {"protocol": 1, "changes": [change(number, "room", ROOM, fields)], "device_time": "2026-05-04T10:00Z"}
        body = json.dumps(told).replace('"?"', "[" * depth + "]" * depth)
        reply = phone.send("POST", "/api/push", content=body, headers={"Content-Type": "application/json"})
        assert reply.status_code in (200, 422), depth
        number += reply.status_code == 200
        assert phone.send("GET", "/api/pull").status_code == 200, depth
    told = phone.send("GET", f"/api/records/room/{ROOM}/history").json()["entries"]
    assert len(told) == 2
    assert number > 4


@pytest.mark.parametrize("query", ["after=-1", "after=x", "limit=0", "limit=501", "after=99999999999999999999"])
def test_a_pull_with_a_wrong_number_is_a_problem(phone: Client, query: str) -> None:
    reply = phone.send("GET", f"/api/pull?{query}")
    assert (reply.status_code, reply.json()["code"]) == (422, "malformed")


@pytest.mark.parametrize(
    ("method", "path", "status", "code"),
    [
        ("GET", "/api/nothing", 404, "not_found"),
        ("POST", "/api/plan/", 404, "not_found"),
        ("GET", "/api/push", 405, "method_not_allowed"),
        ("DELETE", "/api/health", 405, "method_not_allowed"),
        ("POST", "/somewhere", 405, "method_not_allowed"),
        ("GET", f"/api/records/wall/{JOB}/history", 422, "malformed"),
    ],
)
def test_wrong_addresses_and_methods_are_problems(
    phone: Client, method: str, path: str, status: int, code: str
) -> None:
    reply = phone.send(method, path)
    assert (reply.status_code, reply.json()["code"], reply.json()["status"]) == (status, code, status)
    assert reply.headers["content-type"] == "application/problem+json"


def test_health_tells_the_same_database_as_the_pull(phone: Client) -> None:
    health = phone.send("GET", "/api/health").json()
    assert (health["status"], health["protocol"]) == ("ok", PROTOCOL)
    assert health["database"] == phone.pull()["database"]
