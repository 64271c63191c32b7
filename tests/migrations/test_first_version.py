"""A company of the first version is brought up to date: nothing that anybody ever said is lost on the way."""

from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import text
from tests.clients import Client
from tests.databases import Databases
from tests.migrations.first_version import (
    BENS,
    CHANGES,
    JOB,
    LATEST,
    OFFICE,
    PHONE,
    READING,
    ROOM,
    SECOND_JOB,
    make_first_version,
    token_of,
)

from evenbed.app import create_app
from evenbed.cli import main
from evenbed.settings import Settings
from evenbed.store.database import for_writing, open_engine
from evenbed.store.migrate import WHILE_REBUILDING, migrate
from evenbed.store.work import Store
from evenbed.sync.proof import differences


@pytest.fixture
def url(databases: Databases, tmp_path: Path) -> Iterator[str]:
    """The company's database, brought up to date."""
    with databases.empty(tmp_path) as empty:
        with closing_engine(empty) as connection:
            make_first_version(connection)
        migrate(empty)
        yield empty


@contextmanager
def closing_engine(url: str) -> Iterator[Any]:
    """One writing transaction as migrations have it, committed."""
    engine = open_engine(url, 1.0, WHILE_REBUILDING)
    with for_writing(engine).begin() as connection:
        yield connection
    engine.dispose()


@contextmanager
def device(url: str, device_id: str) -> Iterator[Client]:
    """The device with the token it has had since then."""
    app = create_app(Settings(database=url))
    with closing(app.state.service.store):
        yield Client(app, "", {"Authorization": f"Bearer {token_of(device_id)}"})


def test_the_records_are_made_again_from_the_log_and_proved(url: str, capfd: pytest.CaptureFixture[str]) -> None:
    assert main(["verify", "--database", url]) == 0
    assert "4 records made again from the log; 0 differences." in capfd.readouterr().out


def test_the_log_says_what_it_said(url: str) -> None:
    with closing(Store(url)) as store, store.reading() as work:
        log, latest = list(work.archive.log()), work.archive.latest()
    applied = sorted((one for one in CHANGES if one.get("sequence")), key=lambda one: int(one["sequence"]))
    assert [(e.sequence, e.author.device_id, e.fields) for e in log] == [
        (one["sequence"], one["by"], one["fields"]) for one in applied
    ]
    assert latest == LATEST


def test_everybody_who_had_joined_is_a_foreman_once_by_name(url: str) -> None:
    with closing(Store(url)) as store, store.reading() as work:
        people, devices = work.people.all(), work.devices.all()
    assert [(person.name, person.role) for person in people] == [("Ana", "foreman"), ("Ben", "foreman")]
    assert {one.id: one.person.name for one in devices}[OFFICE] == "Ana"
    assert len({one.person.id for one in devices}) == 2


def test_the_devices_go_on_with_their_tokens_and_take_a_snapshot_whatever_their_cursors(url: str) -> None:
    with device(url, BENS) as ben:
        told = ben.pull(after=LATEST)
    by_id = {record["id"]: record for record in told["records"]}
    assert set(by_id) == {JOB, ROOM, READING, SECOND_JOB}
    assert by_id[JOB]["fields"] == {"name": "Alder", "note": "dog in the yard"}
    assert by_id[ROOM]["fields"] == {"job_id": JOB, "name": "Bathroom", "bed.minimum_thickness": 25}
    assert (told["latest"], told["next"], told["more"]) == (LATEST, LATEST, False)


def test_what_had_been_overruled_long_ago_waits_for_a_decision_now(url: str) -> None:
    with device(url, PHONE) as ana:
        by_id = {record["id"]: record["conflicts"] for record in ana.pull()["records"]}
    lost = {(name, one["value"], one["person"]) for name, ones in by_id[ROOM].items() for one in ones}
    assert lost == {("name", "Shower", "Ben"), ("bed.minimum_thickness", 31.75, "Ben")}
    assert [(one["value"], one["person"], one["sequence"]) for one in by_id[JOB]["name"]] == [("Elder", "Ben", 6)]


def test_a_device_goes_on_counting_where_it_was(url: str) -> None:
    with device(url, PHONE) as ana:
        told = {"number": 5, "change_id": READING, "kind": "job", "record_id": JOB, "fields": {"note": "x"}}
        change = told | {"seen": LATEST, "schema": 1, "device_time": "2026-05-05T08:00:00+00:00"}
        (result,) = ana.push(change).json()["results"]
    assert (result["outcome"], result["sequence"]) == ("applied", LATEST + 1)


def test_records_that_somebody_emptied_by_hand_are_not_mended_in_silence(url: str) -> None:
    with closing_engine(url) as connection:
        connection.execute(text("DELETE FROM record"))
    migrate(url)
    with closing(Store(url)) as store, store.reading() as work:
        _count, wrong = differences(work.archive.log(), work.archive.records(), work.archive.assignments())
    assert len(wrong) == 4
