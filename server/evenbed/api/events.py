"""The stream that says there is more to pull."""

import asyncio
import logging
from collections.abc import AsyncIterator

from fastapi import APIRouter
from fastapi.concurrency import run_in_threadpool
from fastapi.sse import EventSourceResponse, ServerSentEvent

from evenbed.access.joining import DeviceRemovedError, NotJoinedError, device_with_token
from evenbed.access.seen import is_to_be_noted, note_seen
from evenbed.api.problems import ENTRY_CODES, STORE_CODES, declared
from evenbed.api.service import JoinedDevice, Service, TheService, TheToken, now
from evenbed.store.faults import StoreError
from evenbed.wire.exchange import LatestEvent

_LOG = logging.getLogger("evenbed")
router = APIRouter(prefix="/api", tags=["sync"])


@router.get(
    "/events",
    operation_id="events",
    response_class=EventSourceResponse,
    responses=declared(*ENTRY_CODES, *STORE_CODES),
)
async def events(_device: JoinedDevice, service: TheService, token: TheToken) -> AsyncIterator[ServerSentEvent]:
    """Says `{"latest": N, "view": V}` at once and whenever one has grown. It ends when the device may not read."""
    told = None
    while (latest := await run_in_threadpool(_latest_for, service, token)) is not None:
        if latest != told:
            told = latest
            yield ServerSentEvent(data=latest)
        await asyncio.sleep(service.settings.poll_interval_s)


def _latest_for(service: Service, token: str | None) -> LatestEvent | None:
    """None where the stream has to end: the device may not read any more, or the database cannot be read now."""
    try:
        with service.store.reading() as work:
            device = device_with_token(work, token)
            latest = LatestEvent(latest=work.archive.latest_for(device.person), view=device.person.view)
    except (NotJoinedError, DeviceRemovedError):
        return None
    except StoreError as error:
        _LOG.warning("A stream ends, for the database cannot be read: %s", error)
        return None
    if is_to_be_noted(device, now()):
        note_seen(service.store, device, now())
    return latest
