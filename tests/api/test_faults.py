"""When the disk or the database fails: a clear answer, and nothing half done."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Connection, event, insert
from sqlalchemy.orm import Session
from tests.clients import Client, change, service
from tests.phones import uuid_text

from evenbed.store.tables import ChangeRow

JOB = uuid_text(1)
FIRST = change(1, "job", JOB, {"name": "Alder"})
NOTHING: dict[str, Any] = {"fields": {}, "replaced": {}, "concurrent": [], "overruled": []}
TEXTS = ("device_id", "change_id", "outcome", "person", "kind", "record_id", "device_time", "at", "received_at")
ORPHAN = dict.fromkeys(TEXTS, "nobody") | {"number": 1, "seen": 0, "schema_version": 1} | NOTHING


@contextmanager
def failing_commits(client: Client) -> Iterator[None]:
    """COMMIT itself fails: each transaction gets a row whose device does not exist, looked at only at the end."""

    def spoil(connection: Connection) -> None:
        connection.exec_driver_sql("PRAGMA defer_foreign_keys=ON")
        if connection.get_execution_options().get("writes"):
            connection.execute(insert(ChangeRow).values(**ORPHAN))

    event.listen(client.store.engine, "begin", spoil)
    try:
        yield
    finally:
        event.remove(client.store.engine, "begin", spoil)


def test_a_failing_commit_answers_with_an_error_and_stores_nothing(phone: Client) -> None:
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


def test_a_database_that_stays_locked_is_told_as_busy(tmp_path: Path) -> None:
    with service(tmp_path, busy_timeout_s=0.05) as client:
        phone = client.joined()
        with closing(sqlite3.connect(tmp_path / "evenbed.db", isolation_level=None)) as other:
            other.execute("BEGIN IMMEDIATE").close()
            reply = phone.push(FIRST)
            assert phone.pull()["latest"] == 0  # reading goes on beside a writer
            other.execute("ROLLBACK").close()
        assert (reply.status_code, reply.json()["code"]) == (503, "busy")
        assert reply.headers["retry-after"]
        assert phone.push(FIRST).json()["results"][0]["outcome"] == "applied"


def test_a_full_disk_is_told_as_full_and_keeps_what_was_there(phone: Client) -> None:
    phone.push(FIRST)
    with phone.store.engine.connect() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()

    def no_more_pages(connection: sqlite3.Connection, *_: object) -> None:
        connection.execute(f"PRAGMA max_page_count={pages}").close()

    phone.store.engine.dispose()
    event.listen(phone.store.engine, "connect", no_more_pages)
    reply = phone.push(change(2, "job", JOB, {"note": "x" * 9_000}), change(3, "job", JOB, {"place": "y" * 9_000}))
    assert (reply.status_code, reply.json()["code"]) == (507, "storage_full")
    assert phone.pull()["records"][0]["fields"] == {"name": "Alder"}
