"""The devices that have joined."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import Session, select

from evenbed.store.tables import DeviceRow
from evenbed.store.times import text_from_moment


@dataclass(frozen=True)
class Device:
    """A device as the rest of the service sees it."""

    id: str
    name: str
    person: str


class Devices:
    """Devices inside one session."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def with_token(self, token_hash: str) -> Device | None:
        """The device that holds the token, or None."""
        row = self._session.exec(select(DeviceRow).where(DeviceRow.token_hash == token_hash)).first()
        return Device(row.id, row.name, row.person) if row else None

    def save(self, device: Device, token_hash: str, joined_at: datetime) -> None:
        """Keep the device; a token it had before is worth nothing from now on."""
        row = DeviceRow(
            id=device.id,
            name=device.name,
            person=device.person,
            token_hash=token_hash,
            joined_at=text_from_moment(joined_at),
        )
        self._session.merge(row)
        self._session.flush()
