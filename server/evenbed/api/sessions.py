"""Joining, and who a device is."""

from fastapi import APIRouter, Request, Response

from evenbed.access.joining import check_code, join
from evenbed.access.people import remove_device
from evenbed.access.rights import device_now
from evenbed.api.bodies import JsonRoute
from evenbed.api.people import known_device
from evenbed.api.problems import BODY_CODES, ENTRY_CODES, STORE_CODES, declared
from evenbed.api.service import COOKIE, JoinedDevice, Service, TheService, now, now_text
from evenbed.wire.exchange import JoinReply, JoinRequest, SessionReply
from evenbed.wire.people import KnownDevice
from evenbed.wire.problems import Code

router = APIRouter(prefix="/api", route_class=JsonRoute, tags=["devices"])
COOKIE_AGE_S = 400 * 24 * 3600
JOIN_CODES = (Code.WRONG_CODE, Code.NAME_NEEDED, Code.DEVICE_TAKEN, Code.TOO_MANY_TRIES, *BODY_CODES, *STORE_CODES)


@router.post("/join", operation_id="join", responses=declared(*JOIN_CODES))
def join_device(body: JoinRequest, service: TheService, request: Request, response: Response) -> JoinReply:
    """Join with the code from the office. The token is in the reply and in a cookie."""
    address = request.client.host if request.client else ""
    invite = check_code(service.store, service.tries, address, body.code, now())
    with service.store.writing() as work:
        device, token = join(work, invite, body, now())
        database = work.founding.identity()
        work.commit()
    _set_cookie(response, service, token)
    return JoinReply(
        device_id=device.id,
        person_id=device.person.id,
        person=device.person.name,
        role=device.person.role,
        database=database,
        token=token,
        server_time=now_text(),
    )


def _set_cookie(response: Response, service: Service, token: str, age_s: int = COOKIE_AGE_S) -> None:
    response.set_cookie(COOKIE, token, max_age=age_s, httponly=True, samesite="strict", secure=service.settings.https)


@router.get("/session", operation_id="session", responses=declared(*ENTRY_CODES, *STORE_CODES))
def session(device: JoinedDevice, service: TheService) -> SessionReply:
    """Who this device is to the service."""
    with service.store.reading() as work:
        database = work.founding.identity()
    return SessionReply(
        device_id=device.id,
        device_name=device.name,
        person_id=device.person.id,
        person=device.person.name,
        role=device.person.role,
        view=device.person.view,
        database=database,
        server_time=now_text(),
    )


@router.delete("/session", operation_id="leave", responses=declared(*ENTRY_CODES, Code.LAST_FOREMAN, *STORE_CODES))
def leave(device: JoinedDevice, service: TheService, response: Response) -> KnownDevice:
    """This device leaves: its token opens nothing from now on, and the cookie goes. What it sent stays."""
    with service.store.writing() as work:
        removed = remove_device(work, device_now(work, device).id, now())
        work.commit()
    _set_cookie(response, service, "", age_s=0)
    return known_device(removed)
