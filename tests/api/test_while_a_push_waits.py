"""A push that waits for its turn is judged by what holds when its turn comes, not by what held at the door."""

import threading
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import httpx
import pytest
from tests.clients import Client, change
from tests.phones import uuid_text

from evenbed.store.work import UnitOfWork
from evenbed.wire.exchange import Role

OTHER, JOB = uuid_text(501), uuid_text(1)
AT_THE_DOOR_S = 0.5
"""Time for the push to come in at the door. Were it too short, the push would be told the same there."""
PATIENCE_S = 20.0
Meanwhile = Callable[[UnitOfWork], None]


def push_meanwhile(ben: Client, told: dict[str, Any], meanwhile: Meanwhile) -> httpx.Response:
    """Ben's push, while another writer who was first does something."""
    replies: list[httpx.Response] = []
    pushing = threading.Thread(target=lambda: replies.append(ben.push(told)))
    with ben.store.writing() as work:
        work.ledger()
        pushing.start()
        time.sleep(AT_THE_DOOR_S)
        assert not replies
        meanwhile(work)
        work.commit()
    pushing.join(PATIENCE_S)
    (reply,) = replies
    return reply


def remove(work: UnitOfWork) -> None:
    """Ben's device is removed."""
    work.devices.remove(OTHER, datetime.now(UTC))


def becomes(role: Role) -> Meanwhile:
    """Ben gets another role."""

    def give(work: UnitOfWork) -> None:
        device = work.devices.with_id(OTHER)
        assert device is not None
        work.people.save(replace(device.person, role=role))

    return give


@pytest.fixture
def ana(client: Client) -> Client:
    """A foreman."""
    return client.joined()


@pytest.fixture
def ben(ana: Client) -> Client:
    """Another foreman."""
    return ana.joined(OTHER, "Ben")


@pytest.mark.parametrize(
    ("meanwhile", "status", "code"),
    [(remove, 401, "device_removed"), (becomes("viewer"), 403, "viewer_only_looks")],
    ids=["removed", "a viewer now"],
)
def test_whoever_may_not_write_any_more_stores_nothing(
    ana: Client, ben: Client, meanwhile: Meanwhile, status: int, code: str
) -> None:
    reply = push_meanwhile(ben, change(1, "job", JOB, {"name": "Alder"}), meanwhile)
    assert (reply.status_code, reply.json()["code"]) == (status, code)
    told = ana.pull()
    assert (told["latest"], told["records"]) == (0, [])


def test_whoever_is_no_foreman_any_more_decides_on_no_crew(ana: Client, ben: Client) -> None:
    ana.push(change(1, "job", JOB, {"name": "Alder"}))
    crew = {"crew": [ben.send("GET", "/api/session").json()["person_id"]]}
    reply = push_meanwhile(ben, change(1, "job", JOB, crew, change_id=uuid_text(77)), becomes("setter"))
    (result,) = reply.json()["results"]
    assert (result["outcome"], result["reason"]) == ("refused", "not_assigned")
    assert ben.pull()["records"] == []


def test_whoever_is_not_on_the_crew_any_more_changes_nothing_and_the_queue_moves_on(ana: Client, ben: Client) -> None:
    becomes_setter = becomes("setter")
    with ana.store.writing() as work:
        becomes_setter(work)
        work.commit()
    person_id = ben.send("GET", "/api/session").json()["person_id"]
    ana.push(change(1, "job", JOB, {"name": "Alder", "crew": [person_id]}))
    assert [record["id"] for record in ben.pull()["records"]] == [JOB]
    ana.push(change(2, "job", JOB, {"crew": []}))
    first = change(1, "job", JOB, {"note": "x"}, change_id=uuid_text(77))
    second = change(2, "job", uuid_text(2), {"name": "own"}, change_id=uuid_text(78))
    results = ben.push(first, second).json()["results"]
    assert [(result["outcome"], result["reason"]) for result in results] == [
        ("refused", "not_assigned"),
        ("applied", None),
    ]
    assert [record["id"] for record in ben.pull()["records"]] == [uuid_text(2)]
