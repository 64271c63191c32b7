"""Large bodies, received whole into a file on the disk before anything is made of them."""

import asyncio
import errno
from collections.abc import AsyncIterator
from typing import IO

from fastapi import Request
from fastapi.concurrency import run_in_threadpool
from starlette.requests import ClientDisconnect

from evenbed.api.problems import ProblemError
from evenbed.wire.problems import Code

AT_ONCE = 1_000_000  # bytes written to the disk in one go
SILENCE_S = 30.0


async def receive(request: Request, file: "IO[bytes]", cut_off: Code, what: str) -> None:
    """The whole body into the file.

    Raises ProblemError: `cut_off` where it stops on its way, `storage_full`; `what` names it in the sentence.
    """
    waiting = bytearray()
    try:
        async for chunk in _chunks(request):
            waiting += chunk
            if len(waiting) >= AT_ONCE:
                await run_in_threadpool(file.write, bytes(waiting))
                waiting.clear()
        await run_in_threadpool(file.write, bytes(waiting))
        await run_in_threadpool(file.flush)
    except (ClientDisconnect, TimeoutError):
        raise ProblemError(cut_off, f"The {what} was cut off on its way. Send it again.") from None
    except OSError as error:
        raise full_disk(error, what) from None


def full_disk(error: OSError, what: str) -> Exception:
    """The refusal where the disk is full; any other error as it is."""
    if error.errno != errno.ENOSPC:
        return error
    return ProblemError(Code.STORAGE_FULL, f"There is no room left on the service's disk for the {what}.")


async def _chunks(request: Request) -> AsyncIterator[bytes]:
    stream = request.stream()
    while True:
        try:
            async with asyncio.timeout(SILENCE_S):
                chunk = await anext(stream)
        except StopAsyncIteration:
            return
        yield chunk
