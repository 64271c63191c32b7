"""What is told of a finished bed that falls the wrong way, is flat in parts alone, or lies right at its limit."""

import math
import random

import pytest
from tests.checked_bed import HIGH, checked_room, over_grid, rectangle
from tests.documents import Json, plan_of, turned

from evenbed.engine.document.check import check_document
from evenbed.engine.flatness.fnumbers import lines_among
from evenbed.engine.worked import WorkedRoom

ROOM = rectangle(4000.0, 3000.0)
FALL = 1.0 / 50.0


def leaning(built: float) -> Json:
    """The plan of a top that falls 1 in 50 towards +x, built with a fall that is negative where it runs back."""
    top = {"kind": "plane", "through": [[x, y, HIGH + FALL * (4000.0 - x)] for x, y in ROOM[:3]]}
    readings = over_grid(4000, 3000, 1000, lambda x, _y: built * (4000.0 - x))
    return plan_of(checked_room(ROOM, readings, bed={"top": top}), "plan")


@pytest.mark.parametrize(("built", "is_told"), [(FALL, False), (FALL / 4, False), (0.0, False), (-FALL, True)])
def test_a_bed_that_falls_against_its_design_is_told(built: float, is_told: bool) -> None:
    plan = leaning(built)
    (fall,) = plan["flatness"]["level"]["falls"]
    assert fall["fall"] == pytest.approx(abs(built), abs=1e-9)
    assert ("flatness_fall_away" in {caution["code"] for caution in plan["cautions"]}) is is_told


def water_of(built: dict[tuple[float, float], float]) -> list[list[float]]:
    """Where water stands on a bed that falls 1 in 50 towards +x, 10 mm a reading; some are off by mm."""
    top = {"kind": "plane", "through": [[x, y, HIGH + FALL * (4000.0 - x)] for x, y in ROOM[:3]]}
    readings = over_grid(4000, 3000, 500, lambda x, y: FALL * (4000.0 - x) + built.get((x, y), 0.0))
    room = WorkedRoom(check_document(checked_room(ROOM, readings, bed={"top": top}))[0])
    assert room.flatness.level is not None
    return [list(at) for at in room.flatness.level.standing_water]


def test_water_stands_in_a_dip_deeper_than_the_fall_to_the_next_reading() -> None:
    assert water_of({(2000.0, 1500.0): -9.9}) == []
    assert water_of({(2000.0, 1500.0): -10.1}) == [[2000.0, 1500.0]]


def test_water_stands_in_a_hollow_of_several_places_that_are_as_low_as_each_other() -> None:
    """By hand: 40 − 30 and 30 − 20 are 10 mm both; lower than 20 mm, which is next."""
    assert water_of({(2000.0, 1500.0): -30.0, (2500.0, 1500.0): -20.0}) == [[2000.0, 1500.0], [2500.0, 1500.0]]


def test_water_stands_behind_a_rim_along_the_low_edge_and_at_a_side_wall() -> None:
    dam = {(4000.0, float(y)): 30.0 for y in range(0, 3500, 500)}
    assert water_of(dam) == [[3500.0, y] for y in range(0, 3500, 500)]
    assert water_of({(2000.0, 0.0): -30.0}) == [[2000.0, 0.0]]
    assert water_of({(0.0, 0.0): -30.0}) == [[0.0, 0.0]]


def test_water_runs_off_over_the_low_edge_however_deep_it_is() -> None:
    assert water_of({(4000.0, 1500.0): -30.0}) == []


@pytest.mark.parametrize("count", [4, 11])
def test_f_numbers_of_lines_shorter_than_twelve_heights_judge_nothing(count: int) -> None:
    """ASTM E1155 takes no line shorter than 11 ft, twelve heights a foot apart (from memory)."""
    top = {"kind": "plane", "through": [[x, y, HIGH + FALL * (4000.0 - x)] for x, y in ROOM[:3]]}
    for rise in (0.0, 5.0):
        lines = [{"id": "h", "heights": [rise * (n % 2) for n in range(count)]}]
        more = {"height_lines": lines, "flatness": {"standard": "aci_117_25_20"}, "bed": {"top": top}}
        found = plan_of(checked_room(ROOM, over_grid(4000, 3000, 1000, lambda _x, _y: 0.0), **more), "plan")[
            "flatness"
        ]
        assert (found["f_numbers"]["heights"], found["verdict"]) == (count, "too_sparse")


@pytest.mark.parametrize(("rough", "verdict"), [(1.0, "within"), (1.5, "beyond")])
def test_one_line_below_three_fifths_of_the_overall_f_number_is_beyond(rough: float, verdict: str) -> None:
    """ACI 117-10, table 4.8.5.1: the least of any one part is 3/5 of the overall FF, here 15 of 25.

    By hand: heights 0, a, 0, a ... bend by ±2 a; 12 bends spread by 2.089 a, so that FF is 115.8 / 6.267 a.
    """
    lines = [{"id": "even", "heights": [0.0] * 60}, {"id": "rough", "heights": [rough * (n % 2) for n in range(14)]}]
    room = checked_room(ROOM, [], height_lines=lines, flatness={"standard": "aci_117_25_20"})
    found = plan_of(room, "plan")["flatness"]
    assert found["f_numbers"]["ff"] > 25.0
    assert found["f_lines"][1]["ff"] == pytest.approx(115.8 / (6.267 * rough), rel=1e-3)
    assert found["verdict"] == verdict


@pytest.mark.parametrize(("deep", "is_beyond"), [(5.0, False), (5.00001, True)])
def test_a_gap_right_at_its_limit_is_not_beyond_it_however_the_room_lies(deep: float, is_beyond: bool) -> None:
    """By hand: a valley 5 mm deep between ridges 2 m apart, BS 8204 SR2."""
    valley = over_grid(4000, 3000, 1000, lambda x, _y: -deep if x == 1000.0 else 0.0)
    for n in range(0, 8, 2):
        angle = n * math.pi / 11.0
        outline = [turned(corner, angle, (300.0 * n, 7.0)) for corner in ROOM]
        built = [(*turned((x, y), angle, (300.0 * n, 7.0)), z) for x, y, z in valley]
        plan = plan_of(checked_room(outline, built, flatness={"standard": "bs_8204_sr2"}), "plan")
        (check,) = plan["flatness"]["checks"]
        assert check["gap"]["gap"] == pytest.approx(deep, abs=1e-6)
        assert (check["verdict"] == "beyond") is is_beyond


@pytest.mark.parametrize("spacing", [300.0, 302.4, 304.8])
def test_no_line_of_readings_for_f_numbers_is_part_of_another(spacing: float) -> None:
    """By hand: 14 by 13 readings stand in 13 rows of 14 and 14 columns of 13; here each a little off its place."""
    dice = random.Random(8)
    spots = [
        (f"{i}-{j}", (spacing * i + dice.uniform(-1.5, 1.5), spacing * j + dice.uniform(-1.5, 1.5)), dice.gauss(0, 1))
        for i in range(14)
        for j in range(13)
    ]
    found = [frozenset(line.heights) for line in lines_among(spots)]
    assert 0 < len(found) <= 27
    assert not [(one, other) for one in found for other in found if one < other]
