"""The real application over a real database, spoken to in HTTP without a socket."""

import asyncio
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import httpx
import pytest
from fastapi import FastAPI

from evenbed.access.codes import WORK
from evenbed.access.joining import FROM_THE_APP, invite
from evenbed.app import create_app
from evenbed.settings import Settings
from evenbed.store.work import Store
from evenbed.wire.exchange import Role
from tests.databases import Database, sqlite_database
from tests.phones import uuid_text
from tests.stores import START

PHONE = uuid_text(500)


@dataclass
class Client:
    """Sends requests to the application, with a token once it has one."""

    app: FastAPI
    code: str
    headers: dict[str, str] = field(default_factory=dict)
    view: int = 0

    @property
    def store(self) -> Store:
        """The store under the application."""
        store: Store = self.app.state.service.store
        return store

    def send(self, method: str, path: str, **told: Any) -> httpx.Response:
        """One request, one reply."""
        return asyncio.run(self._send(method, path, told))

    async def _send(self, method: str, path: str, told: dict[str, Any]) -> httpx.Response:
        transport = httpx.ASGITransport(self.app, raise_app_exceptions=False)
        headers = self.headers | told.pop("headers", {})
        async with httpx.AsyncClient(transport=transport, base_url="http://evenbed.test") as client:
            return await client.request(method, path, headers=headers, **told)

    def join(self, device_id: str = PHONE, person: str | None = "Ana", **more: Any) -> httpx.Response:
        """Join with a code that the server's command printed, or with what `more` says."""
        told = {"code": self.code, "device_id": device_id, "device_name": "phone", "person": person} | more
        return self.send("POST", "/api/join", json=told)

    def joined(self, device_id: str = PHONE, person: str = "Ana", role: Role = "foreman") -> "Client":
        """A client for a device of a new person that has joined, by a code that was cheap to make and to find."""
        with pytest.MonkeyPatch.context() as patch:
            patch.setitem(WORK, "n", 2)
            with self.store.writing() as work:
                code = invite(work, role, datetime.now(UTC), FROM_THE_APP)
                work.commit()
            token = self.join(device_id, person, code=code).json()["token"]
        return Client(self.app, self.code, {"Authorization": f"Bearer {token}"})

    def push(self, *changes: dict[str, Any], **more: Any) -> httpx.Response:
        """Hand changes over."""
        told = {"protocol": 1, "changes": list(changes), "device_time": START.isoformat()} | more
        return self.send("POST", "/api/push", json=told)

    def pull(self, after: int = 0, limit: int = 500) -> dict[str, Any]:
        """What changed after a number, in the view that the last pull told."""
        params = {"after": after, "limit": limit, "view": self.view}
        reply: dict[str, Any] = self.send("GET", "/api/pull", params=params).json()
        self.view = reply.get("view", self.view)
        return reply


def change(number: int, kind: str, record_id: str, fields: dict[str, Any], **more: Any) -> dict[str, Any]:
    """A change as JSON."""
    return {
        "change_id": uuid_text(1000 + number),
        "number": number,
        "kind": kind,
        "record_id": record_id,
        "fields": fields,
        "seen": 0,
        "device_time": START.isoformat(),
        "schema": 1,
    } | more


@contextmanager
def service(folder: Path, database: Database | None = None, **more: Any) -> Iterator[Client]:
    """A client of a service over a fresh database, without one over a SQLite file; its files are in the folder."""
    told = database or sqlite_database(folder)
    client = Client(create_app(Settings(database=told.url, web=folder / "dist", **more)), told.code)
    with closing(client.store):
        yield client
