"""A disk that takes no more: said plainly, nothing lost, and once there is room everything goes on by itself."""

import os
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import httpx
import pytest
from alembic import command
from psycopg.sql import SQL
from sqlalchemy.engine import make_url
from tests.browser.running import free_port
from tests.faults.callers import Caller
from tests.faults.company import check_all_is_everywhere, company
from tests.faults.cramped import cramp, make_room
from tests.faults.killable import PATIENCE_S, Killable
from tests.postgres.cluster import Cluster, running_cluster
from tests.stores import found_database, fresh_file, url_of

from evenbed.store.database import for_writing, open_engine
from evenbed.store.migrate import WHILE_REBUILDING, config_for
from evenbed.store.work import Store

PAGE = 4096
LONGEST = (0, 1, PAGE, 5 * PAGE + 24, 40 * PAGE)
"""Bytes that a file may have: so a push fails at its very first byte, or after some of its pages."""
MANY = 150
HELPER = 8 * PAGE
"""What SQLite needs beside a database that nobody has open."""
PARTITION_KB = 24_576
LEFT = 500_000


def fill(caller: Caller) -> httpx.Response:
    """Push more and more until something else than yes is answered: that answer. What it was about still waits."""
    for _ in range(20):
        caller.edit(MANY - len(caller.phone.waiting))
        reply = caller.push_once()
        if reply.status_code != 200:
            return reply
    raise AssertionError("The disk took everything.")


def check_refused(reply: httpx.Response) -> None:
    told = reply.json()
    assert (reply.status_code, told["code"]) == (507, "storage_full")
    assert "Nothing was stored; make room on the disk." in told["detail"]


def check_still_reads(caller: Caller) -> None:
    """Looking goes on, and shows nothing of what was refused."""
    assert caller.client.get("/api/health").status_code == 200
    assert caller.client.get("/api/session").status_code == 200
    pulled = caller.pull_all()
    refused = {edit.record_id for edit in caller.phone.waiting if edit.kind == "reading"}
    assert len(refused) > MANY / 2
    assert not refused & pulled.keys()


def test_a_push_onto_a_full_disk_is_refused_whole_and_taken_once_when_there_is_room(tmp_path: Path) -> None:
    file, _ = fresh_file(tmp_path)
    with company(url_of(file), tmp_path, 1) as (service, [caller]):
        for longest in LONGEST:
            cramp(pid_of(service), longest)
            check_refused(fill(caller))
            check_refused(caller.push_once())
            check_still_reads(caller)
            make_room(pid_of(service))
            assert caller.push_once().status_code == 200
        check_all_is_everywhere(url_of(file), [caller])


def test_a_service_killed_with_its_disk_full_comes_back_reads_and_takes_the_push_when_there_is_room(
    tmp_path: Path,
) -> None:
    file, _ = fresh_file(tmp_path)
    with company(url_of(file), tmp_path, 1) as (service, [caller]):
        cramp(pid_of(service), 5 * PAGE)
        check_refused(fill(caller))
        service.kill()
        service.start()
        check_still_reads(caller)
        assert caller.push_once().status_code == 200
        check_all_is_everywhere(url_of(file), [caller])


def pid_of(service: Killable) -> int:
    assert service.process is not None
    assert service.process.pid is not None
    return service.process.pid


def cramped(longest: int, file: Path) -> "subprocess.Popen[str]":
    """The service in a process for which the disk is full from the start."""
    words = [str(longest), "serve", "--port", str(free_port()), "--database", url_of(file)]
    told = os.environ | {"PYTHONUNBUFFERED": "1"}
    line = [sys.executable, "-m", "tests.faults.cramped", *words]
    return subprocess.Popen(line, env=told, text=True, stdout=subprocess.PIPE, stderr=subprocess.PIPE)


def check_gives_up(file: Path, longest: int) -> None:
    """It ends by itself, and says in one line what to do."""
    _, said = (process := cramped(longest, file)).communicate(timeout=PATIENCE_S)
    assert process.returncode == 1
    assert said.startswith("evenbed: The database could not write")
    assert said.strip().endswith("make room on the disk.")
    assert "\n" not in said.strip()


def test_a_new_service_on_a_full_disk_says_so_and_begins_when_there_is_room(tmp_path: Path) -> None:
    file = tmp_path / "evenbed.db"
    for longest in (0, PAGE, 20 * PAGE):
        check_gives_up(file, longest)
    assert found_database(url_of(file))


def test_a_migration_onto_a_full_disk_leaves_the_database_as_it_was_and_runs_when_there_is_room(
    tmp_path: Path,
) -> None:
    file = tmp_path / "evenbed.db"
    engine = open_engine(url_of(file), 1.0, WHILE_REBUILDING)
    with for_writing(engine).begin() as connection:
        command.upgrade(config_for(connection), "0001")
    engine.dispose()
    before = schema_of(file)
    check_gives_up(file, PAGE)
    check_gives_up(file, 10 * PAGE)
    assert schema_of(file) == before
    assert found_database(url_of(file))


def schema_of(file: Path) -> list[tuple[str, ...]]:
    with closing(Store(url_of(file))) as store, store.engine.connect() as connection:
        rows = connection.exec_driver_sql("SELECT name, sql FROM sqlite_master ORDER BY name").all()
        return [tuple(map(str, row)) for row in rows]


def test_a_service_that_is_started_with_its_disk_full_says_so_or_answers_and_reads(tmp_path: Path) -> None:
    file, _ = fresh_file(tmp_path)
    with company(url_of(file), tmp_path, 1) as (service, [caller]):
        caller.work(1)
        service.kill()
        check_gives_up(file, 0)
        with cramped(HELPER, file) as process:
            try:
                caller.client.base_url = httpx.URL(address_said(process))
                check_refused(fill(caller))
                check_still_reads(caller)
            finally:
                process.send_signal(signal.SIGTERM)
        service.start()
        caller.client.base_url = httpx.URL(service.address)
        assert caller.push_once().status_code == 200
        check_all_is_everywhere(url_of(file), [caller])


def address_said(process: "subprocess.Popen[str]") -> str:
    assert process.stdout is not None
    for line in process.stdout:
        if line.startswith("Evenbed is at "):
            return line.split()[3]
    raise AssertionError(process.stderr.read() if process.stderr else "")


@contextmanager
def partition(folder: Path, kilobytes: int) -> Iterator[Path]:
    """A file system of that size and no larger, where this machine lets us make one."""
    folder.mkdir()
    made = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", f"size={kilobytes}k", "tmpfs", str(folder)], check=False, capture_output=True
    )
    if made.returncode:
        pytest.skip(f"no file system can be mounted here: {made.stderr.decode().strip()}")
    try:
        yield folder
    finally:
        subprocess.run(["umount", str(folder)], check=True)


def fill_up(disk: Path) -> Path:
    """Leave next to nothing of it; the file to take away when there is to be room again."""
    free = shutil.disk_usage(disk).free
    (disk / "ballast").write_bytes(bytes(free - LEFT))
    return disk / "ballast"


def test_a_partition_filled_to_its_last_byte_loses_nothing(tmp_path: Path) -> None:
    with partition(tmp_path / "small", PARTITION_KB) as disk:
        file, _ = fresh_file(disk)
        with company(url_of(file), tmp_path, 1) as (_, [caller]):
            ballast = fill_up(disk)
            check_refused(fill(caller))
            check_still_reads(caller)
            ballast.unlink()
            assert caller.push_once().status_code == 200
            check_all_is_everywhere(url_of(file), [caller])


def test_postgresql_on_a_full_disk_refuses_the_push_whole_and_takes_it_once_when_there_is_room(
    tmp_path: Path,
) -> None:
    with running_cluster() as cluster, partition(cluster.folder / "small", PARTITION_KB) as disk:
        url = database_on(cluster, disk)
        found_database(url)
        with company(url, tmp_path, 1) as (_, [caller]):
            ballast = fill_up(disk)
            check_refused(fill(caller))
            check_still_reads(caller)
            ballast.unlink()
            assert caller.push_once().status_code == 200
            check_all_is_everywhere(url, [caller])
        cluster.drop(url)
        cluster.run(SQL("DROP TABLESPACE small"))


def database_on(cluster: Cluster, disk: Path) -> str:
    """A database whose tables lie on that partition; the server's own files do not."""
    (disk / "tables").mkdir()
    for path in (disk, disk / "tables"):
        owner = cluster.folder.stat()
        os.chown(path, owner.st_uid, owner.st_gid)
    cluster.run(SQL(f"CREATE TABLESPACE small LOCATION '{disk / 'tables'}'"))
    url = cluster.create()
    cluster.run(SQL("ALTER DATABASE {} SET TABLESPACE small"), str(make_url(url).database))
    return url
