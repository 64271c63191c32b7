"""A backup is one consistent picture; a restored database is another database to the phones."""

import sqlite3
import threading
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine, event
from tests.clients import Client, change, service
from tests.databases import Database, Databases
from tests.migrations.first_version import make_first_version
from tests.phones import uuid_text
from tests.stores import url_of

from evenbed.cli import main
from evenbed.store.copying import Sum, sums_of
from evenbed.store.database import transaction, url_from_text
from evenbed.store.work import Store
from evenbed.sync.proof import differences

OTHER_PHONE = uuid_text(501)
Run = Callable[..., int]


@pytest.fixture
def run(database: Database, tmp_path: Path) -> Run:
    """Runs a command on the database, as a person does."""
    return lambda *words: main([*map(str, words), "--database", database.url, "--data", str(tmp_path)])


@pytest.fixture
def client(database: Database, tmp_path: Path) -> Iterator[Client]:
    """A client of a service that runs on the database meanwhile."""
    with service(tmp_path, database) as running:
        yield running


def add_job(phone: Client, number: int) -> None:
    """Push one more job."""
    reply = phone.push(change(number, "job", uuid_text(number), {"name": f"job {number}"}))
    assert reply.json()["results"][0]["outcome"] == "applied"


def add_jobs(phone: Client, numbers: range) -> None:
    """Push one job after the other."""
    for number in numbers:
        add_job(phone, number)


def sums(url: str) -> dict[str, Sum]:
    """What the database holds, but for its identity."""
    with transaction(url, 5.0, writes=False) as connection:
        return {name: told for name, told in sums_of(connection).items() if name != "service"}


def seen_by(phone: Client) -> tuple[str, list[dict[str, Any]]]:
    """The database and all its records, as a phone that begins anew sees them."""
    reply = phone.send("GET", "/api/pull").json()
    return reply["database"], reply["records"]


def test_a_running_service_answers_with_the_backups_records_and_a_new_identity(
    client: Client, run: Run, tmp_path: Path
) -> None:
    phone, file = client.joined(), tmp_path / "copies" / "monday.db"
    add_job(phone, 1)
    before = seen_by(phone)
    assert run("backup", file) == 0
    add_job(phone, 2)
    assert run("restore", file) == 0
    restored = seen_by(phone)
    assert restored[1] == before[1]
    assert restored[0] != before[0]
    add_job(phone, 2)


def test_a_backup_is_one_plain_file_that_either_kind_of_database_takes(
    client: Client, run: Run, databases: Databases, database: Database, tmp_path: Path
) -> None:
    add_job(client.joined(), 1)
    assert run("backup", tmp_path / "copies" / "monday.db") == 0
    assert [path.name for path in (tmp_path / "copies").iterdir()] == ["monday.db"]
    with databases.empty(tmp_path) as empty:
        for other in (empty, url_of(tmp_path / "new" / "evenbed.db")):
            told = ["--database", other, "--data", str(tmp_path)]
            assert main(["restore", str(tmp_path / "copies" / "monday.db"), *told]) == 0
            assert sums(other) == sums(database.url)
            assert main(["verify", *told]) == 0
    assert not list(tmp_path.glob("replaced-*"))


def test_what_a_restore_replaced_is_kept_and_can_be_put_back(
    client: Client, run: Run, database: Database, tmp_path: Path
) -> None:
    phone = client.joined()
    assert run("backup", tmp_path / "early.db") == 0
    add_job(phone, 1)
    before = sums(database.url)
    assert run("restore", tmp_path / "early.db") == 0
    assert seen_by(phone)[1] == []
    (replaced,) = tmp_path.glob("replaced-*")
    assert sums(url_of(replaced)) == before
    later = replaced.rename(tmp_path / "later.db")
    assert run("restore", later) == 0
    assert sums(database.url) == before


def test_a_device_removed_since_the_backup_stays_removed(client: Client, run: Run, tmp_path: Path) -> None:
    foreman, other = client.joined(), client.joined(OTHER_PHONE, "Ben")
    assert run("backup", tmp_path / "early.db") == 0
    assert foreman.send("DELETE", f"/api/devices/{OTHER_PHONE}").status_code == 200
    assert run("restore", tmp_path / "early.db") == 0
    assert other.send("GET", "/api/pull").json()["code"] == "device_removed"
    assert foreman.send("GET", "/api/pull").status_code == 200


def test_whoever_lost_a_role_or_a_token_since_the_backup_does_not_get_it_back(
    client: Client, run: Run, tmp_path: Path
) -> None:
    foreman, former = client.joined(), client.joined(OTHER_PHONE, "Ben")
    ben = former.send("GET", "/api/session").json()["person_id"]
    assert run("backup", tmp_path / "early.db") == 0
    code = foreman.send("POST", "/api/invites", json={"person_id": ben}).json()["code"]
    latter = {"Authorization": f"Bearer {client.join(OTHER_PHONE, code=code).json()['token']}"}
    assert foreman.send("PATCH", f"/api/people/{ben}", json={"role": "viewer"}).status_code == 200
    assert run("restore", tmp_path / "early.db") == 0
    assert former.send("GET", "/api/session").json()["code"] == "not_joined"
    assert client.send("GET", "/api/session", headers=latter).json()["role"] == "viewer"
    assert foreman.send("GET", "/api/people").status_code == 200


def test_readers_see_what_was_or_what_is_restored_and_nothing_between(
    client: Client, run: Run, tmp_path: Path
) -> None:
    phone = client.joined()
    add_job(phone, 1)
    before = seen_by(phone)[1]
    assert run("backup", tmp_path / "early.db") == 0
    add_jobs(phone, range(2, 40))
    after = seen_by(phone)[1]
    with watching(phone) as seen:
        assert run("restore", tmp_path / "early.db") == 0
    assert {len(records) for records in seen} == {len(before), len(after)}
    assert all(records in (before, after) for records in seen)


@contextmanager
def watching(phone: Client) -> Iterator[list[list[dict[str, Any]]]]:
    """What the phone sees, over and over, until once after the end."""
    seen, done = [seen_by(phone)[1]], threading.Event()

    def watch() -> None:
        while not done.is_set():
            seen.append(seen_by(phone)[1])

    watcher = threading.Thread(target=watch)
    watcher.start()
    try:
        yield seen
    finally:
        done.set()
        watcher.join()
        seen.append(seen_by(phone)[1])


def test_a_backup_made_while_phones_write_is_one_consistent_picture(client: Client, run: Run, tmp_path: Path) -> None:
    phone = client.joined()
    add_job(phone, 1)
    writer = threading.Thread(target=add_jobs, args=(phone, range(2, 40)))
    writer.start()
    assert run("backup", tmp_path / "copy.db") == 0
    writer.join()
    with closing(Store(url_of(tmp_path / "copy.db"))) as store, store.reading() as work:
        assert differences(work.archive.log(), work.archive.records(), work.archive.assignments()) == (
            work.archive.latest(),
            [],
        )
        assert [entry.sequence for entry in work.archive.log()] == list(range(1, work.archive.latest() + 1))


@pytest.mark.parametrize("place", ["INSERT INTO change", "DELETE FROM person", "UPDATE service"])
def test_a_restore_that_breaks_off_leaves_everything_as_it_was(
    client: Client, run: Run, database: Database, tmp_path: Path, place: str
) -> None:
    phone = client.joined()
    add_job(phone, 1)
    assert run("backup", tmp_path / "early.db") == 0
    add_job(phone, 2)
    before, told = sums(database.url), seen_by(phone)
    with breaking_at(place, database.url):
        assert run("restore", tmp_path / "early.db") == 1
    assert (sums(database.url), seen_by(phone)) == (before, told)


def test_a_backup_of_an_older_version_is_brought_up_to_date_as_it_is_restored(run: Run, tmp_path: Path) -> None:
    old = tmp_path / "old.db"
    with transaction(url_of(old), 5.0, writes=True) as connection:
        make_first_version(connection)
        connection.commit()
    kept = old.read_bytes()
    assert run("restore", old) == 0
    assert run("verify") == 0
    assert old.read_bytes() == kept


@contextmanager
def breaking_at(statement: str, url: str) -> Iterator[None]:
    """The disk fails at a statement on that database."""

    def fail(connection: Any, _cursor: Any, said: str, *_more: Any) -> None:
        if said.startswith(statement) and connection.engine.url.database == url_from_text(url).database:
            raise OSError("the disk is gone")

    event.listen(Engine, "before_cursor_execute", fail)
    try:
        yield
    finally:
        event.remove(Engine, "before_cursor_execute", fail)


def test_a_backup_never_overwrites_another(run: Run, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run("backup", tmp_path / "copy.db") == 0
    made = (tmp_path / "copy.db").read_bytes()
    assert run("backup", tmp_path / "copy.db") == 1
    assert "never overwrites" in capfd.readouterr().err
    assert (tmp_path / "copy.db").read_bytes() == made


def test_a_place_that_takes_no_backup_is_told_in_words(
    run: Run, tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("in the way")
    assert run("backup", tmp_path / "file" / "copy.db") == 1
    assert "copy.db" in capfd.readouterr().err


def test_a_database_that_is_not_there_makes_no_backup(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert main(["backup", str(tmp_path / "copy.db"), "--data", str(tmp_path / "nowhere")]) == 1
    assert "no file" in capfd.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_a_database_is_not_restored_from_itself(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    with service(tmp_path):
        assert main(["restore", str(tmp_path / "evenbed.db"), "--data", str(tmp_path)]) == 1
    assert "itself" in capfd.readouterr().err


@pytest.mark.parametrize("kind", ["missing", "text", "another database", "nobody's"])
def test_what_is_no_backup_is_not_restored(
    client: Client, run: Run, tmp_path: Path, capfd: pytest.CaptureFixture[str], kind: str
) -> None:
    source = tmp_path / "source"
    if kind == "text":
        source.write_text("not a database, only some text that is long enough to look like a file" * 20)
    if kind == "another database":
        with closing(sqlite3.connect(source)) as other, other:
            other.execute("CREATE TABLE other (id)").close()
    if kind == "nobody's":
        with closing(sqlite3.connect(source)) as other, other:
            other.execute("CREATE TABLE service (id)").close()
    before = client.send("GET", "/api/health").json()
    assert run("restore", source) == 1
    assert "source" in capfd.readouterr().err
    assert client.send("GET", "/api/health").json() == before


def test_a_damaged_database_is_restored_beside_where_it_was(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    data = ["--data", str(tmp_path)]
    with service(tmp_path) as client:
        add_job(client.joined(), 1)
        assert main(["backup", str(tmp_path / "copy.db"), *data]) == 0
    damaged = tmp_path / "evenbed.db"
    damaged.write_bytes(b"\xff" * len(damaged.read_bytes()))
    assert main(["restore", str(tmp_path / "copy.db"), *data]) == 1
    assert "move it away" in capfd.readouterr().err
    damaged.rename(tmp_path / "damaged.db")
    assert main(["restore", str(tmp_path / "copy.db"), *data]) == 0
    assert sums(url_of(damaged)) == sums(url_of(tmp_path / "copy.db"))
