"""A thousand changes taken in, against the very same rows written bare; and the same over HTTP, against a rival."""

import sqlite3
import tempfile
import time
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

import httpx

from evenbed.store.database import PRAGMAS
from evenbed.store.work import Store
from tests.benchmarks.crews import BEGUN, apply, company, pushes, reading, requests
from tests.benchmarks.pouch import bulk_docs_ms, is_installed
from tests.benchmarks.sizes import Sizes
from tests.browser.running import Service, free_port
from tests.stores import url_of

CHANGES = 1000
TABLES = {"change": "number", "record": "sequence"}
"""What is written for every change, and the column that tells the new rows from those that were there before."""
Rows = dict[str, list[tuple[object, ...]]]
Changes = Sequence[dict[str, Any]]


def print_applying(sizes: Sizes) -> None:
    """Print both, each the best of some runs on fresh databases."""
    changes = [reading(number) for number in range(BEGUN + 1, BEGUN + 1 + CHANGES)]
    applied, bare = zip(*(_applied_and_bare_ms(changes) for _ in range(sizes.runs)), strict=True)
    ours, theirs = min(applied), min(bare)
    print(
        f"{CHANGES} changes accepted and committed on SQLite, ms (best of {sizes.runs}), against the same rows bare"
    )
    print(f"  accepted {ours:8.1f}  bare in one transaction {theirs:8.1f}  ratio {ours / theirs:5.2f}")
    sent = min(_sent_ms(changes) for _ in range(sizes.runs))
    best = f"ms (best of {sizes.runs})"
    print(f"{CHANGES} changes over HTTP, {best}, against documents of the same fields to PouchDB's server")
    print(f"  pushed   {sent:8.1f}  {_rival_text(changes[0]['fields'], sent, sizes.runs)}")


def _rival_text(fields: dict[str, Any], sent: float, runs: int) -> str:
    if not is_installed():
        return "PouchDB is not installed here: no ratio"
    theirs = bulk_docs_ms(fields, CHANGES, runs)
    return f"bulkDocs {theirs:8.1f}  ratio {sent / theirs:5.2f} (which do not wait for the disk)"


def _applied_and_bare_ms(changes: Changes) -> tuple[float, float]:
    with tempfile.TemporaryDirectory() as one, tempfile.TemporaryDirectory() as another:
        mine, _ = company(Path(one))
        applied = _applied_ms(mine, changes)
        bare, _ = company(Path(another))
        return applied, _bare_ms(bare, _new_rows(mine))


def _applied_ms(file: Path, changes: Changes) -> float:
    told = requests(changes)
    with closing(Store(url_of(file))) as store:
        with store.reading() as work:
            work.archive.latest()
        start = time.perf_counter()
        for push in told:
            apply(store, push)
        return 1000.0 * (time.perf_counter() - start)


def _new_rows(file: Path) -> Rows:
    with closing(sqlite3.connect(file)) as database:
        return {
            table: database.execute(f"SELECT * FROM {table} WHERE {column} > {BEGUN}").fetchall()  # noqa: S608
            for table, column in TABLES.items()
        }


def _bare_ms(file: Path, rows: Rows) -> float:
    """Into the same tables with the same indexes and the same care for the disk."""
    with closing(sqlite3.connect(file, isolation_level=None)) as database:
        for pragma in PRAGMAS:
            database.execute(f"PRAGMA {pragma}")
        start = time.perf_counter()
        database.execute("BEGIN IMMEDIATE")
        for table, told in rows.items():
            places = ", ".join("?" * len(told[0]))
            database.executemany(f"INSERT INTO {table} VALUES ({places})", told)  # noqa: S608
        database.execute("UPDATE service SET latest = latest + ?", (len(rows["change"]),))
        database.execute("COMMIT")
        return 1000.0 * (time.perf_counter() - start)


def _sent_ms(changes: Changes) -> float:
    """To a service in a process of its own, in pushes as large as the phone's."""
    with tempfile.TemporaryDirectory() as folder:
        _, token = company(Path(folder))
        service = Service(Path(folder), free_port())
        service.start()
        try:
            headers = {"Authorization": f"Bearer {token}"}
            with httpx.Client(base_url=service.address, headers=headers, timeout=60.0) as client:
                client.get("/api/session").raise_for_status()
                start = time.perf_counter()
                for push in pushes(changes):
                    client.post("/api/push", json=push).raise_for_status()
                return 1000.0 * (time.perf_counter() - start)
        finally:
            service.stop()
