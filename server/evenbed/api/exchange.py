"""Push and pull."""

from dataclasses import asdict
from typing import Annotated

from fastapi import APIRouter, BackgroundTasks, Query

from evenbed.access.rights import check_writer, device_now
from evenbed.access.seen import is_to_be_noted, note_seen
from evenbed.api.bodies import JsonRoute
from evenbed.api.problems import BODY_CODES, ENTRY_CODES, STORE_CODES, declared
from evenbed.api.service import JoinedDevice, TheService, WritingDevice, now, now_text
from evenbed.store.rows import Shown
from evenbed.sync import model
from evenbed.sync.accept import accept_push
from evenbed.wire.exchange import Conflict, PulledRecord, PullReply, PushReply, PushRequest
from evenbed.wire.problems import Code
from evenbed.wire.protocol import MOST_RECORDS

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
        author = model.Author(device.id, person.id, person.name)
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


def _pulled(record: Shown) -> PulledRecord:
    return PulledRecord(
        kind=record.kind,
        id=record.id,
        fields=record.fields,
        sequence=record.sequence,
        created_by=record.created_by,
        changed_by=record.changed_by,
        changed_at=record.changed_at.isoformat(),
        times={name: at.isoformat() for name, at in record.times.items()},
        conflicts={name: [_lost(one) for one in lost] for name, lost in record.conflicts.items()},
    )


def _lost(conflict: model.Conflict) -> Conflict:
    return Conflict(**asdict(conflict) | {"at": conflict.at.isoformat()})
