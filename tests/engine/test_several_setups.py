"""Several set-ups in one room: what ties them, what is said of those that nothing ties, what contradicts itself."""

import math

import pytest
from tests.documents import SQUARE, Json, plan_of, problems_of
from tests.levelling import levels_of, marks_of, network


def test_a_loop_is_named_by_its_mark_and_its_set_ups() -> None:
    """By hand: s and t share marks a and b, and a place; t sees b 3 mm and the place 5 mm lower than s foretells."""
    marks = [{"id": "a", "height": 0.0}, {"id": "b"}]
    downs = {"s": (1000.0, 900.0, 1010.0), "t": (1200.0, 1103.0, 1215.0)}
    readings = []
    for setup, (a, b, place) in downs.items():
        readings += [{"setup": setup, "mark": "a", "down": a}, {"setup": setup, "mark": "b", "down": b}]
        readings.append({"setup": setup, "at": [10.0, 20.0], "down": place})
    levels = levels_of({"document": 1, "marks": marks, "readings": readings})
    assert levels["misclosures"] == [
        {"mark": "", "at": [10.0, 20.0], "by": -5.0, "setups": ["t", "s"]},
        {"mark": "b", "at": None, "by": -3.0, "setups": ["t", "s"]},
    ]


def two_set_ups(*tie: Json) -> Json:
    """A square room read by halves: s has a benchmark and two corners, t the other two and whatever ties it."""
    places = [("s", [0.0, 0.0], 1000.0), ("s", [4000.0, 0.0], 1002.0), ("s", [2000.0, 1000.0], 1001.0)]
    places += [("t", [4000.0, 3000.0], 1203.0), ("t", [0.0, 3000.0], 1201.0)]
    readings = [{"id": f"r{n}", "setup": s, "at": at, "down": down} for n, (s, at, down) in enumerate(places)]
    return {
        "document": 1,
        "outline": {"vertices": SQUARE},
        "setups": [{"id": "s"}, {"id": "t"}],
        "marks": [{"id": "nail", "height": 100.0}],
        "readings": [{"id": "on the nail", "setup": "s", "mark": "nail", "down": 900.0}, *readings, *tie],
    }


def test_a_set_up_that_nothing_ties_is_told_and_the_plan_made_from_the_rest() -> None:
    plan = plan_of(two_set_ups())
    assert plan["levels"]["untied"] == [{"setup": "t", "readings": 2}]
    assert [(n["path"], n["code"]) for n in plan["notices"]] == [("setups[1]", "untied_setup")]
    assert [(h["reading"], h["sigma"]) for h in plan["levels"]["heights"] if h["z"] is None] == [
        ("r3", None),
        ("r4", None),
    ]
    assert plan["levels"]["setups"][1] == {"id": "t", "line_height": None, "sigma": None}
    assert len(plan["surface"]["estimated"]) == 2, "the corners that only t saw"


def test_a_place_read_again_ties_two_set_ups_and_is_one_point_of_the_floor() -> None:
    plan = plan_of(two_set_ups({"id": "again", "setup": "t", "at": [2000.004, 1000.0], "down": 1205.0}))
    assert (plan["levels"]["untied"], plan["notices"]) == ([], [])
    z = {h["reading"]: h["z"] for h in plan["levels"]["heights"]}
    assert (z["r2"], z["again"], z["r3"]) == (-1.0, -1.0, 1.0)
    assert sum(abs(p[0] - 2000.0) < 1.0 for p in plan["surface"]["points"]) == 1


def test_heights_and_sigma0_explain_themselves_and_sigma0_only_where_something_is_checked() -> None:
    """The tie and one more: 2 mm too much between two readings of 1 mm each."""
    loose = plan_of(two_set_ups())["explanations"]
    assert (loose["levels.heights"]["code"], "levels.sigma0" in loose) == ("adjusted", False)
    again = [
        {"setup": "t", "at": [4000.0, 0.0], "down": 1206.0},
        {"setup": "t", "at": [2000.0, 1000.0], "down": 1203.0},
    ]
    plan = plan_of(two_set_ups(*again))
    assert plan["levels"]["sigma0"] == pytest.approx(1.0)
    assert plan["explanations"]["levels.sigma0"]["inputs"] == {"readings": 8, "redundancy": 1}


def test_a_bed_reading_at_a_place_is_no_reading_of_its_subfloor() -> None:
    bed = {"id": "bed", "setup": "t", "at": [2000.0, 1000.0], "down": 1205.0, "stage": "bed"}
    assert plan_of(two_set_ups(bed))["levels"]["untied"] == [{"setup": "t", "readings": 3}]


def test_a_mark_the_rod_stood_on_at_a_place_of_the_floor_ties_by_either_name() -> None:
    marked = {"id": "m", "setup": "s", "mark": "cross", "at": [3000.0, 2000.0], "down": 1003.0}
    unmarked = {"id": "u", "setup": "t", "at": [3000.0, 2000.0], "down": 1208.0}
    room = two_set_ups(marked, unmarked)
    room["marks"].append({"id": "cross"})
    levels = plan_of(room)["levels"]
    assert levels["untied"] == []
    assert {h["z"] for h in levels["heights"] if h["reading"] in "mu"} == {-3.0}
    assert (levels["marks"][1]["id"], levels["marks"][1]["z"]) == ("cross", -3.0)


def test_a_floor_that_only_untied_set_ups_saw_is_refused_with_what_to_read() -> None:
    room = two_set_ups()
    for reading in room["readings"][1:]:
        reading["setup"] = "t"
    assert problems_of(room) == [("readings", "floor_untied")]


def test_a_known_line_height_ties_its_set_up() -> None:
    room = two_set_ups()
    room["setups"][1]["line_height"] = 1203.5
    levels = plan_of(room)["levels"]
    assert levels["untied"] == []
    assert [h["z"] for h in levels["heights"]][-2:] == [0.5, 2.5]
    assert levels["setups"][1] == {"id": "t", "line_height": 1203.5, "sigma": 0.0}


def test_without_a_benchmark_the_part_with_most_places_counts_and_its_highest_is_zero() -> None:
    room = two_set_ups()
    room["marks"], room["readings"] = [], room["readings"][1:]
    levels = plan_of(room)["levels"]
    assert (levels["datum"], levels["untied"]) == ("highest_reading", [{"setup": "t", "readings": 2}])
    assert [h["z"] for h in levels["heights"]] == [0.0, -2.0, -1.0, None, None]


def test_measurements_without_error_hold_and_the_rest_gives_way() -> None:
    lines = [("a", "b", 10.0, {"sigma": 0.0}), ("b", "c", 5.0, {"sigma": 1.0}), ("a", "c", 17.0, {"sigma": 1.0})]
    levels = levels_of(network({"a": 0.0}, lines))
    assert marks_of(levels)["b"] == (10.0, 0.0)
    assert marks_of(levels)["c"] == pytest.approx((16.0, math.sqrt(0.5) * math.sqrt(2.0)))
    assert [fit["residual"] for fit in levels["differences"]] == [None, -1.0, 1.0]


def test_measurements_without_error_that_contradict_each_other_are_refused_by_their_place() -> None:
    lines = [("a", "b", 10.0, {"sigma": 0.0}), ("b", "c", 5.0, {"sigma": 0.0}), ("a", "c", 17.0, {"distance": 0.0})]
    document = network({"a": 0.0}, lines) | {"outline": {"vertices": SQUARE}}
    document["readings"] = [{"at": at, "down": 1.0} for at in SQUARE]
    assert [code for _, code in problems_of(document)] == ["contradiction"]


@pytest.mark.parametrize(
    ("difference", "expected"),
    [
        ({"from": "x"}, ("differences[0].from", "unknown_id")),
        ({"to": "x"}, ("differences[0].to", "unknown_id")),
        ({"to": "a"}, ("differences[0].to", "same_mark")),
        ({"sigma": None}, ("differences[0].sigma", "difference_without_weight")),
        ({"sigma": -1.0}, ("differences[0].sigma", "too_small")),
        ({"rise": None}, ("differences[0].rise", "missing")),
    ],
)
def test_a_difference_that_makes_no_sense_is_refused_by_its_place(
    difference: Json, expected: tuple[str, str]
) -> None:
    good = {"from": "a", "to": "b", "rise": 1.0, "sigma": 1.0}
    room = two_set_ups() | {"marks": [{"id": "nail", "height": 0.0}, {"id": "a"}, {"id": "b"}]}
    assert problems_of(room | {"differences": [good | difference]}) == [expected]
