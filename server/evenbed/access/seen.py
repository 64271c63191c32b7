"""When a device was last heard of, to the minute: noted seldom, so that reading stays cheap."""

import logging
from datetime import datetime, timedelta

from evenbed.store.devices import Device
from evenbed.store.faults import StoreError
from evenbed.store.work import Store

SELDOM = timedelta(minutes=1)
_LOG = logging.getLogger("evenbed")


def is_to_be_noted(device: Device, at: datetime) -> bool:
    """True where the last note is a minute old, or there is none."""
    return device.last_seen_at is None or at - device.last_seen_at >= SELDOM


def note_seen(store: Store, device: Device, at: datetime) -> None:
    """Note it. Where the database cannot take the note, the device was answered all the same: the log tells."""
    try:
        with store.writing() as work:
            work.devices.note_seen(device.id, at)
            work.commit()
    except StoreError as error:
        _LOG.warning("When device %s was last seen is not noted: %s", device.id, error)
