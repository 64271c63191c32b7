"""Heights from one set-up, and what makes no sense: several set-ups are in `test_network`."""

import json
import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.documents import SQUARE, Json, plan_of, problems_of

from evenbed.engine.bridge import answer_text

MM = 1e-9  # mm: rounding of sums of some metres
CORNERS = [(0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0)]


def room_read(downs: list[float], *more: Json, **parts: object) -> Json:
    readings = [
        {"id": f"r{n}", "at": list(at), "down": down} for n, (at, down) in enumerate(zip(CORNERS, downs, strict=True))
    ]
    return {"document": 1, "outline": {"vertices": SQUARE}, "readings": [*readings, *more], **parts}


def heights_of(room: Json) -> dict[str, float]:
    answer = json.loads(answer_text("quick_plan", json.dumps(room)))
    return {entry["reading"]: entry["z"] for entry in answer["levels"]["heights"]}


def test_without_a_mark_the_highest_reading_is_zero_and_the_larger_number_the_lower_spot() -> None:
    plan = plan_of(room_read([1004.0, 1000.0, 1010.5, 1002.0]))
    assert heights_of(room_read([1004.0, 1000.0, 1010.5, 1002.0])) == {"r0": -4, "r1": 0, "r2": -10.5, "r3": -2}
    assert plan["levels"]["datum"] == "highest_reading"
    assert plan["levels"]["setups"][0]["line_height"] == 1000.0
    assert plan["surface"]["highest"] == {"at": [4000.0, 0.0], "z": 0.0, "reading": "r1", "estimated": False}


def test_a_benchmark_is_where_heights_are_counted_from() -> None:
    mark = {"id": "on the nail", "mark": "nail", "down": 250.0}
    room = room_read([1004.0, 1000.0, 1010.5, 1002.0], mark, marks=[{"id": "nail", "height": 800.0}])
    plan = plan_of(room)
    assert heights_of(room) == {"r0": 46, "r1": 50, "r2": 39.5, "r3": 48, "on the nail": 800}
    assert plan["levels"]["datum"] == "benchmark"
    assert plan["levels"]["marks"] == [{"id": "nail", "z": 800.0, "sigma": 0.0}]
    assert plan["levels"]["sigma0"] is None


def test_several_benchmarks_share_the_line_and_show_their_misses() -> None:
    """By hand: the lines are 1000 and 1002, their mean 1001; each benchmark misses by 1.

    A reading's standard error 2 is that of its line, the mean of two has 2/√2; the misses of 1 show half of what was
    foretold, √(1² + 1²)/2.
    """
    marks = [{"id": "a", "height": 700.0}, {"id": "b", "height": 500.0}]
    read = [{"id": "on a", "mark": "a", "down": 300.0}, {"id": "on b", "mark": "b", "down": 502.0}]
    setups = [{"id": "s", "sigma": 2.0}]
    plan = plan_of(room_read([1001.0, 1003.0, 1004.0, 1005.0], *read, marks=marks, setups=setups))
    levels = plan["levels"]
    assert levels["setups"] == [{"id": "s", "line_height": 1001.0, "sigma": pytest.approx(1.0)}]
    assert levels["heights"][0]["sigma"] == pytest.approx(math.sqrt(1.0 + 2.0)), "the line's own, and the reading's"
    residuals = {entry["reading"]: entry["residual"] for entry in levels["heights"]}
    assert residuals == {"r0": None, "r1": None, "r2": None, "r3": None, "on a": 1.0, "on b": -1.0}
    assert levels["sigma0"] == pytest.approx(math.sqrt(2.0) / 2.0)
    assert [mark["z"] for mark in levels["marks"]] == [700.0, 500.0]


def test_a_mark_of_unknown_height_gets_one_and_moves_nothing() -> None:
    read = [{"mark": "m", "down": 300.0}, {"mark": "m", "down": 302.0}]
    room = room_read([1004.0, 1000.0, 1010.5, 1002.0], *read, marks=[{"id": "m"}, {"id": "unread"}])
    plan = plan_of(room)
    assert plan["levels"]["datum"] == "highest_reading"
    (mark,) = plan["levels"]["marks"]
    assert (mark["id"], mark["z"]) == ("m", pytest.approx(699.0, abs=MM))
    assert plan["levels"]["sigma0"] == pytest.approx(math.sqrt(2.0)), "700 and 698: misses of 1 where 1 was foretold"
    assert mark["sigma"] == pytest.approx(math.sqrt(2.0) / math.sqrt(2.0))
    assert plan["surface"]["highest"]["z"] == 0.0


def test_a_mark_above_the_floor_is_no_part_of_the_floor() -> None:
    room = room_read([1004.0, 1000.0, 1010.5, 1002.0], {"mark": "m", "down": -500.0}, marks=[{"id": "m"}])
    assert len(plan_of(room)["surface"]["points"]) == 4 + 1, "four corners and the centre of their cell"


def test_a_bed_reading_has_a_height_and_is_no_part_of_the_floor() -> None:
    room = room_read([1004.0, 1000.0, 1010.5, 1002.0], {"id": "b", "at": [0, 0], "down": 950.0, "stage": "bed"})
    plan = plan_of(room)
    assert heights_of(room)["b"] == 50.0
    assert plan["surface"]["highest"]["z"] == 0.0
    assert plan["notices"] == []


@given(st.floats(-5000, 5000), st.lists(st.floats(-50, 50), min_size=4, max_size=4))
def test_raising_the_instrument_changes_no_height(rise: float, downs: list[float]) -> None:
    low, high = heights_of(room_read(downs)), heights_of(room_read([d + rise for d in downs]))
    assert list(low.values()) == pytest.approx(list(high.values()), abs=1e-9)


@pytest.mark.parametrize("setup", [None, "", "s"])
def test_readings_with_and_without_the_only_set_ups_name_are_one_set_up(setup: str | None) -> None:
    room = room_read([1004.0, 1000.0, 1010.5, 1002.0], setups=[{"id": "s", "sigma": 0.5}])
    for reading, name in zip(room["readings"], ["s", setup, "s", setup], strict=True):
        reading["setup"] = name
    plan = plan_of(room)
    assert plan["levels"]["setups"] == [{"id": "s", "line_height": 1000.0, "sigma": 0.0}], "z counts from it"
    assert {entry["sigma"] for entry in plan["levels"]["heights"]} == {0.5}


def test_readings_keep_their_order_and_get_ids_where_they_had_none() -> None:
    room = room_read([1.0, 2.0, 3.0, 4.0])
    for n, name in enumerate([None, "r1", "", "x"]):
        room["readings"][n]["id"] = name
    names = [entry["reading"] for entry in plan_of(room)["levels"]["heights"]]
    assert len(set(names)) == 4
    assert (names[1], names[3]) == ("r1", "x")


@pytest.mark.parametrize("seed", range(5))
def test_the_order_of_benchmarks_changes_nothing(seed: int) -> None:
    dice = random.Random(seed)
    marks = [{"id": f"m{n}", "height": dice.uniform(0, 900)} for n in range(9)]
    read = [{"id": m["id"], "mark": m["id"], "down": 1000 - m["height"] + dice.gauss(0, 1)} for m in marks]  # type: ignore[operator]
    mixed = dice.sample(read, len(read))
    one = heights_of(room_read([1004.0, 1000.0, 1010.5, 1002.0], *read, marks=marks))
    assert heights_of(room_read([1004.0, 1000.0, 1010.5, 1002.0], *mixed, marks=marks)) == one


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        ({"setup": None}, ("readings[1].setup", "reading_without_setup")),
        ({"mark": "nowhere"}, ("readings[1].mark", "unknown_id")),
        ({"at": None}, ("readings[1].at", "reading_without_place")),
        ({"at": [9000, 9000]}, ("readings[1].at", "reading_outside")),
        ({"at": [4000.0, -25.1]}, ("readings[1].at", "reading_outside")),
        ({"at": [0, 0]}, ("readings[1].at", "same_place")),
        ({"at": [0.004, 0.004]}, ("readings[1].at", "same_place")),
        ({"down": None}, ("readings[1].down", "missing")),
    ],
)
def test_a_reading_that_makes_no_sense_is_refused_by_its_place(change: Json, expected: tuple[str, str]) -> None:
    room = room_read([1004.0, 1000.0, 1010.5, 1002.0], setups=[{"id": "s"}, {"id": "t"}])
    for reading in room["readings"]:
        reading["setup"] = "s"
    room["readings"][1] |= change
    assert problems_of(room) == [expected]


def test_a_set_up_nobody_declared_is_refused_where_any_was() -> None:
    room = room_read([1.0, 2.0, 3.0, 4.0], setups=[{"id": "s"}])
    room["readings"][2]["setup"] = "laser"
    assert problems_of(room) == [("readings[2].setup", "unknown_id")]


def test_a_reading_beside_the_room_by_a_rods_foot_is_taken() -> None:
    room = room_read([1004.0, 1000.0, 1010.5, 1002.0])
    room["readings"][1]["at"] = [4020.0, -15.0]
    assert len(plan_of(room)["levels"]["heights"]) == 4


@pytest.mark.parametrize("count", [0, 1, 2])
def test_fewer_than_three_readings_are_too_few(count: int) -> None:
    room = room_read([1.0, 2.0, 3.0, 4.0])
    room["readings"] = room["readings"][:count]
    assert problems_of(room) == [("readings", "too_few_readings")]


@pytest.mark.parametrize("off", [0.0, 0.05, 2.0])
def test_readings_on_a_line_or_nearly_are_refused(off: float) -> None:
    room = room_read([1.0, 2.0, 3.0, 4.0])
    for n, reading in enumerate(room["readings"]):
        reading["at"] = [1000.0 * n + 500.0, 700.0 * n + 100.0 + (off if n == 1 else 0.0)]
    assert problems_of(room) == [("readings", "readings_on_a_line")]
