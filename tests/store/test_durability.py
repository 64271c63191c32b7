"""A server killed without warning, over and over: what was acknowledged is there, and a repeated push counts once."""

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import UTC, datetime
from pathlib import Path

import httpx
from tests.clients import PHONE, change
from tests.phones import uuid_text
from tests.stores import FOREMAN, START, fresh_file, url_of

from evenbed.access.joining import invite_foreman
from evenbed.store.work import Store

KILLS = 2
PUSHES = 25
SOON_S = 30.0
STOP_S = 15.0  # three seconds of patience for open streams, and room for a busy machine


@contextmanager
def running(file: Path) -> Iterator[tuple["subprocess.Popen[str]", str]]:
    """A server process and its address; in the end killed as by a power cut, as far as a process can tell."""
    command = [sys.executable, "-m", "evenbed", "serve", "--port", "0", "--database", url_of(file)]
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


def join_code(file: Path) -> str:
    """A code from the server's command."""
    with closing(Store(url_of(file))) as store:
        return invite_foreman(store, datetime.now(UTC))


def joined(client: httpx.Client, code: str) -> dict[str, str]:
    """The headers of a phone that has joined."""
    told = {"code": code, "device_id": PHONE, "device_name": "phone", "person": "Ana"}
    reply = client.post("/api/join", json=told)
    assert reply.status_code == 200, reply.text
    return {"Authorization": f"Bearer {reply.json()['token']}"}


def push(client: httpx.Client, number: int) -> int:
    """Push the job of that number; the service's latest."""
    told = {"protocol": 1, "changes": [job(number)], "device_time": START.isoformat()}
    reply = client.post("/api/push", json=told)
    assert reply.status_code == 200, reply.text
    latest: int = reply.json()["latest"]
    return latest


def job(number: int) -> dict[str, object]:
    """A new job, as change `number` of the phone."""
    return change(number, "job", uuid_text(10_000 + number), {"name": f"job {number}"})


def test_everything_acknowledged_survives_a_killed_server(tmp_path: Path) -> None:
    file, _ = fresh_file(tmp_path)
    acknowledged, headers, code = 0, {}, join_code(file)
    for _ in range(KILLS):
        with running(file) as (_process, address), httpx.Client(base_url=address, timeout=SOON_S) as client:
            headers = headers or joined(client, code)
            client.headers.update(headers)
            if acknowledged:
                assert push(client, acknowledged) == acknowledged
            for _ in range(PUSHES):
                acknowledged = push(client, acknowledged + 1)
    with closing(Store(url_of(file))) as store, store.reading() as work:
        names = [record.fields["name"] for record in work.archive.page(FOREMAN, 0, 500).records]
    assert names == [f"job {n}" for n in range(1, KILLS * PUSHES + 1)]


def test_the_stream_says_at_once_that_there_is_more_and_a_stop_takes_seconds(tmp_path: Path) -> None:
    file, _ = fresh_file(tmp_path)
    code = join_code(file)
    with running(file) as (process, address), httpx.Client(base_url=address, timeout=SOON_S) as client:
        client.headers.update(joined(client, code))
        with client.stream("GET", "/api/events") as stream:
            lines = (line for line in stream.iter_lines() if line.startswith("data:"))
            assert next(lines) == 'data: {"latest":0,"view":1}'
            push(client, 1)
            assert json.loads(next(lines).removeprefix("data:"))["latest"] == 1
            asked = time.monotonic()
            process.send_signal(signal.SIGTERM)
            process.wait(SOON_S)
            assert time.monotonic() - asked < STOP_S
