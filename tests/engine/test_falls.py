"""What is told of a finished bed that falls the wrong way, is flat in parts alone, or lies right at its limit."""

import math

import pytest
from tests.checked_bed import HIGH, checked_room, over_grid, rectangle
from tests.documents import Json, plan_of, turned

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
    for n in range(8):
        angle = n * math.pi / 11.0
        outline = [turned(corner, angle, (300.0 * n, 7.0)) for corner in ROOM]
        built = [(*turned((x, y), angle, (300.0 * n, 7.0)), z) for x, y, z in valley]
        plan = plan_of(checked_room(outline, built, flatness={"standard": "bs_8204_sr2"}), "plan")
        (check,) = plan["flatness"]["checks"]
        assert check["gap"]["gap"] == pytest.approx(deep, abs=1e-6)
        assert (check["verdict"] == "beyond") is is_beyond
