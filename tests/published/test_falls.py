"""Published falls and ramps, each with its source beside it."""

import pytest
from tests.documents import SQUARE, room_over
from tests.engine.top_rooms import worked

INCH, FOOT = 25.4, 304.8


def cautions_at_fall(fall: float) -> set[str]:
    """What is said of a floor that falls to a linear drain along a wall: one plane, at exactly the fall asked for."""
    drain = {"id": "d", "kind": "drain", "at": [0, 0], "to": [4000, 0], "height": 50.0}
    top = {"kind": "to_drain", "drain": "d", "fall": fall}
    spots = [(x, y, 0.0) for x, y in SQUARE]
    room = worked(room_over(SQUARE, spots, bed={"top": top}, fixtures=[drain]))
    return {caution.code for caution in room.designed_top.cautions}


@pytest.mark.parametrize(
    ("inches", "said"),
    [(0.2, {"shallow_fall"}), (0.25, set()), (0.375, set()), (0.5, set()), (0.51, {"steep_fall"})],
)
def test_a_shower_floor_falls_a_quarter_to_half_an_inch_in_a_foot(inches: float, said: set[str]) -> None:
    """IRC P2709.1, as quoted: 1/4 to 1/2 in per ft to the drain."""
    assert cautions_at_fall(inches * INCH / FOOT) == said


@pytest.mark.parametrize(("run", "said"), [(12.0, set()), (11.9, {"steep_ramp"}), (20.0, set())])
def test_a_ramp_rises_one_in_twelve_at_the_most(run: float, said: set[str]) -> None:
    """ADA 2010 Standards, sections 303.4 and 405.2: more than 1/2 in of change in level is a ramp of 1:12."""
    top = {"kind": "two_levels", "line": [[1000, 0], [1000, 500]], "left": 40, "right": 60, "ramp": 20 * run}
    spots = [(x, y, 0.0) for x, y in SQUARE]
    room = worked(room_over(SQUARE, spots, bed={"top": top}))
    assert {caution.code for caution in room.designed_top.cautions} == said
