"""Export, wipe, import: a job comes out of its file as it went in, over both databases, whatever was done to it."""

import json
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from zipfile import ZipFile

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from evenbed.jobfile.making import write_job
from evenbed.jobfile.parts import opened
from evenbed.jobfile.reading import read
from evenbed.jobfile.taking import Taken, take_in
from evenbed.store.work import Store
from evenbed.sync.proof import differences
from tests.databases import Databases
from tests.jobfiles.random_jobs import JOB, PICTURES, Step, Worked, steps, told_of
from tests.share import share_of
from tests.stores import START


def written(store: Store, file: Path) -> dict[str, Any]:
    """The job in a file; its `job.json`, less when it was made."""
    with store.reading() as work:
        write_job(work, JOB, file)
    with ZipFile(file) as parts:
        document: dict[str, Any] = json.loads(parts.read("job.json"))
    del document["made_at"]
    return document


def taken(store: Store, file: Path) -> Taken:
    """Take the file in."""
    with opened(file) as parts, store.writing() as work:
        outcome = take_in(work, read(parts), parts, START + timedelta(days=1), 1_000_000)
        work.commit()
    return outcome


def is_proved(store: Store) -> bool:
    """What `evenbed verify` asks: the log makes every record, and every photo has its bytes."""
    with store.reading() as work:
        _, wrong = differences(work.archive.log(), work.archive.records(), work.archive.assignments())
        _, damaged = work.photos.proved()
    return not wrong and not damaged


@settings(
    max_examples=share_of(60),
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(before=steps(), after=steps(), brought=st.integers(0, len(PICTURES)))
def test_a_job_goes_from_service_to_service_and_on_and_nothing_of_it_is_lost(
    databases: Databases, before: list[Step], after: list[Step], brought: int
) -> None:
    with TemporaryDirectory() as name:
        folder = Path(name)
        for part in "abc":
            (folder / part).mkdir()
        with (
            databases.fresh(folder / "a") as a,
            databases.fresh(folder / "b") as b,
            databases.fresh(folder / "c") as c,
            closing(Store(a.url)) as first,
            closing(Store(b.url)) as second,
            closing(Store(c.url)) as third,
        ):
            worked = Worked(first)
            worked.begin()
            worked.work(before)
            worked.bring_photos(PICTURES[:brought])
            _there(first, second, folder / "first.zip")
            again = Worked(second, first_id=5000)
            again.go_on([(kind, record_id) for kind, record_id, _ in told_of(second)["records"]])
            again.work(after, people=(2,))
            _there(second, third, folder / "second.zip")
            _back_again(first, second, third, folder)


def _there(source: Store, target: Store, file: Path) -> None:
    document = written(source, file)
    outcome = taken(target, file)
    assert (outcome.changes, outcome.known) == (len(document["history"]), 0)
    assert told_of(target) == told_of(source)
    assert written(target, file.with_suffix(".again.zip")) == document
    assert is_proved(target)
    assert taken(target, file) == Taken(0, len(document["history"]), 0)


def _back_again(first: Store, second: Store, third: Store, folder: Path) -> None:
    """Where the job came from, only what was done elsewhere is new; both then hold the same."""
    known = len(told_of(first)["past"])
    outcome = taken(first, folder / "second.zip")
    assert (outcome.changes, outcome.known) == (len(told_of(third)["past"]) - known, known)
    assert told_of(first)["records"] == told_of(second)["records"]
    assert is_proved(first)
