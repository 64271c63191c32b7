"""What every route may ask for: the service's parts, and the device that is asking."""

from concurrent.futures import Executor
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Annotated

from fastapi import Depends, Request, Security
from fastapi.security import APIKeyCookie, HTTPAuthorizationCredentials, HTTPBearer

from evenbed.access.joining import device_from_token
from evenbed.access.rights import check_foreman, check_writer
from evenbed.access.tries import Tries
from evenbed.api.feed import Keeping
from evenbed.api.places import Places
from evenbed.api.scanning import Scanning
from evenbed.settings import Settings
from evenbed.store.devices import Device
from evenbed.store.work import Store

COOKIE = "evenbed_device"


@dataclass(frozen=True)
class Service:
    """The parts that `create_app` put together."""

    settings: Settings
    store: Store
    tries: Tries
    version: str
    looking: Executor
    """Pictures are looked into one after the other: each is all unpacked in memory while it is."""
    keeping: Keeping
    """What the engine said of rooms for calendars."""
    scanning: Scanning
    """Scans are read one after the other; some more may wait."""
    carrying: Places
    """Job files are made and taken in one at a time: each may fill some hundred megabytes."""


def service_of(request: Request) -> Service:
    """The service this request came to."""
    service: Service = request.app.state.service
    return service


TheService = Annotated[Service, Depends(service_of)]
_BEARER = HTTPBearer(auto_error=False, description="The token a device got when it joined")
_COOKIE = APIKeyCookie(name=COOKIE, auto_error=False, description="The same token, kept by the browser")


def token_of(
    bearer: Annotated[HTTPAuthorizationCredentials | None, Security(_BEARER)],
    cookie: Annotated[str | None, Security(_COOKIE)],
) -> str | None:
    """The token that came with the request; a program's header goes before a browser's cookie."""
    return bearer.credentials if bearer else cookie


TheToken = Annotated[str | None, Depends(token_of)]


def joined_device(service: TheService, token: TheToken) -> Device:
    """The device that is asking. Raises NotJoinedError or DeviceRemovedError."""
    return device_from_token(service.store, token)


JoinedDevice = Annotated[Device, Depends(joined_device)]


def writing_device(device: JoinedDevice) -> Device:
    """The device that is asking, where its person may write. Raises ViewerOnlyLooksError."""
    return check_writer(device)


WritingDevice = Annotated[Device, Depends(writing_device)]


def foremans_device(device: JoinedDevice) -> Device:
    """The device that is asking, where it is a foreman's. Raises ForemanOnlyError."""
    return check_foreman(device)


ForemansDevice = Annotated[Device, Depends(foremans_device)]


def now() -> datetime:
    """The service's clock, in UTC."""
    return datetime.now(UTC)


def now_text() -> str:
    """The service's clock as it travels."""
    return text_of(now())


def text_of(at: datetime) -> str:
    """A moment as it travels."""
    return at.isoformat(timespec="milliseconds")
