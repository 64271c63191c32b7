"""Which way a finished bed falls, and what is said where it falls the wrong way."""

import pytest
from tests.checked_bed import HIGH, checked_room, over_grid, rectangle
from tests.documents import Json, plan_of

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
