"""Levels asked by themselves: no room is needed; whatever comes gets an answer or problems, and soon."""

import json
import random
import time
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.bad_documents import good
from tests.documents import Json, plan_of
from tests.levelling import levels_of, network
from tests.questions import refusal_of, reply_to

from evenbed.engine.document.check import check_levels_document
from evenbed.engine.levels import levels_from

PATIENCE = 5.0  # s for any one document here, on a slow shared machine


def test_a_rooms_levels_are_those_of_its_plan() -> None:
    levels, plan = levels_of(good()), plan_of(good())["levels"]
    assert levels["notices"] == []
    assert {key: levels[key] for key in plan if key in levels} == {key: plan[key] for key in plan if key in levels}
    assert plan.keys() - levels.keys() == {"next_readings"}


def test_keys_nobody_knows_are_named_and_those_of_a_room_passed_over() -> None:
    document = good() | {"colour": "red", "bed": {"build": "of any kind"}}
    assert [(n["path"], n["code"]) for n in levels_of(document)["notices"]] == [("colour", "unknown_key")]


@pytest.mark.parametrize("empty", [{}, {"readings": []}, {"marks": [{"id": "a", "height": 1.0}], "differences": []}])
def test_nothing_read_is_refused(empty: Json) -> None:
    assert refusal_of("levels", {"document": 1} | empty) == [("", "nothing_read")]


@pytest.mark.parametrize("wrong", [None, [], 7, "text", {}])
def test_what_is_no_document_is_refused(wrong: object) -> None:
    assert refusal_of("levels", wrong)


def test_without_any_known_height_the_highest_mark_is_zero() -> None:
    levels = levels_of(network({}, [("a", "b", 5.0, {"sigma": 1.0}), ("b", "c", -2.0, {"sigma": 1.0})]))
    assert [mark["z"] for mark in levels["marks"]] == [-5.0, 0.0, -2.0]
    assert levels["datum"] == "highest_reading"


def strip(setups: int, marks: int, reach: int, places: int) -> Json:
    """Set-ups one after another, each reading its share of the marks and the neighbours', and places of its own."""
    dice = random.Random(1)
    readings = []
    for s in range(setups):
        middle = s * marks // setups
        for m in range(max(0, middle - reach), min(marks, middle + reach)):
            readings.append({"setup": f"s{s}", "mark": f"m{m}", "down": 1200.0 + dice.gauss(0, 1)})
        for p in range(places):
            readings.append({"setup": f"s{s}", "at": [10.0 * p, 10.0 * s], "down": 1200.0 + dice.gauss(0, 1)})
    return {
        "document": 1,
        "setups": [{"id": f"s{s}"} for s in range(setups)],
        "marks": [{"id": f"m{m}", "height": 0.0 if m == 0 else None} for m in range(marks)],
        "readings": readings,
    }


def seconds_for(document: Json) -> tuple[Json, float]:
    """The answer, and the processor time that it took."""
    started = time.process_time()
    answer = reply_to("levels", document)
    return answer, time.process_time() - started


def test_a_chain_of_set_ups_three_times_as_long_takes_about_three_times_as_long() -> None:
    """A full matrix of its unknowns would take 27 times as long; what else the machine does is in both."""
    _, short = seconds_for(strip(33, 99, 5, 0))
    answer, long = seconds_for(strip(100, 300, 5, 0))
    assert answer["redundancy"] > 500
    assert long < 10.0 * short


def test_twenty_thousand_readings_are_adjusted_in_seconds() -> None:
    """The adjustment alone: looking for mis-read rods among so many takes its own time."""
    document, _ = check_levels_document(strip(100, 300, 5, 190))
    started = time.process_time()
    levels = levels_from(document, None)
    assert time.process_time() - started < PATIENCE
    assert len(levels.heights) > 19_000


def test_a_network_tangled_beyond_reason_is_refused_in_seconds() -> None:
    dice = random.Random(1)
    names = [f"m{n}" for n in range(3000)]
    pairs = (dice.sample(names, 2) for _ in range(20_000))
    lines = [(a, b, dice.gauss(0, 1), {"sigma": 1.0}) for a, b in pairs]
    answer, took = seconds_for(network({"m0": 0.0}, lines))
    assert [problem["code"] for problem in answer["problems"]] == ["too_tangled"]
    assert took < PATIENCE


values = st.none() | st.booleans() | st.sampled_from([0, 1, -1, 5e-324, 1e-9, 1e6, -1e6, 1e300, "s", "nail", "x", []])
changes = st.lists(st.tuples(st.randoms(use_true_random=False), values), min_size=1, max_size=4)


def leaves(value: Any) -> list[tuple[Any, Any]]:
    """Every simple value inside, as its container and key."""
    pairs = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [leaf for key, inner in pairs for leaf in (leaves(inner) or [(value, key)])]


@given(changes)
@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_any_change_of_a_levels_document_gives_levels_or_problems(made: list[tuple[random.Random, Any]]) -> None:
    document = json.loads(json.dumps({"document": 1, **{key: good()[key] for key in LISTS}}))
    for dice, value in made:
        found = leaves(document)
        container, key = found[dice.randrange(len(found))]
        container[key] = value
    _, took = seconds_for(document)
    assert took < PATIENCE


LISTS = ("setups", "marks", "readings", "differences", "instrument_checks", "adjustment")
