"""A dense scan becomes readings. Nothing is stored: whoever asked takes what they want as changes of their own.

The file is received whole before anything is answered; then lines tell how far the reading has come, and the last one
is the answer or a problem. The file is gone when the answer ends, however it ends.
"""

import tempfile
from collections.abc import AsyncIterator
from contextlib import ExitStack
from dataclasses import replace
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query, Request, Response
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import StreamingResponse
from starlette.types import Receive, Scope, Send

from evenbed.access.rights import check_writer, device_now
from evenbed.api.problems import ENTRY_CODES, STORE_CODES, ProblemError, declared, problem_reply
from evenbed.api.receiving import receive
from evenbed.api.service import Service, TheService, WritingDevice
from evenbed.api.uploads import check_octets
from evenbed.engine.problems import BadDocumentError
from evenbed.scans.limits import wishes_with_limits
from evenbed.scans.outline import rings_from
from evenbed.scans.task import Task
from evenbed.scans.wishes import BedWish, Two, Wishes
from evenbed.store.devices import Device
from evenbed.wire.exchange import FieldValues
from evenbed.wire.problems import Code, ProblemItem
from evenbed.wire.scans import LEAST_CELL, MEDIA_TYPE, MOST_CELL, Placing, ReadingStage, UnitWish, Up
from evenbed.wire.values import Number, Standard, Uuid

router = APIRouter(prefix="/api", tags=["scans"])
ADDRESSES = r"/api/rooms/[^/]+/scan"
BUSY_WAIT_S = 20
CODES = (
    *ENTRY_CODES,
    Code.VIEWER_ONLY_LOOKS,
    Code.NOT_FOUND,
    Code.MALFORMED,
    Code.BAD_DOCUMENT,
    Code.OCTETS_REQUIRED,
    Code.TOO_LARGE,
    Code.SCAN_UNREADABLE,
    *STORE_CODES,
)
BODY = {
    "requestBody": {
        "required": True,
        "content": {"application/octet-stream": {"schema": {"type": "string", "format": "binary"}}},
    }
}
LINES: dict[int | str, dict[str, Any]] = {
    200: {
        "description": "Lines of JSON: `ScanProgress`, and at last a `ScanReply` or a `ProblemReply`",
        "content": {MEDIA_TYPE: {"schema": {"type": "string"}}},
    }
}
TwoPlaces = Annotated[list[Number] | None, Query(min_length=4, max_length=4, description="x, y, x, y")]


class _Lines(StreamingResponse):
    """Lines as they come; what they needed is let go of at the end, also where whoever asked has gone."""

    def __init__(self, lines: AsyncIterator[bytes], held: ExitStack) -> None:
        super().__init__(lines, media_type=MEDIA_TYPE, headers={"X-Accel-Buffering": "no"})
        self._held = held

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        with self._held:
            await super().__call__(scope, receive, send)


def wishes_of(
    unit: Annotated[
        UnitWish, Query(description="What the scan is measured in; auto judges by the room's size")
    ] = "auto",
    placing: Annotated[Placing, Query(description="How the scan comes to lie in the room")] = "as_it_is",
    up: Annotated[Up, Query(description="Which of the scan's axes points up")] = "z",
    cell: Annotated[float | None, Query(ge=LEAST_CELL, le=MOST_CELL, description="Side of a cell, mm")] = None,
    minimum_points: Annotated[int, Query(ge=1, le=100_000, description="That a reading needs behind it")] = 8,
    in_scan: TwoPlaces = None,
    in_room: TwoPlaces = None,
) -> Wishes:
    """How the scan is to be read. Raises ProblemError where two places are needed and not given."""
    if placing == "two_points" and (in_scan is None or in_room is None):
        raise ProblemError(Code.MALFORMED, "To fit two places, give them in the scan and in the room.")
    return Wishes(unit, placing, up, cell, minimum_points, _two(in_scan), _two(in_room))


def bed_of(
    stage: Annotated[
        ReadingStage, Query(description="What was scanned: the subfloor or the finished bed")
    ] = "subfloor",
    standard: Annotated[
        Standard | None, Query(description="Whose limits of flatness hold for a bed; the room's own if left out")
    ] = None,
    longest_edge: Annotated[
        float | None, Query(ge=5, le=5_000, description="Of the tile, mm; the room's own if left out")
    ] = None,
) -> BedWish | None:
    """Against which limits the bed is held, where it was the bed that was scanned."""
    return BedWish(standard, longest_edge) if stage == "bed" else None


def _two(places: list[float] | None) -> Two | None:
    return None if places is None else (places[0], places[1], places[2], places[3])


@router.post(
    "/rooms/{room_id}/scan",
    operation_id="scan",
    response_class=Response,
    openapi_extra=BODY,
    responses={**LINES, **declared(*CODES)},
)
async def scan(
    room_id: Uuid,
    request: Request,
    device: WritingDevice,
    service: TheService,
    wishes: Annotated[Wishes, Depends(wishes_of)],
    bed: Annotated[BedWish | None, Depends(bed_of)],
) -> Response:
    """The readings of a PLY, XYZ or CSV file for a room whose outline is here."""
    check_octets(request)
    try:
        room = await run_in_threadpool(_fields_of, service, device, room_id)
        rings, wishes = (
            rings_from(room.get("outline")),
            wishes_with_limits(replace(wishes, bed=bed), _design_in(room)),
        )
    except BadDocumentError as bad:
        problems = [ProblemItem.model_validate(problem, from_attributes=True) for problem in bad.problems]
        return problem_reply(Code.BAD_DOCUMENT, str(bad), problems=problems)
    with ExitStack() as held:
        if not held.enter_context(service.scanning.places.place()):
            raise ProblemError(Code.BUSY, "Other scans are being read. Send this one again.", retry_after=BUSY_WAIT_S)
        file = held.enter_context(tempfile.NamedTemporaryFile(prefix="evenbed-scan-"))
        await receive(request, file, Code.SCAN_UNREADABLE, "scan")
        task = Task(path=file.name, rings=rings, wishes=wishes)
        return _Lines(service.scanning.lines(task), held.pop_all())


def _fields_of(service: Service, device: Device, room_id: str) -> FieldValues:
    with service.store.reading() as work:
        person = check_writer(device_now(work, device)).person
        room = work.archive.fields_of(person, "room", room_id)
    if room is None:
        raise ProblemError(Code.NOT_FOUND, "There is no room with this id.")
    return room


def _design_in(room: FieldValues) -> dict[str, object]:
    """What a room's record says of its limits, as a room document has it."""
    flatness = {name: room.get(f"flatness.{name}") for name in ("standard", "own")}
    covering = {"longest_edge": room.get("bed.covering.longest_edge")}
    return {"flatness": _told(flatness), "bed": {"covering": _told(covering)}}


def _told(fields: FieldValues) -> FieldValues:
    return {name: value for name, value in fields.items() if value is not None}
