"""When a device was last heard of, and the stream that ends with its right to read."""

import asyncio
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from tests.clients import PHONE, Client, change, service
from tests.databases import Database
from tests.phones import uuid_text
from tests.streams import listening

OTHER, JOB = uuid_text(501), uuid_text(1)


@pytest.fixture
def quick(tmp_path: Path, database: Database) -> Iterator[Client]:
    """A foreman of a service that looks for news all the time."""
    with service(tmp_path, database, poll_interval_s=0.01) as fresh:
        yield fresh.joined()


@pytest.fixture
def ben(quick: Client) -> Client:
    """Somebody else."""
    return quick.joined(OTHER, "Ben", "setter")


def seen(foreman: Client, device_id: str) -> str | None:
    """When a device was last heard of, as the list tells."""
    people = foreman.send("GET", "/api/people").json()["people"]
    (when,) = [one["last_seen_at"] for person in people for one in person["devices"] if one["id"] == device_id]
    told: str | None = when
    return told


def set_seen(client: Client, device_id: str, ago: timedelta) -> datetime:
    """As if it had last been heard of so long ago."""
    at = datetime.now(UTC) - ago
    with client.store.writing() as work:
        work.devices.note_seen(device_id, at)
        work.commit()
    return at


@pytest.mark.parametrize("what", ["push", "pull"])
def test_a_device_that_pushes_or_pulls_is_seen(quick: Client, ben: Client, what: str) -> None:
    assert seen(quick, OTHER) is None
    ben.push() if what == "push" else ben.pull()
    assert seen(quick, OTHER) is not None


def test_pulls_are_noted_once_a_minute(quick: Client, ben: Client) -> None:
    set_seen(quick, OTHER, timedelta(seconds=55))
    before = seen(quick, OTHER)
    ben.pull()
    assert seen(quick, OTHER) == before
    set_seen(quick, OTHER, timedelta(seconds=61))
    ben.pull()
    assert datetime.fromisoformat(str(seen(quick, OTHER))) > datetime.now(UTC) - timedelta(seconds=30)


def test_a_stream_tells_what_is_new_and_ends_when_its_device_is_removed(quick: Client, ben: Client) -> None:
    crew = [ben.send("GET", "/api/session").json()["person_id"]]
    job = change(1, "job", JOB, {"name": "Alder", "crew": crew})

    async def hear() -> list[dict[str, Any]]:
        async with listening(ben.app, ben.headers) as stream:
            await stream.until(lambda it: it.told == [{"latest": 0, "view": 1}])
            await asyncio.to_thread(quick.push, job)
            await stream.until(lambda it: len(it.told) > 1)
            await asyncio.to_thread(quick.send, "DELETE", f"/api/devices/{OTHER}")
            await stream.until(lambda it: it.ended)
            return stream.told

    told = asyncio.run(hear())
    assert told[-1]["latest"] == 1


def test_a_stream_that_its_phone_leaves_is_let_go(quick: Client) -> None:
    async def leave() -> None:
        async with listening(quick.app, quick.headers) as stream:
            await stream.until(lambda it: len(it.told) == 1)

    asyncio.run(leave())
    assert seen(quick, PHONE) is not None
