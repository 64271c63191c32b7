"""Whatever the tables hold, a copy in the other kind of database holds the same; what differs is noticed."""

from collections.abc import Iterator
from itertools import count
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import JSON, Column, Connection, Integer, LargeBinary, Table, insert, select, update
from tests.databases import PostgresDatabases, SqliteFiles
from tests.share import share_of

from evenbed.store.copying import CopyError, check_equal, clear, copy_rows, sums_of
from evenbed.store.database import transaction
from evenbed.store.tables import PersonRow
from evenbed.store.tables import Table as OurTable

Rows = dict[str, list[dict[str, Any]]]
TABLES = OurTable.metadata.sorted_tables
texts = st.text(st.characters(exclude_characters="\0", exclude_categories=["Cs"]), max_size=8)
figures = st.floats(allow_nan=False, allow_infinity=False) | st.integers()
anything = st.recursive(
    st.none() | st.booleans() | figures | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=3), inner, max_size=3),
    max_leaves=6,
)
kept_as_json = st.lists(anything, max_size=3) | st.dictionaries(st.text(max_size=5), anything, max_size=3)
"""A number alone, which SQLite would keep as a number, stands in no such column."""


def value_of(column: "Column[Any]", number: int) -> st.SearchStrategy[Any]:
    """What may stand in a column of row `number`; where it must be unique, it is."""
    indexes = [index for index in column.table.indexes if index.unique]
    is_unique = column.primary_key or column.unique or any(column.name in index.columns for index in indexes)
    if isinstance(column.type, Integer):  # of either length
        return st.just(number) if is_unique else st.integers(-(2**31), 2**31 - 1)
    if is_unique:
        return texts.map(lambda text: f"{text}{number}")
    plain = kept_as_json if isinstance(column.type, JSON) else texts
    told = st.binary(max_size=20) if isinstance(column.type, LargeBinary) else plain
    return st.none() | told if column.nullable else told


def owner_of(table: Table) -> str | None:
    """The table of which each row has one row here at most, for its key is the whole key here; None for no such."""
    key = set(table.primary_key.columns.keys())
    owners = [one.referred_table.name for one in table.foreign_key_constraints if set(one.columns.keys()) == key]
    return owners[0] if owners else None


def row_of(draw: st.DrawFn, table: Table, number: int, parents: Rows, place: int) -> dict[str, Any]:
    """The `place`-th row of its table; what points elsewhere points to a row there is, or to nothing where it may."""
    row = {column.name: draw(value_of(column, number)) for column in table.columns}
    for key in table.foreign_key_constraints:
        there = parents[key.referred_table.name]
        parent = there[place] if key.referred_table.name == owner_of(table) else draw(st.sampled_from(there))
        is_told = not all(column.nullable for column in key.columns) or draw(st.booleans())
        row |= {one.parent.name: parent[one.column.name] if is_told else None for one in key.elements}
    return row


@st.composite
def companies(draw: st.DrawFn) -> Rows:
    """Rows for every table."""
    rows: Rows = {}
    numbers = count(1)
    for table in TABLES:
        owner = owner_of(table)
        most = 3 if owner is None else len(rows[owner])
        rows[table.name] = [
            row_of(draw, table, next(numbers), rows, place) for place in range(draw(st.integers(1, most)))
        ]
    return rows


@pytest.fixture(scope="module")
def urls(postgres: PostgresDatabases, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, str]]:
    """A database of each kind."""
    folder = tmp_path_factory.mktemp("copying")
    with SqliteFiles().fresh(folder) as file, postgres.fresh(folder) as served:
        yield file.url, served.url


def kept(connection: Connection, table: Table) -> list[str]:
    """The rows as the service reads them."""
    return sorted(repr(tuple(row)) for row in connection.execute(select(table)))


@settings(max_examples=share_of(30), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(rows=companies(), is_turned=st.booleans())
def test_whatever_the_tables_hold_the_copy_holds_the_same(urls: tuple[str, str], rows: Rows, is_turned: bool) -> None:
    source, target = urls[::-1] if is_turned else urls
    with transaction(source, 5.0, writes=True) as old, transaction(target, 5.0, writes=True) as new:
        clear(old)
        clear(new)
        for table in TABLES:
            old.execute(insert(table), rows[table.name])
        read = copy_rows(old, new)
        check_equal(read, sums_of(new))
        assert {name: told.rows for name, told in read.items()} == {name: len(told) for name, told in rows.items()}
        assert all(kept(old, table) == kept(new, table) for table in TABLES)


@pytest.mark.parametrize("change", [{"name": "Bea"}, {"view": 2}, {"role": "viewer"}])
def test_one_value_that_differs_is_noticed(urls: tuple[str, str], change: dict[str, Any]) -> None:
    with transaction(urls[1], 5.0, writes=True) as connection:
        connection.execute(insert(PersonRow).values(id="1", name="Ana", role="foreman", view=1))
        before = sums_of(connection)
        connection.execute(update(PersonRow).values(**change))
        with pytest.raises(CopyError, match="rows of person"):
            check_equal(before, sums_of(connection))


def test_a_value_in_the_wrong_column_is_noticed(urls: tuple[str, str]) -> None:
    with transaction(urls[0], 5.0, writes=True) as connection:
        connection.execute(insert(PersonRow).values(id="1", name="ab", role="c", view=1))
        before = sums_of(connection)
        connection.execute(update(PersonRow).values(name="a", role="bc"))
        assert before["person"] != sums_of(connection)["person"]
