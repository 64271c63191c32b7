"""Rooms of the version before held ticks of stations by rail and row: such a database is brought up to date."""

import json
from collections.abc import Iterator
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from alembic import command
from sqlalchemy import Connection
from tests.clients import Client, change
from tests.databases import Databases
from tests.migrations.first_version import add, token_of
from tests.phones import uuid_text
from tests.stores import START, author_of

from evenbed.access.codes import hash_of_token
from evenbed.app import create_app
from evenbed.cli import main
from evenbed.settings import Settings
from evenbed.store.database import for_writing, open_engine
from evenbed.store.migrate import WHILE_REBUILDING, config_for, migrate
from evenbed.store.rows import change_values_from, record_values_from
from evenbed.sync.model import Entry
from evenbed.sync.replay import records_from

PHONE, JOB, ROOM = (uuid_text(n) for n in (501, 1, 2))
ANA = author_of(PHONE)
TICKS = "rails.set_stations"
SENT: tuple[tuple[str, str, dict[str, Any]], ...] = (
    ("job", JOB, {"name": "Alder"}),
    ("room", ROOM, {"job_id": JOB, "name": "Bath", TICKS: ["A:0"]}),
    ("room", ROOM, {TICKS: ["A:0", "A:1"]}),
)
LATEST = len(SENT)


def entry(number: int, kind: str, record_id: str, fields: dict[str, Any]) -> Entry:
    """A change of Ana's phone, applied under the schema of that version."""
    at = START + timedelta(minutes=number)
    return Entry(
        change_id=uuid_text(1000 + number),
        number=number,
        outcome="applied",
        author=ANA,
        kind=kind,
        record_id=record_id,
        fields=fields,
        seen=0,
        schema=1,
        device_time=at.isoformat(),
        at=at,
        received_at=at,
        sequence=number,
    )


def fill(connection: Connection) -> None:
    """The tables of step 0003, and what that version kept in them."""
    command.upgrade(config_for(connection), "0003")
    entries = [entry(number, *sent) for number, sent in enumerate(SENT, start=1)]
    add(connection, "service", id=1, identity="before", latest=LATEST)
    add(connection, "person", id=ANA.person_id, name="Ana", role="foreman", view=1)
    joined = {"token_hash": hash_of_token(token_of(PHONE)), "joined_at": START.isoformat()}
    add(connection, "device", id=PHONE, name="phone", person_id=ANA.person_id, **joined)
    for one in entries:
        add(connection, "change", **_as_texts(_of_then(change_values_from(one))))
    for record in records_from(entries, ()).values():
        add(connection, "record", **_as_texts(record_values_from(record)))


def _of_then(values: dict[str, Any]) -> dict[str, Any]:
    """Without what later steps added."""
    return {name: one for name, one in values.items() if name != "origin"}


def _as_texts(values: dict[str, Any]) -> dict[str, Any]:
    return {name: json.dumps(one) if isinstance(one, dict | list) else one for name, one in values.items()}


@pytest.fixture
def url(databases: Databases, tmp_path: Path) -> Iterator[str]:
    """The database, brought up to date."""
    with databases.empty(tmp_path) as empty:
        engine = open_engine(empty, 1.0, WHILE_REBUILDING)
        with for_writing(engine).begin() as connection:
            fill(connection)
        engine.dispose()
        migrate(empty)
        yield empty


@pytest.fixture
def ana(url: str) -> Iterator[Client]:
    """Her phone, with the token it has had since then."""
    app = create_app(Settings(database=url))
    with closing(app.state.service.store):
        yield Client(app, "", {"Authorization": f"Bearer {token_of(PHONE)}"}, view=1)


def test_rooms_hold_no_ticks_the_log_holds_them_still_and_both_agree(
    url: str, ana: Client, capfd: pytest.CaptureFixture[str]
) -> None:
    with ana.store.reading() as work:
        assert [one.fields for one in work.archive.log()] == [fields for _kind, _id, fields in SENT]
        kept = {record.id: record.fields for record in work.archive.records()}
    assert kept == {JOB: {"name": "Alder"}, ROOM: {"job_id": JOB, "name": "Bath"}}
    assert main(["verify", "--database", url]) == 0
    assert "2 records made again from the log; 0 differences." in capfd.readouterr().out


def test_a_phone_that_was_up_to_date_takes_a_snapshot_and_its_ticks_go(ana: Client) -> None:
    told = ana.pull(after=LATEST)
    assert {record["id"]: record["fields"] for record in told["records"]} == {
        JOB: {"name": "Alder"},
        ROOM: {"job_id": JOB, "name": "Bath"},
    }
    assert told["view"] == 2


def test_a_tick_that_waited_on_the_phone_is_taken_and_what_follows_it_too(ana: Client) -> None:
    ticked = change(LATEST + 1, "room", ROOM, {TICKS: ["A:0", "A:1", "A:2"]})
    named = change(LATEST + 2, "room", ROOM, {TICKS: [], "name": "Shower"})
    station = {"room_id": ROOM, "rail": "A", "at": [152.4, 0.0], "shim": 6.35}
    of_today = change(LATEST + 3, "station", uuid_text(9), station, schema=2)
    results = ana.push(ticked, named, of_today).json()["results"]
    assert [(one["outcome"], one["sequence"]) for one in results] == [("applied", LATEST + n) for n in (1, 2, 3)]
    records = {record["id"]: record["fields"] for record in ana.pull(after=LATEST)["records"]}
    assert records[ROOM] == {"job_id": JOB, "name": "Shower"}
    assert records[uuid_text(9)] == station


def test_the_story_of_the_room_tells_what_is_left_of_each_change(ana: Client) -> None:
    entries = ana.send("GET", f"/api/records/room/{ROOM}/history").json()["entries"]
    assert [one["fields"] for one in entries] == [{"job_id": JOB, "name": "Bath"}, {}]
