"""What was taken away since a backup was made stays taken away when it is restored: devices, roles, former tokens."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime

from sqlalchemy import Connection, select, update

from evenbed.store.tables import DeviceRow, PersonRow, table_of
from evenbed.store.times import text_from_moment

PEOPLE, DEVICES = table_of(PersonRow), table_of(DeviceRow)
LEAST_FIRST = ("viewer", "setter", "foreman")


@dataclass(frozen=True)
class Holding:
    """Whose a device is, by which token it is known, and since when it is removed."""

    person_id: str
    token_hash: str
    removed_at: str | None


@dataclass(frozen=True)
class Rights:
    """The roles of people and what devices hold, by id, as they stand before a restore."""

    roles: Mapping[str, str]
    holdings: Mapping[str, Holding]


def rights_in(connection: Connection) -> Rights:
    """As they stand now."""
    roles = {row.id: row.role for row in connection.execute(select(PEOPLE.c.id, PEOPLE.c.role))}
    columns = (DEVICES.c.id, DEVICES.c.person_id, DEVICES.c.token_hash, DEVICES.c.removed_at)
    rows = connection.execute(select(*columns)).all()
    return Rights(roles, {row.id: Holding(row.person_id, row.token_hash, row.removed_at) for row in rows})


def keep_taken(connection: Connection, before: Rights) -> None:
    """On what was restored: nobody gets back what they had lost. Who was not there before keeps the backup's."""
    restored = rights_in(connection)
    for person_id in restored.roles.keys() & before.roles.keys():
        role = min(restored.roles[person_id], before.roles[person_id], key=LEAST_FIRST.index)
        connection.execute(update(PEOPLE).where(PEOPLE.c.id == person_id).values(role=role))
    for device_id in restored.holdings.keys() & before.holdings.keys():
        values = _values(restored.holdings[device_id], before.holdings[device_id])
        connection.execute(update(DEVICES).where(DEVICES.c.id == device_id).values(**values))


def _values(restored: Holding, before: Holding) -> dict[str, str | None]:
    """A device that had come to somebody else is nobody's now: its token must not open what its former owner saw."""
    if restored.person_id != before.person_id:
        return {"removed_at": before.removed_at or text_from_moment(datetime.now(UTC))}
    return {"token_hash": before.token_hash, "removed_at": before.removed_at or restored.removed_at}
