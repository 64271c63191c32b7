"""Backing up and restoring while the service runs. A backup is one SQLite file, whichever database it was made from.

One format has one way back, into either kind of database, and needs no programs beside this one. It is one consistent
picture, and it is checked before it counts. A restored database gets a new random identity: by it phones notice that
they must offer again what they still hold. Devices, roles and tokens taken away since the backup stay taken away.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from uuid import uuid4

from sqlalchemy import Connection, update

from evenbed.store.copying import Sum, check_equal, clear, copy_rows, filled_tables, sums_of
from evenbed.store.database import is_sqlite, transaction, url_from_text
from evenbed.store.faults import StoreError, StoreFailedError
from evenbed.store.migrate import check_shape, migrate
from evenbed.store.tables import ServiceRow
from evenbed.store.taken import keep_taken, rights_in


class BackupError(StoreError):
    """The copy was not made; the message says why."""


def back_up(url: str, file: Path, busy_timeout_s: float) -> None:
    """Copy the database into a file that must not be there yet. Raises StoreError."""
    with _new_file(file) as part:
        if is_sqlite(url):
            _copy_pages(_file_of(url), part, busy_timeout_s)
        else:
            with transaction(url, busy_timeout_s, writes=False) as source:
                _copy_into(source, part)


def restore(file: Path, url: str, replaced: Path, busy_timeout_s: float) -> dict[str, Sum]:
    """Put the backup's content in the place of what the database holds, which is kept in the file `replaced`.

    Everybody sees the old content until all of the new is there. The sums of what is kept now. Raises StoreError.
    """
    if is_sqlite(url) and Path(url_from_text(url).database or "").absolute() == file.absolute():
        raise BackupError(f"{file} is the database itself, not a backup of it.")
    with TemporaryDirectory(prefix="evenbed-restore-") as folder:
        copy = Path(folder) / "copy.db"
        _copy_pages(file, copy, busy_timeout_s)
        migrate(_url_of(copy))
        _prepare(url)
        with (
            transaction(_url_of(copy), busy_timeout_s, writes=False) as source,
            transaction(url, busy_timeout_s, writes=True) as target,
        ):
            return _replace(source, target, replaced)


def _prepare(url: str) -> None:
    """The database in this version's shape; one that is not there yet is made."""
    try:
        migrate(url)
    except StoreFailedError as error:
        raise BackupError(
            f"{error} If its file is damaged, move it away and restore again into a new one."
        ) from error


def _replace(source: Connection, target: Connection, replaced: Path) -> dict[str, Sum]:
    if filled_tables(target):
        with _new_file(replaced) as part:
            _copy_into(target, part)
    before = rights_in(target)
    clear(target)
    read = copy_rows(source, target)
    kept = sums_of(target)
    check_equal(read, kept)
    target.execute(update(ServiceRow).values(identity=str(uuid4())))
    keep_taken(target, before)
    target.commit()
    return kept


@contextmanager
def _new_file(file: Path) -> Iterator[Path]:
    """A file to write to, which gets its name once it is complete and checked."""
    if file.exists():
        raise BackupError(f"{file} is there already; a backup never overwrites another.")
    part = file.with_name(file.name + ".part")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        part.unlink(missing_ok=True)
        yield part
        _check(part, part)
        part.rename(file)
    except (OSError, sqlite3.Error) as error:
        raise BackupError(f"The backup {file} was not made: {error}.") from error
    finally:
        part.unlink(missing_ok=True)


def _copy_pages(source: Path, target: Path, busy_timeout_s: float) -> None:
    """SQLite's own copy of a database that may be in use. The copy is one plain file without helpers beside it."""
    if not source.is_file():
        raise BackupError(f"There is no file {source}.")
    try:
        with (
            closing(
                sqlite3.connect(f"{source.absolute().as_uri()}?mode=ro", uri=True, timeout=busy_timeout_s)
            ) as old,
            closing(sqlite3.connect(target)) as new,
        ):
            old.backup(new)
    except sqlite3.Error as error:
        raise BackupError(f"{source} cannot be copied: {error}.") from error
    _check(target, source)


def _copy_into(source: Connection, file: Path) -> None:
    """Every row into a new SQLite file, and the proof that they are the same."""
    check_shape(source)
    migrate(_url_of(file))
    with transaction(_url_of(file), 1.0, writes=True) as target:
        read = copy_rows(source, target)
        check_equal(read, sums_of(target))
        target.commit()


def _check(file: Path, shown: Path) -> None:
    """Raises BackupError where the file, a copy of the one `shown`, is no whole database of this service."""
    try:
        with closing(sqlite3.connect(file)) as database:
            database.execute("PRAGMA journal_mode=DELETE").close()
            verdict = database.execute("PRAGMA integrity_check").fetchone()[0]
            founded = database.execute("SELECT count(*) FROM service").fetchone()[0]
    except sqlite3.Error as error:
        raise BackupError(f"{shown} is not a database of this service: {error}.") from error
    if verdict != "ok":
        raise BackupError(f"{shown} is damaged: {verdict}.")
    if founded != 1:
        raise BackupError(f"{shown} is a database of this service, but nobody has used it yet.")


def _url_of(file: Path) -> str:
    return f"sqlite:///{file.absolute()}"


def _file_of(url: str) -> Path:
    return Path(url_from_text(url).database or "")
