"""What can go wrong under the tables, told apart so that a person hears a remedy."""

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, OperationalError
from sqlalchemy.exc import TimeoutError as NoConnectionError

FULL = ("disk is full", "disk full", "no space left", "disk i/o error")
BUSY = ("database is locked", "database is busy", "too many clients already", "remaining connection slots")
BUSY_STATES = ("55P03", "40P01", "40001", "53300")
"""PostgreSQL: lock not available, deadlock, serialization failure, too many connections."""
FULL_STATES = ("53100", "58030")
"""PostgreSQL: disk full, input or output error."""
GONE_STATES = ("08", "57P01", "57P02", "57P03", "25P03")
"""PostgreSQL: connection lost, shut down, crashed, still starting, ended because it was silent."""


class StoreError(Exception):
    """The store failed; nothing of the unit of work was kept."""


class StoreBusyError(StoreError):
    """Somebody else kept writing for longer than the time allowed. Sending again later is safe."""


class StoreGoneError(StoreError):
    """The database server does not answer. Whether a commit that was under way is kept is not known; sending again
    is safe, for a change counts once."""


class StoreFullError(StoreError):
    """The disk took no more. Nothing was stored; make room and send again."""


class StoreFailedError(StoreError):
    """Any other failure of the database."""


@contextmanager
def told_apart() -> Iterator[None]:
    """Turns the database's own errors into ours. What is not about the database passes through untouched."""
    try:
        yield
    except NoConnectionError as error:
        raise StoreBusyError(
            "Every connection to the database was in use. Nothing was stored; send again."
        ) from error
    except DBAPIError as error:
        raise fault_from(error) from error


def fault_from(error: DBAPIError) -> StoreError:
    """Our error for the database's."""
    said, state = _said_by(error), getattr(error.orig, "sqlstate", None) or ""
    if state in BUSY_STATES or (isinstance(error, OperationalError) and any(words in said for words in BUSY)):
        return StoreBusyError(f"The database stayed busy ({said}). Nothing was stored; send again.")
    if state in FULL_STATES or any(words in said for words in FULL):
        return StoreFullError(f"The database could not write ({said}). Nothing was stored; make room on the disk.")
    if _is_gone(error, state):
        return StoreGoneError(
            f"The database cannot be reached ({said}). Is its server running, and is EVENBED_DATABASE right?"
        )
    return StoreFailedError(f"The database failed ({said}). Nothing was stored.")


def _said_by(error: DBAPIError) -> str:
    """The message alone: PostgreSQL adds details that quote what is kept."""
    primary = getattr(getattr(error.orig, "diag", None), "message_primary", None)
    return " ".join(str(primary or error.orig).lower().split())


def _is_gone(error: DBAPIError, state: str) -> bool:
    """A driver that has no state to tell was not talking to a server; SQLite has no server and no states."""
    speaks_to_server = hasattr(error.orig, "sqlstate")
    return state.startswith(GONE_STATES) or (speaks_to_server and not state and isinstance(error, OperationalError))
