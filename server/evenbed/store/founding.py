"""The one row that says which database this is."""

from uuid import uuid4

from sqlmodel import Session, select

from evenbed.store.tables import ServiceRow


class Founding:
    """The service's own row inside one session."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def is_done(self) -> bool:
        """True once the row is there."""
        return self._session.exec(select(ServiceRow.id)).first() is not None

    def found(self) -> None:
        """Give an empty database its random identity."""
        self._session.add(ServiceRow(identity=str(uuid4())))
        self._session.flush()

    def identity(self) -> str:
        """The random identity. Where a device knows another one, the database was restored or replaced."""
        return self._session.exec(select(ServiceRow.identity)).one()
