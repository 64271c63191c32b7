"""The demo job among people: a foreman sees it, and a setter once assigned."""

from tests.clients import Client, change
from tests.phones import uuid_text

from evenbed.demo.load import PERSON, load_demo


def test_a_foreman_sees_the_demo_job_and_a_setter_once_assigned(client: Client) -> None:
    added = load_demo(client.store)
    foreman, setter = client.joined(), client.joined(uuid_text(501), "Ben", "setter")
    records = foreman.pull()["records"]
    assert len(records) == added > 50
    assert setter.pull()["records"] == []
    (job,) = [record for record in records if record["kind"] == "job"]
    crew = [setter.send("GET", "/api/session").json()["person_id"]]
    assert foreman.push(change(1, "job", job["id"], {"crew": crew})).json()["results"][0]["outcome"] == "applied"
    assert {record["id"] for record in setter.pull()["records"]} == {record["id"] for record in records}


def test_the_demos_own_device_opens_nothing(client: Client) -> None:
    load_demo(client.store)
    people = client.joined().send("GET", "/api/people").json()["people"]
    (crew,) = [person for person in people if person["name"] == PERSON]
    assert crew["role"] == "setter"
    assert [device["removed_at"] is not None for device in crew["devices"]] == [True]
