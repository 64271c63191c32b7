"""A service that is asked to stop: whoever listens is told at once what is new, and the stop takes seconds."""

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import UTC, datetime

import httpx
from tests.clients import PHONE, change
from tests.databases import Database
from tests.phones import uuid_text
from tests.stores import START

from evenbed.access.joining import invite_foreman
from evenbed.store.work import Store

SOON_S = 60.0
STOP_S = 15.0  # three seconds of patience for open streams, and room for a busy machine


@contextmanager
def running(url: str) -> Iterator[tuple["subprocess.Popen[str]", str]]:
    """A server process and its address, ended in any case."""
    command = [sys.executable, "-m", "evenbed", "serve", "--port", "0", "--database", url]
    told = os.environ | {"PYTHONUNBUFFERED": "1"}
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=told) as process:
        try:
            yield process, address_of(process)
        finally:
            process.kill()


def address_of(process: "subprocess.Popen[str]") -> str:
    """Where the server says it is."""
    assert process.stdout is not None
    for line in process.stdout:
        if line.startswith("Evenbed is at "):
            return line.split()[3]
    raise AssertionError("The server ended without saying its address.")


def join(client: httpx.Client, url: str) -> None:
    """Join with a code from the server's command."""
    with closing(Store(url)) as store:
        code = invite_foreman(store, datetime.now(UTC))
    told = {"code": code, "device_id": PHONE, "device_name": "phone", "person": "Ana"}
    client.headers["Authorization"] = f"Bearer {client.post('/api/join', json=told).json()['token']}"


def push_job(client: httpx.Client) -> None:
    """Push a new job."""
    told = [change(1, "job", uuid_text(1), {"name": "Alder"})]
    reply = client.post("/api/push", json={"protocol": 1, "changes": told, "device_time": START.isoformat()})
    assert reply.status_code == 200, reply.text


def test_the_stream_says_at_once_that_there_is_more_and_a_stop_takes_seconds(database: Database) -> None:
    with running(database.url) as (process, address), httpx.Client(base_url=address, timeout=SOON_S) as client:
        join(client, database.url)
        with client.stream("GET", "/api/events") as stream:
            lines = (line for line in stream.iter_lines() if line.startswith("data:"))
            assert next(lines) == 'data: {"latest":0,"view":1}'
            push_job(client)
            assert json.loads(next(lines).removeprefix("data:"))["latest"] == 1
            asked = time.monotonic()
            process.send_signal(signal.SIGTERM)
            process.wait(SOON_S)
            assert time.monotonic() - asked < STOP_S
