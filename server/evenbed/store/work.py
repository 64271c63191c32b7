"""The unit of work: what is done through it is kept together or not at all. It rolls back unless told to commit."""

from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock

from sqlalchemy import Engine
from sqlmodel import Session, select

from evenbed.store.archive import Archive
from evenbed.store.calendars import Calendars
from evenbed.store.database import for_reading, for_writing, open_engine
from evenbed.store.dated import Dated
from evenbed.store.devices import Devices
from evenbed.store.faults import told_apart
from evenbed.store.founding import Founding
from evenbed.store.invites import Invites
from evenbed.store.ledger import SqlLedger
from evenbed.store.people import People
from evenbed.store.photos import Photos
from evenbed.store.tables import ServiceRow


class UnitOfWork:
    """One transaction on the tables."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self.devices = Devices(session)
        self.people = People(session)
        self.invites = Invites(session)
        self.calendars = Calendars(session)
        self.dated = Dated(session)
        self.archive = Archive(session)
        self.founding = Founding(session)
        self.photos = Photos(session)

    def ledger(self) -> SqlLedger:
        """The ledger for sync. Its counter row is locked until the end, so that numbers are committed in order."""
        counter = self._session.exec(select(ServiceRow).with_for_update()).one()
        return SqlLedger(self._session, counter)

    def commit(self) -> None:
        """Keep everything: it is on the disk when this returns."""
        self._session.commit()


class Store:
    """A database of the service, from which units of work are made. Errors come out as `StoreError`s."""

    def __init__(self, url: str, busy_timeout_s: float = 5.0) -> None:
        self.engine = open_engine(url, busy_timeout_s)
        self._turn = Lock()

    @contextmanager
    def reading(self) -> Iterator[UnitOfWork]:
        """A unit of work that only reads: one unchanging picture of the database."""
        with told_apart(), _session(for_reading(self.engine)) as session:
            yield UnitOfWork(session)

    @contextmanager
    def writing(self) -> Iterator[UnitOfWork]:
        """A unit of work that writes, alone; it waits for writers of other processes at its first statement.

        Writers of this process take turns: the database's own waiting is not fair, and one of several busy writers
        could wait past its patience. A unit of work is never opened inside another that writes.
        """
        with self._turn, told_apart(), _session(for_writing(self.engine)) as session:
            yield UnitOfWork(session)

    def close(self) -> None:
        """Let go of every connection."""
        self.engine.dispose()


def _session(engine: Engine) -> Session:
    return Session(engine, expire_on_commit=False)
