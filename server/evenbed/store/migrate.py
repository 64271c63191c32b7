"""Bringing a database to the shape this version needs: all steps in one transaction, or none."""

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from alembic.util import CommandError
from sqlalchemy import Connection

from evenbed.store.database import PRAGMAS, for_writing, is_sqlite, open_engine, url_from_text
from evenbed.store.faults import StoreError, told_apart
from evenbed.store.rebuild import is_covered, make_again

MIGRATIONS = Path(__file__).resolve().parents[3] / "migrations"
WHILE_REBUILDING = (*PRAGMAS[:2], "foreign_keys=OFF")
"""SQLite alters a table by building another in its place; with foreign keys on, dropping the old one would hurt."""


class MigrationError(StoreError):
    """The database cannot be brought to this version's shape; it was left as it was."""


def migrate(url: str, busy_timeout_s: float = 30.0) -> None:
    """Run every step that is missing; an empty or absent SQLite file gets all of them. Raises StoreError.

    Where the steps emptied the records, these are made again from the log in the same transaction.
    """
    if is_sqlite(url):
        _make_folder(url_from_text(url).database or "")
    engine = open_engine(url, busy_timeout_s, WHILE_REBUILDING)
    try:
        with told_apart(), for_writing(engine).begin() as connection:
            _upgrade(connection)
    finally:
        engine.dispose()


def check_shape(connection: Connection) -> None:
    """Raises MigrationError where the database has another shape than this version's."""
    has = _revision(connection)
    needs = ScriptDirectory.from_config(config_for(connection)).get_current_head()
    if has != needs:
        raise MigrationError(f"The database's shape is {has}, this version's is {needs}. Use the version it serves.")


def _revision(connection: Connection) -> str | None:
    return MigrationContext.configure(connection).get_current_revision()


def config_for(connection: Connection) -> Config:
    """What alembic needs to work on an open connection."""
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.attributes["connection"] = connection
    return config


def _upgrade(connection: Connection) -> None:
    before = _revision(connection)
    try:
        command.upgrade(config_for(connection), "head")
    except CommandError as error:
        raise MigrationError(f"The database was made by a newer version of Evenbed ({error}).") from error
    if _revision(connection) != before and not is_covered(connection):
        make_again(connection)
    if connection.dialect.name == "sqlite":
        _check_references(connection)


def _check_references(connection: Connection) -> None:
    dangling = connection.exec_driver_sql("PRAGMA foreign_key_check").first()
    if dangling is not None:
        raise MigrationError(f"The table {dangling[0]} would point to rows that are not there.")


def _make_folder(file: str) -> None:
    if not file or file == ":memory:" or file.startswith("file:"):  # a URI has made its own arrangements
        return
    try:
        Path(file).parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise MigrationError(
            f"There is no folder {error.filename}, and none can be made ({error.strerror})."
        ) from error
