"""The history of a record: every change with who, when, from which device, and what it replaced."""

from fastapi import APIRouter

from evenbed.access.rights import device_now
from evenbed.api.problems import ENTRY_CODES, STORE_CODES, ProblemError, declared
from evenbed.api.service import JoinedDevice, TheService
from evenbed.store.archive import Past
from evenbed.sync.upgrade import fields_today
from evenbed.wire.exchange import HistoryEntry, HistoryReply
from evenbed.wire.problems import Code
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
        fields=fields_today(entry.kind, entry.fields, entry.schema),
        replaced=entry.effect.replaced,
        concurrent=list(entry.effect.concurrent),
        overruled=list(entry.effect.overruled),
    )
