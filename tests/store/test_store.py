"""The promises of the store: all or nothing, on the disk, one writer at a time, and no change skipped by a pull."""

import threading
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from psycopg.sql import SQL
from sqlalchemy import text
from sqlalchemy.engine import make_url
from tests.databases import Database, PostgresDatabases
from tests.phones import Edit, push_of, uuid_text
from tests.postgres.cluster import Cluster
from tests.stores import FOREMAN, START, author_of, fresh_store, join_device

from evenbed.store.database import for_writing
from evenbed.store.faults import StoreBusyError, StoreGoneError
from evenbed.store.work import Store
from evenbed.sync.accept import accept_push
from evenbed.sync.model import Author


@pytest.fixture
def store(database: Database) -> Iterator[Store]:
    """A fresh database of either kind."""
    with closing(Store(database.url)) as fresh:
        yield fresh


def push_job(store: Store, author: Author, number: int, change: int, *, commit: bool = True) -> None:
    """One new job from a device."""
    made = Edit(uuid_text(change), number, "job", uuid_text(change + 5000), {"name": "x"}, 0, START)
    with store.writing() as work:
        accept_push(work.ledger(), author, "foreman", push_of([made], START, START - START), START)
        if commit:
            work.commit()


def test_without_a_commit_nothing_stays(store: Store) -> None:
    join_device(store, uuid_text(1))
    push_job(store, author_of(uuid_text(1), "Ana"), 1, 100, commit=False)
    with store.reading() as work:
        assert work.archive.latest() == 0
        assert list(work.archive.records()) == []


def test_what_is_committed_is_on_the_disk_by_the_databases_own_word(tmp_path: Path) -> None:
    with fresh_store(tmp_path) as store, store.engine.connect() as connection:
        told = {name: connection.execute(text(f"PRAGMA {name}")).scalar_one() for name in SETTINGS}
    assert told == SETTINGS


SETTINGS = {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1}
"""2 is FULL: https://www.sqlite.org/pragma.html#pragma_synchronous (from memory)."""


@pytest.mark.parametrize(("is_set_to", "is_used"), [("off", "on"), ("on", "on"), ("remote_write", "remote_write")])
def test_a_postgresql_that_would_not_wait_for_the_disk_is_told_to(
    cluster: Cluster, postgres: PostgresDatabases, tmp_path: Path, is_set_to: str, is_used: str
) -> None:
    with postgres.fresh(tmp_path) as database:
        name = make_url(database.url).database or ""
        cluster.run(SQL(f"ALTER DATABASE {{}} SET synchronous_commit = {is_set_to}"), name)
        with closing(Store(database.url)) as store, for_writing(store.engine).begin() as connection:
            assert connection.execute(text("SHOW synchronous_commit")).scalar_one() == is_used


def test_a_writer_that_another_keeps_out_for_too_long_is_told_so_and_may_try_again(database: Database) -> None:
    """The two stores are as two processes: each has a lock of its own for its own writers."""
    with closing(Store(database.url)) as one, closing(Store(database.url, 0.05)) as other:
        with one.writing() as work:
            work.ledger()
            with pytest.raises(StoreBusyError), other.writing() as refused:
                refused.ledger()
        with other.writing() as work:
            work.ledger()


def test_a_writer_whose_machine_has_gone_silent_keeps_others_out_no_longer_than_allowed(
    postgres: PostgresDatabases, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("evenbed.store.database.SILENCE_S", 1)
    with postgres.fresh(tmp_path) as database:
        with pytest.raises(StoreGoneError):
            write_around(database.url)
        with closing(Store(database.url)) as store, store.reading() as work:
            assert work.archive.latest() == 1


def write_around(url: str) -> None:
    """One writer has begun and says nothing more until another has pushed."""
    with closing(Store(url)) as silent, closing(Store(url, 20.0)) as other:
        join_device(other, uuid_text(1))
        with silent.writing() as left:
            left.ledger()
            push_job(other, author_of(uuid_text(1), "Ana"), 1, 100)
            left.commit()


def test_a_reader_sees_one_unchanging_picture(store: Store) -> None:
    join_device(store, uuid_text(1))
    with store.reading() as work:
        assert work.archive.latest() == 0
        push_job(store, author_of(uuid_text(1), "Ana"), 1, 100)
        assert work.archive.page(FOREMAN, 0, 10).records == ()
        assert work.archive.latest() == 0


def test_writers_at_the_same_time_take_turns_and_readers_skip_nothing(store: Store) -> None:
    devices = [author_of(uuid_text(n), f"person {n}") for n in range(1, 5)]
    for device in devices:
        join_device(store, device.device_id)
    seen: list[int] = []
    done = threading.Event()
    writers = [threading.Thread(target=write_many, args=(store, device, n)) for n, device in enumerate(devices)]
    reader = threading.Thread(target=read_on, args=(store, seen, done))
    for thread in (*writers, reader):
        thread.start()
    for thread in writers:
        thread.join()
    done.set()
    reader.join()
    assert seen == list(range(1, 4 * CHANGES + 1))


CHANGES = 15


def write_many(store: Store, device: Author, n: int) -> None:
    """Push one change after the other."""
    for number in range(1, CHANGES + 1):
        push_job(store, device, number, 100 + n * CHANGES + number)


def read_on(store: Store, seen: list[int], done: threading.Event) -> None:
    """Follow the log page by page until nothing more is coming."""
    after = 0
    while True:
        last_round = done.is_set()
        with store.reading() as work:
            page = work.archive.page(FOREMAN, after, 7)
        seen += [record.sequence for record in page.records]
        after = page.next
        if last_round and not page.more:
            return


def test_a_cursor_that_waits_for_the_rest_of_a_page_does_not_pass_it(store: Store) -> None:
    join_device(store, uuid_text(1))
    for number in range(1, 5):
        push_job(store, author_of(uuid_text(1), "Ana"), number, 100 + number)
    with store.reading() as work:
        page = work.archive.page(FOREMAN, 0, 3)
    assert (page.next, page.more, page.latest) == (3, True, 4)
