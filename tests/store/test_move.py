"""From a SQLite file into PostgreSQL: all of it, equal on both sides, or nothing."""

import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import psycopg
import pytest
from tests.clients import Client, change, service
from tests.databases import PostgresDatabases, sqlite_database
from tests.phones import uuid_text
from tests.stores import fresh_file, url_of

from evenbed.cli import main
from evenbed.demo.load import load_demo
from evenbed.store.copying import Sum, filled_tables, sums_of
from evenbed.store.database import transaction
from evenbed.store.moving import MoveError, move
from evenbed.store.tables import Table
from evenbed.store.work import Store

PATIENCE_S = 60.0
"""Long enough for a busy machine."""


@pytest.fixture
def empty(postgres: PostgresDatabases, tmp_path: Path) -> Iterator[str]:
    """An empty PostgreSQL database."""
    with postgres.empty(tmp_path) as url:
        yield url


@pytest.fixture
def demo(tmp_path: Path) -> str:
    """A SQLite file with the demo job."""
    file, _ = fresh_file(tmp_path)
    with closing(Store(url_of(file))) as store:
        load_demo(store)
    return url_of(file)


def sums(url: str) -> dict[str, Sum]:
    with transaction(url, 5.0, writes=False) as connection:
        return sums_of(connection)


def test_the_command_says_that_every_table_is_equal_and_verify_agrees(
    demo: str, empty: str, capfd: pytest.CaptureFixture[str]
) -> None:
    assert main(["move", "--database", demo, "--to", empty]) == 0
    told = capfd.readouterr().out
    assert all(f"{name}: " in told for name in Table.metadata.tables)
    assert sums(demo) == sums(empty)
    assert main(["verify", "--database", empty]) == 0


def test_a_phone_goes_on_where_it_was(empty: str, tmp_path: Path) -> None:
    before = sqlite_database(tmp_path)
    with service(tmp_path, before) as client:
        phone = client.joined()
        phone.push(change(1, "job", uuid_text(1), {"name": "Alder"}))
        first = phone.pull()
    move(before.url, empty, 5.0)
    with service(tmp_path, type(before)(empty, before.code)) as client:
        phone = Client(client.app, client.code, phone.headers)
        assert phone.pull()["records"] == first["records"]
        assert phone.pull()["database"] == first["database"]
        assert phone.push(change(2, "job", uuid_text(1), {"name": "Birch"})).json()["latest"] == 2


def test_what_a_service_still_running_on_the_file_is_sent_stays_on_the_phone(empty: str, tmp_path: Path) -> None:
    before = sqlite_database(tmp_path)
    with service(tmp_path, before) as client:
        phone = client.joined()
        move(before.url, empty, 5.0)
        reply = phone.push(change(1, "job", uuid_text(1), {"name": "Alder"}))
    assert (reply.status_code, reply.json()["code"]) == (500, "storage_failed")
    assert "moved" in reply.json()["detail"]


def test_where_the_new_database_was_lost_the_file_can_be_moved_again(
    demo: str, empty: str, postgres: PostgresDatabases, tmp_path: Path
) -> None:
    with postgres.empty(tmp_path) as lost:
        move(demo, lost, 5.0)
    assert move(demo, empty, 5.0) == sums(empty) == sums(demo)


def test_a_database_that_holds_a_company_is_not_moved_into(
    demo: str, postgres: PostgresDatabases, tmp_path: Path
) -> None:
    with postgres.fresh(tmp_path) as other:
        before = sums(other.url)
        with pytest.raises(MoveError, match="already holds a company"):
            move(demo, other.url, 5.0)
        assert sums(other.url) == before


def test_what_is_no_source_and_what_is_no_target_is_told_in_words(demo: str, empty: str, tmp_path: Path) -> None:
    for source, target, said in (
        (url_of(tmp_path / "gone.db"), empty, "no database file"),
        (empty, empty, "must be a SQLite file"),
        (demo, url_of(tmp_path / "other.db"), "must be PostgreSQL"),
    ):
        with pytest.raises(MoveError, match=said):
            move(source, target, 5.0)
    assert not (tmp_path / "gone.db").exists()


def test_a_file_that_nobody_has_used_is_not_moved(empty: str, tmp_path: Path) -> None:
    (tmp_path / "new.db").touch()
    with pytest.raises(MoveError, match="no company yet"):
        move(url_of(tmp_path / "new.db"), empty, 5.0)


def test_a_move_that_is_killed_leaves_the_target_empty_and_the_source_in_use(demo: str, empty: str) -> None:
    """Another session holds a lock on one of the last tables: the move has copied others, and is killed there."""
    assert main(["verify", "--database", empty]) == 0  # makes the tables
    with psycopg.connect(empty) as blocking, psycopg.connect(empty, autocommit=True) as watching:
        blocking.execute("LOCK TABLE change IN SHARE MODE")
        moving = subprocess.Popen([sys.executable, "-m", "evenbed", "move", "--database", demo, "--to", empty])
        wait_for_a_waiting_writer(watching)
        moving.send_signal(signal.SIGKILL)
        moving.wait(PATIENCE_S)
    with transaction(empty, 5.0, writes=True) as connection:
        assert filled_tables(connection) == []
    move(demo, empty, 5.0)
    assert sums(demo) == sums(empty)


def wait_for_a_waiting_writer(connection: "psycopg.Connection[tuple[int]]") -> None:
    """Until another session waits for a lock."""
    patience = time.monotonic() + PATIENCE_S
    waiting = "SELECT count(*) FROM pg_stat_activity WHERE wait_event_type = 'Lock' AND datname = current_database()"
    while connection.execute(waiting).fetchone() == (0,):
        assert time.monotonic() < patience
        time.sleep(0.05)
