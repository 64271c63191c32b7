"""Whatever is kept otherwise than the log says is told in plain words."""

from collections.abc import Callable
from dataclasses import fields, replace
from datetime import timedelta

import pytest
from tests.ledgers import MemoryLedger
from tests.phones import uuid_text
from tests.stores import START, author_of

from evenbed.sync.accept import accept_push
from evenbed.sync.model import Author, Record
from evenbed.sync.proof import differences
from evenbed.wire.exchange import Change, FieldValues, PushRequest

JOB, ROOM = ("job", uuid_text(1)), ("room", uuid_text(2))
ANA, BEN, EVA = (author_of(uuid_text(n), name) for n, name in enumerate(("Ana", "Ben", "Eva"), start=500))
CREW = frozenset({ANA.person_id, BEN.person_id})
Spoilt = Callable[[Record], Record]


@pytest.fixture
def ledger() -> MemoryLedger:
    """A job with a crew and a room whose name waits for a decision."""
    ledger = MemoryLedger()
    say(ledger, ANA, 1, JOB, {"name": "Alder", "crew": [*CREW]})
    say(ledger, ANA, 2, ROOM, {"job_id": JOB[1], "name": "Bath"})
    say(ledger, BEN, 1, ROOM, {"name": "Shower"})
    return ledger


def say(ledger: MemoryLedger, author: Author, number: int, key: tuple[str, str], told: FieldValues) -> None:
    """One change of somebody's phone, applied."""
    ids = {"change_id": uuid_text(1000 + ledger.latest), "number": number, "kind": key[0], "record_id": key[1]}
    at = START.isoformat()
    change = Change.model_validate(ids | {"fields": told, "seen": 0, "device_time": at, "schema": 1})
    push = PushRequest(protocol=1, changes=[change], device_time=at)
    (result,) = accept_push(ledger, author, "foreman", push, START)
    assert result.outcome == "applied"


SPOILT: dict[str, tuple[Spoilt, str]] = {
    "kind": (lambda r: replace(r, kind="wall"), "wall {id} is kept, but not in the log"),
    "id": (lambda r: replace(r, id=uuid_text(9)), f"room {uuid_text(9)} is kept, but not in the log"),
    "job_id": (lambda r: replace(r, job_id="x"), "the job it belongs to is 'x', by the log "),
    "owner_id": (lambda r: replace(r, owner_id="x"), "the person who made it is 'x', by the log "),
    "fields": (lambda r: replace(r, fields={**r.fields, "name": "Hall"}), "name is 'Hall', by the log 'Shower'"),
    "stamps": (lambda r: replace(r, stamps={}), "where name comes from is None, by the log "),
    "sequence": (lambda r: replace(r, sequence=7), "the number of its newest change is 7, by the log 3"),
    "created_by": (lambda r: replace(r, created_by="x"), "the name of whoever made it is 'x', by the log 'Ana'"),
    "changed_by": (
        lambda r: replace(r, changed_by="x"),
        "the name of whoever changed it last is 'x', by the log 'Ben'",
    ),
    "changed_at": (lambda r: replace(r, changed_at=START + timedelta(1)), "the time of its newest change is "),
    "conflicts": (lambda r: replace(r, conflicts={}), "what waits for a decision about name is None, by the log "),
}


def test_every_part_of_a_record_is_compared() -> None:
    assert set(SPOILT) == {field.name for field in fields(Record)}


@pytest.mark.parametrize("part", SPOILT)
def test_a_part_that_is_not_as_the_log_says_is_named(ledger: MemoryLedger, part: str) -> None:
    spoil, sentence = SPOILT[part]
    kept = [record if key != ROOM else spoil(record) for key, record in ledger.records.items()]
    count, wrong = differences(ledger.entries, kept)
    assert count == 2
    assert any(sentence.format(id=ROOM[1]) in line for line in wrong), wrong


def test_a_whole_company_differs_in_nothing(ledger: MemoryLedger) -> None:
    assert differences(ledger.entries, ledger.records.values(), {JOB[1]: CREW}) == (2, [])


def test_a_record_that_is_not_kept_is_named(ledger: MemoryLedger) -> None:
    del ledger.records[ROOM]
    assert differences(ledger.entries, ledger.records.values()) == (
        2,
        [f"room {ROOM[1]} is in the log, but not kept"],
    )


def test_who_sees_a_job_is_compared_with_its_crew(ledger: MemoryLedger) -> None:
    assigned = {JOB[1]: frozenset({ANA.person_id, EVA.person_id}), "gone": frozenset({"somebody"})}
    _count, wrong = differences(ledger.entries, ledger.records.values(), assigned)
    assert wrong == [
        f"job {JOB[1]}: person {EVA.person_id} sees it, but not by the log",
        f"job {JOB[1]}: person {BEN.person_id} does not see it, but should",
        "job gone: person somebody sees it, but not by the log",
    ]
