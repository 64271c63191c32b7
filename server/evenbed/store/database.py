"""Opening a database: SQLite set so that what is committed is on the disk, or PostgreSQL, by the same constructs."""

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

from pydantic_core import PydanticSerializationError, to_json
from sqlalchemy import URL, Connection, Engine, create_engine, event
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError

from evenbed.store.faults import StoreError, told_apart

PRAGMAS = ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON")
POSTGRESQL = "postgresql"
DRIVER = "postgresql+psycopg"
CONNECTIONS, MORE_CONNECTIONS = 5, 10
"""A process keeps so many open and takes so many more when busy: a PostgreSQL as it comes serves six of them."""
SILENCE_S = 60
"""A writer whose machine has gone keeps all others out; PostgreSQL ends a transaction that is silent for so long."""
CONNECT_S = 10
WRITERS = int.from_bytes(b"Evenbed")
"""The number of the lock that every writer takes first. Any would do, as long as it is always the same one."""


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
        return _served_engine(url, busy_timeout_s)
    engine = create_engine(
        url, json_serializer=_json_text, connect_args={"timeout": busy_timeout_s, "check_same_thread": False}
    )
    event.listen(engine, "connect", _preparing(pragmas))
    event.listen(engine, "begin", _begin)
    event.listen(engine, "checkin", _give_up_unfinished)
    return engine


def _json_text(value: Any) -> str:
    """A value as JSON, in a fifth of the standard library's time; that one can write what is nested without end."""
    try:
        return to_json(value).decode()
    except PydanticSerializationError:
        return json.dumps(value)


def for_writing(engine: Engine) -> Engine:
    """The same engine, its transactions begun for writing, one at a time among all processes.

    Under SQLite a read that turns into a write fails at once, whatever the busy timeout; it must start as a write.
    Under PostgreSQL a writer must see what the one before it committed, so it may not hold on to an older picture.
    """
    if engine.dialect.name == POSTGRESQL:
        return engine.execution_options(writes=True, isolation_level="READ COMMITTED")
    return engine.execution_options(writes=True)


def for_reading(engine: Engine) -> Engine:
    """The same engine, each of its transactions one unchanging picture. SQLite knows no other kind."""
    if engine.dialect.name == POSTGRESQL:
        return engine.execution_options(isolation_level="REPEATABLE READ", postgresql_readonly=True)
    return engine


@contextmanager
def transaction(url: str, busy_timeout_s: float, *, writes: bool) -> Iterator[Connection]:
    """One transaction on a connection of its own; it is undone unless it was committed. Raises StoreError."""
    engine = open_engine(url, busy_timeout_s)
    try:
        with told_apart(), (for_writing if writes else for_reading)(engine).connect() as connection:
            connection.begin()
            yield connection
    finally:
        engine.dispose()


def _served_engine(url: str, busy_timeout_s: float) -> Engine:
    """An engine for a database that PostgreSQL keeps."""
    parts = url_from_text(url)
    if parts.get_backend_name() not in (POSTGRESQL, "postgres"):
        raise DatabaseUrlError(f"{shown_url(url)} is neither SQLite nor PostgreSQL; Evenbed has a driver for these.")
    engine = create_engine(
        parts.set(drivername=DRIVER),
        json_serializer=_json_text,
        pool_pre_ping=True,
        pool_size=CONNECTIONS,
        max_overflow=MORE_CONNECTIONS,
        pool_timeout=max(busy_timeout_s, 1.0),
        connect_args={"connect_timeout": CONNECT_S},
    )
    event.listen(engine, "begin", _beginning_served(busy_timeout_s))
    return engine


def _beginning_served(busy_timeout_s: float) -> Callable[[Connection], None]:
    told = _writers_beginning(busy_timeout_s)

    def begin(connection: Connection) -> None:
        if connection.get_execution_options().get("writes", False):
            connection.exec_driver_sql(told, execution_options={"no_parameters": True})

    return begin


def _writers_beginning(busy_timeout_s: float) -> str:
    """What a writing transaction says first.

    A commit waits for the disk, whatever the server's own setting: only then is a change acknowledged. To PostgreSQL
    a waiting time of 0 would mean for ever, so it is never less than a millisecond.
    """
    return f"""
        SET LOCAL lock_timeout = {max(1, round(busy_timeout_s * 1000))};
        SET LOCAL idle_in_transaction_session_timeout = '{SILENCE_S}s';
        SELECT set_config('synchronous_commit', 'on', true) WHERE current_setting('synchronous_commit') = 'off';
        SELECT pg_advisory_xact_lock({WRITERS})
    """


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
