"""Photos are rows as all others are: backups carry them, `verify` reads each, and a record is found by its photo."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from alembic import command
from sqlalchemy import text
from sqlmodel import col, update
from tests.clients import Client, service
from tests.databases import Database, Databases
from tests.phones import uuid_text
from tests.pictures import Picture, jpeg, make_room, name_photo, path_of, send_all, send_part

from evenbed.cli import main
from evenbed.store.database import for_writing, open_engine
from evenbed.store.migrate import WHILE_REBUILDING, config_for
from evenbed.store.tables import PhotoRow

WHOLE, BEGUN = jpeg(), jpeg(colour=200)
Run = Callable[..., int]


@pytest.fixture
def run(database: Database, tmp_path: Path) -> Run:
    """Runs a command on the database, as a person does."""
    return lambda *words: main([*map(str, words), "--database", database.url, "--data", str(tmp_path)])


@pytest.fixture
def phone(database: Database, tmp_path: Path) -> Iterator[Client]:
    """A phone that has sent one photo whole, and a part of another."""
    with service(tmp_path, database) as client:
        joined = client.joined()
        make_room(joined)
        name_photo(joined, WHOLE, 3)
        name_photo(joined, BEGUN, 4)
        send_all(joined, WHOLE)
        send_part(joined, BEGUN, 0, BEGUN.content[:1000])
        yield joined


def file_of(phone: Client, picture: Picture) -> bytes:
    """As the service gives it."""
    return phone.send("GET", path_of(picture, "/file")).content


def test_a_backup_carries_photos_and_what_is_here_of_those_on_their_way(
    phone: Client, run: Run, tmp_path: Path
) -> None:
    assert run("backup", tmp_path / "monday.db") == 0
    rest = BEGUN.content[1000:]
    assert send_part(phone, BEGUN, 1000, rest).json()["complete"]
    assert run("restore", tmp_path / "monday.db") == 0
    assert file_of(phone, WHOLE) == WHOLE.content
    assert phone.send("GET", path_of(BEGUN)).json()["received"] == 1000
    assert send_part(phone, BEGUN, 1000, rest).json()["complete"]
    assert file_of(phone, BEGUN) == BEGUN.content


def test_verify_reads_every_photo_and_notices_changed_bytes(
    phone: Client, run: Run, capfd: pytest.CaptureFixture[str]
) -> None:
    assert run("verify") == 0
    assert "1 photo read; 0 damaged" in capfd.readouterr().out
    with phone.store.writing() as work:
        changed = bytes([WHOLE.content[0] ^ 1]) + WHOLE.content[1:]
        work._session.exec(update(PhotoRow).where(col(PhotoRow.hash) == WHOLE.hash).values(content=changed))
        work.commit()
    assert run("verify") == 1
    said = capfd.readouterr().out
    assert WHOLE.hash in said
    assert "1 photo read; 1 damaged" in said


def test_records_of_photos_from_before_they_were_found_by_their_photo_are_found(
    databases: Databases, tmp_path: Path
) -> None:
    with databases.empty(tmp_path) as url:
        engine = open_engine(url, 5.0, WHILE_REBUILDING)
        with for_writing(engine).begin() as connection:
            command.upgrade(config_for(connection), "0002")
            connection.execute(text(OLD_RECORD), {"id": uuid_text(9)})
            command.upgrade(config_for(connection), "0003")
            found = connection.execute(text("SELECT id, photo_hash FROM record")).all()
        engine.dispose()
    assert [tuple(row) for row in found] == [(uuid_text(9), "ab")]


OLD_RECORD = """
    INSERT INTO record (kind, id, job_id, owner_id, sequence, fields, stamps, conflicts,
                        created_by, changed_by, changed_at)
    VALUES ('photo', :id, 'j', 'p', 1, '{"hash": "ab"}', '{}', '{}', 'Ana', 'Ana', '2026-05-04')
"""
