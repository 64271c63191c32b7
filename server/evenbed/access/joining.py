"""Joining: a device brings the code it was told, and takes a token away; and who holds a token.

A code lets one device in, once, within its time. The foreman makes codes for people; the server's own command makes
codes for a foreman without a name, which is also how a company gets in again that lost its last foreman's device.
"""

from datetime import datetime, timedelta
from uuid import uuid4

from evenbed.access.codes import hash_of_code, hash_of_token, make_code, make_token
from evenbed.access.tries import Tries
from evenbed.store.devices import Device
from evenbed.store.invites import Invite
from evenbed.store.people import Person
from evenbed.store.work import Store, UnitOfWork
from evenbed.wire.exchange import JoinRequest, Role

FROM_THE_SERVER = timedelta(hours=24)
FROM_THE_APP = timedelta(minutes=30)


class WrongCodeError(Exception):
    """No such code, or it was used, or its time is over."""


class NameNeededError(Exception):
    """The code does not say who it is for, and neither did the device."""


class DeviceTakenError(Exception):
    """The device belongs to somebody else and was not removed."""


class NotJoinedError(Exception):
    """No token, or one that nobody ever had."""


class DeviceRemovedError(Exception):
    """The token of a device that was removed."""


def found(store: Store, at: datetime) -> str | None:
    """Give a new database its identity and a first foreman's code, to be shown this once; None if it was done."""
    with store.writing() as work:
        if work.founding.is_done():
            return None
        work.founding.found()
        code = invite(work, "foreman", at, FROM_THE_SERVER)
        work.commit()
        return code


def invite_foreman(store: Store, at: datetime) -> str:
    """A code from the server's own command, for whoever is to be (again) a foreman."""
    with store.writing() as work:
        code = invite(work, "foreman", at, FROM_THE_SERVER)
        work.commit()
    return code


def invite(
    work: UnitOfWork,
    role: Role,
    at: datetime,
    lasting: timedelta,
    person_id: str | None = None,
    made_by: str | None = None,
) -> str:
    """A fresh code for one device."""
    code = make_code()
    code_hash = hash_of_code(code, work.founding.identity())
    work.invites.add(Invite(code_hash, role, person_id, made_by, at, at + lasting))
    return code


def check_code(store: Store, tries: Tries, address: str, code: str, at: datetime) -> Invite:
    """The invitation behind a code.

    Raises WrongCodeError, or TooManyTriesError where the address has guessed too often.
    """
    tries.take(address)
    with store.reading() as work:
        identity = work.founding.identity()
    code_hash = hash_of_code(code, identity)  # slow on purpose, so outside of any transaction
    with store.reading() as work:
        found = work.invites.with_hash(code_hash)
        is_open = found is not None and _is_open(work, found, at)
    if found is None or not is_open:
        raise WrongCodeError("No device can join with this code (any more). Ask the foreman for a fresh one.")
    tries.give_back(address)
    return found


def _is_open(work: UnitOfWork, invite: Invite, at: datetime) -> bool:
    return not invite.is_used and at < invite.expires_at and _is_made_by_foreman(work, invite)


def _is_made_by_foreman(work: UnitOfWork, invite: Invite) -> bool:
    """True for the server's own codes, and while who made it may let others in: nobody removed comes back so."""
    if invite.made_by is None:
        return True
    maker = work.devices.with_id(invite.made_by)
    return maker is not None and maker.removed_at is None and maker.person.role == "foreman"


def join(work: UnitOfWork, invite: Invite, request: JoinRequest, at: datetime) -> tuple[Device, str]:
    """Take the device in: the device and its token. One that joins again gets a new token for its old one.

    Raises WrongCodeError where another device was faster, NameNeededError, DeviceTakenError.
    """
    again = work.invites.with_hash(invite.code_hash)
    if again is None or not _is_open(work, again, at):
        raise WrongCodeError("Another device has just joined with this code. Ask the foreman for a fresh one.")
    person = _person_of(work, invite, request)
    _check_free(work, request.device_id, person)
    device, token = Device(request.device_id, request.device_name, person, at), make_token()
    work.devices.save(device, hash_of_token(token))
    work.invites.use(invite.code_hash, device.id, at)
    return device, token


def _person_of(work: UnitOfWork, invite: Invite, request: JoinRequest) -> Person:
    known = work.people.with_id(invite.person_id) if invite.person_id else None
    if known is not None:
        return known
    if request.person is None:
        raise NameNeededError("This code does not say who it is for. Tell your name too.")
    return work.people.add(str(uuid4()), request.person, invite.role)


def _check_free(work: UnitOfWork, device_id: str, person: Person) -> None:
    known = work.devices.with_id(device_id)
    if known and known.removed_at is None and known.person.id != person.id:
        raise DeviceTakenError("This device is somebody else's. Let them leave first, or join as a new device.")


def device_from_token(store: Store, token: str | None) -> Device:
    """The device that holds the token. Raises NotJoinedError or DeviceRemovedError."""
    with store.reading() as work:
        return device_with_token(work, token)


def device_with_token(work: UnitOfWork, token: str | None) -> Device:
    """The same inside a unit of work."""
    device = work.devices.with_token(hash_of_token(token)) if token else None
    if device is None:
        raise NotJoinedError("Join with the code from the office first.")
    if device.removed_at is not None:
        raise DeviceRemovedError("This device was removed. What it holds stays on it; join again with a fresh code.")
    return device
