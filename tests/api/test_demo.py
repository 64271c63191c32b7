"""The demo job among people: a foreman sees it, and a setter once assigned."""

import json
import math
from importlib.resources import files

import pytest
from tests.clients import Client, change
from tests.phones import uuid_text

from evenbed.demo.load import PERSON, load_demo
from evenbed.engine.bridge import answer_text

HALF_A_SIXTEENTH_MM = 25.4 / 32 + 1e-3  # shims are kept to a tenth of a micrometre


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


def test_a_demo_of_before_anything_was_done_on_its_floors_gets_the_rest_at_the_next_loading(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    for since in ("floor_records", "check_records"):
        monkeypatch.setattr(f"evenbed.demo.load.{since}", lambda _told, _room: iter(()))
    first = load_demo(client.store)
    monkeypatch.undo()
    added = load_demo(client.store)
    assert added > 0
    assert load_demo(client.store) == 0
    kinds = [record["kind"] for record in client.joined().pull()["records"]]
    assert len(kinds) == first + added
    assert {*kinds[first:]} == {"station", "rail_check", "batch", "entry", "reading", "gap"}


def test_stations_of_the_demo_were_set_where_its_plan_has_stations_to_the_nearest_sixteenth(client: Client) -> None:
    load_demo(client.store)
    set_ones = [one["fields"] for one in client.joined().pull()["records"] if one["kind"] == "station"]
    text = files("evenbed.demo").joinpath("powder_room.json").read_text(encoding="utf-8")
    planned = [(r["id"], s) for r in json.loads(answer_text("plan", text))["rails"] for s in r["stations"]]
    assert len(set_ones) == len(planned) - 1
    for one in set_ones:
        (shim,) = (s["shim"] for rail, s in planned if rail == one["rail"] and math.dist(s["at"], one["at"]) < 1.0)
        assert abs(shim - one["shim"]) <= HALF_A_SIXTEENTH_MM


def test_the_demos_checked_bed_has_a_dip_where_the_wedge_was_pushed_in(client: Client) -> None:
    load_demo(client.store)
    records = client.joined().pull()["records"]
    bed = [one["fields"] for one in records if one["kind"] == "reading" and one["fields"]["stage"] == "bed"]
    (gap,) = [one["fields"] for one in records if one["kind"] == "gap"]
    lowest = max(bed, key=lambda reading: reading["down"])
    assert lowest["at"] == gap["at"]
    across = [reading["down"] for reading in bed if reading["at"][1] == gap["at"][1] and reading is not lowest]
    assert 0 < lowest["down"] - max(across) < gap["gap"] + HALF_A_SIXTEENTH_MM
