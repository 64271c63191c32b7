"""Fresh databases for tests: migrated once, then copied."""

import shutil
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from tempfile import mkdtemp
from uuid import NAMESPACE_OID, uuid5

from evenbed.access.codes import hash_of_token
from evenbed.access.joining import found
from evenbed.store.devices import Device
from evenbed.store.migrate import migrate
from evenbed.store.people import Person
from evenbed.store.work import Store
from evenbed.sync.model import Author
from evenbed.wire.exchange import Role

START = datetime(2026, 5, 4, 13, 0, tzinfo=UTC)


@cache
def template() -> tuple[Path, str]:
    """A migrated and founded database file, and its join code."""
    file = Path(mkdtemp(prefix="evenbed-test-")) / "template.db"
    return file, found_database(url_of(file))


def found_database(url: str) -> str:
    """Bring a new database into use; its join code."""
    migrate(url)
    with closing(Store(url)) as store:
        code = found(store, datetime.now(UTC))
    assert code is not None
    return code


def url_of(file: Path) -> str:
    """The database URL of a file."""
    return f"sqlite:///{file}"


def fresh_file(folder: Path) -> tuple[Path, str]:
    """A new database file in the folder, ready for use, and its join code."""
    source, code = template()
    return Path(shutil.copy(source, folder / "evenbed.db")), code


@contextmanager
def fresh_store(folder: Path) -> Iterator[Store]:
    """A store over a new database file."""
    with closing(Store(url_of(fresh_file(folder)[0]))) as store:
        yield store


def author_of(device_id: str, person: str = "Ana") -> Author:
    """Who writes on that device; a person has the same id on all of theirs."""
    return Author(device_id, str(uuid5(NAMESPACE_OID, person)), person)


FOREMAN = Person(str(uuid5(NAMESPACE_OID, "Ana")), "Ana", "foreman", 1)
"""Sees everything."""


def join_device(
    store: Store, device_id: str, name: str = "phone", person: str = "Ana", role: Role = "foreman"
) -> tuple[Person, str]:
    """Take a device in without asking for a code; its person, and its token."""
    token, person_id = f"token of {device_id}", author_of(device_id, person).person_id
    with store.writing() as work:
        joined = work.people.with_id(person_id) or work.people.add(person_id, person, role)
        work.devices.save(Device(device_id, name, joined, START), hash_of_token(token))
        work.commit()
    return joined, token
