"""A backup is one consistent picture; a restored database is another database to the phones."""

import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from tests.clients import change, service
from tests.phones import uuid_text

ROOT = Path(__file__).resolve().parents[2]


def run(*arguments: object) -> "subprocess.CompletedProcess[str]":
    """The script, as a person runs it."""
    command = [sys.executable, str(ROOT / "deploy" / "backup.py"), *map(str, arguments)]
    return subprocess.run(command, capture_output=True, text=True, check=False, env=os.environ)


def test_a_restored_service_has_the_backups_records_and_a_new_identity(tmp_path: Path) -> None:
    file, copy = tmp_path / "evenbed.db", tmp_path / "copies" / "monday.db"
    with service(tmp_path) as client:
        phone = client.joined()
        phone.push(change(1, "job", uuid_text(1), {"name": "before"}))
        before = phone.pull()
        assert run("backup", file, copy).returncode == 0
        phone.push(change(2, "job", uuid_text(2), {"name": "after"}))
        assert run("restore", copy, file).returncode == 0
        restored = phone.pull()
    assert restored["records"] == before["records"]
    assert restored["database"] != before["database"]


def test_a_backup_never_overwrites_another(tmp_path: Path) -> None:
    with service(tmp_path):
        assert run("backup", tmp_path / "evenbed.db", tmp_path / "copy.db").returncode == 0
        again = run("backup", tmp_path / "evenbed.db", tmp_path / "copy.db")
    assert (again.returncode, "never overwrites" in again.stderr) == (1, True)


def test_a_place_that_takes_no_backup_is_told_in_words(tmp_path: Path) -> None:
    with service(tmp_path):
        told = run("backup", tmp_path / "evenbed.db", tmp_path / "evenbed.db" / "copy.db")
    assert told.returncode == 1
    assert "Traceback" not in told.stderr
    assert "evenbed.db" in told.stderr


@pytest.mark.parametrize("kind", ["missing", "text", "another database"])
def test_what_is_no_backup_is_not_restored(tmp_path: Path, kind: str) -> None:
    source = tmp_path / "source"
    if kind == "text":
        source.write_text("not a database, only some text that is long enough to look like a file" * 20)
    if kind == "another database":
        with closing(sqlite3.connect(source)) as other, other:
            other.execute("CREATE TABLE other (id)").close()
    with service(tmp_path) as client:
        before = client.send("GET", "/api/health").json()
        told = run("restore", source, tmp_path / "evenbed.db")
        assert (told.returncode, bool(told.stderr)) == (1, True)
        assert "Traceback" not in told.stderr
        assert client.send("GET", "/api/health").json() == before
