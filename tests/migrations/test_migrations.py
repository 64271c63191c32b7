"""The steps lead from nothing to exactly the tables the code knows."""

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Connection, inspect
from tests.databases import Databases
from tests.share import share_of

from evenbed.store.database import for_writing, open_engine
from evenbed.store.migrate import WHILE_REBUILDING, MigrationError, config_for, migrate
from evenbed.store.tables import Table

PATIENCE_S = 120.0
AT_ONCE = 1 + share_of(3)


@pytest.fixture
def url(databases: Databases, tmp_path: Path) -> Iterator[str]:
    """A database without tables; a SQLite file is not there yet, in a folder that is not there either."""
    with databases.empty(tmp_path / "new folder") as empty:
        yield empty


@pytest.fixture
def connection(url: str) -> Iterator[Connection]:
    """A connection to the migrated database."""
    migrate(url)
    engine = open_engine(url, 1.0, WHILE_REBUILDING)
    with for_writing(engine).connect() as connected:
        yield connected
    engine.dispose()


def test_from_nothing_the_steps_make_the_tables_the_code_knows(connection: Connection) -> None:
    context = MigrationContext.configure(connection, opts={"compare_type": True, "compare_server_default": True})
    assert compare_metadata(context, Table.metadata) == []
    assert set(inspect(connection).get_table_names()) == set(Table.metadata.tables) | {"alembic_version"}


def test_every_constraint_has_a_name_that_a_later_step_can_find(connection: Connection) -> None:
    inspector = inspect(connection)
    for table in Table.metadata.tables:
        named = [
            *inspector.get_unique_constraints(table),
            *inspector.get_foreign_keys(table),
            *inspector.get_indexes(table),
        ]
        assert all(one["name"] for one in named), table
        assert inspector.get_pk_constraint(table)["name"] == f"pk_{table}"


def test_a_second_run_changes_nothing(url: str, connection: Connection) -> None:
    before = shape_of(connection)
    connection.rollback()
    migrate(url)
    assert shape_of(connection) == before


SHAPES = {
    "sqlite": "SELECT sql FROM sqlite_master ORDER BY name",
    "postgresql": """
        SELECT concat_ws(' ', table_name, column_name, data_type, is_nullable) FROM information_schema.columns
        WHERE table_schema = 'public' UNION ALL SELECT indexdef FROM pg_indexes WHERE schemaname = 'public' ORDER BY 1
    """,
}


def shape_of(connection: Connection) -> list[str | None]:
    """Every table and index in the database's own words."""
    return list(connection.exec_driver_sql(SHAPES[connection.dialect.name]).scalars())


def test_commands_that_start_at_once_on_a_new_database_make_and_fill_it_once(url: str) -> None:
    """Each makes the tables where there are none, founds the company where there is none, and adds the demo job."""
    demo = [sys.executable, "-m", "evenbed", "demo", "--database", url]
    running = [
        subprocess.Popen(demo, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) for _ in range(AT_ONCE)
    ]
    told = [process.communicate(timeout=PATIENCE_S) for process in running]
    assert [process.returncode for process in running] == [0] * AT_ONCE, told
    assert sorted("here already" in said for said, _ in told) == [False] + [True] * (AT_ONCE - 1)
    assert sum("for one foreman's device" in said for said, _ in told) == 1


def test_a_database_with_people_is_not_led_back_to_where_everybody_saw_everything(connection: Connection) -> None:
    with pytest.raises(NotImplementedError, match="restore a backup"):
        command.downgrade(config_for(connection), "base")
    assert set(Table.metadata.tables) <= set(inspect(connection).get_table_names())


def test_a_database_of_a_newer_version_is_left_alone(url: str, connection: Connection) -> None:
    connection.exec_driver_sql("UPDATE alembic_version SET version_num = '9999'")
    connection.commit()
    with pytest.raises(MigrationError, match="newer version"):
        migrate(url)
