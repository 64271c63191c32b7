"""Decisions that cross each other: what was decided first holds for the other, to the moment."""

from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime
from threading import Barrier
from time import sleep

import httpx
import pytest
from tests.clients import PHONE, Client, change
from tests.phones import uuid_text

from evenbed.app import create_app
from evenbed.store.work import UnitOfWork

OTHER, JOB = uuid_text(501), uuid_text(1)
AT_THE_DOOR_S = 0.3
"""Long enough for a request to get past the door; one that does not is refused there, and the test holds as well."""


@pytest.fixture
def ana(client: Client) -> Client:
    """A foreman."""
    return client.joined()


@pytest.fixture
def ben(client: Client, ana: Client) -> Iterator[Client]:
    """Another foreman, who asks a second service over the same database."""
    joined = client.joined(OTHER, "Ben", "foreman")
    second = replace(joined, app=create_app(ana.app.state.service.settings))
    with closing(second.store):
        yield second


def together(*requests: Callable[[], httpx.Response]) -> list[str]:
    """The answers to requests made at the same time, sorted: `ok`, or the problem's code."""
    start = Barrier(len(requests))

    def make(request: Callable[[], httpx.Response]) -> str:
        start.wait()
        reply = request()
        return "ok" if reply.status_code == 200 else str(reply.json()["code"])

    with ThreadPoolExecutor(len(requests)) as crowd:
        return sorted(crowd.map(make, requests))


def foremen_left(client: Client) -> int:
    """Devices that can let others in."""
    with client.store.reading() as work:
        return sum(one.removed_at is None and one.person.role == "foreman" for one in work.devices.all())


def person_of(client: Client) -> str:
    """Whose device it is."""
    told: str = client.send("GET", "/api/session").json()["person_id"]
    return told


def test_of_two_foremen_who_leave_at_once_one_stays(ana: Client, ben: Client) -> None:
    answers = together(lambda: ana.send("DELETE", "/api/session"), lambda: ben.send("DELETE", "/api/session"))
    assert answers == ["last_foreman", "ok"]
    assert foremen_left(ana) == 1


def test_of_two_foremen_who_remove_each_other_at_once_one_stays(ana: Client, ben: Client) -> None:
    answers = together(
        lambda: ana.send("DELETE", f"/api/devices/{OTHER}"), lambda: ben.send("DELETE", f"/api/devices/{PHONE}")
    )
    assert answers == ["device_removed", "ok"]
    assert foremen_left(ana) == 1


def test_of_two_foremen_who_take_each_others_role_at_once_one_stays(ana: Client, ben: Client) -> None:
    paths, role = [f"/api/people/{person_of(one)}" for one in (ben, ana)], {"role": "setter"}
    answers = together(lambda: ana.send("PATCH", paths[0], json=role), lambda: ben.send("PATCH", paths[1], json=role))
    assert answers == ["foreman_only", "ok"]
    assert foremen_left(ana) == 1


def remove_ben(work: UnitOfWork) -> None:
    """Take his device away."""
    work.devices.remove(OTHER, datetime.now(UTC))


def make_ben_a_viewer(work: UnitOfWork) -> None:
    """Take his right to write."""
    ben = work.devices.with_id(OTHER)
    assert ben
    work.people.save(replace(ben.person, role="viewer"))


@pytest.mark.parametrize(
    ("decide", "code"), [(remove_ben, "device_removed"), (make_ben_a_viewer, "viewer_only_looks")]
)
def test_what_is_decided_while_a_push_waits_holds_for_that_push(
    ana: Client, ben: Client, decide: Callable[[UnitOfWork], None], code: str
) -> None:
    with ThreadPoolExecutor(1) as other, ana.store.writing() as work:
        decide(work)
        push = other.submit(ben.push, change(1, "job", JOB, {"name": "Alder"}))
        sleep(AT_THE_DOOR_S)
        assert not push.done()
        work.commit()
        assert push.result().json()["code"] == code
    assert ana.pull()["records"] == []
