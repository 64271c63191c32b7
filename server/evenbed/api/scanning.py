"""Reading scans: each in a process of its own, one at a time, and only so many at the door."""

import asyncio
import os
import sys
import threading
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

import anyio

from evenbed.api.places import Places
from evenbed.scans.task import Task
from evenbed.wire.problems import Code, reply_for
from evenbed.wire.scans import ScanProgress

MOST_AT_ONCE = 4
LONGEST_LINE = 4_000_000
LOOK_EVERY_S = 0.2
PATIENCE_S = 300.0
COMMAND = (sys.executable, "-P", "-m", "evenbed.scans")
_WAITING = ScanProgress(stage="waiting", done=0.0).model_dump_json().encode() + b"\n"


class Scanning:
    """Who has a scan here, and whose turn it is."""

    def __init__(self) -> None:
        self.places = Places(MOST_AT_ONCE)
        self._turn = threading.Lock()

    async def lines(self, task: Task) -> AsyncIterator[bytes]:
        """What the reading says, line by line; whoever leaves ends it."""
        while not self._turn.acquire(blocking=False):
            yield _WAITING
            await asyncio.sleep(LOOK_EVERY_S)
        try:
            async for line in _said(task):
                yield line
        finally:
            self._turn.release()


async def _said(task: Task) -> AsyncIterator[bytes]:
    line = b""
    try:
        async with asyncio.timeout(PATIENCE_S), _running(task) as process:
            assert process.stdout is not None
            async for line in process.stdout:
                yield line
    except TimeoutError:
        line = b""
    if not _is_last(line):
        said = "The scan could not be read. The mistake is ours and has been logged; nothing was stored."
        yield reply_for(Code.INTERNAL, said).model_dump_json(exclude_none=True).encode() + b"\n"


def _is_last(line: bytes) -> bool:
    return line.startswith((b'{"readings"', b'{"type"')) and line.endswith(b"\n")


@asynccontextmanager
async def _running(task: Task) -> AsyncIterator[asyncio.subprocess.Process]:
    """The process, told its task; it ends with this, whatever ends it. What it complains of goes to the log."""
    pipe = asyncio.subprocess.PIPE
    environ = os.environ | {"OPENBLAS_NUM_THREADS": "1"}
    process = await asyncio.create_subprocess_exec(*COMMAND, stdin=pipe, stdout=pipe, env=environ, limit=LONGEST_LINE)
    try:
        assert process.stdin is not None
        process.stdin.write(task.model_dump_json().encode())
        process.stdin.close()
        yield process
    finally:
        with anyio.CancelScope(shield=True):
            if process.returncode is None:
                process.kill()
            await process.wait()
