"""A code lets one device in, once, within its time; a cookie is of no use to other sites."""

from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from pathlib import Path
from threading import Barrier
from typing import Any

import pytest
from sqlalchemy import select
from tests.clients import PHONE, Client, change, service
from tests.phones import uuid_text

from evenbed.access.joining import FROM_THE_APP, FROM_THE_SERVER, invite, invite_foreman
from evenbed.access.tries import MOST_TRIES
from evenbed.app import create_app
from evenbed.store.tables import Table
from evenbed.wire.exchange import Role
from evenbed.wire.protocol import PROTOCOL

OTHER = uuid_text(501)
JOB = uuid_text(1)


def code_of(
    client: Client, role: Role = "setter", made: timedelta = timedelta(0), lasting: timedelta = FROM_THE_APP
) -> str:
    """A nameless code, made so long ago."""
    with client.store.writing() as work:
        code = invite(work, role, datetime.now(UTC) - made, lasting)
        work.commit()
    return code


def refused(reply: Any) -> tuple[int, str]:
    """Status and code of a problem."""
    return reply.status_code, reply.json()["code"]


def test_a_device_joins_with_the_code_in_any_writing(client: Client) -> None:
    reply = client.join(code=client.code.lower().replace("-", " "))
    told = reply.json()
    assert reply.status_code == 200
    assert (told["device_id"], told["person"], told["role"], told["protocol"]) == (PHONE, "Ana", "foreman", PROTOCOL)
    assert told["database"] == client.send("GET", "/api/health").json()["database"]


def test_cookie_and_bearer_token_both_open_the_session(client: Client) -> None:
    joined = client.join().json()
    for headers in (
        {"Authorization": f"Bearer {joined['token']}"},
        {"Cookie": f"evenbed_device={joined['token']}"},
    ):
        told = client.send("GET", "/api/session", headers=headers).json()
        assert (told["device_id"], told["device_name"], told["person"], told["role"]) == (
            PHONE,
            "phone",
            "Ana",
            "foreman",
        )
        assert told["person_id"] == joined["person_id"]


def test_a_code_is_used_up_by_the_device_that_it_let_in(client: Client) -> None:
    assert client.join().status_code == 200
    assert refused(client.join(OTHER, "Ben")) == (403, "wrong_code")
    assert refused(client.join()) == (403, "wrong_code")


@pytest.mark.parametrize(("lasting", "what"), [(FROM_THE_APP, "app"), (FROM_THE_SERVER, "server")])
def test_a_code_holds_until_its_time_is_over(client: Client, lasting: timedelta, what: str) -> None:
    late, in_time = lasting + timedelta(seconds=1), lasting - timedelta(seconds=30)
    assert refused(client.join(code=code_of(client, made=late, lasting=lasting))) == (403, "wrong_code"), what
    assert client.join(code=code_of(client, made=in_time, lasting=lasting)).status_code == 200


def test_the_servers_code_makes_a_foreman_and_leaves_earlier_codes_as_they_are(client: Client) -> None:
    later = invite_foreman(client.store, datetime.now(UTC))
    assert client.join(code=later).json()["role"] == "foreman"
    assert client.join(OTHER, "Ben", code=client.code).status_code == 200


def test_one_code_lets_in_one_of_many_that_come_at_once_through_two_services(client: Client) -> None:
    second = Client(create_app(client.app.state.service.settings), client.code)
    together = Barrier(8)

    def come(number: int) -> int:
        together.wait()
        return (client, second)[number % 2].join(uuid_text(600 + number), f"P{number}").status_code

    with ThreadPoolExecutor(8) as crowd:
        statuses = list(crowd.map(come, range(8)))
    with second.store.reading() as work:
        devices, people = work.devices.all(), work.people.all()
    second.store.close()
    assert sorted(statuses) == [200] + [403] * 7
    assert (len(devices), len(people)) == (1, 1)


def test_a_nameless_code_asks_for_a_name_and_waits_for_it(client: Client) -> None:
    for _ in range(MOST_TRIES + 1):
        assert refused(client.join(person=None)) == (422, "name_needed")
    assert client.join().json()["person"] == "Ana"


def test_the_code_of_somebody_known_lets_their_next_device_in_under_their_own_name(client: Client) -> None:
    ana = client.joined()
    invited = ana.send("POST", "/api/invites", json={"role": "setter", "name": "Ben"}).json()
    first = client.join(OTHER, person=None, code=invited["code"]).json()
    assert (first["person"], first["person_id"], first["role"]) == ("Ben", invited["person_id"], "setter")
    again = ana.send("POST", "/api/invites", json={"person_id": invited["person_id"]}).json()
    second = client.join(uuid_text(502), person="Somebody else", code=again["code"]).json()
    assert (second["person"], second["person_id"]) == ("Ben", invited["person_id"])


def test_whose_role_changed_since_the_code_was_made_joins_with_the_role_they_have_now(client: Client) -> None:
    ana = client.joined()
    invited = ana.send("POST", "/api/invites", json={"role": "foreman", "name": "Ben"}).json()
    ana.send("PATCH", f"/api/people/{invited['person_id']}", json={"role": "viewer"})
    assert client.join(OTHER, person=None, code=invited["code"]).json()["role"] == "viewer"


@pytest.mark.parametrize("end", ["removed", "demoted"])
def test_the_codes_of_who_may_not_let_others_in_any_more_let_nobody_in(client: Client, end: str) -> None:
    ana, ben = client.joined(), client.joined(OTHER, "Ben", "foreman")
    code = ben.send("POST", "/api/invites", json={"role": "foreman", "name": "Cleo"}).json()["code"]
    if end == "removed":
        ana.send("DELETE", f"/api/devices/{OTHER}")
    else:
        person = ben.send("GET", "/api/session").json()["person_id"]
        ana.send("PATCH", f"/api/people/{person}", json={"role": "setter"})
    assert refused(client.join(uuid_text(502), person=None, code=code)) == (403, "wrong_code")


def test_a_device_of_somebody_else_is_not_taken_over_and_the_code_is_not_used_up(client: Client) -> None:
    client.joined()
    code = code_of(client)
    assert refused(client.join(PHONE, "Ben", code=code)) == (409, "device_taken")
    assert client.join(OTHER, "Ben", code=code).status_code == 200


def test_joining_again_makes_the_former_token_worthless(client: Client) -> None:
    former = client.joined()
    person = former.send("GET", "/api/session").json()["person_id"]
    code = former.send("POST", "/api/invites", json={"person_id": person}).json()["code"]
    latter = client.join(PHONE, person=None, code=code).json()
    assert refused(former.send("GET", "/api/session")) == (401, "not_joined")
    assert latter["person_id"] == person
    headers = {"Authorization": f"Bearer {latter['token']}"}
    assert client.send("GET", "/api/session", headers=headers).status_code == 200


@pytest.mark.parametrize("person", ["Ben", "Cleo"])
def test_a_removed_device_joins_again_with_a_fresh_code_and_its_numbers_go_on(client: Client, person: str) -> None:
    ana, ben = client.joined(), client.joined(OTHER, "Ben", "setter")
    ben.push(change(1, "job", JOB, {"name": "Alder"}))
    assert ana.send("DELETE", f"/api/devices/{OTHER}").status_code == 200
    assert refused(ben.push(change(2, "job", JOB, {"note": "x"}))) == (401, "device_removed")
    again = client.joined(OTHER, person, "foreman")
    results = again.push(change(1, "job", JOB, {"name": "Alder"}), change(2, "job", JOB, {"note": "x"})).json()[
        "results"
    ]
    assert [result["outcome"] for result in results] == ["already_applied", "applied"]
    assert refused(ben.send("GET", "/api/session")) == (401, "not_joined")
    told = ana.send("GET", f"/api/records/job/{JOB}/history").json()["entries"]
    assert [entry["person"] for entry in told] == ["Ben", person]


def test_wrong_used_and_expired_codes_close_the_door_for_the_right_one_too(client: Client) -> None:
    used = client.code
    client.join()
    for wrong in ("WRONG-CODE", used, code_of(client, made=timedelta(hours=1))) * MOST_TRIES:
        reply = client.join(OTHER, "Ben", code=wrong)
        if reply.status_code == 429:
            break
        assert refused(reply) == (403, "wrong_code")
    reply = client.join(OTHER, "Ben", code=code_of(client))
    assert refused(reply) == (429, "too_many_tries")
    assert int(reply.headers["retry-after"]) == reply.json()["retry_after"] > 0


@pytest.mark.usefixtures("cheap_codes")
def test_right_codes_are_no_guesses(client: Client) -> None:
    for number in range(MOST_TRIES + 2):
        assert client.join(uuid_text(600 + number), code=code_of(client)).status_code == 200


def test_a_header_that_anybody_may_write_does_not_make_a_guesser_somebody_else(client: Client) -> None:
    for number in range(MOST_TRIES):
        told = {"code": "WRONG", "device_id": PHONE, "device_name": "phone", "person": "Ana"}
        headers = {"X-Forwarded-For": f"192.0.2.{number}", "Forwarded": f"for=192.0.2.{number}"}
        assert client.send("POST", "/api/join", json=told, headers=headers).status_code == 403
    assert client.join().status_code == 429


def test_neither_code_nor_token_is_in_the_database(client: Client) -> None:
    token = client.join().json()["token"]
    with client.store.engine.connect() as connection:
        rows = (connection.execute(select(table)).all() for table in Table.metadata.sorted_tables)
        kept = "\n".join(map(str, rows))
    assert PHONE in kept
    for secret in (token, client.code, client.code.replace("-", "")):
        assert secret not in kept


def test_the_cookie_is_out_of_reach_of_scripts_and_of_other_sites(client: Client) -> None:
    cookie = client.join().headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    assert "secure" not in cookie


def test_the_cookie_travels_by_https_only_where_the_service_does(tmp_path: Path) -> None:
    with service(tmp_path, https=True) as client:
        assert "secure" in client.join().headers["set-cookie"].lower()


def test_leaving_makes_the_token_worthless_and_takes_the_cookie_away(client: Client) -> None:
    client.joined()
    ben = client.joined(OTHER, "Ben", "viewer")
    reply = ben.send("DELETE", "/api/session")
    assert (reply.status_code, reply.json()["id"]) == (200, OTHER)
    assert reply.json()["removed_at"]
    cookie = reply.headers["set-cookie"].lower()
    assert cookie.startswith('evenbed_device="";') or cookie.startswith("evenbed_device=;")
    assert "max-age=0" in cookie
    assert refused(ben.send("GET", "/api/session")) == (401, "device_removed")


def test_a_cookie_cannot_be_used_by_a_page_of_another_origin(client: Client) -> None:
    """Such a page may send GET and POST with these types unasked; for anything else its browser asks us first."""
    headers = {"Cookie": f"evenbed_device={client.join().json()['token']}"}
    paths = client.app.openapi()["paths"]
    routes = [(method, path) for path, routes in paths.items() for method in routes if takes_json(routes[method])]
    assert ("post", "/api/push") in routes
    assert ("patch", "/api/people/{person_id}") in routes
    for method, path in routes:
        for kind in ("text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x", ""):
            reply = client.send(method, path, headers=headers | {"Content-Type": kind}, content=b"{}")
            assert refused(reply) == (415, "json_required"), (method, path)
    asked = {"Origin": "https://elsewhere.example", "Access-Control-Request-Method": "DELETE"}
    reply = client.send("OPTIONS", "/api/session", headers=asked)
    assert reply.status_code == 405
    assert not [name for name in reply.headers if name.startswith("access-control-")]


def takes_json(route: dict[str, Any]) -> bool:
    """True for a route that knows devices and whose body is JSON."""
    return "security" in route and "application/json" in route.get("requestBody", {}).get("content", {})
