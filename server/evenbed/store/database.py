"""Opening a database: SQLite set so that what is committed is on the disk, and PostgreSQL by the same constructs."""

from typing import Any

from sqlalchemy import URL, Connection, Engine, create_engine, event
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError, NoSuchModuleError

from evenbed.store.faults import StoreError

PRAGMAS = ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON")


class DatabaseUrlError(StoreError):
    """The database URL names nothing that can be opened."""


def url_from_text(url: str) -> URL:
    """The URL in its parts. Raises DatabaseUrlError, without the text: a password may stand in it."""
    try:
        return make_url(url)
    except ArgumentError:
        raise DatabaseUrlError("The database URL cannot be read. Write it like sqlite:///data/evenbed.db.") from None


def is_sqlite(url: str) -> bool:
    """True where the URL names a SQLite file."""
    return url_from_text(url).get_backend_name() == "sqlite"


def shown_url(url: str) -> str:
    """The URL as it may be printed: without its password."""
    return url_from_text(url).render_as_string(hide_password=True)


def open_engine(url: str, busy_timeout_s: float, pragmas: tuple[str, ...] = PRAGMAS) -> Engine:
    """An engine for the URL. Nothing is opened yet. Raises DatabaseUrlError."""
    if not is_sqlite(url):
        return _served_engine(url)
    engine = create_engine(url, connect_args={"timeout": busy_timeout_s, "check_same_thread": False})
    event.listen(engine, "connect", _preparing(pragmas))
    event.listen(engine, "begin", _begin)
    event.listen(engine, "checkin", _give_up_unfinished)
    return engine


def _served_engine(url: str) -> Engine:
    """An engine for a database that a server keeps."""
    try:
        return create_engine(url, pool_pre_ping=True)
    except (NoSuchModuleError, ModuleNotFoundError) as error:
        raise DatabaseUrlError(f"{shown_url(url)} needs a driver that is not installed ({error}).") from error


def for_writing(engine: Engine) -> Engine:
    """The same engine, its transactions begun for writing.

    Under SQLite a read that turns into a write fails at once, whatever the busy timeout; it must start as a write.
    """
    return engine.execution_options(writes=True)


def _preparing(pragmas: tuple[str, ...]) -> Any:
    def prepare(connection: Any, _record: object) -> None:
        """Leave transactions to us (the driver would begin them late), and set what SQLite leaves off."""
        connection.isolation_level = None
        for pragma in pragmas:
            connection.execute(f"PRAGMA {pragma}").close()

    return prepare


def _begin(connection: Connection) -> None:
    writes = connection.get_execution_options().get("writes", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def _give_up_unfinished(connection: Any, _record: object) -> None:
    """After a commit that failed the transaction is still open and would keep every other writer out for good."""
    if connection is not None and connection.in_transaction:
        connection.rollback()
