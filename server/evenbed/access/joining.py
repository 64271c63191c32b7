"""Joining: a device brings the code it was told, and takes a token away."""

from datetime import datetime

from evenbed.access.codes import hash_of_code, hash_of_token, is_code, make_code, make_token
from evenbed.access.tries import Tries
from evenbed.store.devices import Device
from evenbed.store.work import Store, UnitOfWork
from evenbed.wire.exchange import JoinRequest


class WrongCodeError(Exception):
    """The code is not the one that is valid now."""


class NotJoinedError(Exception):
    """No token, or one that is worth nothing (any more)."""


def found(store: Store, at: datetime) -> str | None:
    """Give a new database its identity and first join code. The code, to be shown this once; None if it was done."""
    with store.writing() as work:
        if work.founding.is_done():
            return None
        code = make_code()
        work.founding.found(hash_of_code(code), at)
        work.commit()
        return code


def renew_code(store: Store, at: datetime) -> str:
    """A fresh join code; the one before is worth nothing from now on. Devices that have joined stay joined."""
    code = make_code()
    with store.writing() as work:
        work.founding.save_join_code(hash_of_code(code), at)
        work.commit()
    return code


def check_code(store: Store, tries: Tries, address: str, code: str) -> None:
    """Raises WrongCodeError, or TooManyTriesError where the address has guessed too often."""
    tries.check(address)
    with store.reading() as work:
        kept = work.founding.join_code_hash()
    if not is_code(code, kept):
        tries.count(address)
        raise WrongCodeError("That is not the join code that is valid now. Ask for it at the office.")


def join(work: UnitOfWork, request: JoinRequest, at: datetime) -> str:
    """Take the device in and return its token. A device that joins again gets a new token for its old one."""
    token = make_token()
    device = Device(request.device_id, request.device_name, request.person)
    work.devices.save(device, hash_of_token(token), at)
    return token


def device_from_token(store: Store, token: str | None) -> Device:
    """The device that holds the token. Raises NotJoinedError."""
    if token:
        with store.reading() as work:
            device = work.devices.with_token(hash_of_token(token))
        if device:
            return device
    raise NotJoinedError("Join with the code from the office first.")
