"""The devices that have joined."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import Session, col, select

from evenbed.store.people import Person, person_from
from evenbed.store.tables import DeviceRow, PersonRow
from evenbed.store.times import moment_from_text, text_from_moment


@dataclass(frozen=True)
class Device:
    """A device as the rest of the service sees it."""

    id: str
    name: str
    person: Person
    joined_at: datetime
    last_seen_at: datetime | None = None
    removed_at: datetime | None = None


class Devices:
    """Devices inside one session."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def with_token(self, token_hash: str) -> Device | None:
        """The device that holds the token, removed or not; None where no device ever held it."""
        return self._one(DeviceRow.token_hash == token_hash)

    def with_id(self, device_id: str) -> Device | None:
        """The device with that id, removed or not."""
        return self._one(DeviceRow.id == device_id)

    def _one(self, condition: bool) -> Device | None:
        found = self._session.exec(select(DeviceRow, PersonRow).join(PersonRow).where(condition)).first()
        return _device_from(*found) if found else None

    def all(self) -> tuple[Device, ...]:
        """Every device that ever joined, in the order of joining."""
        rows = self._session.exec(select(DeviceRow, PersonRow).join(PersonRow).order_by(col(DeviceRow.joined_at)))
        return tuple(_device_from(*row) for row in rows)

    def save(self, device: Device, token_hash: str) -> None:
        """Keep the device; a token it had before is worth nothing from now on."""
        row = DeviceRow(
            id=device.id,
            name=device.name,
            person_id=device.person.id,
            token_hash=token_hash,
            joined_at=text_from_moment(device.joined_at),
        )
        self._session.merge(row)
        self._session.flush()

    def rename(self, device_id: str, name: str) -> None:
        """Give it another name."""
        self._session.get_one(DeviceRow, device_id).name = name
        self._session.flush()

    def remove(self, device_id: str, at: datetime) -> None:
        """From now on its token opens nothing."""
        self._session.get_one(DeviceRow, device_id).removed_at = text_from_moment(at)
        self._session.flush()

    def note_seen(self, device_id: str, at: datetime) -> None:
        """It was heard of."""
        self._session.get_one(DeviceRow, device_id).last_seen_at = text_from_moment(at)
        self._session.flush()


def _device_from(row: DeviceRow, person: PersonRow) -> Device:
    return Device(
        id=row.id,
        name=row.name,
        person=person_from(person),
        joined_at=moment_from_text(row.joined_at),
        last_seen_at=_moment(row.last_seen_at),
        removed_at=_moment(row.removed_at),
    )


def _moment(text: str | None) -> datetime | None:
    return moment_from_text(text) if text else None
