"""The stream of events as a phone hears it: opened, read line by line, and left or ended."""

import asyncio
import json
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from dataclasses import dataclass, field
from typing import Any

from fastapi import FastAPI

PATIENCE_S = 10.0


@dataclass
class Stream:
    """What has come so far: the status, and every message that was not a heartbeat."""

    status: int = 0
    media_type: str = ""
    body: bytes = b""
    content: bytes = b""
    ended: bool = False
    left: asyncio.Event = field(default_factory=asyncio.Event)

    @property
    def told(self) -> list[dict[str, Any]]:
        """The data of the events so far."""
        lines = self.body.decode().splitlines()
        return [json.loads(line.removeprefix("data:")) for line in lines if line.startswith("data:")]

    @property
    def problem(self) -> dict[str, Any]:
        """What was answered in place of a stream."""
        told: dict[str, Any] = json.loads(self.body)
        return told

    async def until(self, is_so: Callable[["Stream"], bool]) -> None:
        """Wait for it. Raises TimeoutError where it does not come to be."""
        async with asyncio.timeout(PATIENCE_S):
            while not is_so(self):
                await asyncio.sleep(0.005)

    async def send(self, message: Any) -> None:
        """What the application says."""
        self.status = message.get("status", self.status)
        headers = dict(message.get("headers", []))
        self.media_type = headers.get(b"content-type", b"").decode() or self.media_type
        self.body += message.get("body", b"")
        self.ended = message["type"] == "http.response.body" and not message.get("more_body", False)

    async def receive(self) -> dict[str, Any]:
        """What the application hears: the request's body where it has one, and at last that the phone has gone."""
        if self.content:
            body, self.content = self.content, b""
            return {"type": "http.request", "body": body, "more_body": False}
        await self.left.wait()
        return {"type": "http.disconnect"}


@asynccontextmanager
async def listening(
    app: FastAPI, headers: dict[str, str], path: str = "/api/events", content: bytes = b""
) -> AsyncIterator[Stream]:
    """An open stream; content is posted. What the application raises comes out when it is left."""
    stream = Stream(content=content)
    task = asyncio.create_task(app(_scope(headers, path, "POST" if content else "GET"), stream.receive, stream.send))
    try:
        yield stream
    finally:
        stream.left.set()
        await asyncio.wait_for(task, PATIENCE_S)


def _scope(headers: dict[str, str], path: str, method: str) -> dict[str, Any]:
    return {
        "type": "http",
        "asgi": {"version": "3.0", "spec_version": "2.3"},
        "http_version": "1.1",
        "method": method,
        "scheme": "http",
        "path": path,
        "raw_path": path.encode(),
        "query_string": b"",
        "root_path": "",
        "headers": [(name.lower().encode(), value.encode()) for name, value in headers.items()],
        "client": ("127.0.0.1", 1),
        "server": ("evenbed.test", 80),
    }
