"""A person's address of dates, and the calendar at it, which any calendar program asks for without a token."""

from typing import Annotated, Any

from fastapi import APIRouter, Header, Query, Response

from evenbed.access.calendars import address_of, make_address, person_with_address
from evenbed.access.rights import device_now
from evenbed.api.bodies import JsonRoute
from evenbed.api.feed import Feed
from evenbed.api.problems import BODY_CODES, ENTRY_CODES, STORE_CODES, declared
from evenbed.api.service import JoinedDevice, TheService, now, text_of
from evenbed.rooms.dates import Telling
from evenbed.wire.calendars import CalendarMade, CalendarRequest, CalendarState, Language, Zone
from evenbed.wire.problems import Code

router = APIRouter(route_class=JsonRoute, tags=["calendar"])
TYPE = "text/calendar; charset=utf-8"
ASK_FIRST = "private, no-cache"
"""Kept, and asked about each time: a revoked address is gone at once."""


@router.post(
    "/api/calendar", operation_id="makeCalendar", responses=declared(*ENTRY_CODES, *BODY_CODES, *STORE_CODES)
)
def make(body: CalendarRequest, device: JoinedDevice, service: TheService) -> CalendarMade:
    """A fresh secret address of the dates that this person sees, told this once. One made before dies."""
    at = now()
    with service.store.writing() as work:
        secret = make_address(work, device_now(work, device), at)
        work.commit()
    zone = f"&zone={body.zone}" if body.zone else ""
    return CalendarMade(path=f"/calendar/{secret}.ics?language={body.language}{zone}", made_at=text_of(at))


@router.get("/api/calendar", operation_id="calendarState", responses=declared(*ENTRY_CODES, *STORE_CODES))
def state(device: JoinedDevice, service: TheService) -> CalendarState:
    """Whether this person has an address, and since when. The address itself nobody can tell again."""
    with service.store.reading() as work:
        address = address_of(work, device_now(work, device).person)
    return CalendarState(made_at=text_of(address.made_at) if address else None)


@router.delete("/api/calendar", operation_id="revokeCalendar", responses=declared(*ENTRY_CODES, *STORE_CODES))
def revoke(device: JoinedDevice, service: TheService) -> CalendarState:
    """From now on this person's address opens nothing. Without one nothing changes."""
    with service.store.writing() as work:
        work.calendars.remove(device_now(work, device).person.id)
        work.commit()
    return CalendarState(made_at=None)


CALENDAR: dict[int | str, dict[str, Any]] = {
    200: {"description": "The calendar (RFC 5545)", "content": {"text/calendar": {"schema": {"type": "string"}}}},
    304: {"description": "Nothing is new since the text with that tag"},
}


@router.get(
    "/calendar/{secret}.ics",
    operation_id="calendar",
    response_class=Response,
    responses=CALENDAR | declared(Code.NOT_FOUND, Code.MALFORMED, *STORE_CODES),
)
def calendar(
    secret: str,
    service: TheService,
    language: Annotated[Language, Query()] = "en",
    zone: Annotated[Zone, Query()] = "",
    if_none_match: Annotated[str | None, Header()] = None,
) -> Response:
    """Every milestone window of every room that is placed, of the jobs that the person sees now."""
    telling = Telling(language, zone)
    with service.store.reading() as work:
        feed = Feed.of(work, person_with_address(work, secret))
        headers = {"ETag": f'"{feed.tag(telling)}"', "Cache-Control": ASK_FIRST}
        if headers["ETag"] in (if_none_match or ""):
            return Response(status_code=304, headers=headers)
        text = feed.text(work, service.keeping, telling)
    return Response(text, media_type=TYPE, headers=headers)
