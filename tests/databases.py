"""Fresh databases of both kinds: made and founded once, then copied. Promises that hold on one must hold on both."""

from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from tests.postgres.cluster import Cluster
from tests.stores import found_database, fresh_file, url_of

KINDS = ("sqlite", "postgresql")


@dataclass(frozen=True)
class Database:
    """A database ready for use, and the join code that was printed when it was founded."""

    url: str
    code: str


class Databases(Protocol):
    """Makes fresh databases of one kind."""

    def fresh(self, folder: Path) -> AbstractContextManager[Database]:
        """A migrated and founded one. What it keeps in files is in the folder."""

    def empty(self, folder: Path) -> AbstractContextManager[str]:
        """The URL of one without any tables."""


def sqlite_database(folder: Path) -> Database:
    """A fresh one in a file of the folder."""
    file, code = fresh_file(folder)
    return Database(url_of(file), code)


class SqliteFiles(Databases):
    """Each database is a file of its own in the folder."""

    @contextmanager
    def fresh(self, folder: Path) -> Iterator[Database]:
        """A copy of one file."""
        yield sqlite_database(folder)

    @contextmanager
    def empty(self, folder: Path) -> Iterator[str]:
        """A file that is not there yet."""
        yield url_of(folder / "empty.db")


class PostgresDatabases(Databases):
    """Databases of one server."""

    def __init__(self, cluster: Cluster) -> None:
        self._cluster = cluster
        self._template: Database | None = None

    @contextmanager
    def fresh(self, folder: Path) -> Iterator[Database]:  # noqa: ARG002 (it keeps its files itself)
        """A copy of the first one."""
        if self._template is None:
            url = self._cluster.create()
            self._template = Database(url, found_database(url))
        with self._created(self._template.url) as url:
            yield Database(url, self._template.code)

    @contextmanager
    def empty(self, folder: Path) -> Iterator[str]:  # noqa: ARG002 (it keeps its files itself)
        """A new database."""
        with self._created(None) as url:
            yield url

    @contextmanager
    def _created(self, template: str | None) -> Iterator[str]:
        url = self._cluster.create(template)
        try:
            yield url
        finally:
            self._cluster.drop(url)
