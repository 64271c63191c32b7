"""What is refused, with which reason; and pushes that are not taken at all."""

import json
from typing import Any

import pytest
from tests.ledgers import MemoryLedger
from tests.phones import uuid_text
from tests.stores import START

from evenbed.sync.accept import DeviceForkedError, GapError, UpdateNeededError, accept_push
from evenbed.sync.model import Author
from evenbed.wire.exchange import Change, PushRequest, PushResult, Role
from evenbed.wire.protocol import PROTOCOL, SCHEMA
from evenbed.wire.refusals import SENTENCES, Reason
from evenbed.wire.supplies import PRICES_ID, SUPPLIES_ID

ANA = Author(uuid_text(900), uuid_text(90), "Ana")
JOB, ROOM, READING, OTHER = (uuid_text(n) for n in range(1, 5))
POINT = {"at": [0.5, 7]}
READ = {"room_id": ROOM, "down": 1003, **POINT}


def change(number: int, kind: str, record_id: str, fields: dict[str, Any], **more: Any) -> Change:
    """A change of Ana's phone."""
    told = {"change_id": uuid_text(1000 + number), "seen": 0, "device_time": START.isoformat(), "schema": 1} | more
    return Change.model_validate(
        {"number": number, "kind": kind, "record_id": record_id, "fields": fields, **told}, by_alias=True
    )


def push(
    ledger: MemoryLedger, *changes: Change, author: Author = ANA, role: Role = "foreman", protocol: int = 1
) -> list[PushResult]:
    """Hand the changes over."""
    request = PushRequest(protocol=protocol, changes=list(changes), device_time=START.isoformat())
    return accept_push(ledger, author, role, request, START)


@pytest.fixture
def ledger() -> MemoryLedger:
    """A ledger with a job, a room and a reading, made by changes 1 to 3."""
    ledger = MemoryLedger()
    results = push(
        ledger,
        change(1, "job", JOB, {"name": "Alder"}),
        change(2, "room", ROOM, {"job_id": JOB}),
        change(3, "reading", READING, READ),
    )
    assert [result.outcome for result in results] == ["applied"] * 3
    return ledger


REFUSED: list[tuple[Reason, str, str, dict[str, Any]]] = [
    (Reason.UNKNOWN_KIND, "wall", OTHER, {"name": "x"}),
    (Reason.UNKNOWN_FIELD, "job", JOB, {"colour": "red"}),
    (Reason.UNKNOWN_FIELD, "room", ROOM, {"bed.colour": "red"}),
    (Reason.UNKNOWN_FIELD, "room", ROOM, {"bed_build": "bonded"}),
    (Reason.BAD_ID, "job", "job 1", {"name": "x"}),
    (Reason.BAD_ID, "job", JOB.upper(), {"name": "x"}),
    (Reason.BAD_VALUE, "job", JOB, {"name": 7}),
    (Reason.BAD_VALUE, "job", JOB, {"name": "x" * 201}),
    (Reason.BAD_VALUE, "job", JOB, {"units": "cubits"}),
    (Reason.BAD_VALUE, "job", JOB, {"deleted": None}),
    (Reason.BAD_VALUE, "job", JOB, {"deleted": "yes"}),
    (Reason.BAD_VALUE, "room", ROOM, {"job_id": None}),
    (Reason.BAD_VALUE, "room", ROOM, {"bed.minimum_thickness": "31"}),
    (Reason.BAD_VALUE, "room", ROOM, {"bed.minimum_thickness": True}),
    (Reason.BAD_VALUE, "room", ROOM, {"bed.minimum_thickness": 10**400}),
    (Reason.BAD_VALUE, "room", ROOM, {"outline": {"vertices": [[0, 0, 0]]}}),
    (Reason.BAD_VALUE, "room", ROOM, {"openings": {"wall": 0}}),
    (Reason.BAD_VALUE, "room", ROOM, {"outline": {"extra": json.loads("[" * 20 + "]" * 20)}}),
    (Reason.BAD_VALUE, "reading", OTHER, {**READ, "taken_at": "2026-05-04"}),
    (Reason.BAD_VALUE, "reading", OTHER, {**READ, "mark": "m1"}),
    (Reason.MISSING_FIELD, "room", OTHER, {"name": "Bath"}),
    (Reason.MISSING_FIELD, "reading", OTHER, {"room_id": ROOM, **POINT}),
    (Reason.MISSING_FIELD, "reading", OTHER, {"room_id": ROOM, "down": 3}),
    (Reason.UNKNOWN_PARENT, "room", OTHER, {"job_id": OTHER}),
    (Reason.PARENT_IS_FINAL, "room", ROOM, {"job_id": OTHER}),
    (Reason.UNKNOWN_PARENT, "reading", OTHER, {**READ, "room_id": JOB}),
    (Reason.UNKNOWN_PARENT, "climate", OTHER, {"room_id": OTHER, "at": START.isoformat()}),
    (Reason.UNKNOWN_PARENT, "alternative", OTHER, {"room_id": OTHER, "name": "level"}),
    (Reason.BAD_VALUE, "alternative", OTHER, {"room_id": ROOM, "chosen_at": "yesterday"}),
    (Reason.UNKNOWN_PARENT, "batch", OTHER, {"room_id": JOB, "mixed_at": START.isoformat()}),
    (Reason.MISSING_FIELD, "batch", OTHER, {"room_id": ROOM}),
    (Reason.BAD_VALUE, "batch", OTHER, {"room_id": ROOM, "mixed_at": "9:42"}),
    (Reason.UNKNOWN_PARENT, "station", OTHER, {"room_id": OTHER, "rail": "A", "at": [0, 0], "shim": 3}),
    (Reason.MISSING_FIELD, "station", OTHER, {"room_id": ROOM, "rail": "A", "shim": 3}),
    (Reason.BAD_VALUE, "station", OTHER, {"room_id": ROOM, "rail": "A", "at": [0, 0, 0], "shim": 3}),
    (Reason.MISSING_FIELD, "rail_check", OTHER, {"room_id": ROOM, "rail": "A"}),
    (Reason.BAD_VALUE, "rail_check", OTHER, {"room_id": ROOM, "rail": "A", "off": "1/16"}),
    (Reason.UNKNOWN_FIELD, "rail_check", OTHER, {"room_id": ROOM, "rail": "A", "off": 1, "from_": 0}),
    (Reason.MISSING_FIELD, "entry", OTHER, {"room_id": ROOM, "what": "note"}),
    (Reason.BAD_VALUE, "entry", OTHER, {"room_id": ROOM, "what": "sang", "at": START.isoformat()}),
    (Reason.BAD_VALUE, "room", ROOM, {"rails.strips": [{"thickness": "1 in"}]}),
    (Reason.BAD_VALUE, "room", ROOM, {"rails.lines": [{"id": "A", "from": [0, 0], "to": [1]}]}),
    (Reason.BAD_VALUE, "room", ROOM, {"filling.day_ends": "17:00"}),
    (Reason.UNKNOWN_FIELD, "room", ROOM, {"filling.stopped": True}),
    (Reason.BAD_VALUE, "room", ROOM, {"bed.top": {"kind": "two_levels", "line": [[0, 0]]}}),
    (Reason.BAD_VALUE, "prices", OTHER, {"prices.cement_bag": 12.0}),
    (Reason.BAD_VALUE, "prices", SUPPLIES_ID, {"prices.cement_bag": 12.0}),
    (Reason.BAD_VALUE, "prices", PRICES_ID, {"prices.cement_bag": "12"}),
    (Reason.UNKNOWN_FIELD, "prices", PRICES_ID, {"supplies.tile.waste": 0.1}),
    (Reason.UNKNOWN_FIELD, "supplies", SUPPLIES_ID, {"prices.margin": 0.1}),
    (Reason.READING_IS_FINAL, "reading", READING, {"down": 1004}),
    (Reason.READING_IS_FINAL, "reading", READING, {"deleted": True, "stage": "bed"}),
    (Reason.NOTHING_CHANGED, "job", JOB, {}),
]


@pytest.mark.parametrize(("reason", "kind", "record_id", "fields"), REFUSED)
def test_a_wrong_change_is_refused_with_its_reason_and_the_queue_moves_on(
    ledger: MemoryLedger, reason: Reason, kind: str, record_id: str, fields: dict[str, Any]
) -> None:
    before = dict(ledger.records)
    wrong, right = push(ledger, change(4, kind, record_id, fields), change(5, "job", JOB, {"note": "ok"}))
    assert (wrong.outcome, wrong.reason, wrong.sequence) == ("refused", reason, None)
    assert wrong.message
    assert (right.outcome, right.sequence) == ("applied", 4)
    assert {key: r for key, r in ledger.records.items() if key[1] != JOB} == {
        key: r for key, r in before.items() if key[1] != JOB
    }


BEN = Author(uuid_text(902), uuid_text(92), "Ben")
ACROSS: list[tuple[Reason, str, str, dict[str, Any]]] = [
    (Reason.NOT_ASSIGNED, "job", JOB, {"name": "x"}),
    (Reason.NOT_ASSIGNED, "room", ROOM, {"name": "x"}),
    (Reason.NOT_ASSIGNED, "room", OTHER, {"job_id": JOB}),
    (Reason.NOT_ASSIGNED, "reading", OTHER, READ),
    (Reason.NOT_ASSIGNED, "reading", READING, {"deleted": True}),
    (Reason.FOREMAN_ONLY, "job", OTHER, {"name": "x", "crew": [BEN.person_id]}),
    (Reason.NOT_ASSIGNED, "alternative", OTHER, {"room_id": ROOM, "name": "level"}),
    (Reason.NOT_ASSIGNED, "batch", OTHER, {"room_id": ROOM, "mixed_at": START.isoformat()}),
    (Reason.NOT_ASSIGNED, "station", OTHER, {"room_id": ROOM, "rail": "A", "at": [0, 0], "shim": 3}),
    (Reason.NOT_ASSIGNED, "rail_check", OTHER, {"room_id": ROOM, "rail": "A", "off": 1}),
    (Reason.NOT_ASSIGNED, "entry", OTHER, {"room_id": ROOM, "what": "note", "at": START.isoformat()}),
    (Reason.FOREMAN_ONLY, "prices", PRICES_ID, {"prices.cement_bag": 12.0}),
    (Reason.FOREMAN_ONLY, "supplies", SUPPLIES_ID, {"supplies.tile.waste": 0.1}),
    (Reason.FOREMAN_ONLY, "prices", OTHER, {"prices.cement_bag": "no number"}),
]


@pytest.mark.parametrize(("reason", "kind", "record_id", "fields"), ACROSS)
def test_a_setter_writes_only_into_jobs_they_are_assigned_to_and_never_who_is(
    ledger: MemoryLedger, reason: Reason, kind: str, record_id: str, fields: dict[str, Any]
) -> None:
    before = dict(ledger.records)
    (wrong,) = push(ledger, change(1, kind, record_id, fields, change_id=uuid_text(77)), author=BEN, role="setter")
    assert (wrong.outcome, wrong.reason) == ("refused", reason)
    assert ledger.records == before
    assert push(ledger, change(4, "job", JOB, {"crew": [BEN.person_id]}))[0].outcome == "applied"
    mine = change(2, "reading", uuid_text(50), READ, change_id=uuid_text(78))
    assert push(ledger, mine, author=BEN, role="setter")[0].outcome == "applied"


def test_every_reason_has_a_sentence_and_a_case() -> None:
    assert set(SENTENCES) == set(Reason)
    elsewhere = {Reason.CHANGE_ID_TAKEN, Reason.CAME_WITHOUT, Reason.SIGN_OFF_IS_FINAL}
    assert {reason for reason, *_ in REFUSED} | {reason for reason, *_ in ACROSS} | elsewhere == set(Reason)


SIGNED = {"room_id": ROOM, "at": START.isoformat(), "by": "Ana", "engine": "1", "copy": "{}"} | dict.fromkeys(
    ("engine_hash", "inputs_hash"), "0" * 64
)


def test_what_was_signed_stays_while_its_note_and_whether_it_is_deleted_may_change(ledger: MemoryLedger) -> None:
    assert push(ledger, change(4, "sign_off", OTHER, SIGNED))[0].outcome == "applied"
    for number, field in enumerate(SIGNED, start=5):
        (result,) = push(ledger, change(number, "sign_off", OTHER, {field: SIGNED[field], "note": "x"}))
        assert (result.outcome, result.reason) == ("refused", Reason.SIGN_OFF_IS_FINAL)
    assert push(ledger, change(12, "sign_off", OTHER, {"deleted": True, "note": "mistaken"}))[0].outcome == "applied"
    assert ledger.records["sign_off", OTHER].fields == SIGNED | {"deleted": True, "note": "mistaken"}


def test_a_refused_change_is_kept_in_the_log_and_refused_again_when_repeated(ledger: MemoryLedger) -> None:
    wrong = change(4, "job", JOB, {"colour": "red"})
    first, again = push(ledger, wrong), push(ledger, wrong)
    assert first == again
    assert ledger.entries[-1].fields == {"colour": "red"}


def test_a_value_may_be_taken_back_to_not_chosen(ledger: MemoryLedger) -> None:
    push(ledger, change(4, "room", ROOM, {"bed.minimum_thickness": 31.75}))
    push(ledger, change(5, "room", ROOM, {"bed.minimum_thickness": None}))
    assert ledger.records["room", ROOM].fields["bed.minimum_thickness"] is None
    assert ledger.entries[-1].effect.replaced == {"bed.minimum_thickness": 31.75}


def test_a_reading_can_be_deleted_and_brought_back(ledger: MemoryLedger) -> None:
    push(ledger, change(4, "reading", READING, {"deleted": True}), change(5, "reading", READING, {"deleted": False}))
    assert ledger.records["reading", READING].fields == {**READ, "deleted": False}


def test_a_gap_is_told_with_the_number_expected(ledger: MemoryLedger) -> None:
    with pytest.raises(GapError) as told:
        push(ledger, change(5, "job", JOB, {"note": "x"}))
    assert told.value.expected == 4


def test_a_repeated_number_with_another_change_is_a_forked_device(ledger: MemoryLedger) -> None:
    with pytest.raises(DeviceForkedError):
        push(ledger, change(3, "job", JOB, {"note": "x"}, change_id=uuid_text(77)))


def test_a_change_offered_again_by_the_devices_new_self_counts_once(ledger: MemoryLedger) -> None:
    again = change(1, "reading", READING, READ, change_id=uuid_text(1003))
    (result,) = push(ledger, again, author=Author(uuid_text(901), uuid_text(90), "Ana"))
    assert (result.outcome, result.sequence) == ("already_applied", 3)
    assert ledger.latest == 3


def test_a_change_id_with_other_contents_is_refused_and_kept(ledger: MemoryLedger) -> None:
    other = change(1, "job", JOB, {"note": "other"}, change_id=uuid_text(1003))
    (result,) = push(ledger, other, author=Author(uuid_text(901), uuid_text(90), "Ana"))
    assert result.reason == Reason.CHANGE_ID_TAKEN
    assert ledger.entries[-1].fields == {"note": "other"}


def test_a_newer_protocol_or_schema_is_told_to_wait_for_an_update(ledger: MemoryLedger) -> None:
    newer = change(4, "job", JOB, {"note": "x"}, schema=SCHEMA + 1)
    for changes, protocol in (((newer,), PROTOCOL), ((), PROTOCOL + 1)):
        with pytest.raises(UpdateNeededError, match="Nothing is lost"):
            push(ledger, *changes, protocol=protocol)
    assert ledger.latest == 3
