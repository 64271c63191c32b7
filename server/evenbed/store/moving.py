"""From a SQLite file into an empty PostgreSQL database: for a company that outgrows one machine.

The target gets all or nothing; where it got nothing the file still has everything, and can be moved again.

The file takes no more writes afterwards. Were it still written to, by a service that nobody stopped, what it
acknowledged would be in no database that anybody looks at; refused, it stays on the phones until they reach the new
one.
"""

from pathlib import Path

from sqlalchemy import Connection
from sqlmodel import Session

from evenbed.store.archive import Archive
from evenbed.store.copying import Sum, check_equal, copy_rows, filled_tables, sums_of
from evenbed.store.database import is_sqlite, shown_url, transaction, url_from_text
from evenbed.store.faults import StoreError
from evenbed.store.migrate import migrate
from evenbed.store.tables import Table
from evenbed.sync.proof import differences

WRITES = ("INSERT", "UPDATE", "DELETE")


class MoveError(StoreError):
    """Nothing was moved; the file still has everything."""


def move(source: str, target: str, busy_timeout_s: float) -> dict[str, Sum]:
    """Move the company. Rows and sums of every table, read back from the target. Raises StoreError."""
    _check_ends(source, target)
    migrate(source)
    migrate(target)
    with (
        transaction(source, busy_timeout_s, writes=True) as old,
        transaction(target, busy_timeout_s, writes=True) as new,
    ):
        _check_contents(filled_tables(old), filled_tables(new), shown_url(target))
        kept = _moved(old, new)
        _retire(old)
        old.commit()  # first: a stop between the two leaves a file without writes and an empty target, to move again
        new.commit()
    return kept


def _check_ends(source: str, target: str) -> None:
    if not is_sqlite(source):
        raise MoveError(f"The database to move must be a SQLite file; {shown_url(source)} is none.")
    if is_sqlite(target):
        raise MoveError("The database to move to must be PostgreSQL, like postgresql://user@host/evenbed.")
    file = url_from_text(source).database or ""
    if not file.startswith("file:") and not Path(file).is_file():
        raise MoveError(f"There is no database file {file}.")


def _check_contents(old: list[str], new: list[str], shown: str) -> None:
    if not old:
        raise MoveError("The database to move holds no company yet.")
    if new:
        raise MoveError(f"{shown} already holds a company ({', '.join(new)}). Move into an empty database.")


def _moved(old: Connection, new: Connection) -> dict[str, Sum]:
    """The copy, read back, equal to what was read, and by its own log whole."""
    read, kept = copy_rows(old, new), sums_of(new)
    check_equal(read, kept)
    with Session(new) as session:
        archive = Archive(session)
        _count, wrong = differences(archive.log(), archive.records(), archive.assignments())
    if wrong:
        raise MoveError(f"{len(wrong)} things differ from the log; `evenbed verify` lists them. Nothing was moved.")
    return kept


def _retire(connection: Connection) -> None:
    """From now on the file takes no more writes."""
    for table in Table.metadata.tables:
        for write in WRITES:
            connection.exec_driver_sql(
                f"CREATE TRIGGER IF NOT EXISTS moved_{table}_{write.lower()} BEFORE {write} ON {table} "
                "BEGIN SELECT RAISE(ABORT, 'this database has moved; start with the new EVENBED_DATABASE'); END"
            )
