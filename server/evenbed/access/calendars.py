"""Addresses of dates for calendar programs, which can show no token: whoever knows the secret reads the dates.

A person has one at the most. It holds while the device that it was made on is joined: with a lost phone that is
removed, what it knew is gone too.
"""

from datetime import datetime

from evenbed.access.codes import hash_of_token, make_token
from evenbed.store.calendars import CalendarAddress
from evenbed.store.devices import Device
from evenbed.store.people import Person
from evenbed.store.work import UnitOfWork


class NoCalendarError(Exception):
    """Nobody has this address, or not any more."""


def make_address(work: UnitOfWork, device: Device, at: datetime) -> str:
    """The secret of a fresh address for the device's person, to be shown this once; an older one dies."""
    secret = make_token()
    work.calendars.save(CalendarAddress(device.person.id, device.id, at), hash_of_token(secret))
    return secret


def address_of(work: UnitOfWork, person: Person) -> CalendarAddress | None:
    """The person's address, if they have one that still holds."""
    address = work.calendars.of(person.id)
    return address if address is not None and _maker(work, address) is not None else None


def person_with_address(work: UnitOfWork, secret: str) -> Person:
    """Whose dates an address tells. Raises NoCalendarError."""
    address = work.calendars.with_hash(hash_of_token(secret))
    maker = _maker(work, address) if address is not None else None
    if maker is None:
        raise NoCalendarError("There is no calendar at this address (any more). Make a new one in the app.")
    return maker.person


def _maker(work: UnitOfWork, address: CalendarAddress) -> Device | None:
    """The device that it was made on; None where that was removed, or has joined anew since."""
    maker = work.devices.with_id(address.made_by)
    is_here = maker is not None and maker.removed_at is None and maker.joined_at <= address.made_at
    return maker if is_here and maker is not None and maker.person.id == address.person_id else None
