"""Fresh databases for tests: migrated once, then copied."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from tempfile import mkdtemp

from evenbed.access.codes import hash_of_token
from evenbed.access.joining import found
from evenbed.store.devices import Device
from evenbed.store.migrate import migrate
from evenbed.store.work import Store

START = datetime(2026, 5, 4, 13, 0, tzinfo=UTC)


@cache
def template() -> tuple[Path, str]:
    """A migrated and founded database file, and its join code."""
    file = Path(mkdtemp(prefix="evenbed-test-")) / "template.db"
    migrate(url_of(file))
    store = Store(url_of(file))
    code = found(store, START)
    store.close()
    assert code is not None
    return file, code


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
    store = Store(url_of(fresh_file(folder)[0]))
    try:
        yield store
    finally:
        store.close()


def join_device(store: Store, device_id: str, name: str = "phone", person: str = "Ana") -> str:
    """Take a device in without asking for a code; its token."""
    token = f"token of {device_id}"
    with store.writing() as work:
        work.devices.save(Device(device_id, name, person), hash_of_token(token), START)
        work.commit()
    return token
