"""Back up and restore a SQLite database of the service, also while it runs.

    python deploy/backup.py backup  data/evenbed.db  backups/monday.db
    python deploy/backup.py restore backups/monday.db  data/evenbed.db

Both go through SQLite's online backup: a copy is always one consistent picture, and it is checked before it counts.
A restored database gets a new random identity: by it phones notice that they must offer again what they still hold.
"""

import argparse
import sqlite3
import sys
from contextlib import closing
from pathlib import Path
from uuid import uuid4


class BackupError(Exception):
    """The copy was not made; the message says why."""


def back_up(source: Path, target: Path) -> None:
    """Copy the database to a file that must not be there yet. Raises BackupError."""
    if target.exists():
        raise BackupError(f"{target} is there already; a backup never overwrites another.")
    target.parent.mkdir(parents=True, exist_ok=True)
    part = target.with_name(target.name + ".part")
    part.unlink(missing_ok=True)
    _copy(source, part)
    part.rename(target)


def restore(source: Path, target: Path) -> None:
    """Put the backup's content in the database's place, with a new identity. Raises BackupError."""
    _copy(source, target)
    with closing(sqlite3.connect(target)) as database, database:
        database.execute("UPDATE service SET identity = ?", (str(uuid4()),)).close()


def _copy(source: Path, target: Path) -> None:
    if not source.is_file():
        raise BackupError(f"There is no file {source}.")
    try:
        with closing(sqlite3.connect(f"{source.absolute().as_uri()}?mode=ro", uri=True)) as old:
            _check(old, source)
            with closing(sqlite3.connect(target)) as new:
                old.backup(new)
                _check(new, target)
    except sqlite3.Error as error:
        raise BackupError(f"Copying {source} to {target} failed: {error}.") from error


def _check(database: sqlite3.Connection, file: Path) -> None:
    verdict = database.execute("PRAGMA integrity_check").fetchone()[0]
    if verdict != "ok":
        raise BackupError(f"{file} is damaged: {verdict}.")
    if database.execute("SELECT count(*) FROM service").fetchone()[0] != 1:
        raise BackupError(f"{file} is not a database of this service.")


def main() -> int:
    """Run one command: 0 done, 1 failed."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("command", choices=("backup", "restore"))
    parser.add_argument("source", type=Path)
    parser.add_argument("target", type=Path)
    given = parser.parse_args()
    try:
        {"backup": back_up, "restore": restore}[given.command](given.source, given.target)
    except (BackupError, OSError, sqlite3.Error) as error:
        print(error, file=sys.stderr)
        return 1
    print(f"{given.command}: {given.target} is complete and checked.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
