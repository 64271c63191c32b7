"""A foreman's say on a crew, brought in a file by somebody who is no foreman."""

from typing import Any

from tests.ledgers import MemoryLedger
from tests.phones import uuid_text
from tests.stores import START

from evenbed.sync.accept import accept_push
from evenbed.sync.model import Author
from evenbed.wire.exchange import Change, Origin, PushRequest, PushResult, Role
from evenbed.wire.protocol import PROTOCOL, SCHEMA

ANA = Author(uuid_text(900), uuid_text(90), "Ana")
BEN = Author(uuid_text(901), uuid_text(91), "Ben")
JOB, CREW = uuid_text(1), [uuid_text(91), uuid_text(92)]
ORIGIN = Origin(at=START.isoformat(), person="Ana", device_id=ANA.device_id, device_name="Ana's phone", knew=[])


def change(number: int, fields: dict[str, Any], origin: Origin | None = None) -> Change:
    """Ana's change of the job; with an origin as another phone brings it."""
    return Change(
        change_id=uuid_text(100 + number),
        number=number,
        kind="job",
        record_id=JOB,
        fields=fields,
        seen=0,
        device_time=START.isoformat(),
        schema=SCHEMA,
        origin=origin,
    )


def push(ledger: MemoryLedger, author: Author, role: Role, *changes: Change) -> list[PushResult]:
    """Hand them over."""
    told = PushRequest(protocol=PROTOCOL, changes=list(changes), device_time=START.isoformat())
    return accept_push(ledger, author, role, told, START)


def outcomes(results: list[PushResult]) -> list[str]:
    """What became of each, or why it was refused."""
    return [one.reason or one.outcome for one in results]


def test_what_is_only_for_foremen_to_say_is_refused_and_taken_when_the_foremans_own_phone_says_it() -> None:
    ledger = MemoryLedger()
    said: list[dict[str, Any]] = [{"name": "Alder"}, {"crew": CREW}]
    brought = [change(n, fields, ORIGIN) for n, fields in enumerate(said, start=1)]
    assert outcomes(push(ledger, BEN, "setter", *brought)) == ["applied", "foreman_only"]
    own = [change(n, fields) for n, fields in enumerate(said, start=1)]
    assert outcomes(push(ledger, ANA, "foreman", *own)) == ["already_applied", "applied"]
    assert ledger.records["job", JOB].fields == {"name": "Alder", "crew": CREW}


def test_the_rest_of_a_change_is_taken_from_who_is_no_foreman() -> None:
    ledger = MemoryLedger()
    whole = change(1, {"name": "Alder", "crew": CREW}, ORIGIN)
    assert outcomes(push(ledger, BEN, "setter", whole)) == ["applied"]
    assert ledger.records["job", JOB].fields == {"name": "Alder"}


def test_the_foremans_own_change_then_comes_back_with_what_was_left_behind_and_the_reason() -> None:
    ledger = MemoryLedger()
    fields = {"name": "Alder", "crew": CREW}
    push(ledger, BEN, "setter", change(1, fields, ORIGIN))
    (own,) = push(ledger, ANA, "foreman", change(1, fields))
    assert own.reason == "came_without"
    assert own.message is not None
    assert "without crew" in own.message
    assert ledger.records["job", JOB].fields == {"name": "Alder"}
    (entry,) = (one for one in ledger.entries if one.author == ANA)
    assert entry.fields == fields
    assert outcomes(push(ledger, ANA, "foreman", change(1, fields), change(2, {"crew": CREW}))) == [
        "came_without",
        "applied",
    ]
    assert ledger.records["job", JOB].fields == fields


def test_another_change_with_its_id_is_still_told_from_it() -> None:
    ledger = MemoryLedger()
    push(ledger, BEN, "setter", change(1, {"name": "Alder", "crew": CREW}, ORIGIN))
    assert outcomes(push(ledger, ANA, "foreman", change(1, {"name": "Elm", "crew": CREW}))) == ["change_id_taken"]


def test_a_foreman_brings_the_crew_too() -> None:
    ledger = MemoryLedger()
    whole = change(1, {"name": "Alder", "crew": CREW}, ORIGIN)
    assert outcomes(push(ledger, BEN, "foreman", whole)) == ["applied"]
    assert ledger.records["job", JOB].fields == {"name": "Alder", "crew": CREW}
