"""A job as a file over HTTP: out of one service and into another, all of it or nothing, and once."""

import asyncio
import tempfile
from collections.abc import AsyncIterator, Iterator
from contextlib import ExitStack
from io import BytesIO
from pathlib import Path
from typing import Any
from zipfile import ZipFile

import httpx
import pytest
from tests.askers import MARK, PICTURE, RECORDS, Company, company_of
from tests.clients import Client, change, service
from tests.databases import Databases, SqliteFiles
from tests.jobfiles.hostile import good, text, zipped
from tests.phones import uuid_text
from tests.pictures import JOB

from evenbed.api import receiving
from evenbed.jobfile.parts import MOST_BYTES

OCTETS = {"Content-Type": "application/octet-stream"}


@pytest.fixture
def passing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Where the service keeps what passes through: nothing of it stays behind."""
    folder = tmp_path / "passing"
    folder.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(folder))
    yield folder
    assert list(folder.glob("evenbed-job-*")) == []


@pytest.fixture
def databases() -> Databases:
    """One kind is enough: tests/jobfiles goes through both."""
    return SqliteFiles()


@pytest.fixture
def company(client: Client) -> Company:
    """With one of everything in a job."""
    return company_of(client)


@pytest.fixture
def other(tmp_path: Path) -> Iterator[Client]:
    """A foreman at another service, which knows of nothing."""
    (tmp_path / "other").mkdir()
    with service(tmp_path / "other") as client:
        yield client.joined(person="Zoe")


def sent(phone: Client, content: Any) -> httpx.Response:
    """The reply to a job file."""
    return phone.send("POST", "/api/jobs/file", content=content, headers=OCTETS)


def log_of(phone: Client) -> list[str]:
    """The ids of all changes that the service keeps."""
    with phone.store.reading() as work:
        return [entry.change_id for entry in work.archive.log()]


@pytest.mark.usefixtures("passing")
def test_a_job_goes_out_of_one_service_and_into_another_whole_and_once(company: Company, other: Client) -> None:
    foreman = company.clients["foreman"]
    reply = foreman.send("GET", f"/api/jobs/{JOB}/file")
    assert reply.headers["content-disposition"] == f'attachment; filename="{JOB}.evenbed.zip"'
    assert int(reply.headers["content-length"]) == len(reply.content)
    with ZipFile(BytesIO(reply.content)) as parts:
        assert parts.testzip() is None
        assert parts.read(f"photos/{PICTURE.hash}.jpg") == PICTURE.content
    first, again = sent(other, reply.content), sent(other, reply.content)
    changes = len(RECORDS)
    told = {"job": JOB, "photos_missing": 0, "has_history": True, "unknown": []}
    assert first.json() == told | {"outcome": "taken", "changes": changes, "known": 0, "photos": 1}
    assert again.json() == told | {"outcome": "nothing_new", "changes": 0, "known": changes, "photos": 0}
    assert log_of(other) == log_of(foreman)
    assert _records(other) == _records(foreman)
    assert other.send("GET", f"/api/photos/{PICTURE.hash}/file").content == PICTURE.content
    assert sent(foreman, reply.content).json()["outcome"] == "nothing_new"


def _records(phone: Client) -> list[Any]:
    told = [(one["kind"], one["id"], one["fields"]) for one in phone.pull()["records"]]
    return sorted(told, key=lambda one: one[:2])


@pytest.mark.usefixtures("passing")
def test_the_history_says_who_made_a_change_and_who_brought_it(other: Client) -> None:
    assert sent(other, zipped(text(good()))).status_code == 200
    (entry,) = other.send("GET", f"/api/records/job/{JOB}/history").json()["entries"]
    assert (entry["person"], entry["device_name"]) == ("Ana", "Ana's phone")
    assert (entry["brought_by"]["person"], entry["brought_by"]["device_name"]) == ("Zoe", "Job files")


@pytest.mark.usefixtures("passing")
@pytest.mark.parametrize(
    ("content", "code", "where"),
    [
        (b"no zip", "not_a_zip", "the file"),
        (zipped(text(good()), ("../x", b"")), "bad_name", "../x"),
        (zipped(text(good() | {"job": "x"})), "wrong_shape", "job"),
        (zipped(text(good() | {"evenbed_job": 2})), "newer_version", "job.json"),
        (b"", "not_a_zip", "the file"),
    ],
)
def test_a_file_of_no_use_is_refused_with_why_and_where(other: Client, content: bytes, code: str, where: str) -> None:
    reply = sent(other, content)
    assert (reply.status_code, reply.json()["code"]) == (422, "job_file_not_taken")
    assert reply.headers["content-type"] == "application/problem+json"
    (problem,) = reply.json()["problems"]
    assert (problem["code"], problem["path"]) == (code, where)
    assert problem["message"] == reply.json()["detail"]
    assert log_of(other) == []


@pytest.mark.usefixtures("passing")
def test_a_record_of_a_job_that_is_here_is_not_taken_into_another(company: Company) -> None:
    foreman, document, stolen = company.clients["foreman"], good(), RECORDS["room"]
    mine = uuid_text(70)
    history = [change_of(document["history"][0], mine), document["history"][1] | {"record_id": stolen}]
    history[1]["fields"] = {"job_id": mine, "name": "Mine"}
    records = [{"kind": "job", "id": mine, "fields": {}}, {"kind": "room", "id": stolen, "fields": {}}]
    before = _records(foreman)
    told = document | {"job": mine, "history": history, "records": records, "photos": []}
    reply = sent(foreman, zipped_bare(text(told)))
    (problem,) = reply.json()["problems"]
    assert (problem["code"], problem["path"]) == ("refused", f"room {stolen}")
    assert "stays where it was made" in problem["message"]
    assert _records(foreman) == before


def change_of(told: dict[str, Any], record_id: str) -> dict[str, Any]:
    """The same of another record."""
    return told | {"record_id": record_id}


def zipped_bare(job: bytes) -> bytes:
    """A zip with `job.json` alone."""
    file = BytesIO()
    with ZipFile(file, "w") as parts:
        parts.writestr("job.json", job)
    return file.getvalue()


@pytest.mark.usefixtures("passing")
def test_one_file_is_at_work_at_a_time_and_others_are_asked_to_come_again(company: Company) -> None:
    foreman = company.clients["foreman"]
    with ExitStack() as held:
        assert held.enter_context(foreman.app.state.service.carrying.place())
        for reply in (sent(foreman, b"x"), foreman.send("GET", f"/api/jobs/{JOB}/file")):
            assert (reply.status_code, reply.json()["code"]) == (503, "busy")
            assert int(reply.headers["retry-after"]) == reply.json()["retry_after"] > 0
    assert foreman.send("GET", f"/api/jobs/{JOB}/file").status_code == 200


@pytest.mark.usefixtures("passing")
def test_a_file_that_stops_on_its_way_leaves_nothing(other: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(receiving, "SILENCE_S", 0.05)

    async def stopping() -> AsyncIterator[bytes]:
        yield zipped(text(good()))[:500]
        await asyncio.sleep(1.0)

    reply = sent(other, stopping())
    assert (reply.status_code, reply.json()["code"]) == (422, "job_file_not_taken")
    assert log_of(other) == []


def test_what_is_larger_than_any_job_is_refused_before_it_is_sent(other: Client) -> None:
    headers = OCTETS | {"Content-Length": str(MOST_BYTES + 1)}
    reply = other.send("POST", "/api/jobs/file", content=b"", headers=headers)
    assert (reply.status_code, reply.json()["code"]) == (413, "too_large")


def test_a_browsers_form_cannot_send_a_file(other: Client) -> None:
    reply = other.send("POST", "/api/jobs/file", files={"file": ("job.zip", zipped(text(good())))})
    assert (reply.status_code, reply.json()["code"]) == (415, "octets_required")


def test_there_is_no_file_of_a_job_that_is_not_here(other: Client) -> None:
    reply = other.send("GET", f"/api/jobs/{uuid_text(77)}/file")
    assert (reply.status_code, reply.json()["code"]) == (404, "not_found")


def test_a_deleted_job_still_goes_out_and_says_that_it_is_deleted(company: Company, other: Client) -> None:
    foreman = company.clients["foreman"]
    pushed = foreman.push(change(len(RECORDS) + 1, "job", JOB, {"deleted": True}))
    assert pushed.json()["results"][0]["outcome"] == "applied"
    file = foreman.send("GET", f"/api/jobs/{JOB}/file").content
    assert sent(other, file).status_code == 200
    (job,) = (one for one in other.pull()["records"] if one["kind"] == "job")
    assert job["fields"]["deleted"] is True
    assert job["fields"]["name"] == MARK
