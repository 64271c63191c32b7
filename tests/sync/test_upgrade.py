"""Changes of older schemas: checked and merged in today's meaning, kept as sent. Most steps here are invented."""

from pathlib import Path
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from tests.ledgers import MemoryLedger
from tests.phones import uuid_text
from tests.stores import START, author_of, fresh_store, join_device

from evenbed.sync.accept import accept_push
from evenbed.sync.port import Ledger
from evenbed.sync.replay import records_from
from evenbed.sync.upgrade import STEPS, fields_today
from evenbed.wire.exchange import Change, FieldValues, PushRequest, PushResult
from evenbed.wire.protocol import SCHEMA
from evenbed.wire.refusals import Reason

PHONE, JOB, ROOM = uuid_text(1), uuid_text(2), uuid_text(3)
CM_TO_MM = 10.0


def _say_job_id(kind: str, fields: FieldValues) -> FieldValues:
    """As if the first schema had named a room's job `of`."""
    return {("job_id" if (kind, name) == ("room", "of") else name): value for name, value in fields.items()}


def _say_mm(kind: str, fields: FieldValues) -> FieldValues:
    """As if the second schema had told the thinnest bed in centimetres."""
    name = "bed.minimum_thickness"
    told = fields.get(name)
    return fields | {name: told * CM_TO_MM} if kind == "room" and isinstance(told, int | float) else fields


INVENTED = (_say_job_id, _say_mm)


def change(number: int, schema: int, kind: str, record_id: str, fields: dict[str, Any]) -> Change:
    """A change of the phone under one of the schemas."""
    ids = {"change_id": uuid_text(100 + number), "number": number, "kind": kind, "record_id": record_id}
    return Change.model_validate(
        ids | {"fields": fields, "schema": schema, "seen": 0, "device_time": START.isoformat()}
    )


def push(ledger: Ledger, changes: list[Change]) -> list[PushResult]:
    """Hand them over to a service that knows the invented steps."""
    request = PushRequest(protocol=1, changes=changes, device_time=START.isoformat())
    return accept_push(ledger, author_of(PHONE), "foreman", request, START, INVENTED)


def first_room(schema: int) -> list[Change]:
    """A job and a room in it, as a phone of that schema tells them."""
    parent = "of" if schema == 1 else "job_id"
    return [change(1, schema, "job", JOB, {"name": "Alder"}), change(2, schema, "room", ROOM, {parent: JOB})]


def test_there_is_a_step_for_every_schema_but_the_first() -> None:
    assert len(STEPS) == SCHEMA - 1


edits = st.lists(st.tuples(st.integers(1, 3), st.sampled_from([None, 2, 3.5, 40])), max_size=6)


@given(st.integers(1, 3), edits)
def test_old_and_new_phones_end_with_the_same_records_and_the_log_makes_them_again(
    first: int, told: list[tuple[int, float | None]]
) -> None:
    def room(number: int, schema: int, thickness: float | None) -> Change:
        return change(number, schema, "room", ROOM, {"bed.minimum_thickness": thickness})

    old, new = MemoryLedger(), MemoryLedger()
    sent = [*first_room(first), *(room(n, *one) for n, one in enumerate(told, start=3))]
    results = push(old, sent)
    mm = [None if value is None else value * (CM_TO_MM if schema < 3 else 1) for schema, value in told]
    push(new, [*first_room(3), *(room(n, 3, value) for n, value in enumerate(mm, start=3))])
    assert {result.outcome for result in results} == {"applied"}
    assert old.records == new.records
    assert [(entry.fields, entry.schema) for entry in old.entries] == [(one.fields, one.schema_) for one in sent]
    assert records_from(old.entries, INVENTED) == old.records


def test_a_change_is_checked_in_todays_meaning() -> None:
    ledger = MemoryLedger()
    push(ledger, first_room(3))
    in_its_own_words, in_older_words = push(
        ledger, [change(3, 1, "room", ROOM, {"of": JOB, "name": "Bath"}), change(4, 2, "room", ROOM, {"of": JOB})]
    )
    assert in_its_own_words.outcome == "applied"
    assert (in_older_words.outcome, in_older_words.reason) == ("refused", Reason.UNKNOWN_FIELD)


def test_an_old_change_finds_its_parent_in_a_real_database_too(tmp_path: Path) -> None:
    with fresh_store(tmp_path) as store:
        join_device(store, PHONE)
        for changes in ([one] for one in first_room(1)):
            with store.writing() as work:
                (result,) = push(work.ledger(), changes)
                assert result.outcome == "applied"
                work.commit()
        with store.reading() as work:
            kept = {(record.kind, record.id): record for record in work.archive.records()}
            assert records_from(work.archive.log(), INVENTED) == kept


def test_what_is_of_today_is_left_as_it_is() -> None:
    fields: FieldValues = {"of": 1, "bed.minimum_thickness": 2}
    assert fields_today("room", fields, len(INVENTED) + 1, INVENTED) is fields


def test_ticks_of_stations_are_let_go_of_and_the_rest_of_the_change_holds() -> None:
    ticked: FieldValues = {"rails.set_stations": ["A:0", "A:1"], "rails.inset": 150}
    assert fields_today("room", ticked, 1) == {"rails.inset": 150}
    assert fields_today("room", {"rails.set_stations": None}, 1) == {}
    assert fields_today("job", ticked, 1) == ticked
    assert fields_today("room", ticked, SCHEMA) is ticked


@given(st.lists(st.sampled_from([["A:0"], ["A:0", "B:2"], None, "no list"]), min_size=1, max_size=4))
def test_an_old_phone_that_waited_with_ticks_alone_is_not_held_up_and_nothing_of_them_stays(
    ticks: list[Any],
) -> None:
    ledger = MemoryLedger()
    sent = [
        change(1, 1, "job", JOB, {"name": "Alder"}),
        change(2, 1, "room", ROOM, {"job_id": JOB, "rails.set_stations": ticks[0]}),
        *(change(n, 1, "room", ROOM, {"rails.set_stations": one}) for n, one in enumerate(ticks, start=3)),
        change(3 + len(ticks), 1, "room", ROOM, {"name": "Bath"}),
    ]
    request = PushRequest(protocol=1, changes=sent, device_time=START.isoformat())
    results = accept_push(ledger, author_of(PHONE), "foreman", request, START)
    assert [result.outcome for result in results] == ["applied"] * len(sent)
    assert [entry.fields for entry in ledger.entries] == [one.fields for one in sent]
    room = ledger.records["room", ROOM]
    assert (room.fields, room.sequence) == ({"job_id": JOB, "name": "Bath"}, len(sent))
    assert room.conflicts == {}
    assert records_from(ledger.entries) == ledger.records


def test_ticks_under_todays_schema_are_an_unknown_field() -> None:
    ledger = MemoryLedger()
    ticked = {"job_id": JOB, "rails.set_stations": []}
    said = [change(1, SCHEMA, "job", JOB, {"name": "Alder"}), change(2, SCHEMA, "room", ROOM, ticked)]
    request = PushRequest(protocol=1, changes=said, device_time=START.isoformat())
    _job, room = accept_push(ledger, author_of(PHONE), "foreman", request, START)
    assert (room.outcome, room.reason) == ("refused", Reason.UNKNOWN_FIELD)
