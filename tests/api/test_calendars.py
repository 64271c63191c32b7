"""The address of dates: made, read by a calendar program, revoked; and what stands in the calendar at it."""

import logging
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import icalendar
import pytest
from tests.askers import NEXT, Company, company_of
from tests.clients import Client, change
from tests.documents import Json
from tests.phones import uuid_text
from tests.pictures import JOB, ROOM
from tests.questions import answer_to

from evenbed.access.codes import hash_of_token
from evenbed.api import feed
from evenbed.engine.bridge import answer_text
from evenbed.store.faults import StoreFailedError

FLOOR = {"vertices": [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]}
PLACED = "2026-05-04T15:00:00+00:00"
MILESTONES = ("walk", "tile", "grout", "light_traffic", "heavy_traffic")
PERSONS = ("viewer", "setter", "foreman", "outsider")


class Phone:
    """A client that numbers its changes on."""

    def __init__(self, client: Client, number: int = 1) -> None:
        self.client = client
        self._number = number - 1

    def say(self, kind: str, record_id: str, **fields: Any) -> None:
        self._number += 1
        reply = self.client.push(change(self._number, kind, record_id, fields))
        assert reply.json()["results"][0]["outcome"] == "applied", reply.text

    def address(self, **told: str) -> str:
        path: str = self.client.send("POST", "/api/calendar", json=told).json()["path"]
        return path


@pytest.fixture
def foreman(client: Client) -> Phone:
    """With a job of one room whose bed was placed."""
    phone = Phone(client.joined())
    phone.say("job", JOB, name="Maple house", place="12 Maple St; rear")
    phone.say("room", ROOM, job_id=JOB, name="Bath", outline=FLOOR)
    phone.say("placement", uuid_text(20), room_id=ROOM, section="s1", placed_at=PLACED)
    return phone


def read(client: Client, path: str, **headers: str) -> Any:
    """As a calendar program does, which has no token."""
    return Client(client.app, client.code).send("GET", path, headers=headers)


def events_at(client: Client, path: str) -> dict[str, Any]:
    """The events by their uid."""
    reply = read(client, path)
    assert reply.status_code == 200, reply.text
    assert reply.headers["content-type"] == "text/calendar; charset=utf-8"
    calendar: Any = icalendar.Calendar.from_ical(reply.content)
    events = {str(event["uid"]): event for event in calendar.walk("VEVENT")}
    assert [*calendar.errors, *(error for event in events.values() for error in event.errors)] == []
    return events


def uid(milestone: str, room: str = ROOM) -> str:
    return f"{room}-{milestone}@evenbed"


def test_every_milestone_of_a_placed_room_is_a_window_that_says_somebody_must_look(foreman: Phone) -> None:
    events = events_at(foreman.client, foreman.address())
    assert set(events) == {uid(milestone) for milestone in MILESTONES}
    tile = events[uid("tile")]
    assert str(tile["summary"]) == "Maple house, Bath: tile, likely"
    assert str(tile["location"]) == "12 Maple St; rear"
    assert str(tile["status"]) == "TENTATIVE"
    assert datetime.fromisoformat(PLACED) < tile["dtstart"].dt < tile["dtend"].dt
    assert "A prediction is not a test: somebody must look" in str(tile["description"])
    assert "none was measured" in str(tile["description"])
    starts = [events[uid(milestone)]["dtstart"].dt for milestone in MILESTONES]
    assert starts == sorted(starts)


def test_the_windows_are_those_that_the_engine_tells_the_phone(foreman: Phone) -> None:
    document = {"document": 1, "outline": FLOOR, "readings": [], "placements": [{"placed_at": PLACED}]}
    row = waiting_row(document, "tile")
    tile = events_at(foreman.client, foreman.address(zone="America/Chicago"))[uid("tile")]
    assert tile["dtstart"].dt == datetime.fromisoformat(row["early"])
    assert tile["dtend"].dt == datetime.fromisoformat(row["late"])
    chicago = datetime.fromisoformat(row["likely"]).astimezone(ZoneInfo("America/Chicago"))
    assert f"likely {chicago:%Y-%m-%d %H:%M}" in str(tile["description"])
    assert "Times as in America/Chicago." in str(tile["description"])


def waiting_row(document: Json, milestone: str) -> Json:
    answer = answer_to("waiting", document=document, now="2026-05-05T00:00:00+00:00")
    return next(row for row in answer["countdown"] if row["milestone"] == milestone)


def test_a_changed_forecast_moves_the_dates_and_keeps_their_uids_with_a_larger_sequence(foreman: Phone) -> None:
    path = foreman.address()
    before = events_at(foreman.client, path)
    days = {"low": -1, "high": 6, "low_at": "2026-05-05T05:00:00-05:00", "high_at": "2026-05-04T15:00:00-05:00"}
    foreman.say("forecast_day", uuid_text(30), job_id=JOB, **days)
    after = events_at(foreman.client, path)
    assert set(after) == set(before)
    for key, event in after.items():
        assert int(event["sequence"]) > int(before[key]["sequence"])
        assert event["dtstart"].dt > before[key]["dtstart"].dt, "cold stretches every wait"
        assert event["last-modified"].dt >= before[key]["last-modified"].dt


def test_what_somebody_let_pass_stands_at_its_moment_with_their_name(foreman: Phone) -> None:
    at = "2026-05-05T12:10:00+00:00"
    entry = {"what": "milestone", "code": "walk", "by": "Ana", "how": "foot", "at": at}
    foreman.say("entry", uuid_text(31), room_id=ROOM, **entry)
    events = events_at(foreman.client, foreman.address())
    walk = events[uid("walk")]
    assert walk["dtstart"].dt == datetime.fromisoformat(at)
    assert "dtend" not in walk
    assert str(walk["summary"]) == "Maple house, Bath: walk on it, let pass by Ana"
    assert "They stepped on it." in str(walk["description"])
    assert str(walk["status"]) == "CONFIRMED"
    assert str(events[uid("tile")]["status"]) == "TENTATIVE"


def test_the_language_and_the_clock_are_chosen_when_the_address_is_made(foreman: Phone) -> None:
    path = foreman.address(language="es", zone="Europe/Madrid")
    tile = events_at(foreman.client, path)[uid("tile")]
    assert str(tile["summary"]) == "Maple house, Bath: loseta, probable"
    assert "Horas de Europe/Madrid." in str(tile["description"])


def test_a_zone_that_nobody_knows_is_told_as_utc(foreman: Phone) -> None:
    for strange in ("", "No/Such_Zone", "localtime/", "/etc/passwd"):
        tile = events_at(foreman.client, foreman.address(zone=strange))[uid("tile")]
        assert "Times as in UTC." in str(tile["description"]), strange
    assert foreman.client.send("POST", "/api/calendar", json={"zone": "UTC/../.."}).json()["code"] == "malformed"


def test_rooms_that_wait_for_nothing_have_no_date(foreman: Phone) -> None:
    path = foreman.address()
    rooms: list[Json] = [{"outline": FLOOR}, {"name": "Bare"}, {"outline": FLOOR, "curing.reference": 1e6}]
    for n, fields in enumerate(rooms):
        foreman.say("room", uuid_text(40 + n), job_id=JOB, **fields)
    foreman.say("placement", uuid_text(50), room_id=uuid_text(42), section="s1", placed_at=PLACED)
    assert {key.rpartition("-")[0] for key in events_at(foreman.client, path)} == {ROOM}
    foreman.say("room", ROOM, deleted=True)
    assert events_at(foreman.client, path) == {}
    foreman.say("room", ROOM, deleted=False)
    assert len(events_at(foreman.client, path)) == len(MILESTONES)
    foreman.say("job", JOB, deleted=True)
    assert events_at(foreman.client, path) == {}


def test_what_is_not_new_is_not_sent_again(foreman: Phone) -> None:
    path = foreman.address()
    first = read(foreman.client, path)
    assert first.headers["cache-control"] == "private, no-cache"
    again = read(foreman.client, path, **{"If-None-Match": f'W/"x", {first.headers["etag"]}'})
    assert (again.status_code, again.content) == (304, b"")
    assert again.headers["etag"] == first.headers["etag"]
    foreman.say("climate", uuid_text(60), room_id=ROOM, at="2026-05-04T16:00:00+00:00", bed=12.0)
    newer = read(foreman.client, path, **{"If-None-Match": first.headers["etag"]})
    assert newer.status_code == 200
    assert newer.headers["etag"] != first.headers["etag"]


def test_the_same_records_give_the_same_text_whenever_and_by_whichever_process(foreman: Phone) -> None:
    path = foreman.address()
    first = read(foreman.client, path).content
    foreman.client.app.state.service.keeping.forget()
    assert read(foreman.client, path).content == first


def test_the_engine_is_asked_once_for_every_new_state_of_a_room(
    foreman: Phone, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []

    def noted(question: str, text: str) -> str:
        asked.append(question)
        return answer_text(question, text)

    monkeypatch.setattr(feed, "answer_text", noted)
    path = foreman.address()
    foreman.say("room", uuid_text(40), job_id=JOB, name="Hall", outline=FLOOR)
    foreman.say("placement", uuid_text(50), room_id=uuid_text(40), section="s1", placed_at=PLACED)
    read(foreman.client, path)
    read(foreman.client, path.replace("language=en", "language=es"))
    assert asked.count("waiting") == 2
    foreman.say("climate", uuid_text(60), room_id=ROOM, at="2026-05-04T16:00:00+00:00", bed=12.0)
    read(foreman.client, path)
    assert asked.count("waiting") == 3


def test_a_revoked_address_is_dead_at_once_and_so_is_one_that_was_replaced(foreman: Phone) -> None:
    first = foreman.address()
    made_at = foreman.client.send("GET", "/api/calendar").json()["made_at"]
    assert datetime.fromisoformat(made_at) <= datetime.now(UTC)
    second = foreman.address()
    assert second != first
    assert read(foreman.client, first).status_code == 404
    assert read(foreman.client, second).status_code == 200
    assert foreman.client.send("DELETE", "/api/calendar").json() == {"made_at": None}
    assert read(foreman.client, second).json()["code"] == "not_found"
    assert foreman.client.send("GET", "/api/calendar").json() == {"made_at": None}
    assert foreman.client.send("DELETE", "/api/calendar").status_code == 200


def test_only_a_hash_of_the_secret_is_kept(foreman: Phone, tmp_path: Path) -> None:
    secret = foreman.address().partition("/calendar/")[2].partition(".ics")[0]
    assert len(secret) >= 43, "256 bits"
    with foreman.client.store.reading() as work:
        kept = work.calendars.with_hash(hash_of_token(secret))
    assert kept is not None
    files = [file.read_bytes() for file in tmp_path.rglob("*") if file.is_file()]
    assert not [file for file in files if secret.encode() in file]


@pytest.fixture
def company(client: Client) -> Company:
    """One job with a room, and people of every role; the outsider is not of its crew."""
    return company_of(client)


def test_everybody_reads_the_jobs_that_they_see_and_no_others(company: Company) -> None:
    paths = {who: Phone(company.clients[who]).address() for who in PERSONS}
    Phone(company.clients["foreman"], NEXT).say(
        "placement", uuid_text(90), room_id=ROOM, section="s", placed_at=PLACED
    )
    found = {who: bool(events_at(company.clients[who], path)) for who, path in paths.items()}
    assert found == {"viewer": True, "setter": True, "foreman": True, "outsider": False}


def test_with_a_removed_device_the_address_that_it_made_is_dead_at_once(company: Company) -> None:
    foreman, viewer = company.clients["foreman"], company.clients["viewer"]
    path = Phone(viewer).address()
    assert read(viewer, path).status_code == 200
    foreman.send("DELETE", f"/api/devices/{uuid_text(503)}")
    assert read(viewer, path).status_code == 404


def test_who_is_taken_off_a_job_reads_no_more_of_it(company: Company) -> None:
    path, foreman = Phone(company.clients["setter"]).address(), Phone(company.clients["foreman"], NEXT)
    foreman.say("placement", uuid_text(90), room_id=ROOM, section="s", placed_at=PLACED)
    assert events_at(company.clients["setter"], path)
    foreman.say("job", JOB, crew=[])
    assert events_at(company.clients["setter"], path) == {}


def test_no_log_tells_a_secret(
    foreman: Phone, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    path = foreman.address()

    def broken(*_: object) -> None:
        raise StoreFailedError("The disk is broken.")

    monkeypatch.setattr("evenbed.api.calendars.person_with_address", broken)
    with caplog.at_level(logging.DEBUG, "evenbed"):
        assert read(foreman.client, path).json()["code"] == "storage_failed"
    told = [record.getMessage() for record in caplog.records if record.name == "evenbed"]
    assert told == ["GET /calendar/: The disk is broken."]
