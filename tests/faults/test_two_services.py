"""Two service processes on one PostgreSQL database: whichever a phone reaches, no change is skipped or doubled."""

import os
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, closing, contextmanager
from itertools import pairwise
from pathlib import Path
from threading import Event

import httpx
import pytest
from tests.databases import PostgresDatabases
from tests.faults.callers import Caller, callers_at
from tests.faults.company import SEED, acknowledged, check_kept, made
from tests.faults.killable import Killable, running
from tests.faults.pullers import Puller
from tests.phones import uuid_text
from tests.stores import join_device

from evenbed.cli import main
from evenbed.store.work import Store

WRITERS, PULLERS = 50, 20
SECONDS = float(os.environ.get("EVENBED_FAULT_SECONDS", "10"))
PAUSE_S = 0.2


@contextmanager
def two_services(url: str, folder: Path) -> Iterator[list[Killable]]:
    """Both start at the same moment, on a database that is empty: one of them makes the tables, the other waits."""
    folders = [folder / "first", folder / "second"]
    for one in folders:
        one.mkdir()
    with ThreadPoolExecutor(2) as pool, ExitStack() as stack:
        started = [pool.submit(stack.enter_context, running(url, one)) for one in folders]
        yield [one.result() for one in started]


def write_until(caller: Caller, end: float) -> None:
    """Push, again and again, each time a few edits."""
    while time.monotonic() < end:
        caller.work(1)


@pytest.mark.deep
def test_fifty_writers_and_twenty_pullers_over_two_services_skip_nothing_and_double_nothing(
    postgres: PostgresDatabases, tmp_path: Path, figures: Callable[[str], None]
) -> None:
    with postgres.empty(tmp_path) as url, two_services(url, tmp_path) as services:
        addresses = [service.address for service in services]
        with closing(Store(url)) as store:
            tokens = {uuid_text(n): join_device(store, uuid_text(n))[1] for n in range(1000, 1000 + WRITERS)}
            with callers_at(addresses[0], tokens, SEED) as writers:
                for writer in writers[::2]:
                    writer.client.base_url = httpx.URL(addresses[1])
                pullers = [Puller(addresses, token, PAUSE_S) for token in list(tokens.values())[:PULLERS]]
                all_at_once(writers, pullers)
                check_kept(url, acknowledged(writers))
                check_pulled(store, writers, pullers)
                changes, pages = sum(len(made([w])) for w in writers), sum(puller.pages for puller in pullers)
        figures(f"{changes} changes by {WRITERS} writers in {SECONDS:g} s; {pages} pages to {PULLERS} pullers")
        assert main(["verify", "--database", url]) == 0


def all_at_once(writers: list[Caller], pullers: list[Puller]) -> None:
    """Everybody at work for the time set; then the pullers come to the end of what was written."""
    done = Event()
    writers[0].begin()
    with ThreadPoolExecutor(len(writers) + len(pullers)) as pool:
        following = [pool.submit(puller.follow, done) for puller in pullers]
        end = time.monotonic() + SECONDS
        for one in [pool.submit(write_until, writer, end) for writer in writers]:
            one.result()
        done.set()
        for one in following:
            one.result()


def check_pulled(store: Store, writers: list[Caller], pullers: list[Puller]) -> None:
    """Every change that any phone made is in the log, and every puller got each record with its newest number.

    A reading is one change: whoever has all readings, each once, has skipped none and was told none twice.
    """
    with store.reading() as work:
        log, records = list(work.archive.log()), list(work.archive.records())
    assert sorted(entry.change_id for entry in log) == sorted(made(writers))
    readings = {entry.sequence for entry in log if entry.kind == "reading"}
    newest = {(record.kind, record.id): record.sequence for record in records}
    for puller in pullers:
        numbers = [number for number, _kind, _id in puller.seen]
        assert all(one < other for one, other in pairwise(numbers))
        assert {number for number, kind, _id in puller.seen if kind == "reading"} == readings
        assert {(kind, record_id): number for number, kind, record_id in puller.seen} == newest
