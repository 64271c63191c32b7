"""The steps lead from nothing to exactly the tables the code knows."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Connection, inspect
from tests.stores import url_of

from evenbed.store.database import for_writing, open_engine
from evenbed.store.migrate import WHILE_REBUILDING, MigrationError, config_for, migrate
from evenbed.store.tables import Table


@pytest.fixture
def url(tmp_path: Path) -> str:
    """A database that is not there yet, in a folder that is not there either."""
    return url_of(tmp_path / "new folder" / "evenbed.db")


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
    before = list(connection.exec_driver_sql("SELECT sql FROM sqlite_master ORDER BY name"))
    connection.rollback()
    migrate(url)
    assert list(connection.exec_driver_sql("SELECT sql FROM sqlite_master ORDER BY name")) == before


def test_a_database_with_people_is_not_led_back_to_where_everybody_saw_everything(connection: Connection) -> None:
    with pytest.raises(NotImplementedError, match="restore a backup"):
        command.downgrade(config_for(connection), "base")
    assert set(Table.metadata.tables) <= set(inspect(connection).get_table_names())


def test_a_database_of_a_newer_version_is_left_alone(url: str, connection: Connection) -> None:
    connection.exec_driver_sql("UPDATE alembic_version SET version_num = '9999'")
    connection.commit()
    with pytest.raises(MigrationError, match="newer version"):
        migrate(url)
