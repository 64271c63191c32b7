"""A fresh service for every test, over either kind of database."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.clients import Client, service
from tests.databases import Database


@pytest.fixture
def client(tmp_path: Path, database: Database) -> Iterator[Client]:
    """A client that has not joined."""
    with service(tmp_path, database) as fresh:
        yield fresh


@pytest.fixture
def phone(client: Client) -> Client:
    """A client that has joined."""
    return client.joined()
