"""What somebody knew of a job that came in a file goes on in the next file: nobody is asked to decide it again."""

from contextlib import closing
from datetime import timedelta
from pathlib import Path

from evenbed.jobfile.making import write_job
from evenbed.jobfile.parts import opened
from evenbed.jobfile.reading import read
from evenbed.jobfile.taking import take_in
from evenbed.store.work import Store
from evenbed.sync.accept import accept_push
from evenbed.sync.model import Record
from evenbed.wire.exchange import Change, Origin, PushRequest
from evenbed.wire.protocol import PROTOCOL, SCHEMA
from tests.databases import Databases
from tests.phones import uuid_text
from tests.stores import START, author_of, join_device

JOB, ANAS, BENS = uuid_text(1), uuid_text(901), uuid_text(902)


def named(number: int, name: str, minute: int, by: str | None = None) -> Change:
    """The job gets this name on a phone that has seen no number; `by`: on that device, brought here in a file."""
    at = (START + timedelta(minutes=minute)).isoformat()
    maker = by and Origin(at=at, person="Ben", device_id=by, device_name="Ben's phone", knew=[])
    return Change(
        change_id=uuid_text(100 + number),
        number=number,
        kind="job",
        record_id=JOB,
        fields={"name": name},
        seen=0,
        device_time=at,
        schema=SCHEMA,
        origin=maker or None,
    )


def job_in(store: Store) -> Record:
    """The job as it stands."""
    with store.reading() as work:
        return next(record for record in work.archive.records() if record.id == JOB)


def test_who_replaced_what_they_had_brought_in_a_file_replaced_it_knowingly_in_the_next_file_too(
    databases: Databases, tmp_path: Path
) -> None:
    """Ana's phone reads Ben's name for the job out of a file, and gives it another before it hears of a number."""
    for part in "ab":
        (tmp_path / part).mkdir()
    with (
        databases.fresh(tmp_path / "a") as here,
        databases.fresh(tmp_path / "b") as there,
        closing(Store(here.url)) as first,
        closing(Store(there.url)) as second,
    ):
        join_device(first, ANAS, "Ana's phone", "Ana")
        changes, at = [named(1, "Ben's", 60, by=BENS), named(2, "Ana's", 0)], START + timedelta(hours=2)
        with first.writing() as work:
            push = PushRequest(protocol=PROTOCOL, changes=changes, device_time=at.isoformat())
            accept_push(work.ledger(), author_of(ANAS, "Ana"), "foreman", push, at)
            work.commit()
        with first.reading() as work:
            write_job(work, JOB, tmp_path / "job.zip")
        with opened(tmp_path / "job.zip") as parts, second.writing() as work:
            take_in(work, read(parts), parts, at, 1_000_000)
            work.commit()
        for store in (first, second):
            assert job_in(store).fields == {"name": "Ana's"}
            assert job_in(store).conflicts == {}
