"""A fresh service for every test, over either kind of database."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.clients import Client, service
from tests.databases import Database

from evenbed.access.codes import WORK


@pytest.fixture
def client(tmp_path: Path, database: Database) -> Iterator[Client]:
    """A client that has not joined."""
    with service(tmp_path, database) as fresh:
        yield fresh


@pytest.fixture
def cheap_codes(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:  # noqa: ARG001 (founded at full cost first)
    """Codes made from now on cost next to nothing, for tests that make and try many and not the first one."""
    monkeypatch.setitem(WORK, "n", 2)


@pytest.fixture
def phone(client: Client) -> Client:
    """A client that has joined."""
    return client.joined()
