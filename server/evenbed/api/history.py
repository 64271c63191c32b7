"""What was: every change of a record, or of a whole job, with who, when, from which device, and what it replaced."""

from typing import Annotated

from fastapi import APIRouter, Query

from evenbed.access.rights import device_now
from evenbed.api.problems import ENTRY_CODES, STORE_CODES, ProblemError, declared
from evenbed.api.service import JoinedDevice, TheService
from evenbed.store.archive import JobPast, Past
from evenbed.sync.model import Entry
from evenbed.sync.upgrade import fields_today
from evenbed.wire.exchange import Bringer, HistoryEntry, HistoryReply, JobChange, JobHistoryReply
from evenbed.wire.problems import Code
from evenbed.wire.protocol import MOST_RECORDS
from evenbed.wire.records import Kind
from evenbed.wire.values import Uuid

router = APIRouter(prefix="/api", tags=["sync"])


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


@router.get(
    "/jobs/{job_id}/history",
    operation_id="job_history",
    responses=declared(*ENTRY_CODES, Code.NOT_FOUND, Code.MALFORMED, *STORE_CODES),
)
def job_history(
    job_id: Uuid,
    device: JoinedDevice,
    service: TheService,
    after: Annotated[int, Query(ge=0, le=2**53, description="The number up to which everything is known")] = 0,
    limit: Annotated[int, Query(ge=1, le=MOST_RECORDS)] = MOST_RECORDS,
) -> JobHistoryReply:
    """The changes of all records of a job after a number, oldest first, each as it was sent."""
    with service.store.reading() as work:
        is_seen = work.archive.is_seen(device_now(work, device).person, "job", job_id)
        latest, database = work.archive.latest(), work.founding.identity()
        past = work.archive.job_past(job_id, after, limit + 1) if is_seen else ()
    if not is_seen:
        raise ProblemError(Code.NOT_FOUND, "There is no job with this id.")
    changes, more = [job_change(one) for one in past[:limit]], len(past) > limit
    end = changes[-1].sequence if more else max(latest, after)
    return JobHistoryReply(database=database, latest=latest, more=more, next=end, changes=changes)


def _told(past: Past) -> HistoryEntry:
    entry = past.entry
    assert entry.sequence is not None  # history holds applied changes only
    return HistoryEntry(
        sequence=entry.sequence,
        change_id=entry.change_id,
        person=entry.maker.person,
        device_id=entry.maker.device_id,
        device_name=_device_name(entry, past.device_name),
        at=entry.at.isoformat(),
        fields=fields_today(entry.kind, entry.fields, entry.schema),
        replaced=entry.effect.replaced,
        concurrent=list(entry.effect.concurrent),
        overruled=list(entry.effect.overruled),
        brought_by=_bringer(entry, past.device_name),
    )


def job_change(past: JobPast) -> JobChange:
    """As it travels."""
    entry = past.entry
    assert entry.sequence is not None  # a job's past holds applied changes only
    return JobChange(
        sequence=entry.sequence,
        change_id=entry.change_id,
        kind=entry.kind,
        record_id=entry.record_id,
        fields=entry.fields,
        schema=entry.schema,
        at=entry.at.isoformat(),
        person=entry.maker.person,
        device_id=entry.maker.device_id,
        device_name=_device_name(entry, past.device_name),
        knew=list(past.knew),
        overruled=list(entry.effect.overruled),
        brought_by=_bringer(entry, past.device_name),
    )


def _device_name(entry: Entry, name: str) -> str:
    """Of the device it was made on; empty where a file did not say."""
    return name if entry.origin is None else entry.origin.device_name or ""


def _bringer(entry: Entry, name: str) -> Bringer | None:
    if entry.origin is None:
        return None
    return Bringer(person=entry.author.person, device_id=entry.author.device_id, device_name=name)
