"""What a device may do, by the role of its person.

It is asked at the door, and once more inside the transaction that writes: whoever was removed or lost a role in the
moment between changes nothing any more.
"""

from evenbed.access.joining import DeviceRemovedError, NotJoinedError
from evenbed.store.devices import Device
from evenbed.store.work import UnitOfWork


class ForemanOnlyError(Exception):
    """This is for a foreman to do."""


class ViewerOnlyLooksError(Exception):
    """A viewer wants to change something."""


def check_writer(device: Device) -> Device:
    """The device, where its person may write. Raises ViewerOnlyLooksError."""
    if device.person.role == "viewer":
        raise ViewerOnlyLooksError("A viewer may look, and change nothing.")
    return device


def check_foreman(device: Device) -> Device:
    """The device, where it is a foreman's. Raises ForemanOnlyError."""
    if device.person.role != "foreman":
        raise ForemanOnlyError("Ask a foreman to do this.")
    return device


def device_now(work: UnitOfWork, device: Device) -> Device:
    """The device that came in at the door, with the role and the name that its person has in this transaction.

    Raises DeviceRemovedError where it was removed since, NotJoinedError where it has joined anew since.
    """
    now = work.devices.with_id(device.id)
    if now is None or now.joined_at != device.joined_at:
        raise NotJoinedError("This device has joined anew just now. Send again with its new token.")
    if now.removed_at is not None:
        raise DeviceRemovedError("This device was removed just now.")
    return now
