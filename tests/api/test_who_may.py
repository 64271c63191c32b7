"""Every route and everybody who may ask: what each is answered, written out, with no route left out."""

import asyncio
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

import httpx
import pytest
from tests.askers import ASKERS, MARK, NEW, NEXT, PICTURE, RECORDS, REMOVED, SPARE, Company, company_of
from tests.clients import Client, change, service
from tests.databases import Databases
from tests.jobfiles.hostile import good, text, zipped
from tests.phones import uuid_text
from tests.pictures import JOB
from tests.streams import listening

from evenbed.access.joining import invite_foreman
from evenbed.app import create_app
from evenbed.settings import Settings

STRANGE = "not_joined not_joined device_removed"
FOREMANS = f"{STRANGE} foreman_only foreman_only foreman_only ok"
CREWS = f"{STRANGE} ok not_found ok ok"
PLACELESS = "forecast_without_place"
"""As far as a good request gets: the job does not say where it is."""
MAY = {
    # asked by:                       nobody, nonsense, removed, viewer, outsider, setter, foreman
    "GET /api/health": "ok ok ok ok ok ok ok",
    "POST /api/plan": "ok ok ok ok ok ok ok",
    "POST /api/levels": "ok ok ok ok ok ok ok",
    "POST /api/join": "ok ok ok ok ok ok ok",
    "GET /api/session": f"{STRANGE} ok ok ok ok",
    "DELETE /api/session": f"{STRANGE} ok ok ok last_foreman",
    "POST /api/push": f"{STRANGE} viewer_only_looks not_assigned ok ok",
    "GET /api/pull": f"{STRANGE} ok ok ok ok",
    "GET /api/events": f"{STRANGE} ok ok ok ok",
    "GET /api/records/{kind}/{record_id}/history": CREWS,
    "GET /api/jobs/{job_id}/history": CREWS,
    "POST /api/calendar": f"{STRANGE} ok ok ok ok",
    "GET /api/calendar": f"{STRANGE} ok ok ok ok",
    "DELETE /api/calendar": f"{STRANGE} ok ok ok ok",
    "GET /calendar/{secret}.ics": "not_found not_found not_found not_found not_found not_found not_found",
    "GET /api/people": FOREMANS,
    "POST /api/invites": FOREMANS,
    "PATCH /api/people/{person_id}": FOREMANS,
    "PATCH /api/devices/{device_id}": FOREMANS,
    "DELETE /api/devices/{device_id}": FOREMANS,
    "POST /api/rooms/{room_id}/scan": f"{STRANGE} viewer_only_looks not_found ok ok",
    "POST /api/jobs/{job_id}/forecast": f"{STRANGE} viewer_only_looks not_found {PLACELESS} {PLACELESS}",
    "GET /api/jobs/{job_id}/file": FOREMANS,
    "POST /api/jobs/file": FOREMANS,
    "GET /api/photos/{hash}": CREWS,
    "PUT /api/photos/{hash}": f"{STRANGE} viewer_only_looks not_found ok ok",
    "GET /api/photos/{hash}/file": CREWS,
    "GET /api/photos/{hash}/thumbnail": CREWS,
}
CALENDAR = "GET /calendar/{secret}.ics"
"""Whoever knows the secret reads; in the table nobody does (see test_calendars)."""
WITHOUT_JOINING = {"GET /api/health", "POST /api/plan", "POST /api/levels", "POST /api/join", CALENDAR}
ONE_S_OWN = {"DELETE /api/session", "POST /api/calendar", "DELETE /api/calendar"}
"""What writes and yet is open to a viewer: to leave, and the address of one's own dates. (Its own device's name too:
see test_people.)"""
READABLE = {"viewer", "setter", "foreman"}


READING = [route for route in MAY if route.startswith("GET") and route != "GET /api/events"]
WRITING = [route for route in MAY if not route.startswith("GET")]


@pytest.fixture
def company(client: Client) -> Company:
    """A fresh one, for who writes."""
    return company_of(client)


@pytest.fixture(scope="module")
def standing(databases: Databases, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Company]:
    """One for all who only look."""
    folder = tmp_path_factory.mktemp("standing")
    with databases.fresh(folder) as database, service(folder, database) as client:
        yield company_of(client)


FLOOR = [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]
ROOM = {"document": 1, "outline": {"vertices": FLOOR}, "readings": [{"down": 1000, "at": at} for at in FLOOR]}
SCAN = b"".join(b"%d %d 5\n" % (x, y) for x in range(0, 3001, 100) for y in range(0, 2001, 100))
NAME = {"json": {"name": "Another name"}}
OCTETS = {"Content-Type": "application/octet-stream"}
SENT: dict[str, dict[str, Any]] = {
    "POST /api/plan": {"json": ROOM},
    "POST /api/levels": {"json": ROOM},
    "POST /api/calendar": {"json": {}},
    "POST /api/invites": {"json": {"role": "setter", "name": "Newcomer"}},
    "PATCH /api/people/{person_id}": NAME,
    "PATCH /api/devices/{device_id}": NAME,
    "POST /api/rooms/{room_id}/scan": {"content": SCAN, "headers": OCTETS, "params": {"unit": "mm"}},
    "POST /api/jobs/file": {"content": zipped(text(good())), "headers": OCTETS},
    "PUT /api/photos/{hash}": {
        "content": PICTURE.content,
        "headers": OCTETS,
        "params": {"offset": 0, "size": PICTURE.size},
    },
}
"""Body, headers and query, where they are the same for everybody."""


READ_WHOLE = (
    "GET /api/pull",
    "GET /api/records/{kind}/{record_id}/history",
    "GET /api/jobs/{job_id}/history",
    "GET /api/photos/{hash}/file",
)


def asked(company: Company, route: str, who: str) -> httpx.Response:
    """The reply to a request of this route that is good if whoever asks may make it."""
    client, (method, path) = company.clients[who], route.split(" ")
    about = {
        "job_id": JOB,
        "device_id": SPARE if method == "DELETE" else REMOVED,
        "person_id": company.people["spare"],
    }
    about |= {"room_id": RECORDS["room"], "hash": PICTURE.hash, "secret": "guessed"}
    path = path.format(kind="room", record_id=RECORDS["room"], **about)
    if route == "POST /api/join":
        return client.join(uuid_text(800 + ASKERS.index(who)), code=invite_foreman(client.store, datetime.now(UTC)))
    if route == "POST /api/push":
        return client.push(written(who))
    return client.send(method, path, **SENT.get(route, {}))


def written(who: str) -> dict[str, Any]:
    """A change of the job, numbered on from what the asker's device has sent."""
    number = NEXT if who == "foreman" else 1
    return change(number, "job", JOB, {"note": "seen"}, change_id=uuid_text(2000 + ASKERS.index(who)))


def answer_in(reply: httpx.Response) -> str:
    """`ok`, or the code of the problem, or of the refusal of a pushed change."""
    if reply.status_code != 200:
        code: str = reply.json()["code"]
        return code
    told = reply.json() if reply.headers["content-type"] == "application/json" else {}
    refusals = [result["reason"] for result in told.get("results", []) if result["outcome"] == "refused"]
    return refusals[0] if refusals else "ok"


def heard(client: Client) -> tuple[str, list[dict[str, Any]]]:
    """The answer to asking for the stream, and its first message."""

    async def hear() -> tuple[str, list[dict[str, Any]]]:
        async with listening(client.app, client.headers) as stream:
            await stream.until(lambda it: it.ended or bool(it.told))
            return ("ok" if stream.status == 200 else stream.problem["code"]), stream.told

    return asyncio.run(hear())


def expected(route: str) -> dict[str, str]:
    """The table's line, by asker."""
    return dict(zip(ASKERS, MAY[route].split(), strict=True))


@pytest.mark.parametrize("route", WRITING)
@pytest.mark.usefixtures("cheap_codes")
def test_everybody_is_answered_as_the_table_says(company: Company, route: str) -> None:
    assert {who: answer_in(asked(company, route, who)) for who in ASKERS} == expected(route)


@pytest.mark.parametrize("route", READING)
def test_everybody_reads_what_the_table_says(standing: Company, route: str) -> None:
    assert {who: answer_in(asked(standing, route, who)) for who in ASKERS} == expected(route)


def test_the_stream_is_answered_as_the_table_says_and_tells_an_outsider_nothing(standing: Company) -> None:
    told = {who: heard(standing.clients[who]) for who in ASKERS}
    assert {who: answer for who, (answer, _) in told.items()} == expected("GET /api/events")
    assert [event["latest"] for event in told["outsider"][1]] == [0]
    assert [event["latest"] > 0 for event in told["setter"][1]] == [True]


def test_no_route_is_left_out() -> None:
    paths = create_app(Settings()).openapi()["paths"]
    assert {*READING, *WRITING, "GET /api/events"} == set(MAY)
    assert {f"{method.upper()} {path}" for path, methods in paths.items() for method in methods} == set(MAY)


@pytest.mark.parametrize("route", sorted(set(MAY) - WITHOUT_JOINING))
def test_the_table_itself_lets_no_stranger_in_and_no_viewer_write(route: str) -> None:
    line = expected(route)
    assert [line[who] for who in ASKERS[:3]] == STRANGE.split()
    if not route.startswith("GET") and route not in ONE_S_OWN:
        assert line["viewer"] in ("viewer_only_looks", "foreman_only")


@pytest.mark.parametrize("route", READING)
def test_nothing_of_a_job_is_readable_across_its_crew(standing: Company, route: str) -> None:
    content = {who: asked(standing, route, who).content for who in ASKERS}
    marks = [*(one.encode() for one in (MARK, *RECORDS.values(), PICTURE.hash)), PICTURE.content[-200:]]
    reading = {who for who in ASKERS if any(mark in content[who] for mark in marks)}
    assert reading <= READABLE
    if route in READ_WHOLE:
        assert reading == READABLE


@pytest.mark.parametrize("kind", RECORDS)
def test_the_history_of_every_kind_is_the_crews(standing: Company, kind: str) -> None:
    path = f"/api/records/{kind}/{RECORDS[kind]}/history"
    answers = {who: answer_in(standing.clients[who].send("GET", path)) for who in ASKERS}
    assert answers == expected("GET /api/records/{kind}/{record_id}/history")


def test_nothing_is_written_across_a_crew_of_any_kind_new_or_known(company: Company) -> None:
    outsider, before = company.clients["outsider"], company.clients["foreman"].pull()["records"]
    wanted: list[tuple[str, str, dict[str, Any]]]
    wanted = [(kind, record_id, {"deleted": True}) for kind, record_id in RECORDS.items()]
    wanted += [(kind, uuid_text(700 + n), fields) for n, (kind, fields) in enumerate(NEW.items())]
    wanted += [("job", JOB, {"note": "mine"}), ("photo", uuid_text(750), PICTURE.fields())]
    changes = [change(n, *one, change_id=uuid_text(3000 + n)) for n, one in enumerate(wanted, start=1)]
    reply = outsider.push(*changes)
    assert {result["reason"] for result in reply.json()["results"]} == {"not_assigned"}
    assert len(reply.json()["results"]) == len(wanted)
    assert MARK not in reply.text
    assert company.clients["foreman"].pull()["records"] == before


def test_a_setter_does_not_choose_the_crew_and_nobody_else_hears_of_who_was_taken_off(
    company: Company,
) -> None:
    setter, foreman = company.clients["setter"], company.clients["foreman"]
    own = change(1, "job", JOB, {"crew": [company.people["outsider"]]}, change_id=uuid_text(3001))
    assert setter.push(own).json()["results"][0]["reason"] == "foreman_only"
    foreman.push(change(NEXT, "job", JOB, {"crew": []}))
    assert setter.pull()["records"] == []
    for route, line in MAY.items():
        if "not_found" in line:
            assert answer_in(asked(company, route, "setter")) == "not_found", route
