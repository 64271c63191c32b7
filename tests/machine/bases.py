"""Databases for the machine: a company with its people, made once and then copied for each run."""

import shutil
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from evenbed.access.codes import hash_of_token
from evenbed.store.devices import Device
from evenbed.store.work import Store
from evenbed.wire.exchange import Role
from tests.phones import uuid_text
from tests.postgres.cluster import Cluster
from tests.stores import START, found_database, url_of

OFFICE_TOKEN = "token of the office's own program"  # noqa: S105 (of a test)


@dataclass(frozen=True)
class Worker:
    """Somebody of the company, and the role they begin with."""

    id: str
    name: str
    role: Role


OFFICE = Worker(uuid_text(900), "Office", "foreman")
CREW = (
    Worker(uuid_text(901), "Ana", "foreman"),
    Worker(uuid_text(902), "Ben", "setter"),
    Worker(uuid_text(903), "Cal", "setter"),
)


class Bases(Protocol):
    """Makes databases in which the company has been founded."""

    def fresh(self) -> str:
        """The URL of a new one."""

    def drop(self, url: str) -> None:
        """Take it away."""


class SqliteBases(Bases):
    """Each is a file in the folder."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._template = folder / "company.db"
        self._made = 0
        _found(url_of(self._template))

    def fresh(self) -> str:
        """A copy of one file."""
        self._made += 1
        return url_of(Path(shutil.copy(self._template, self._folder / f"{self._made}.db")))

    def drop(self, url: str) -> None:
        """The file and what lies beside it."""
        file = Path(url.removeprefix("sqlite:///"))
        for beside in file.parent.glob(f"{file.name}*"):
            beside.unlink()


class PostgresBases(Bases):
    """Each is a database of the server."""

    def __init__(self, cluster: Cluster) -> None:
        self._cluster = cluster
        self._template = cluster.create()
        _found(self._template)

    def fresh(self) -> str:
        """A copy of the first one."""
        return self._cluster.create(self._template)

    def drop(self, url: str) -> None:
        """Whoever is still connected to it."""
        self._cluster.drop(url)


def _found(url: str) -> None:
    found_database(url)
    with closing(Store(url)) as store, store.writing() as work:
        people = {one: work.people.add(one.id, one.name, one.role) for one in (OFFICE, *CREW)}
        office = Device(uuid_text(950), "office", people[OFFICE], START)
        work.devices.save(office, hash_of_token(OFFICE_TOKEN))
        work.commit()
