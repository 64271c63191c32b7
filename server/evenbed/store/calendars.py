"""Secret addresses of dates; of the secret only its hash is kept."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import Session, select

from evenbed.store.tables import CalendarRow
from evenbed.store.times import moment_from_text, text_from_moment


@dataclass(frozen=True)
class CalendarAddress:
    """One person's, made on one of their devices."""

    person_id: str
    made_by: str
    made_at: datetime


class Calendars:
    """Addresses inside one session."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def save(self, address: CalendarAddress, secret_hash: str) -> None:
        """Keep it; one that the person had before is worth nothing from now on."""
        row = CalendarRow(
            person_id=address.person_id,
            secret_hash=secret_hash,
            made_by=address.made_by,
            made_at=text_from_moment(address.made_at),
        )
        self._session.merge(row)
        self._session.flush()

    def of(self, person_id: str) -> CalendarAddress | None:
        """The person's address, if they have one."""
        row = self._session.get(CalendarRow, person_id)
        return _address_from(row) if row else None

    def with_hash(self, secret_hash: str) -> CalendarAddress | None:
        """The one whose secret has this hash."""
        row = self._session.exec(select(CalendarRow).where(CalendarRow.secret_hash == secret_hash)).first()
        return _address_from(row) if row else None

    def remove(self, person_id: str) -> None:
        """It opens nothing any more. Where there is none nothing changes."""
        row = self._session.get(CalendarRow, person_id)
        if row is not None:
            self._session.delete(row)
            self._session.flush()


def _address_from(row: CalendarRow) -> CalendarAddress:
    return CalendarAddress(row.person_id, row.made_by, moment_from_text(row.made_at))
