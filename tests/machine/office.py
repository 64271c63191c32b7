"""The real service over a real database, with a clock that the machine sets."""

import asyncio
from collections import Counter
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta, tzinfo
from pathlib import Path
from typing import Any, Self

import httpx
from sqlalchemy import Connection, event

import evenbed.api.service
from evenbed.api.service import COOKIE
from evenbed.app import create_app
from evenbed.settings import Settings
from evenbed.store.backup import back_up, restore
from evenbed.store.work import Store
from evenbed.sync.model import Entry, Record
from tests.machine.bases import OFFICE_TOKEN
from tests.machine.pipe import Answer
from tests.stores import START

PATIENCE_S = 5.0


class PowerCutError(Exception):
    """The service ends here, in the middle of what it was doing."""


@dataclass
class TrueTime:
    """The time that everybody would agree on; it moves only when the machine moves it."""

    now: datetime = START

    def pass_by(self, time: timedelta) -> None:
        """Let it go on."""
        self.now += time

    def as_module_clock(self) -> type[datetime]:
        """What stands for `datetime` where the service asks what time it is."""
        wall = self

        class OnTheWall(datetime):
            @classmethod
            def now(cls, tz: tzinfo | None = None) -> Self:
                assert tz is not None
                return cls.fromtimestamp(wall.now.timestamp(), tz)

        return OnTheWall


class Office:
    """One service. It can be cut off in mid-work, started again, backed up and restored."""

    def __init__(self, url: str, time: TrueTime, folder: Path, met: Counter[str]) -> None:
        self.url = url
        self._met = met
        self._folder = folder
        self._backups = 0
        self._loop = asyncio.new_event_loop()
        self._watched = vars(evenbed.api.service)["datetime"]
        setattr(evenbed.api.service, "datetime", time.as_module_clock())  # noqa: B010 (the clock on the wall)
        self._start()

    def _start(self) -> None:
        self._app = create_app(Settings(database=self.url, web=self._folder / "dist"))
        transport = httpx.ASGITransport(self._app)
        self._client = httpx.AsyncClient(transport=transport, base_url="http://evenbed.test")

    @property
    def store(self) -> Store:
        """The store under the application."""
        store: Store = self._app.state.service.store
        return store

    def _stop(self) -> None:
        self._loop.run_until_complete(self._client.aclose())
        self.store.close()

    def start_again(self) -> None:
        """The process ends and another one opens the same database."""
        self._stop()
        self._start()

    def close(self) -> None:
        """End it for good."""
        self._stop()
        self._loop.run_until_complete(self._loop.shutdown_default_executor())
        self._loop.close()
        setattr(evenbed.api.service, "datetime", self._watched)  # noqa: B010

    def answer(self, method: str, path: str, body: str | None, token: str | None) -> tuple[Answer, str | None]:
        """The reply to a browser's request, and the cookie that came with it."""
        headers = {"content-type": "application/json"} | ({"cookie": f"{COOKIE}={token}"} if token else {})
        reply = self._ask(method, path, content=body, headers=headers)
        self._count(path, reply)
        kind = reply.headers.get("content-type", "")
        return Answer(reply.status_code, reply.text, kind), reply.cookies.get(COOKIE)

    def _count(self, path: str, reply: httpx.Response) -> None:
        """What phones were answered, so that a run can show what it came upon."""
        if not reply.is_success:
            self._met[reply.json()["code"]] += 1
        elif path == "/api/push":
            self._met.update(one["reason"] or one["outcome"] for one in reply.json()["results"])

    def _ask(self, method: str, path: str, **told: Any) -> httpx.Response:
        self._client.cookies.clear()
        return self._loop.run_until_complete(self._client.request(method, path, **told))

    def cut_off(self, work: Callable[[], object]) -> None:
        """Do this with a service that loses its power at the moment of its next commit; then start it again."""

        def power_cut(connection: Connection) -> None:
            connection.invalidate()
            raise PowerCutError

        event.listen(self.store.engine, "commit", power_cut)
        with suppress(PowerCutError):
            work()
        event.remove(self.store.engine, "commit", power_cut)
        self.start_again()

    def decide(self, method: str, path: str, **told: Any) -> dict[str, Any]:
        """What the office's own program asks of the service, as a foreman."""
        reply = self._ask(method, path, headers={"authorization": f"Bearer {OFFICE_TOKEN}"}, **told)
        assert reply.is_success, reply.text
        said: dict[str, Any] = reply.json()
        return said

    def code_for(self, person_id: str) -> str:
        """A fresh code for a device of this person."""
        return str(self.decide("POST", "/api/invites", json={"person_id": person_id})["code"])

    def back_up(self) -> Path:
        """A backup of now."""
        self._backups += 1
        file = self._folder / f"backup-{self._backups}.db"
        back_up(self.url, file, PATIENCE_S)
        return file

    def restore(self, backup: Path) -> None:
        """Go back to a backup, while the service runs."""
        self._backups += 1
        restore(backup, self.url, self._folder / f"replaced-{self._backups}.db", PATIENCE_S)

    def log(self) -> list[Entry]:
        """Every applied change, in order."""
        with self.store.reading() as work:
            return list(work.archive.log())

    def records(self) -> list[Record]:
        """Every record as it stands."""
        with self.store.reading() as work:
            return list(work.archive.records())

    def roles(self) -> dict[str, str]:
        """Everybody's role, by id."""
        with self.store.reading() as work:
            return {person.id: person.role for person in work.people.all()}
