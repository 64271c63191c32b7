"""Phones that speak HTTP from threads of their own and go on sending until everything they hold is acknowledged."""

import random
import time
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from itertools import count

import httpx
from tests.phones import Phone, push_of, uuid_text

from evenbed.sync.model import Record
from evenbed.wire.exchange import PulledRecord, PushReply

PATIENCE_S = 120.0
BREATH_S = 0.005
MOST_AT_ONCE = 5
JSON = {"Content-Type": "application/json"}
JOB, ROOM = uuid_text(1), uuid_text(2)
"""The job and the room that all callers work on."""


@dataclass
class Caller:
    """One phone. `acknowledged` holds, by change, the number the service said; `replies` every status it heard."""

    phone: Phone
    client: httpx.Client
    dice: random.Random
    acknowledged: dict[str, int] = field(default_factory=dict)
    made: list[str] = field(default_factory=list)
    replies: list[int] = field(default_factory=list)
    unanswered: int = 0
    pushes: int = 0

    def begin(self) -> None:
        """The job and the room that everybody works on."""
        for kind, record_id, fields in (("job", JOB, {"name": "Mill End 4"}), ("room", ROOM, {"job_id": JOB})):
            self.made.append(self.phone.edit(kind, record_id, fields, datetime.now(UTC)).change_id)
        self._push()

    def work(self, pushes: int) -> None:
        """So many pushes, each of one to five edits, each sent until it was taken."""
        for _ in range(pushes):
            self.edit(self.dice.randint(1, MOST_AT_ONCE))
            self._push()

    def edit(self, edits: int) -> None:
        """So many edits, kept on the phone."""
        now = datetime.now(UTC)
        for _ in range(edits):
            made = self.phone.edit(*self._any_edit(), now)
            self.made.append(made.change_id)

    def _any_edit(self) -> tuple[str, str, dict[str, object]]:
        """A reading of its own, or a new name for the room that all of them rename."""
        if self.dice.random() < 0.2:
            return "room", ROOM, {"name": f"hall {self.dice.random():.6f}"}
        place = [float(self.dice.randint(0, 5000)), float(self.dice.randint(0, 5000))]
        return "reading", self.phone.new_id(), {"room_id": ROOM, "down": self.dice.uniform(900, 1100), "at": place}

    def _push(self) -> None:
        self._hear(self._sent("POST", "/api/push", self._told()))

    def _told(self) -> str:
        return push_of(self.phone.waiting, datetime.now(UTC), self.phone.clock_offset).model_dump_json(by_alias=True)

    def push_once(self) -> httpx.Response:
        """What waits, sent once, with whatever comes of it."""
        reply = self.client.post("/api/push", content=self._told(), headers=JSON)
        if reply.status_code == 200:
            self._hear(reply)
        return reply

    def _hear(self, reply: httpx.Response) -> None:
        results = PushReply.model_validate_json(reply.content).results
        for result in results:
            assert result.sequence is not None, result
            self.acknowledged[result.change_id] = result.sequence
        self.phone.hear(results)
        self.pushes += 1

    def _sent(self, method: str, path: str, body: str | None = None) -> httpx.Response:
        """Sent again and again until it is taken. Raises TimeoutError where that takes too long."""
        patience = time.monotonic() + PATIENCE_S
        while time.monotonic() < patience:
            reply = self._answer(method, path, body)
            if reply is not None and reply.status_code == 200:
                return reply
            time.sleep(BREATH_S)
        raise TimeoutError(f"{path} was not taken; replies so far: {self.replies}")

    def _answer(self, method: str, path: str, body: str | None) -> httpx.Response | None:
        try:
            reply = self.client.request(method, path, content=body, headers=JSON)
        except httpx.TransportError:
            self.unanswered += 1
            return None
        self.replies.append(reply.status_code)
        return reply

    def pull_all(self) -> dict[str, PulledRecord]:
        """Everything the service has, by id."""
        found: dict[str, PulledRecord] = {}
        after, view, more = 0, 0, True
        while more:
            page = self._sent("GET", f"/api/pull?after={after}&view={view}&limit=100").json()
            found |= {one["id"]: PulledRecord.model_validate(one) for one in page["records"]}
            after, view, more = page["next"], page["view"], page["more"]
        return found


def is_same(pulled: PulledRecord, kept: Record) -> bool:
    """True where what came over the wire is what the service keeps."""
    return (pulled.kind, pulled.fields, pulled.sequence) == (kept.kind, kept.fields, kept.sequence)


@contextmanager
def callers_at(address: str, tokens: dict[str, str], seed: int) -> Iterator[list[Caller]]:
    """A caller for each device that has joined, by its token."""
    numbers = count(100_000)
    callers = [
        Caller(
            Phone(device_id, "Ana", lambda: uuid_text(next(numbers))),
            httpx.Client(base_url=address, timeout=PATIENCE_S, headers={"Authorization": f"Bearer {token}"}),
            random.Random(seed + place),
        )
        for place, (device_id, token) in enumerate(tokens.items())
    ]
    try:
        yield callers
    finally:
        for caller in callers:
            caller.client.close()


@contextmanager
def all_at_work(callers: list[Caller], pushes: int) -> Iterator[list["Future[None]"]]:
    """All of them at once, together so many pushes. The end waits for them and raises what went wrong with any."""
    with ThreadPoolExecutor(len(callers)) as pool:
        working = [pool.submit(caller.work, pushes // len(callers)) for caller in callers]
        yield working
        for one in working:
            one.result()
