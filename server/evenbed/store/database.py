"""Opening a database: SQLite set so that what is committed is on the disk, and PostgreSQL by the same constructs."""

from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import make_url

PRAGMAS = ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON")


def is_sqlite(url: str) -> bool:
    """True where the URL names a SQLite file."""
    return make_url(url).get_backend_name() == "sqlite"


def shown_url(url: str) -> str:
    """The URL as it may be printed: without its password."""
    return make_url(url).render_as_string(hide_password=True)


def open_engine(url: str, busy_timeout_s: float, pragmas: tuple[str, ...] = PRAGMAS) -> Engine:
    """An engine for the URL. Nothing is opened yet."""
    if not is_sqlite(url):
        return create_engine(url, pool_pre_ping=True)
    engine = create_engine(url, connect_args={"timeout": busy_timeout_s, "check_same_thread": False})
    event.listen(engine, "connect", _preparing(pragmas))
    event.listen(engine, "begin", _begin)
    event.listen(engine, "checkin", _give_up_unfinished)
    return engine


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
