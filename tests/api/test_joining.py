"""No code, no token, no reading and no writing."""

import sqlite3
from pathlib import Path

import pytest
from tests.clients import PHONE, Client, change, service
from tests.phones import uuid_text

from evenbed.access.tries import MOST_TRIES, WINDOW_S, TooManyTriesError, Tries


def test_a_device_joins_with_the_code_in_any_writing(client: Client) -> None:
    reply = client.join(code=client.code.lower().replace("-", " "))
    assert reply.status_code == 200
    told = reply.json()
    assert set(told) == {"device_id", "database", "protocol", "token", "server_time"}
    assert (told["device_id"], told["protocol"]) == (PHONE, 1)


def test_the_cookie_is_out_of_reach_of_scripts_and_of_other_sites(client: Client) -> None:
    cookie = client.join().headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    assert "secure" not in cookie


def test_the_cookie_travels_by_https_only_where_the_service_does(tmp_path: Path) -> None:
    with service(tmp_path, https=True) as client:
        assert "secure" in client.join().headers["set-cookie"].lower()


def test_cookie_and_bearer_token_both_open_the_session(client: Client) -> None:
    token = client.join().json()["token"]
    for headers in ({"Authorization": f"Bearer {token}"}, {"Cookie": f"evenbed_device={token}"}):
        told = client.send("GET", "/api/session", headers=headers).json()
        assert (told["device_id"], told["person"], told["protocol"]) == (PHONE, "Ana", 1)


def test_a_wrong_code_is_refused_and_too_many_close_the_door_for_the_right_one_too(client: Client) -> None:
    for _ in range(MOST_TRIES):
        reply = client.join(code="WRONG-CODE")
        assert (reply.status_code, reply.json()["code"]) == (403, "wrong_code")
    reply = client.join()
    assert (reply.status_code, reply.json()["code"]) == (429, "too_many_tries")
    assert int(reply.headers["retry-after"]) == reply.json()["retry_after"] > 0


def test_the_door_opens_again_after_a_while_and_only_the_guesser_waits() -> None:
    now = 0.0
    tries = Tries(lambda: now)
    for _ in range(MOST_TRIES):
        tries.count("guesser")
    tries.check("somebody else")
    with pytest.raises(TooManyTriesError):
        tries.check("guesser")
    now = WINDOW_S + 1
    tries.check("guesser")


def test_joining_again_makes_the_former_token_worthless(client: Client) -> None:
    former = client.joined()
    latter = client.joined(person="Ben")
    assert former.send("GET", "/api/session").status_code == 401
    assert latter.send("GET", "/api/session").json()["person"] == "Ben"


def test_neither_code_nor_token_is_in_the_database(client: Client, tmp_path: Path) -> None:
    token = client.join().json()["token"]
    with sqlite3.connect(tmp_path / "evenbed.db") as database:
        kept = "\n".join(database.iterdump())
    database.close()
    assert PHONE in kept
    assert token not in kept
    assert client.code not in kept
    assert client.code.replace("-", "") not in kept


PROTECTED = [
    ("GET", "/api/session"),
    ("POST", "/api/push"),
    ("GET", "/api/pull"),
    ("GET", "/api/events"),
    ("GET", f"/api/records/job/{uuid_text(1)}/history"),
]
OPEN = {("GET", "/api/health"), ("POST", "/api/plan"), ("POST", "/api/join")}


@pytest.mark.parametrize(("method", "path"), PROTECTED)
@pytest.mark.parametrize("headers", [{}, {"Authorization": "Bearer nonsense"}, {"Cookie": "evenbed_device=nonsense"}])
def test_every_route_refuses_without_a_token(client: Client, method: str, path: str, headers: dict[str, str]) -> None:
    body = {
        "protocol": 1,
        "changes": [change(1, "job", uuid_text(1), {"name": "x"})],
        "device_time": "2026-05-04T00:00Z",
    }
    reply = client.send(method, path, headers=headers, json=body if method == "POST" else None)
    assert (reply.status_code, reply.json()["code"]) == (401, "not_joined")
    assert client.joined().pull()["records"] == []


def test_the_list_of_protected_routes_is_complete(client: Client) -> None:
    paths = client.app.openapi()["paths"]
    known = {(method.upper(), path) for path, methods in paths.items() for method in methods}
    named = {(method, path.replace(f"/job/{uuid_text(1)}/", "/{kind}/{record_id}/")) for method, path in PROTECTED}
    assert known == named | OPEN


def test_a_cookie_cannot_be_used_by_a_page_of_another_origin(client: Client) -> None:
    token = client.join().json()["token"]
    for kind in ("text/plain", "application/x-www-form-urlencoded", ""):
        headers = {"Cookie": f"evenbed_device={token}", "Content-Type": kind}
        reply = client.send("POST", "/api/push", headers=headers, content=b'{"protocol":1,"changes":[]}')
        assert (reply.status_code, reply.json()["code"]) == (415, "json_required")
