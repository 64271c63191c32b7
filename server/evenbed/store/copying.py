"""A whole company from one database into another, table by table, and the proof that nothing was lost on the way.

The tables come from the code's own description of them, so a new one needs nothing here. Values are copied as they
are written: JSON stays the very text it was. Every row read is added to a sum of its table, and so is every row read
back from the copy; the sums are equal only where the rows are, in whatever order they come.
"""

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import JSON, Column, Connection, LargeBinary, MetaData, Row, Table, Text, cast, delete, insert, select
from sqlalchemy.types import TypeEngine, UserDefinedType

from evenbed.store import tables
from evenbed.store.faults import StoreError

ROWS = 500
HEAVY_ROWS = 4
"""Rows in memory at a time; those with photos weigh up to 4 MB each."""
MODULUS = 2**256


class CopyError(StoreError):
    """What was read and what was kept differ; nothing of it was kept."""


@dataclass(frozen=True)
class Sum:
    """How many rows, and the sum of their SHA-256 digests as numbers. Equal sums mean equal rows."""

    rows: int = 0
    digest: int = 0

    def plus(self, rows: Sequence[Row[Any]]) -> "Sum":
        """With these rows too."""
        return Sum(self.rows + len(rows), (self.digest + sum(map(_number, rows))) % MODULUS)


class _AsWritten(UserDefinedType[str]):
    """JSON as the text it is kept as."""

    cache_ok = True

    def get_col_spec(self, **_told: Any) -> str:
        """Its name in every database."""
        return "JSON"

    def column_expression(self, column: Any) -> Any:
        """How it is read."""
        return cast(column, Text)


def copy_rows(source: Connection, target: Connection) -> dict[str, Sum]:
    """Copy every row of every table, parents before children. The sums of what was read, by table."""
    sums = {}
    for table in _plain_tables():
        sums[table.name] = Sum()
        for rows in _batches(source, table):
            target.execute(insert(table), [dict(row._mapping) for row in rows])
            sums[table.name] = sums[table.name].plus(rows)
    return sums


def sums_of(connection: Connection) -> dict[str, Sum]:
    """The sum of every table."""
    return {table.name: _sum_of(connection, table) for table in _plain_tables()}


def check_equal(read: dict[str, Sum], kept: dict[str, Sum]) -> None:
    """Raises CopyError where a table differs."""
    for name, told in read.items():
        if kept[name] != told:
            raise CopyError(f"{told.rows} rows of {name} were read, {kept[name].rows} are kept, and they differ.")


def filled_tables(connection: Connection) -> list[str]:
    """The names of the tables that have any row; none in a database that nobody has used."""
    first = {table.name: connection.execute(select(table).limit(1)).first() for table in _plain_tables()}
    return [name for name, row in first.items() if row is not None]


def clear(connection: Connection) -> None:
    """Take every row out of every table, children before parents. Others see them until the commit."""
    for table in reversed(_plain_tables()):
        connection.execute(delete(table))


def _sum_of(connection: Connection, table: Table) -> Sum:
    total = Sum()
    for rows in _batches(connection, table):
        total = total.plus(rows)
    return total


def _batches(connection: Connection, table: Table) -> Iterator[Sequence[Row[Any]]]:
    heavy = any(isinstance(column.type, LargeBinary) for column in table.columns)
    streamed = select(table).execution_options(yield_per=HEAVY_ROWS if heavy else ROWS)
    return connection.execute(streamed).partitions()


def _plain_tables() -> list[Table]:
    known, plain = tables.Table.metadata.sorted_tables, MetaData()
    return [Table(table.name, plain, *(Column(c.name, _plain(c.type)) for c in table.columns)) for table in known]


def _plain(kind: TypeEngine[Any]) -> TypeEngine[Any]:
    return _AsWritten() if isinstance(kind, JSON) else kind


def _number(row: Row[Any]) -> int:
    return int.from_bytes(hashlib.sha256(b"".join(map(_written, row))).digest())


def _written(value: Any) -> bytes:
    """Kind, length and content, so that no two rows are written alike."""
    content = value if isinstance(value, bytes) else repr(value).encode()
    return f"{type(value).__name__} {len(content)} ".encode() + content
