"""Where no plane keeps everything: what conflicts, and how much must give, against scipy's linprog and by hand."""

import copy
import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.documents import SQUARE, Json, answer_to, room_over
from tests.engine.least_cases import COVERED, Judge, Key, bare, conflicts_in, designed, judged, least_room, top_of
from tests.share import share_of

from evenbed.engine.problems import Problem
from evenbed.engine.top.designed import DesignedTop

MINIMUM = 31.75
BLOCK = 100
KINDS = {
    "top_conflict_minimum": "minimum_thickness",
    "top_conflict_maximum": "maximum_thickness",
    "top_conflict_held_low": "held_low",
    "top_conflict_held_high": "held_high",
}


def key_of(problem: Problem) -> Key:
    """Who conflicts, as the judge calls it."""
    hold = re.fullmatch(r"bed\.top\.holds\[(\d+)\]", problem.path)
    return KINDS[problem.code.removesuffix("_stuck")], int(hold[1]) if hold else 0, ()


def told_by(problem: Problem, name: str) -> float:
    value = problem.values[name]
    assert isinstance(value, float)
    return value


@pytest.mark.parametrize("block", range(share_of(10)))
def test_what_must_give_is_what_linprog_finds(block: int) -> None:
    checked = 0
    for seed in range(block * BLOCK, (block + 1) * BLOCK):
        found = designed(seed)
        if not isinstance(found, DesignedTop):
            check_together(found, judged(seed)[1])
            if seed % 5 == 0:
                check_each(found, judged(seed)[1])
                checked += 1
    assert checked > 2


def check_together(found: tuple[Problem, ...], judge: Judge) -> None:
    """All others hold when those that conflict give as much as told."""
    together = judge.relief({key_of(problem) for problem in found})
    assert together is not None
    assert together > 0.0
    assert [told_by(problem, "together") for problem in found] == pytest.approx([together] * len(found), abs=1e-7)


def check_each(found: tuple[Problem, ...], judge: Judge) -> None:
    """Those that conflict do so without any other, and none is told wrong of what it must give alone."""
    giving = {key_of(problem) for problem in found}
    least = judge.relief({bare(key) for key in judge.keys if key is not None})
    assert least is not None
    assert judge.without_all_but(giving).relief(set()) is None
    assert judge.without_all_but(giving).relief(giving) == pytest.approx(least, abs=1e-7)
    for problem in found:
        alone = judge.relief({key_of(problem)})
        assert ("alone" in problem.values) == (alone is not None) != problem.code.endswith("_stuck")
        if alone is not None:
            assert told_by(problem, "alone") == pytest.approx(alone, abs=1e-7)


def flat_room(*holds: Json, **top: Any) -> Json:
    """A flat room of 4 by 3 m at height 0 with a doorway in its west and one in its east wall."""
    doors = [
        {"id": "west", "wall": 3, "from": 1000.0, "to": 1800.0, "adjoining_height": 60.0},
        {"id": "east", "wall": 1, "from": 1200.0, "to": 2000.0, "adjoining_height": 30.0},
    ]
    bed = {"maximum_thickness": 80.0, "top": {"kind": "least_mortar", "holds": list(holds), **top}}
    return room_over(SQUARE, [(x, y, 0.0) for x, y in SQUARE], openings=doors, bed=bed)


def told(room: Json) -> dict[str, tuple[str, dict[str, Any]]]:
    """Path → code and values; held heights by both sides have one path, the later stands."""
    return {problem.path: (problem.code, problem.values) for problem in conflicts_in(room)}


def test_a_doorway_too_low_for_the_least_thickness_is_told_from_both_ends() -> None:
    lacking = MINIMUM + COVERED - 30.0
    values = {"alone": pytest.approx(lacking), "together": pytest.approx(lacking / 2.0)}
    assert told(flat_room({"opening": "east"})) == {
        "bed.minimum_thickness": ("top_conflict_minimum", {**values, "limit": MINIMUM}),
        "bed.top.holds[0]": ("top_conflict_held_high", {**values, "limit": 30.0}),
    }


def test_two_heights_at_one_place_conflict_by_what_lies_between_them() -> None:
    found = told(flat_room({"at": [500, 500], "low": 70.0}, {"at": [500, 500], "high": 62.0}))
    assert {path: code for path, (code, _) in found.items()} == {
        "bed.top.holds[0]": "top_conflict_held_low",
        "bed.top.holds[1]": "top_conflict_held_high",
    }
    for _, values in found.values():
        assert (values["alone"], values["together"]) == (pytest.approx(8.0), pytest.approx(4.0))


def test_a_largest_fall_too_small_between_two_doorways_gives_a_thousandth_with_each_mm() -> None:
    holds = {"opening": "west", "low": 80.0}, {"opening": "east", "high": 50.0}
    found = told(flat_room(*holds, largest_fall=0.005))
    assert {path: code for path, (code, _) in found.items()} == {
        "bed.top.holds[0]": "top_conflict_held_low",
        "bed.top.holds[1]": "top_conflict_held_high",
        "bed.top.largest_fall": "top_conflict_fall",
    }
    alone = [values["alone"] for _, values in found.values()]
    assert alone == [pytest.approx(10.0), pytest.approx(10.0), pytest.approx(10.0 / 4000.0)]
    assert {round(values["together"], 9) for _, values in found.values()} == {round(10.0 / 6.0, 9)}


def test_two_conflicts_that_have_nothing_to_do_with_each_other_are_both_told_and_neither_helps_alone() -> None:
    high, low = ({"at": [500, 500], "low": 70.0}, {"at": [500, 500], "high": 62.0})
    found = told(flat_room(high, low, {"at": [3500, 2500], "low": 66.0}, {"at": [3500, 2500], "high": 60.0}))
    assert set(found) == {f"bed.top.holds[{n}]" for n in range(4)}
    for code, values in found.values():
        assert code.endswith("_stuck")
        assert "alone" not in values
        assert values["together"] == pytest.approx(4.0)


def test_no_bed_is_thinned_to_less_than_nothing() -> None:
    found = told(flat_room({"at": [500, 500], "high": COVERED - 5.0}))
    assert found["bed.minimum_thickness"][0] == "top_conflict_minimum_stuck"
    code, values = found["bed.top.holds[0]"]
    assert (code, values["alone"]) == ("top_conflict_held_high", pytest.approx(MINIMUM + 5.0))


def test_heights_that_would_need_a_wall_for_a_floor_are_told_without_a_fall_to_blame() -> None:
    found = told(flat_room({"at": [500, 500], "low": 90.0}, {"at": [500, 560], "high": 50.0}))
    assert {"bed.top.holds[0]", "bed.top.holds[1]"} <= found.keys()
    assert "bed.top.largest_fall" not in found


@pytest.mark.parametrize("seed", range(0, 60, 4))
def test_what_gives_as_much_as_told_lets_all_others_hold_and_a_little_less_does_not(seed: int) -> None:
    found = designed(seed)
    if isinstance(found, DesignedTop):
        return
    for problem in found:
        if "alone" in problem.values:
            assert isinstance(top_of(eased(least_room(seed), problem, 1e-6)), DesignedTop)
            assert not isinstance(top_of(eased(least_room(seed), problem, -1e-4)), DesignedTop)


def eased(room: Json, problem: Problem, more: float) -> Json:
    """The room after one that conflicts gave what it had to alone, and a little more."""
    room = copy.deepcopy(room)
    kind, hold, _ = key_of(problem)
    bed, limit, give = room["bed"], told_by(problem, "limit"), told_by(problem, "alone") + more
    if "thickness" in kind:
        bed[kind] = limit + (-give if kind == "minimum_thickness" else give)
        return room
    held = bed["top"]["holds"][hold]
    if "low" not in held and "high" not in held:
        held["low"] = held["high"] = limit
    held[kind.removeprefix("held_")] = limit + (-give if kind == "held_low" else give)
    return room


HEIGHTS = st.floats(-200.0, 200.0) | st.sampled_from([0.0, 46.0375, 60.0, 1e-9, 1e5, 1e6, -1e6])
WHERE: list[Json] = [{"opening": "west"}, {"opening": "east"}, {"at": [500.0, 500.0]}, {"at": [4000.0, 0.0]}]
SIDES = st.dictionaries(st.sampled_from(["low", "high"]), HEIGHTS)
HOLDS = st.lists(st.tuples(st.sampled_from(WHERE), SIDES).map(lambda pair: {**pair[0], **pair[1]}), max_size=5)


@given(HOLDS, st.lists(HEIGHTS, min_size=4, max_size=4), st.none() | st.sampled_from([0.0, 1e-9, 0.001, 0.5, 1.0]))
@settings(max_examples=150, deadline=None)
def test_any_heights_give_a_plane_that_keeps_them_or_say_what_must_give(
    holds: list[Json], floor: list[float], fall: float | None
) -> None:
    room = flat_room(*holds, largest_fall=fall)
    for reading, z in zip(room["readings"], floor, strict=False):
        reading["down"] = -z
    found = top_of(room)
    if not isinstance(found, DesignedTop):
        codes = {problem.code for problem in found}
        conflicts = {code for code in codes if code.startswith("top_conflict_")}
        assert conflicts == codes or codes <= {"held_meets_nothing", "held_low_above_high"}
        return
    assert found.top.steepest <= min(0.5, 0.5 if fall is None else fall) + 1e-9
    for (x, y), z in zip(SQUARE, floor, strict=True):
        assert MINIMUM - 1e-4 < found.top.at(x, y) - z < 80.0 + 1e-4


def test_the_sentences_say_what_must_give() -> None:
    answer = answer_to(flat_room({"opening": "east"}))
    assert [problem["message"] for problem in answer["problems"]] == [
        "Not everything asked of the top can hold. The least thickness alone would have to give 16.04 mm, "
        "or each that conflicts 8.02 mm.",
        "Not everything asked of the top can hold. The floor held up to 30 mm would have to be let up 16.04 mm "
        "alone, or each that conflicts give 8.02 mm.",
    ]
