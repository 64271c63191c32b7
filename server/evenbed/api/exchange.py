"""Push, pull, the stream that says there is more, and the history of a record."""

import asyncio
from collections.abc import AsyncIterator
from dataclasses import asdict
from typing import Annotated

from fastapi import APIRouter, Query
from fastapi.concurrency import run_in_threadpool
from fastapi.sse import EventSourceResponse, ServerSentEvent

from evenbed.access.joining import DeviceRemovedError, device_from_token
from evenbed.api.bodies import JsonRoute
from evenbed.api.problems import BODY_CODES, ENTRY_CODES, STORE_CODES, ProblemError, declared
from evenbed.api.service import JoinedDevice, Service, TheService, TheToken, WritingDevice, now, now_text
from evenbed.store.archive import Past
from evenbed.store.devices import Device
from evenbed.store.people import Person
from evenbed.store.work import UnitOfWork
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
        author = Author(device.id, device.person.id, device.person.name)
        results = accept_push(work.ledger(), author, device.person.role, body, now())
        work.devices.note_seen(device.id, now())
        database, latest = work.founding.identity(), work.archive.latest()
        work.commit()
    return PushReply(database=database, server_time=now_text(), latest=latest, results=results)


@router.get("/pull", operation_id="pull", responses=declared(*ENTRY_CODES, Code.MALFORMED, *STORE_CODES))
def pull(
    device: JoinedDevice,
    service: TheService,
    after: Annotated[int, Query(ge=0, le=2**53, description="The number up to which everything is known")] = 0,
    limit: Annotated[int, Query(ge=1, le=MOST_RECORDS)] = MOST_RECORDS,
    view: Annotated[int, Query(ge=0, le=2**53, description="The view that `after` was counted in")] = 0,
) -> PullReply:
    """Records changed after a number, oldest change first. After 0, or from another view, it is all of them."""
    with service.store.reading() as work:
        person, database = _person_now(work, device), work.founding.identity()
        page = work.archive.page(person, after if view == person.view else 0, limit)
    return PullReply(
        database=database,
        server_time=now_text(),
        latest=page.latest,
        view=person.view,
        more=page.more,
        next=page.next,
        records=[_pulled(record) for record in page.records],
    )


def _person_now(work: UnitOfWork, device: Device) -> Person:
    """The device's person in the same picture of the database as what is read for them."""
    now = work.devices.with_id(device.id)
    if now is None or now.removed_at is not None:
        raise DeviceRemovedError("This device was removed just now.")
    return now.person


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
    while True:
        latest = await run_in_threadpool(_latest_for, service, token)
        if latest != told:
            told = latest
            yield ServerSentEvent(data=latest)
        await asyncio.sleep(service.settings.poll_interval_s)


def _latest_for(service: Service, token: str | None) -> LatestEvent:
    person = device_from_token(service.store, token).person
    with service.store.reading() as work:
        return LatestEvent(latest=work.archive.latest_for(person), view=person.view)


@router.get(
    "/records/{kind}/{record_id}/history",
    operation_id="history",
    responses=declared(*ENTRY_CODES, Code.NOT_FOUND, Code.MALFORMED, *STORE_CODES),
)
def history(kind: Kind, record_id: str, device: JoinedDevice, service: TheService) -> HistoryReply:
    """Every change of a record, oldest first: nothing that was ever said is missing."""
    with service.store.reading() as work:
        is_seen = work.archive.is_seen(_person_now(work, device), kind, record_id)
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
