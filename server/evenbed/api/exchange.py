"""Push, pull, the stream that says there is more, and the history of a record."""

import asyncio
import logging
from collections.abc import AsyncIterator
from dataclasses import asdict
from typing import Annotated

from fastapi import APIRouter, BackgroundTasks, Query
from fastapi.concurrency import run_in_threadpool
from fastapi.sse import EventSourceResponse, ServerSentEvent

from evenbed.access.joining import DeviceRemovedError, NotJoinedError, device_with_token
from evenbed.access.rights import check_writer, device_now
from evenbed.access.seen import is_to_be_noted, note_seen
from evenbed.api.bodies import JsonRoute
from evenbed.api.problems import BODY_CODES, ENTRY_CODES, STORE_CODES, ProblemError, declared
from evenbed.api.service import JoinedDevice, Service, TheService, TheToken, WritingDevice, now, now_text
from evenbed.store.archive import Past
from evenbed.store.faults import StoreError
from evenbed.sync.accept import accept_push
from evenbed.sync.model import Author, Conflict, Record
from evenbed.wire import exchange as wire
from evenbed.wire.exchange import (
    HistoryEntry,
    HistoryReply,
    LatestEvent,
    PulledRecord,
    PullReply,
    PushReply,
    PushRequest,
)
from evenbed.wire.problems import Code
from evenbed.wire.protocol import MOST_RECORDS
from evenbed.wire.records import Kind
from evenbed.wire.values import Uuid

_LOG = logging.getLogger("evenbed")
router = APIRouter(prefix="/api", route_class=JsonRoute, tags=["sync"])
PUSH_CODES = (
    *ENTRY_CODES,
    Code.VIEWER_ONLY_LOOKS,
    Code.DEVICE_FORKED,
    Code.GAP,
    Code.UPDATE_NEEDED,
    *BODY_CODES,
    *STORE_CODES,
)


@router.post("/push", operation_id="push", responses=declared(*PUSH_CODES))
def push(body: PushRequest, device: WritingDevice, service: TheService) -> PushReply:
    """Hand over changes, in the order of their numbers. When the reply comes, they are on the service's disk."""
    with service.store.writing() as work:
        person = check_writer(device_now(work, device)).person
        author = Author(device.id, person.id, person.name)
        results = accept_push(work.ledger(), author, person.role, body, now())
        work.devices.note_seen(device.id, now())
        database, latest = work.founding.identity(), work.archive.latest()
        work.commit()
    return PushReply(database=database, server_time=now_text(), latest=latest, results=results)


@router.get("/pull", operation_id="pull", responses=declared(*ENTRY_CODES, Code.MALFORMED, *STORE_CODES))
def pull(
    device: JoinedDevice,
    service: TheService,
    afterwards: BackgroundTasks,
    after: Annotated[int, Query(ge=0, le=2**53, description="The number up to which everything is known")] = 0,
    limit: Annotated[int, Query(ge=1, le=MOST_RECORDS)] = MOST_RECORDS,
    view: Annotated[
        int | None,
        Query(ge=0, le=2**53, description="The view that `after` was counted in; a first phone names none"),
    ] = None,
) -> PullReply:
    """Records changed after a number, oldest change first. After 0, or from another view, it is all of them."""
    with service.store.reading() as work:
        person, database = device_now(work, device).person, work.founding.identity()
        page = work.archive.page(person, after, limit, view)
    if is_to_be_noted(device, now()):
        afterwards.add_task(note_seen, service.store, device, now())
    return PullReply(
        database=database,
        server_time=now_text(),
        latest=page.latest,
        view=person.view,
        more=page.more,
        next=page.next,
        records=[_pulled(record) for record in page.records],
    )


def _pulled(record: Record) -> PulledRecord:
    return PulledRecord(
        kind=record.kind,
        id=record.id,
        fields=record.fields,
        sequence=record.sequence,
        created_by=record.created_by,
        changed_by=record.changed_by,
        changed_at=record.changed_at.isoformat(),
        conflicts={name: [_lost(one) for one in lost] for name, lost in record.conflicts.items()},
    )


def _lost(conflict: Conflict) -> wire.Conflict:
    return wire.Conflict(**asdict(conflict) | {"at": conflict.at.isoformat()})


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


@router.get(
    "/records/{kind}/{record_id}/history",
    operation_id="history",
    responses=declared(*ENTRY_CODES, Code.NOT_FOUND, Code.MALFORMED, *STORE_CODES),
)
def history(kind: Kind, record_id: Uuid, device: JoinedDevice, service: TheService) -> HistoryReply:
    """Every change of a record, oldest first: nothing that was ever said is missing."""
    with service.store.reading() as work:
        is_seen = work.archive.is_seen(device_now(work, device).person, kind, record_id)
        past = work.archive.history(kind, record_id) if is_seen else ()
    if not past:
        raise ProblemError(Code.NOT_FOUND, f"There is no {kind} with this id.")
    return HistoryReply(entries=[_told(one) for one in past])


def _told(past: Past) -> HistoryEntry:
    entry = past.entry
    assert entry.sequence is not None  # history holds applied changes only
    return HistoryEntry(
        sequence=entry.sequence,
        change_id=entry.change_id,
        person=entry.author.person,
        device_id=entry.author.device_id,
        device_name=past.device_name,
        at=entry.at.isoformat(),
        fields=entry.fields,
        replaced=entry.effect.replaced,
        concurrent=list(entry.effect.concurrent),
        overruled=list(entry.effect.overruled),
    )
