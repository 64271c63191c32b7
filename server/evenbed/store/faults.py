"""What can go wrong under the tables, told apart so that a person hears a remedy."""

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, OperationalError

FULL = ("disk is full", "disk full", "no space left", "disk i/o error")
BUSY = ("database is locked", "database is busy", "could not obtain lock", "deadlock detected")


class StoreError(Exception):
    """The store failed; nothing of the unit of work was kept."""


class StoreBusyError(StoreError):
    """Somebody else kept writing for longer than the time allowed. Sending again later is safe."""


class StoreFullError(StoreError):
    """The disk took no more. Nothing was stored; make room and send again."""


class StoreFailedError(StoreError):
    """Any other failure of the database."""


@contextmanager
def told_apart() -> Iterator[None]:
    """Turns the database's own errors into ours. What is not about the database passes through untouched."""
    try:
        yield
    except DBAPIError as error:
        raise fault_from(error) from error


def fault_from(error: DBAPIError) -> StoreError:
    """Our error for the database's."""
    said = str(error.orig).lower()
    if isinstance(error, OperationalError) and any(words in said for words in BUSY):
        return StoreBusyError(f"The database stayed busy ({said}). Nothing was stored; send again.")
    if any(words in said for words in FULL):
        return StoreFullError(f"The database could not write ({said}). Nothing was stored; make room on the disk.")
    return StoreFailedError(f"The database failed ({said}). Nothing was stored.")
