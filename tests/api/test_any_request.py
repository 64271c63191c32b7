"""Whatever is asked, by whomever: no mistake of the service, and no answer that its description does not tell."""

import asyncio
import shutil
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from tests.askers import NEXT, PICTURE, RECORDS, SPARE, Company, company_of
from tests.clients import Client, service
from tests.openapi import (
    AnyCase,
    answered,
    bad_cases,
    boundary_cases,
    description,
    good_cases,
    good_pushes,
    operations,
)
from tests.share import SHARE, share_of
from tests.stores import url_of
from tests.streams import listening

from evenbed.access.joining import invite_foreman
from evenbed.app import create_app
from evenbed.settings import Settings

STREAM, JOIN, PLAN, LEVELS = "GET /api/events", "POST /api/join", "POST /api/plan", "POST /api/levels"
SCAN = "POST /api/rooms/{room_id}/scan"
ROUTES = sorted(set(operations()) - {STREAM})
WHO = ("nobody", "viewer", "setter", "foreman")
IN_FULL = ("foreman",) if SHARE < 1.0 else WHO
"""Who asks for all that is at and beyond a limit. The others take turns where a run takes a share."""
SCANS = max(4, share_of(10))  # good scans: each takes a process of its own; with fewer none might get through
SAME_FOR_ALL = (JOIN, PLAN, LEVELS, "GET /api/health")
MAKES_GOOD = ("setter", "foreman")
AT_MOST = {
    ("foreman", "DELETE /api/session"): 409,
    ("foreman", "POST /api/jobs/{job_id}/forecast"): 409,
    ("setter", "POST /api/jobs/{job_id}/forecast"): 409,
    ("setter", "GET /api/people"): 403,
    ("setter", "POST /api/invites"): 403,
    ("setter", "PATCH /api/people/{person_id}"): 403,
    ("setter", "PATCH /api/devices/{device_id}"): 403,
    ("setter", "DELETE /api/devices/{device_id}"): 403,
    ("setter", "GET /api/jobs/{job_id}/file"): 403,
    ("setter", "POST /api/jobs/file"): 403,
}
"""How far a good request gets where it does not get through."""
QUIETLY = settings(
    max_examples=8,
    derandomize=True,
    database=None,
    deadline=None,
    phases=[Phase.generate],
    suppress_health_check=list(HealthCheck),
)


def has_input(route: str) -> bool:
    """True where a request can be bad."""
    method, path = route.split(" ")
    told = description()["paths"][path][method.lower()]
    return "parameters" in told or "requestBody" in told


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Company]:
    """A company whose service is closed, to be copied."""
    folder = tmp_path_factory.mktemp("kept")
    with service(folder) as client:
        company = company_of(client)
    return folder / "evenbed.db", company


@pytest.fixture
def company(kept: tuple[Path, Company], tmp_path: Path) -> Iterator[Company]:
    """A copy of the company with a service of its own."""
    file, source = kept
    app = create_app(Settings(database=url_of(Path(shutil.copy(file, tmp_path / "evenbed.db")))))
    clients = {who: Client(app, client.code, client.headers) for who, client in source.clients.items()}
    with closing(clients["nobody"].store):
        yield Company(clients, source.people)


@pytest.mark.parametrize("who", WHO)
@pytest.mark.parametrize("route", ROUTES)
def test_at_and_beyond_every_limit_the_answer_is_as_described(company: Company, route: str, who: str) -> None:
    if route in SAME_FOR_ALL and who != "nobody":
        return
    cases = boundary_cases(route)[:: 4 if route == PLAN else 1]
    for case in cases if who in IN_FULL or route in SAME_FOR_ALL else cases[WHO.index(who) :: 3]:
        answered(company.clients[who], case)


@pytest.mark.parametrize("who", MAKES_GOOD)
@pytest.mark.parametrize("route", [route for route in ROUTES if route not in ("POST /api/push", *SAME_FOR_ALL)])
def test_a_good_request_is_answered_as_described_and_gets_through(company: Company, route: str, who: str) -> None:
    about = {"person_id": company.people["spare"], "device_id": SPARE, "hash": PICTURE.hash}
    about["secret"] = company.clients[who].send("POST", "/api/calendar", json={}).json()["path"][10:53]
    about |= {"size": str(PICTURE.size), "room_id": RECORDS["room"], "job_id": RECORDS["job"]}
    statuses = set()

    @settings(QUIETLY, max_examples=SCANS if route == SCAN else QUIETLY.max_examples)
    @given(good_cases(route, about))
    def ask(case: AnyCase) -> None:
        statuses.add(answered(company.clients[who], case).status_code)

    ask()
    assert AT_MOST.get((who, route), 200) in statuses


@pytest.mark.parametrize("who", MAKES_GOOD)
def test_any_push_is_answered_as_described_and_can_be_pulled_by_everybody(client: Client, who: str) -> None:
    company = company_of(client)
    asking, number = company.clients[who], {"foreman": NEXT, "setter": 1}[who]
    outcomes: set[str] = set()

    @settings(QUIETLY, max_examples=share_of(30))
    @given(good_pushes())
    def ask(case: AnyCase) -> None:
        nonlocal number
        body: Any = case.body
        for place, one in enumerate(body["changes"]):
            one["number"] = number + place
        reply = answered(asking, case)
        results = reply.json()["results"] if reply.status_code == 200 else []
        number += len(results)
        outcomes.update(result["outcome"] for result in results)
        for reader in ("viewer", "foreman"):
            operations()["GET /api/pull"].validate_response(company.clients[reader].send("GET", "/api/pull"))

    ask()
    assert {"applied", "refused"} <= outcomes, outcomes


@pytest.mark.parametrize("route", [route for route in ROUTES if route != PLAN and has_input(route)])
def test_a_bad_request_is_refused_as_described(company: Company, route: str) -> None:
    @QUIETLY
    @given(bad_cases(route))
    def ask(case: AnyCase) -> None:
        answered(company.clients["foreman"], case)

    ask()


def test_joining_is_answered_as_described_with_right_codes_too(company: Company) -> None:
    nobody, statuses = company.clients["nobody"], set()

    @QUIETLY
    @given(good_cases(JOIN, {}), st.booleans())
    def ask(case: AnyCase, is_right: bool) -> None:
        if is_right:
            body: Any = case.body
            body |= {"code": invite_foreman(nobody.store, datetime.now(UTC)), "person": "Ana"}
        statuses.add(answered(nobody, case).status_code)

    ask()
    assert {200, 403} <= statuses


def test_every_route_is_tried() -> None:
    paths = description()["paths"]
    assert {f"{method.upper()} {path}" for path, methods in paths.items() for method in methods} == {*ROUTES, STREAM}


def test_the_stream_tells_what_its_description_says(company: Company) -> None:
    shapes = description()["components"]
    reader = Draft202012Validator({"$ref": "#/components/schemas/LatestEvent", "components": shapes})

    async def hear(client: Client) -> None:
        async with listening(client.app, client.headers) as stream:
            await stream.until(lambda it: bool(it.told))
            reader.validate(stream.told[0])
            assert stream.media_type == "text/event-stream; charset=utf-8"

    for who in ("viewer", "setter", "foreman"):
        asyncio.run(hear(company.clients[who]))
    assert "text/event-stream" in description()["paths"]["/api/events"]["get"]["responses"]["200"]["content"]
