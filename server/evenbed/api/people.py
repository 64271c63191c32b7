"""People and their devices: who was let in, letting others in, names and roles, and removing a device."""

from collections.abc import Iterable

from fastapi import APIRouter

from evenbed.access.people import edit_person, invite_person, remove_device, rename_device
from evenbed.access.rights import check_foreman, device_now
from evenbed.api.bodies import JsonRoute
from evenbed.api.problems import BODY_CODES, ENTRY_CODES, STORE_CODES, declared
from evenbed.api.service import ForemansDevice, JoinedDevice, TheService, now, text_of
from evenbed.store.devices import Device
from evenbed.store.people import Person
from evenbed.wire.people import (
    DeviceEdit,
    InviteReply,
    InviteRequest,
    KnownDevice,
    KnownPerson,
    PeopleReply,
    PersonEdit,
)
from evenbed.wire.problems import Code
from evenbed.wire.values import Uuid

router = APIRouter(prefix="/api", route_class=JsonRoute, tags=["people"])
FOREMANS_CODES = (*ENTRY_CODES, Code.FOREMAN_ONLY, *STORE_CODES)
EDIT_CODES = (*FOREMANS_CODES, Code.NOT_FOUND, *BODY_CODES)


@router.get("/people", operation_id="people", responses=declared(*FOREMANS_CODES))
def people(device: ForemansDevice, service: TheService) -> PeopleReply:
    """Everybody who was let in or is expected, with their devices, removed ones too. For foremen."""
    with service.store.reading() as work:
        check_foreman(device_now(work, device))
        everybody, devices = work.people.all(), work.devices.all()
    return PeopleReply(people=[_known_person(person, devices) for person in everybody])


@router.post("/invites", operation_id="invite", responses=declared(*EDIT_CODES))
def invite(body: InviteRequest, device: ForemansDevice, service: TheService) -> InviteReply:
    """A code for one device of a new person, or of a known one. It holds for half an hour. For foremen."""
    with service.store.writing() as work:
        made = invite_person(work, body, check_foreman(device_now(work, device)), now())
        work.commit()
    return InviteReply(code=made.code, person_id=made.person_id, expires_at=text_of(made.expires_at))


@router.patch("/people/{person_id}", operation_id="editPerson", responses=declared(*EDIT_CODES, Code.LAST_FOREMAN))
def edit(person_id: Uuid, body: PersonEdit, device: ForemansDevice, service: TheService) -> KnownPerson:
    """Give somebody another name or role; it holds from their next request on. For foremen."""
    with service.store.writing() as work:
        check_foreman(device_now(work, device))
        edited, devices = edit_person(work, person_id, body), work.devices.all()
        work.commit()
    return _known_person(edited, devices)


@router.patch("/devices/{device_id}", operation_id="renameDevice", responses=declared(*EDIT_CODES))
def rename(device_id: Uuid, body: DeviceEdit, device: JoinedDevice, service: TheService) -> KnownDevice:
    """Give a device another name. For foremen; any device may do it for itself."""
    with service.store.writing() as work:
        renamed = rename_device(work, device_now(work, device), device_id, body.name)
        work.commit()
    return known_device(renamed)


@router.delete(
    "/devices/{device_id}",
    operation_id="removeDevice",
    responses=declared(*FOREMANS_CODES, Code.NOT_FOUND, Code.MALFORMED, Code.LAST_FOREMAN),
)
def remove(device_id: Uuid, device: ForemansDevice, service: TheService) -> KnownDevice:
    """From its next request on the device neither reads nor writes. What it sent stays. For foremen."""
    with service.store.writing() as work:
        check_foreman(device_now(work, device))
        removed = remove_device(work, device_id, now())
        work.commit()
    return known_device(removed)


def _known_person(person: Person, devices: Iterable[Device]) -> KnownPerson:
    own = [known_device(device) for device in devices if device.person.id == person.id]
    return KnownPerson(id=person.id, name=person.name, role=person.role, devices=own)


def known_device(device: Device) -> KnownDevice:
    """The device as it is told."""
    return KnownDevice(
        id=device.id,
        name=device.name,
        joined_at=text_of(device.joined_at),
        last_seen_at=text_of(device.last_seen_at) if device.last_seen_at else None,
        removed_at=text_of(device.removed_at) if device.removed_at else None,
    )
