"""A fresh service for every test."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.clients import Client, service


@pytest.fixture
def client(tmp_path: Path) -> Iterator[Client]:
    """A client that has not joined."""
    with service(tmp_path) as fresh:
        yield fresh


@pytest.fixture
def phone(client: Client) -> Client:
    """A client that has joined."""
    return client.joined()
