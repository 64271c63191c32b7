"""What must hold once every device has synced and nothing waits, and what must hold at every moment.

The checks read the service's log and records and the phones' storage, and know nothing of how either came about.
"""

import json
from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta
from typing import Any

from evenbed.sync.model import Entry, Record
from evenbed.sync.proof import differences
from evenbed.wire.refusals import Reason
from evenbed.wire.supplies import COMPANYS
from tests.machine.memory import Memory, Place, Saved, Stood, Witness
from tests.machine.phones import Contents, Row

Key = tuple[str, str]
ON_THE_WAY = timedelta(milliseconds=50)
RIGHTS = {Reason.NOT_ASSIGNED, Reason.FOREMAN_ONLY}
ORPHANED = {Reason.UNKNOWN_PARENT, Reason.MISSING_FIELD}
"""Why a change without a fault in it may be refused all the same: what it builds on is not there."""


def check_log(log: list[Entry], records: Iterable[Record]) -> None:
    """Numbers without a hole, each change once, and the records can be made again from the log."""
    assert [entry.sequence for entry in log] == list(range(1, len(log) + 1))
    assert len({entry.change_id for entry in log}) == len(log)
    _count, wrong = differences(log, records)
    assert wrong == []


def check_replica(rows: list[Row], contents: Contents, records: Iterable[Record], worker_id: str, role: str) -> None:
    """The phone shows what its person may see of the service's records, and holds nothing else."""
    visible = visible_to(worker_id, role, {(record.kind, record.id): record for record in records})
    shown = {(row["kind"], row["id"]): row for row in rows}
    assert {key: row["fields"] for key, row in shown.items()} == {key: r.fields for key, r in visible.items()}
    assert {key: row["sequence"] for key, row in shown.items()} == {key: r.sequence for key, r in visible.items()}
    assert {(row["kind"], row["id"]) for row in contents["records"]} == set(visible)
    assert {key: _told(row["conflicts"]) for key, row in shown.items()} == {
        key: _lost(record) for key, record in visible.items()
    }


def _told(conflicts: Mapping[str, list[Row]]) -> dict[str, list[tuple[str, int, str]]]:
    told = {
        name: [(_json(one["value"]), one["sequence"], one["device_id"]) for one in lost]
        for name, lost in conflicts.items()
    }
    return {name: lost for name, lost in told.items() if lost}


def _lost(record: Record) -> dict[str, list[tuple[str, int, str]]]:
    return {
        name: [(_json(one.value), one.sequence, one.device_id) for one in lost]
        for name, lost in record.conflicts.items()
    }


def visible_to(worker_id: str, role: str, records: Mapping[Key, Record]) -> dict[Key, Record]:
    """What a person may see, told from the fields alone: a job's crew, and the parents of everything else.

    What things cost is a foreman's to see, what is bought everybody's.
    """
    if role == "foreman":
        return dict(records)
    return {key: record for key, record in records.items() if _is_seen(worker_id, record, records)}


def _is_seen(worker_id: str, record: Record, records: Mapping[Key, Record]) -> bool:
    if record.kind in COMPANYS:
        return record.kind == "supplies"
    return worker_id in _crew(records[_job_key(record, records)])


def _job_key(record: Record, records: Mapping[Key, Record]) -> Key:
    if record.kind == "job":
        return "job", record.id
    if "job_id" in record.fields:
        return "job", str(record.fields["job_id"])
    return _job_key(records["room", str(record.fields["room_id"])], records)


def _crew(job: Record) -> list[str]:
    crew = job.fields.get("crew")
    return [str(one) for one in crew] if isinstance(crew, list) else [job.owner_id]


def check_nothing_is_lost(memory: Memory, log: list[Entry], phones: Mapping[str, Contents]) -> None:
    """What a phone showed as saved took effect as it was said, or was refused and is kept with its value."""
    applied = {entry.change_id: entry for entry in log}
    for change_id, saved in memory.saved.items():
        if change_id in applied:
            _check_applied(applied[change_id], saved.change)
        elif change_id not in memory.excused | memory.dismissed:
            kept = {one["change_id"]: one for contents in phones.values() for one in contents["refused"]}
            assert change_id in kept, saved
            _check_refused(kept[change_id], saved, memory, applied)


def _check_applied(entry: Entry, change: Row) -> None:
    assert (entry.kind, entry.record_id) == (change["kind"], change["record_id"])
    fields = change["fields"]
    if entry.origin is not None and "crew" not in entry.fields:
        fields = {
            name: value for name, value in fields.items() if name != "crew"
        }  # a foreman's to say: no setter's file
    assert _json(entry.fields) == _json(fields)


def _check_refused(refused: Row, saved: Saved, memory: Memory, applied: Mapping[str, Entry]) -> None:
    assert _json(refused["fields"]) == _json(saved.change["fields"])
    if not saved.is_sound:
        return
    assert refused["reason"] in RIGHTS | ORPHANED, refused
    if refused["reason"] == Reason.FOREMAN_ONLY:
        assert "crew" in refused["fields"] or refused["kind"] in COMPANYS
    if refused["reason"] in ORPHANED and not memory.restores:
        assert not set(memory.makers(_kin(refused))) & applied.keys(), refused


def _kin(refused: Row) -> str:
    """The record that the change builds on: its parent where it would have made a record, else the record itself."""
    fields = refused["fields"]
    is_orphan = refused["reason"] == Reason.UNKNOWN_PARENT
    return str(fields.get("room_id") or fields["job_id"]) if is_orphan else str(refused["record_id"])


def check_witnesses(witnesses: Iterable[Witness], log: list[Entry], phones: Mapping[str, Contents]) -> None:
    """What a phone still showed when the service went back to a backup has been offered to it again."""
    said = {(e.kind, e.record_id, name, _json(value)) for e in log for name, value in e.fields.items()}
    for one in witnesses:
        if one.phone.life != one.life:
            continue
        told = (one.kind, one.record_id, one.field, _json(one.value))
        refused = [r for r in phones[one.phone.disk]["refused"] if (r["kind"], r["record_id"]) == told[:2]]
        assert told in said or any(_json(r["fields"].get(one.field)) == told[3] for r in refused), one


def check_what_stood(stood: Mapping[Place, Stood], records: Iterable[Record], phones: Mapping[str, Contents]) -> None:
    """After the service went back, what had stood last stands again, whoever also offered something older."""
    refused = {(one["kind"], one["record_id"]) for contents in phones.values() for one in contents["refused"]}
    fields = {(record.kind, record.id): record.fields for record in records}
    for (kind, record_id, name), one in stood.items():
        is_still_held = any(phone.life == life for phone, life in one.held_by)
        if is_still_held and (kind, record_id) not in refused:
            assert _json(fields[kind, record_id].get(name)) == _json(one.value), (kind, record_id, name, one)


def check_times(memory: Memory, log: list[Entry]) -> None:
    """A wrong clock neither wins nor loses: the service knows when each edit was truly made.

    That is asked where the phone's clock, however wrong, ran on between the edit and its delivery.
    """
    for entry in log:
        saved = memory.saved.get(entry.change_id)
        assert entry.at <= entry.received_at
        if saved is not None and entry.change_id in memory.well_timed:
            assert abs(entry.at - saved.at) <= ON_THE_WAY, (entry, saved.at)


def check_what_stands(log: list[Entry], records: Iterable[Record]) -> None:
    """Read anew: of two edits unaware of each other the later stands, else the one that knew of the other."""
    standing: dict[Place, tuple[Entry, datetime]] = {}
    stories: dict[Key, list[Entry]] = {}
    for entry in log:
        story = stories.setdefault((entry.kind, entry.record_id), [])
        known = _known(entry, story)
        story.append(entry)
        for name in entry.fields:
            place = (entry.kind, entry.record_id, name)
            before = standing.get(place)
            if before is None or _may_replace(entry, *before, name, known):
                standing[place] = entry, max(entry.at, before[1]) if before else entry.at
    for record in records:
        for name, value in record.fields.items():
            assert _json(standing[record.kind, record.id, name][0].fields[name]) == _json(value)


def _known(entry: Entry, story: list[Entry]) -> set[str]:
    """The changes of the record that its maker had seen: by the service's number, or as a file tells it by ids (a
    device's own changes come in order, so those before were seen too); and what the maker had read out of files."""
    if entry.origin is None:
        is_number = entry.seen < (entry.sequence or 0)
        brought = [one for one in story if one.origin and one.author.device_id == entry.author.device_id]
        seen = [one for one in story if is_number and (one.sequence or 0) <= entry.seen]
        return {one.change_id for one in [*seen, *brought]}
    known: set[str] = set()
    makers: set[str] = set()
    for one in reversed(story):
        if one.change_id in entry.origin.knew or _maker(one) in makers:
            makers.add(_maker(one))
            known.add(one.change_id)
    return known


def _maker(entry: Entry) -> str:
    """The device it was made on; where a file does not say, the one that brought it."""
    return entry.origin.device_id or entry.author.device_id if entry.origin else entry.author.device_id


def _may_replace(entry: Entry, before: Entry, at: datetime, name: str, known: set[str]) -> bool:
    is_own = _maker(entry) == _maker(before)
    knew = before.change_id in known
    return is_own or knew or _json(entry.fields[name]) == _json(before.fields[name]) or entry.at >= at


def _json(value: Any) -> str:
    return json.dumps(value, sort_keys=True)
