"""Many phones that come back into the network at the same moment, each with changes that wait: until all are one.

Every phone pushes what waits as the app does, pulls until there is no more, keeps the live stream open, and pulls
again whenever it says that there is more, until it holds everything that its crew has made.
"""

import asyncio
import random
import tempfile
import time
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import httpx

from evenbed.store.work import Store
from evenbed.wire.protocol import MOST_RECORDS
from tests.benchmarks.crews import DEVICE, apply, change, pushes, reading, requests
from tests.benchmarks.sizes import MANY, Sizes
from tests.browser.running import Service, free_port
from tests.databases import Database, PostgresDatabases, sqlite_database
from tests.phones import uuid_text
from tests.postgres.cluster import running_cluster
from tests.stores import author_of, join_device

CREW = 4
"""People on one job: a phone sees its own job and no other."""
REPLY_WAIT_S = 45.0
FIRST_WAIT_S, LONGEST_WAIT_S = 2.0, 300.0
"""As the app has them."""
PATIENCE_S = 300.0


@dataclass
class Phone:
    """One of the crowd. `rounds` and `requests` hold how long each took, s."""

    client: httpx.AsyncClient
    token: str
    told: list[dict[str, Any]]
    expected: int
    held: set[str] = field(default_factory=set)
    cursor: int = 0
    view: int = 0
    rounds: list[float] = field(default_factory=list)
    requests: list[float] = field(default_factory=list)
    failures: int = 0
    more: asyncio.Event = field(default_factory=asyncio.Event)

    async def become_one(self) -> None:
        """Until everything that the crew has made is here."""
        listening = asyncio.create_task(self._listen())
        try:
            while len(self.held) < self.expected:
                await self.more.wait()
                await self._round()
        finally:
            listening.cancel()
            await asyncio.gather(listening, return_exceptions=True)

    async def _round(self) -> None:
        start = time.perf_counter()
        self.more.clear()
        while self.told:
            results = (await self._ask("POST", "/api/push", self.told[0]))["results"]
            assert not [result for result in results if result["outcome"] == "refused"]
            self.told.pop(0)
        is_more = True
        while is_more:
            path = f"/api/pull?after={self.cursor}&limit={MOST_RECORDS}&view={self.view}"
            is_more = self._take(await self._ask("GET", path))
        self.rounds.append(time.perf_counter() - start)

    def _take(self, page: dict[str, Any]) -> bool:
        self.held |= {record["id"] for record in page["records"]}
        self.cursor, self.view = page["next"], page["view"]
        return bool(page["more"])

    async def _ask(self, method: str, path: str, told: object = None) -> Any:
        """The reply; after a failure again, later and later, as the app does."""
        for tried in range(10):
            start = time.perf_counter()
            reply = await self._answer(method, path, told)
            if reply is not None and reply.status_code == 200:
                self.requests.append(time.perf_counter() - start)
                return reply.json()
            self.failures += 1
            await asyncio.sleep(min(LONGEST_WAIT_S, FIRST_WAIT_S * 2**tried) * random.uniform(0.5, 1.0))
        raise TimeoutError(f"{path} was never answered.")

    async def _answer(self, method: str, path: str, told: object) -> httpx.Response | None:
        try:
            return await self.client.request(method, path, json=told, headers=self._headers)
        except httpx.TransportError:
            return None

    @property
    def _headers(self) -> dict[str, str]:
        return {"Authorization": f"Bearer {self.token}"}

    async def _listen(self) -> None:
        """The first round does not wait for the stream, which says at once how far the service is."""
        self.more.set()
        async with self.client.stream("GET", "/api/events", headers=self._headers, timeout=None) as stream:
            async for line in stream.aiter_lines():
                if line.startswith("data:"):
                    self.more.set()


def print_crowds(sizes: Sizes) -> None:
    """Print the time until all are one, and how long an exchange took, on both databases."""
    phones, changes = sizes.phones, sizes.changes
    print(f"{phones} phones with {changes} changes each, in crews of {CREW}, back at the same moment")
    with tempfile.TemporaryDirectory() as folder:
        _print_crowd("SQLite", sqlite_database(Path(folder)), Path(folder), phones, changes)
    with (
        tempfile.TemporaryDirectory() as folder,
        running_cluster(durable=True) as cluster,
        PostgresDatabases(cluster).fresh(Path(folder)) as database,
    ):
        _print_crowd("PostgreSQL", database, Path(folder), phones, changes)


def _print_crowd(name: str, database: Database, folder: Path, phones: int, changes: int) -> None:
    tokens = _prepare(database, phones)
    service = Service(folder, free_port(), {"EVENBED_DATABASE": database.url, "EVENBED_POLL_INTERVAL_S": "1"})
    service.start()
    try:
        took, crowd = asyncio.run(_all_become_one(service.address, tokens, changes))
    except TimeoutError:
        print(f"  {name:10}  not all one after {PATIENCE_S:.0f} s")
        return
    finally:
        service.stop()
    rounds = sorted(one for phone in crowd for one in phone.rounds)
    single = sorted(one for phone in crowd for one in phone.requests)
    print(f"  {name:10}  all one after {took:6.1f} s  ({phones * changes / took:6.0f} changes/s)")
    print(
        f"    an exchange: half within {_share(rounds, 0.5):5.2f} s, 95 % within {_share(rounds, 0.95):5.2f} s",
        end="",
    )
    print(f" ({len(rounds)} of them, {sum(phone.failures for phone in crowd)} requests sent again)")
    print(f"    a request:   half within {_share(single, 0.5):5.2f} s, 95 % within {_share(single, 0.95):5.2f} s")


def _share(times: list[float], share: float) -> float:
    return times[min(len(times) - 1, int(share * len(times)))]


def _prepare(database: Database, phones: int) -> list[str]:
    """Setters in crews, each crew with a job and a room of its own; their devices' tokens."""
    with closing(Store(database.url)) as store:
        join_device(store, DEVICE)
        people = [join_device(store, uuid_text(1000 + n), person=f"Setter {n}", role="setter") for n in range(phones)]
        begun = [one for crew in range(-(-phones // CREW)) for one in _job(crew)]
        for push in requests(begun):
            apply(store, push)
    return [token for _, token in people]


def _job(crew: int) -> list[dict[str, Any]]:
    members = [author_of("", f"Setter {n}").person_id for n in range(crew * CREW, crew * CREW + CREW)]
    job, room = uuid_text(10_000 + crew), room_of(crew)
    return [
        change(2 * crew + 1, "job", job, {"name": f"Job {crew}", "crew": members}),
        change(2 * crew + 2, "room", room, {"job_id": job, "name": "Hall"}),
    ]


def room_of(crew: int) -> str:
    """The room that a crew works in."""
    return uuid_text(20_000 + crew)


async def _all_become_one(address: str, tokens: list[str], changes: int) -> tuple[float, list[Phone]]:
    limits = httpx.Limits(max_connections=None, max_keepalive_connections=None)
    async with httpx.AsyncClient(base_url=address, limits=limits, timeout=REPLY_WAIT_S) as client:
        crowd = [_phone(client, n, token, changes) for n, token in enumerate(tokens)]
        start = time.perf_counter()
        await asyncio.wait_for(asyncio.gather(*(phone.become_one() for phone in crowd)), PATIENCE_S)
        return time.perf_counter() - start, crowd


def _phone(client: httpx.AsyncClient, number: int, token: str, changes: int) -> Phone:
    room = room_of(number // CREW)
    waiting = [reading(n + 1, room, phone=number + 1) for n in range(changes)]
    return Phone(client, token, list(pushes(waiting)), expected=2 + CREW * changes)


if __name__ == "__main__":
    print_crowds(MANY)
