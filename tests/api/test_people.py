"""People and devices as a foreman keeps them; each decision holds from the next request on."""

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from tests.clients import PHONE, Client, change
from tests.phones import uuid_text

from evenbed.access.joining import FROM_THE_APP

OTHER, THIRD, JOB = uuid_text(501), uuid_text(502), uuid_text(1)


@pytest.fixture
def ana(client: Client) -> Client:
    """The only foreman."""
    return client.joined()


@pytest.fixture
def ben(client: Client) -> Client:
    """A setter."""
    return client.joined(OTHER, "Ben", "setter")


def person_of(client: Client) -> str:
    """Whose device it is."""
    told: str = client.send("GET", "/api/session").json()["person_id"]
    return told


def refused(reply: Any) -> tuple[int, str]:
    """Status and code of a problem."""
    return reply.status_code, reply.json()["code"]


def test_everybody_is_listed_by_name_with_their_devices(ana: Client, ben: Client) -> None:
    invited = ana.send("POST", "/api/invites", json={"role": "viewer", "name": "Abe"}).json()
    people = ana.send("GET", "/api/people").json()["people"]
    assert [(one["name"], one["role"], len(one["devices"])) for one in people] == [
        ("Abe", "viewer", 0),
        ("Ana", "foreman", 1),
        ("Ben", "setter", 1),
    ]
    assert people[0]["id"] == invited["person_id"]
    assert people[1]["devices"][0] | {"joined_at": "", "last_seen_at": ""} == {
        "id": PHONE,
        "name": "phone",
        "joined_at": "",
        "last_seen_at": "",
        "removed_at": None,
    }
    assert refused(ben.send("GET", "/api/people")) == (403, "foreman_only")


def test_two_people_may_have_one_name(ana: Client) -> None:
    ids = {ana.send("POST", "/api/invites", json={"role": "setter", "name": "Ana"}).json()["person_id"] for _ in "12"}
    named = [one["id"] for one in ana.send("GET", "/api/people").json()["people"] if one["name"] == "Ana"]
    assert len(ids) == 2
    assert set(named) == ids | {person_of(ana)}


def test_an_invitation_says_until_when_it_holds(ana: Client) -> None:
    told = ana.send("POST", "/api/invites", json={"role": "setter", "name": "Ben"}).json()
    left = datetime.fromisoformat(told["expires_at"]) - datetime.now(UTC)
    assert FROM_THE_APP - timedelta(seconds=30) < left <= FROM_THE_APP


@pytest.mark.parametrize(
    "asked",
    [
        {},
        {"role": "setter"},
        {"name": "Ben"},
        {"role": "setter", "name": "Ben", "person_id": JOB},
        {"role": "king", "name": "Ben"},
        {"role": "setter", "name": ""},
        {"role": "setter", "name": "  "},
        {"role": "setter", "name": "a\nb"},
        {"role": "setter", "name": "x" * 201},
        {"person_id": "Ben"},
    ],
)
def test_an_invitation_is_for_one_new_or_one_known_person(ana: Client, asked: dict[str, str]) -> None:
    reply = ana.send("POST", "/api/invites", json=asked)
    assert refused(reply) == (422, "malformed")
    assert reply.json()["problems"][0]["message"]
    assert len(ana.send("GET", "/api/people").json()["people"]) == 1


@pytest.mark.parametrize(
    ("method", "path", "body"),
    [
        ("POST", "/api/invites", {"person_id": JOB}),
        ("PATCH", f"/api/people/{JOB}", {"name": "Ben"}),
        ("PATCH", f"/api/devices/{JOB}", {"name": "phone"}),
        ("DELETE", f"/api/devices/{JOB}", None),
    ],
)
def test_who_is_not_there_is_not_found(ana: Client, method: str, path: str, body: dict[str, str] | None) -> None:
    assert refused(ana.send(method, path, json=body)) == (404, "not_found")


def test_a_new_name_is_told_from_the_next_request_on_and_the_past_keeps_the_old(ana: Client, ben: Client) -> None:
    ben.push(change(1, "job", JOB, {"name": "Alder"}))
    renamed = ana.send("PATCH", f"/api/people/{person_of(ben)}", json={"name": "Benedict"}).json()
    assert (renamed["name"], renamed["role"], renamed["devices"][0]["id"]) == ("Benedict", "setter", OTHER)
    assert ben.send("GET", "/api/session").json()["person"] == "Benedict"
    ben.push(change(2, "job", JOB, {"note": "x"}))
    told = ana.send("GET", f"/api/records/job/{JOB}/history").json()["entries"]
    assert [entry["person"] for entry in told] == ["Ben", "Benedict"]


def test_a_new_role_holds_from_the_next_request_on(ana: Client, ben: Client) -> None:
    path, view = f"/api/people/{person_of(ben)}", ben.send("GET", "/api/session").json()["view"]
    assert ana.send("PATCH", path, json={"role": "viewer"}).json()["role"] == "viewer"
    assert refused(ben.push(change(1, "job", JOB, {"name": "Alder"}))) == (403, "viewer_only_looks")
    told = ben.send("GET", "/api/session").json()
    assert (told["role"], told["view"] > view) == ("viewer", True)
    ana.send("PATCH", path, json={"role": "foreman"})
    assert ben.send("GET", "/api/people").status_code == 200
    assert ben.push(change(1, "job", JOB, {"name": "Alder"})).json()["results"][0]["outcome"] == "applied"


def test_an_edit_of_nothing_changes_nothing(ana: Client, ben: Client) -> None:
    view = ben.send("GET", "/api/session").json()["view"]
    assert ana.send("PATCH", f"/api/people/{person_of(ben)}", json={}).json()["name"] == "Ben"
    assert ben.send("GET", "/api/session").json()["view"] == view


def test_a_device_is_renamed_by_a_foreman_or_by_itself(ana: Client, ben: Client) -> None:
    assert ana.send("PATCH", f"/api/devices/{OTHER}", json={"name": "Ben's phone"}).json()["name"] == "Ben's phone"
    assert ben.send("PATCH", f"/api/devices/{OTHER}", json={"name": "mine"}).json()["name"] == "mine"
    assert ben.send("GET", "/api/session").json()["device_name"] == "mine"
    for path in (f"/api/devices/{PHONE}", f"/api/devices/{JOB}"):
        assert refused(ben.send("PATCH", path, json={"name": "yours"})) == (403, "foreman_only")


def test_a_removed_device_can_do_nothing_and_stays_on_the_list(ana: Client, ben: Client) -> None:
    first = ana.send("DELETE", f"/api/devices/{OTHER}").json()
    assert first["removed_at"]
    for method, path in (("GET", "/api/session"), ("GET", "/api/pull"), ("DELETE", "/api/session")):
        assert refused(ben.send(method, path)) == (401, "device_removed")
    assert refused(ben.push(change(1, "job", JOB, {"name": "x"}))) == (401, "device_removed")
    assert ana.send("DELETE", f"/api/devices/{OTHER}").json() == first
    listed = ana.send("GET", "/api/people").json()["people"][1]["devices"]
    assert [one["removed_at"] for one in listed] == [first["removed_at"]]


def test_the_last_foreman_keeps_role_and_device(ana: Client, ben: Client) -> None:
    ana.send("POST", "/api/invites", json={"role": "foreman", "name": "Cleo"})  # expected, but not here yet
    for reply in (
        ana.send("PATCH", f"/api/people/{person_of(ana)}", json={"role": "setter"}),
        ana.send("DELETE", f"/api/devices/{PHONE}"),
        ana.send("DELETE", "/api/session"),
    ):
        assert refused(reply) == (409, "last_foreman")
        assert "Make somebody else a foreman" in reply.json()["detail"]
        assert "set-cookie" not in reply.headers
    assert ana.send("GET", "/api/session").json()["role"] == "foreman"
    assert ben.send("GET", "/api/session").status_code == 200


def test_a_foreman_with_two_devices_may_give_one_away_and_not_the_other(client: Client, ana: Client) -> None:
    code = ana.send("POST", "/api/invites", json={"person_id": person_of(ana)}).json()["code"]
    assert client.join(THIRD, person=None, code=code).status_code == 200
    assert ana.send("DELETE", f"/api/devices/{THIRD}").status_code == 200
    assert refused(ana.send("DELETE", "/api/session")) == (409, "last_foreman")


def test_a_foreman_may_go_where_another_stays_and_of_two_that_go_at_once_one_stays(ana: Client, ben: Client) -> None:
    ana.send("PATCH", f"/api/people/{person_of(ben)}", json={"role": "foreman"})
    assert ana.send("PATCH", f"/api/people/{person_of(ana)}", json={"role": "setter"}).status_code == 200
    assert refused(ana.send("GET", "/api/people")) == (403, "foreman_only")
    assert refused(ben.send("DELETE", "/api/session")) == (409, "last_foreman")


def test_the_servers_own_code_lets_a_foreman_in_again_who_then_removes_the_lost_device(
    client: Client, ana: Client
) -> None:
    again = client.joined(THIRD, "Ana", "foreman")
    assert again.send("DELETE", f"/api/devices/{PHONE}").status_code == 200
    assert refused(ana.send("GET", "/api/session")) == (401, "device_removed")


def test_a_setter_may_leave_a_company_that_no_foreman_can_reach(ana: Client) -> None:
    setter = ana.joined(uuid_text(77), "Sol", "setter")
    with ana.store.writing() as work:
        for device in work.devices.all():
            if device.person.role == "foreman":
                work.devices.remove(device.id, datetime.now(UTC))
        work.commit()
    assert setter.send("DELETE", "/api/session").status_code == 200
