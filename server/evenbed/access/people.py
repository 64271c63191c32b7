"""What a foreman decides about people and devices, and what a device decides about itself.

One thing nobody may decide: that no foreman's device is left, for then nobody could be let in any more but by
somebody at the server. Two people may have the same name; they are told apart by their ids and their devices.
"""

from dataclasses import dataclass, replace
from datetime import datetime
from uuid import uuid4

from evenbed.access.joining import FROM_THE_APP, FROM_THE_SERVER, invite
from evenbed.access.rights import check_foreman
from evenbed.store.devices import Device
from evenbed.store.people import Person
from evenbed.store.work import Store, UnitOfWork
from evenbed.wire.people import InviteRequest, PersonEdit


class UnknownPersonError(Exception):
    """Nobody has this id."""


class UnknownDeviceError(Exception):
    """No device has this id."""


class LastForemanError(Exception):
    """Afterwards nobody could let others in."""


@dataclass(frozen=True)
class Invitation:
    """A code for one device of a person, to be shown this once."""

    code: str
    person_id: str
    expires_at: datetime


def invite_person(work: UnitOfWork, asked: InviteRequest, made_by: Device, at: datetime) -> Invitation:
    """A code for a new person, who is expected from now on, or for another device of a known one.

    Raises UnknownPersonError.
    """
    person = _invited(work, asked)
    code = invite(work, person.role, at, FROM_THE_APP, person.id, made_by.id)
    return Invitation(code, person.id, at + FROM_THE_APP)


def _invited(work: UnitOfWork, asked: InviteRequest) -> Person:
    if asked.name is not None and asked.role is not None:
        return work.people.add(str(uuid4()), asked.name, asked.role)
    return _person(work, str(asked.person_id))


def invite_again(store: Store, who: str, at: datetime) -> tuple[Person, str]:
    """A code from the server's own command for another device of somebody known, told by name or id; and who it is.

    Raises UnknownPersonError, also where several have that name.
    """
    with store.writing() as work:
        person = _named(work, who)
        code = invite(work, person.role, at, FROM_THE_SERVER, person.id)
        work.commit()
    return person, code


def _named(work: UnitOfWork, who: str) -> Person:
    named = [person for person in work.people.all() if who in (person.id, person.name)]
    if not named:
        raise UnknownPersonError(f"Nobody is called {who!r}; `evenbed people` lists everybody.")
    if len(named) > 1:
        raise UnknownPersonError(f"{len(named)} people are called {who!r}; take the id that `evenbed people` shows.")
    return named[0]


def edit_person(work: UnitOfWork, person_id: str, edit: PersonEdit) -> Person:
    """The person with a new name or role. Raises UnknownPersonError or LastForemanError: then commit nothing."""
    person = _person(work, person_id)
    edited = replace(person, name=edit.name or person.name, role=edit.role or person.role)
    work.people.save(edited)
    if person.role == "foreman":
        _check_a_foreman_is_left(work)
    return _person(work, person_id)


def rename_device(work: UnitOfWork, asking: Device, device_id: str, name: str) -> Device:
    """The device with a new name, given by a foreman or by itself. Raises ForemanOnlyError, UnknownDeviceError."""
    if device_id != asking.id:
        check_foreman(asking)
    _device(work, device_id)
    work.devices.rename(device_id, name)
    return _device(work, device_id)


def remove_device(work: UnitOfWork, device_id: str, at: datetime) -> Device:
    """From its next request on it reads and writes nothing; what it sent stays. A second time changes nothing.

    Raises UnknownDeviceError or LastForemanError: then commit nothing.
    """
    device = _device(work, device_id)
    if device.removed_at is None:
        work.devices.remove(device_id, at)
        if device.person.role == "foreman":
            _check_a_foreman_is_left(work)
    return _device(work, device_id)


def _person(work: UnitOfWork, person_id: str) -> Person:
    person = work.people.with_id(person_id)
    if person is None:
        raise UnknownPersonError("There is nobody with this id.")
    return person


def _device(work: UnitOfWork, device_id: str) -> Device:
    device = work.devices.with_id(device_id)
    if device is None:
        raise UnknownDeviceError("There is no device with this id.")
    return device


def _check_a_foreman_is_left(work: UnitOfWork) -> None:
    if not any(device.removed_at is None and device.person.role == "foreman" for device in work.devices.all()):
        raise LastForemanError(
            "No foreman's device would be left to let others in. "
            "Make somebody else a foreman and let their device join, then do this."
        )
