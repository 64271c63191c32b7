"""The one row that says which database this is, and which join code opens it."""

from datetime import datetime
from uuid import uuid4

from sqlmodel import Session, select

from evenbed.store.tables import ServiceRow
from evenbed.store.times import text_from_moment


class Founding:
    """The service's own row inside one session."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def is_done(self) -> bool:
        """True once the row is there."""
        return self._session.exec(select(ServiceRow.id)).first() is not None

    def found(self, code_hash: str, at: datetime) -> None:
        """Give an empty database its random identity and its first join code."""
        made_at = text_from_moment(at)
        self._session.add(ServiceRow(identity=str(uuid4()), join_code_hash=code_hash, join_code_made_at=made_at))
        self._session.flush()

    def identity(self) -> str:
        """The random identity. Where a device knows another one, the database was restored or replaced."""
        return self._session.exec(select(ServiceRow.identity)).one()

    def join_code_hash(self) -> str:
        """The hash of the code that is valid now."""
        return self._session.exec(select(ServiceRow.join_code_hash)).one()

    def save_join_code(self, code_hash: str, at: datetime) -> None:
        """Put a fresh code in place of the one before."""
        row = self._session.exec(select(ServiceRow).with_for_update()).one()
        row.join_code_hash, row.join_code_made_at = code_hash, text_from_moment(at)
        self._session.flush()
