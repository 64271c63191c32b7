"""The commands that carry one job out of a database and into another, as one file: `job-out`, `job-in`."""

import argparse
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from evenbed.access.joining import found
from evenbed.jobfile.faults import JobFileError
from evenbed.jobfile.making import UnknownJobError, find_job, write_job
from evenbed.jobfile.parts import opened
from evenbed.jobfile.reading import read
from evenbed.jobfile.taking import bring
from evenbed.settings import Settings
from evenbed.store.migrate import migrate
from evenbed.store.work import Store

Command = Callable[[argparse.Namespace, Settings], int]
Add = Callable[[str, Command, str], argparse.ArgumentParser]
CARRYING_FAULTS = (JobFileError, UnknownJobError)
MOST_NAMED = 10


def add_carrying(add: Add) -> None:
    """Put the commands into the parser; `add` makes one that takes a database: name, function, purpose."""
    out = add("job-out", run_job_out, "write one job, with its history and photos, into one file")
    out.add_argument("job", help="its id, or its name where no other job has it")
    out.add_argument("file", type=Path, help="not there yet")
    into = add("job-in", run_job_in, "take in a job file, made here or on a phone: all of it or nothing")
    into.add_argument("file", type=Path)


def run_job_out(given: argparse.Namespace, settings: Settings) -> int:
    """Write the file."""
    migrate(settings.database_url)
    with closing(Store(settings.database_url, settings.busy_timeout_s)) as store, store.reading() as work:
        job_id = find_job(work, given.job)
        changes, photos = write_job(work, job_id, given.file)
    print(f"{given.file}: job {job_id} with {changes} changes and {photos} photos.")
    return 0


def run_job_in(given: argparse.Namespace, settings: Settings) -> int:
    """Take the file in; what is known already stays as it is."""
    with opened(given.file) as parts:
        file = read(parts)
        migrate(settings.database_url)
        with closing(Store(settings.database_url, settings.busy_timeout_s)) as store:
            code = found(store, datetime.now(UTC))
            taken = bring(store, file, parts, datetime.now(UTC), settings.photo_pixels, lambda _work: None)
    if code:
        print(f"The database is new. Join code for one foreman's device: {code}")
    print(f"{taken.changes} changes and {taken.photos} photos are new; {taken.known} changes were here already.")
    _say_besides(file.unknown, file.contents.complete.history, len(file.contents.complete.photos))
    return 0


def _say_besides(unknown: tuple[str, ...], has_history: bool, photos_missing: int) -> None:
    if unknown:
        print(f"Left out, for this version does not know it: {', '.join(unknown[:MOST_NAMED])}.")
    if not has_history:
        print("The file did not hold the whole history of the job.")
    if photos_missing:
        print(f"Photos that were not in the file: {photos_missing}.")
