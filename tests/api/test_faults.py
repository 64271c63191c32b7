"""When the disk or the database fails: a clear answer, and nothing half done."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import psycopg
import pytest
from sqlalchemy import Connection, event, insert
from sqlalchemy.orm import Session
from tests.clients import Client, change, service
from tests.databases import Database, PostgresDatabases
from tests.phones import uuid_text
from tests.postgres.cluster import running_cluster
from tests.stores import found_database

from evenbed.store.tables import ChangeRow
from evenbed.store.work import Store

JOB = uuid_text(1)
FIRST = change(1, "job", JOB, {"name": "Alder"})
NOTHING: dict[str, Any] = {"fields": {}, "replaced": {}, "concurrent": [], "overruled": []}
TEXTS = (
    "device_id",
    "change_id",
    "outcome",
    "person_id",
    "person",
    "kind",
    "record_id",
    "device_time",
    "at",
    "received_at",
)
ORPHAN = dict.fromkeys(TEXTS, "nobody") | {"number": 1, "seen": 0, "schema_version": 1} | NOTHING

LOOKED_AT_LATE = {"sqlite": "PRAGMA defer_foreign_keys=ON", "postgresql": "SET CONSTRAINTS ALL DEFERRED"}


@contextmanager
def failing_commits(client: Client) -> Iterator[None]:
    """COMMIT itself fails: each transaction gets a row whose device does not exist, looked at only at the end."""

    def spoil(connection: Connection) -> None:
        connection.exec_driver_sql(LOOKED_AT_LATE[connection.dialect.name])
        if connection.get_execution_options().get("writes"):
            connection.execute(insert(ChangeRow).values(**ORPHAN))

    event.listen(client.store.engine, "begin", spoil)
    try:
        yield
    finally:
        event.remove(client.store.engine, "begin", spoil)


def make_deferrable(client: Client) -> None:
    """Let the key from changes to devices be looked at only at the end; SQLite lets every key."""
    if client.store.engine.dialect.name == "postgresql":
        with client.store.engine.begin() as connection:
            key = "fk_change_device_id_device DEFERRABLE INITIALLY IMMEDIATE"
            connection.exec_driver_sql(f"ALTER TABLE change ALTER CONSTRAINT {key}")


def test_a_failing_commit_answers_with_an_error_and_stores_nothing(phone: Client) -> None:
    make_deferrable(phone)
    with failing_commits(phone):
        reply = phone.push(FIRST)
    assert (reply.status_code, reply.json()["code"]) == (500, "storage_failed")
    assert phone.pull()["records"] == []
    assert phone.push(FIRST).json()["results"][0]["outcome"] == "applied"


def test_a_mistake_of_ours_is_a_problem_without_its_insides(phone: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    def break_down(_session: Session) -> None:
        raise ZeroDivisionError("secret")

    monkeypatch.setattr(Session, "commit", break_down)
    reply = phone.push(FIRST)
    monkeypatch.undo()
    assert (reply.status_code, reply.json()["code"]) == (500, "internal")
    assert "secret" not in reply.text
    assert phone.pull()["latest"] == 0


def test_a_database_that_stays_locked_is_told_as_busy(database: Database, tmp_path: Path) -> None:
    with service(tmp_path, database, busy_timeout_s=0.05) as client, closing(Store(database.url)) as other:
        phone = client.joined()
        with other.writing() as work:
            work.ledger()
            reply = phone.push(FIRST)
            assert phone.pull()["latest"] == 0  # reading goes on beside a writer
        assert (reply.status_code, reply.json()["code"]) == (503, "busy")
        assert reply.headers["retry-after"]
        assert phone.push(FIRST).json()["results"][0]["outcome"] == "applied"


def test_a_full_disk_is_told_as_full_and_keeps_what_was_there(tmp_path: Path) -> None:
    with service(tmp_path) as client:
        phone = client.joined()
        phone.push(FIRST)
        with phone.store.engine.connect() as connection:
            pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()

        def no_more_pages(connection: sqlite3.Connection, *_: object) -> None:
            connection.execute(f"PRAGMA max_page_count={pages}").close()

        phone.store.engine.dispose()
        event.listen(phone.store.engine, "connect", no_more_pages)
        reply = phone.push(
            change(2, "job", JOB, {"note": "x" * 9_000}), change(3, "job", JOB, {"place": "y" * 9_000})
        )
        assert (reply.status_code, reply.json()["code"]) == (507, "storage_full")
        assert phone.pull()["records"][0]["fields"] == {"name": "Alder"}


FULL = """
    CREATE FUNCTION full_disk() RETURNS trigger LANGUAGE plpgsql AS
    $$ BEGIN RAISE EXCEPTION 'could not extend file: No space left on device' USING ERRCODE = 'disk_full'; END $$;
    CREATE TRIGGER full_disk BEFORE INSERT ON change EXECUTE FUNCTION full_disk()
"""
"""PostgreSQL's own error for it, by its own name."""


def test_a_postgresql_whose_disk_is_full_is_told_as_full(postgres: PostgresDatabases, tmp_path: Path) -> None:
    with postgres.fresh(tmp_path) as database, service(tmp_path, database) as client:
        phone = client.joined()
        with client.store.engine.begin() as connection:
            connection.exec_driver_sql(FULL, execution_options={"no_parameters": True})
        reply = phone.push(FIRST)
        assert (reply.status_code, reply.json()["code"]) == (507, "storage_full")
        assert phone.pull()["records"] == []


def test_a_database_server_that_is_away_is_told_as_busy_without_saying_where_it_is(tmp_path: Path) -> None:
    with running_cluster() as cluster:
        url = cluster.create()
        with service(tmp_path, Database(url, found_database(url))) as client:
            phone = client.joined()
            cluster.stop()
            reply = phone.push(FIRST)
            assert (reply.status_code, reply.json()["code"]) == (503, "busy")
            assert reply.headers["retry-after"]
            assert str(cluster.folder) not in reply.text
            cluster.start()
            assert phone.push(FIRST).json()["results"][0]["outcome"] == "applied"


END_ALL_OTHERS = """
    SELECT pg_terminate_backend(pid) FROM pg_stat_activity
    WHERE pid <> pg_backend_pid() AND datname = current_database()
"""


def test_connections_that_the_server_ended_meanwhile_are_made_anew(
    postgres: PostgresDatabases, tmp_path: Path
) -> None:
    with postgres.fresh(tmp_path) as database, service(tmp_path, database) as client:
        phone = client.joined()
        with psycopg.connect(database.url) as other:
            ended = other.execute(END_ALL_OTHERS).fetchall()
        assert ended
        assert phone.push(FIRST).json()["results"][0]["outcome"] == "applied"
