"""One job as one file, out and in: for foremen, one file at a time.

Each is made, or received whole, on the disk, and gone when the answer ends, however it ends.
"""

from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from tempfile import NamedTemporaryFile, TemporaryDirectory
from typing import Any

from fastapi import APIRouter, Request, Response
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import StreamingResponse
from starlette.types import Receive, Scope, Send

from evenbed.access.rights import check_foreman, device_now
from evenbed.api.problems import ENTRY_CODES, STORE_CODES, ProblemError, declared
from evenbed.api.receiving import AT_ONCE, full_disk, receive
from evenbed.api.service import ForemansDevice, Service, TheService, now
from evenbed.api.uploads import check_octets
from evenbed.jobfile.making import write_job
from evenbed.jobfile.parts import MOST_BYTES, opened
from evenbed.jobfile.reading import JobFile, read
from evenbed.jobfile.taking import Taken, bring
from evenbed.store.devices import Device
from evenbed.wire.jobfiles import MEDIA_TYPE, JobFileReply
from evenbed.wire.problems import Code
from evenbed.wire.values import Uuid

router = APIRouter(prefix="/api/jobs", tags=["jobs"])
ADDRESS = r"/api/jobs/file"
BUSY_WAIT_S = 10
MOST_NAMED = 10
CODES = (*ENTRY_CODES, Code.FOREMAN_ONLY, *STORE_CODES)
BINARY = {"schema": {"type": "string", "format": "binary", "maxLength": MOST_BYTES}}
BODY = {"requestBody": {"required": True, "content": {"application/octet-stream": BINARY}}}
FILE: dict[int | str, dict[str, Any]] = {
    200: {
        "description": "The file: a zip with `job.json`, and the photos that are here",
        "content": {MEDIA_TYPE: {"schema": {"type": "string", "format": "binary"}}},
    }
}


class _File(StreamingResponse):
    """A file as it stands on the disk; what it needed is let go of at the end, also where whoever asked has gone."""

    def __init__(self, path: Path, name: str, held: ExitStack) -> None:
        told = {
            "Content-Length": str(path.stat().st_size),
            "Content-Disposition": f'attachment; filename="{name}"',
            "Cache-Control": "no-store",
        }
        super().__init__(_chunks(path), media_type=MEDIA_TYPE, headers=told)
        self._held = held

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        with self._held:
            await super().__call__(scope, receive, send)


def _chunks(path: Path) -> Iterator[bytes]:
    with path.open("rb") as file:
        while chunk := file.read(AT_ONCE):
            yield chunk


@router.get(
    "/{job_id}/file",
    operation_id="job_file",
    response_class=Response,
    responses={**FILE, **declared(*CODES, Code.NOT_FOUND, Code.MALFORMED)},
)
def job_file(job_id: Uuid, device: ForemansDevice, service: TheService) -> Response:
    """Everything that is known of a job, deleted records, history and photos too, as one file."""
    with ExitStack() as held:
        _take_turn(service, held)
        path = Path(held.enter_context(TemporaryDirectory(prefix="evenbed-job-"))) / "job.zip"
        try:
            _write(service, device, job_id, path)
        except OSError as error:
            raise full_disk(error, "file") from None
        return _File(path, f"{job_id}.evenbed.zip", held.pop_all())


def _take_turn(service: Service, held: ExitStack) -> None:
    if not held.enter_context(service.carrying.place()):
        raise ProblemError(Code.BUSY, "Another job file is at work. Ask again.", retry_after=BUSY_WAIT_S)


def _write(service: Service, device: Device, job_id: str, path: Path) -> None:
    with service.store.reading() as work:
        check_foreman(device_now(work, device))
        write_job(work, job_id, path)


@router.post(
    "/file",
    operation_id="take_job_file",
    openapi_extra=BODY,
    responses=declared(*CODES, Code.MALFORMED, Code.OCTETS_REQUIRED, Code.TOO_LARGE, Code.JOB_FILE_NOT_TAKEN),
)
async def take_job_file(request: Request, device: ForemansDevice, service: TheService) -> JobFileReply:
    """Take a job file in, made here or on a phone: all of it or nothing. What is known already stays as it is."""
    check_octets(request)
    with ExitStack() as held:
        _take_turn(service, held)
        file = held.enter_context(NamedTemporaryFile(prefix="evenbed-job-"))
        await receive(request, file, Code.JOB_FILE_NOT_TAKEN, "job file")
        return await run_in_threadpool(_take, service, device, Path(file.name))


def _take(service: Service, device: Device, path: Path) -> JobFileReply:
    with opened(path) as parts:
        file = read(parts)
        taken = bring(
            service.store,
            file,
            parts,
            now(),
            service.settings.photo_pixels,
            lambda work: check_foreman(device_now(work, device)).person,
        )
    return _reply(file, taken)


def _reply(file: JobFile, taken: Taken) -> JobFileReply:
    complete = file.contents.complete
    return JobFileReply(
        outcome="taken" if taken.changes or taken.photos else "nothing_new",
        job=file.contents.job,
        changes=taken.changes,
        known=taken.known,
        photos=taken.photos,
        photos_missing=len(complete.photos),
        has_history=complete.history,
        unknown=list(file.unknown[:MOST_NAMED]),
    )
