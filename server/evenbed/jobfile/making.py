"""Making a job file: everything that is known of one job, in one zip."""

import json
from collections.abc import Iterator
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path
from typing import Any
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile

from evenbed.jobfile.about import ABOUT_TEXT
from evenbed.jobfile.parts import ABOUT, JOB
from evenbed.jobfile.reading import part_name
from evenbed.jobfile.shapes import EXTENSIONS, VERSION
from evenbed.store.archive import JobPast
from evenbed.store.photos import JobPhoto
from evenbed.store.work import UnitOfWork
from evenbed.wire.exchange import FieldValues
from evenbed.wire.protocol import MOST_RECORDS, SCHEMA


class UnknownJobError(Exception):
    """There is no such job, or several; the message says which."""


def find_job(work: UnitOfWork, told: str) -> str:
    """The id of the job told by id or name. Raises UnknownJobError."""
    jobs = dict(work.archive.jobs())
    if told in jobs:
        return told
    named = [job_id for job_id, name in jobs.items() if name == told]
    if len(named) == 1:
        return named[0]
    listed = "; ".join(f"{name or '-'} ({job_id})" for job_id, name in sorted(jobs.items()))
    raise UnknownJobError(f"{len(named)} jobs are called {told!r}. There are: {listed or 'none'}.")


def write_job(work: UnitOfWork, job_id: str, target: Path) -> tuple[int, int]:
    """Write the job into a new file; how many changes and photos are in it. Raises UnknownJobError, OSError."""
    records = [{"kind": kind, "id": id_, "fields": fields} for kind, id_, fields in work.archive.of_job(job_id)]
    if not records:
        raise UnknownJobError(f"There is no job {job_id}.")
    history = [_change(past) for past in _past(work, job_id)]
    photos = list(work.photos.of_job(job_id))
    document = _document(job_id, records, history, photos)
    with ZipFile(target, "x") as file:
        file.writestr(JOB, json.dumps(document, ensure_ascii=False, indent=1), ZIP_DEFLATED)
        file.writestr(ABOUT, ABOUT_TEXT, ZIP_DEFLATED)
        for photo in photos:
            content = work.photos.content(job_id, photo.hash)
            if content is not None:
                file.writestr(part_name(photo.hash, EXTENSIONS[photo.media_type]), content, ZIP_STORED)
    return len(history), sum(photo.complete for photo in photos)


def _document(
    job_id: str,
    records: list[dict[str, Any]],
    history: list[dict[str, Any]],
    photos: list[JobPhoto],
) -> dict[str, Any]:
    return {
        "evenbed_job": VERSION,
        "made_at": datetime.now(UTC).isoformat(timespec="milliseconds"),
        "made_by": {"person": None, "device": None, "app": f"service {version('evenbed')}"},
        "schema": SCHEMA,
        "job": job_id,
        "records": records,
        "history": history,
        "photos": [{"hash": one.hash, "media_type": one.media_type, "size": one.size} for one in photos],
        "complete": {"history": True, "photos": [one.hash for one in photos if not one.complete]},
    }


def _past(work: UnitOfWork, job_id: str) -> Iterator[JobPast]:
    after = 0
    while page := work.archive.job_past(job_id, after, MOST_RECORDS):
        yield from page
        after = page[-1].entry.sequence or after


def _change(past: JobPast) -> dict[str, Any]:
    entry, origin = past.entry, past.entry.origin
    fields: FieldValues = entry.fields
    device: dict[str, str | None] | None = {"id": entry.author.device_id, "name": past.device_name}
    if origin is not None:
        device = {"id": origin.device_id, "name": origin.device_name} if origin.device_id else None
    return {
        "change_id": entry.change_id,
        "kind": entry.kind,
        "record_id": entry.record_id,
        "fields": fields,
        "schema": entry.schema,
        "at": entry.at.isoformat(),
        "person": origin.person if origin else entry.author.person,
        "device": device,
        "knew": list(past.knew),
    }
