"""Runs the steps: on a connection that was handed over, or on the database that the settings name."""

import os
from typing import Any, Literal

from alembic import context
from alembic.autogenerate.api import AutogenContext
from sqlalchemy import Connection
from sqlmodel import AutoString

from evenbed.settings import settings_from
from evenbed.store.database import for_writing, open_engine
from evenbed.store.migrate import WHILE_REBUILDING
from evenbed.store.tables import Table


def run(connection: Connection) -> None:
    """Every step that is missing. Batch mode: SQLite can alter little in place."""
    context.configure(
        connection=connection,
        target_metadata=Table.metadata,
        render_as_batch=True,
        compare_type=True,
        render_item=plainly,
    )
    with context.begin_transaction():
        context.run_migrations()


def plainly(kind: str, item: Any, _context: AutogenContext) -> str | Literal[False]:
    """How a fresh step writes a text column: as the database's own type, not as a library's."""
    return "sa.String()" if kind == "type" and isinstance(item, AutoString) else False


def run_on_settings() -> None:
    """For `alembic` at a developer's command line."""
    settings = settings_from(os.environ)
    engine = open_engine(settings.database_url, settings.busy_timeout_s, WHILE_REBUILDING)
    with for_writing(engine).begin() as connection:
        run(connection)
    engine.dispose()


handed_over = context.config.attributes.get("connection")
if handed_over is None:
    run_on_settings()
else:
    run(handed_over)
