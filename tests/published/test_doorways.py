"""Steps at doorways against the 2010 ADA Standards for Accessible Design, sections 303 and 405.

303.2: changes in level to 1/4 in may stand upright. 303.3: from 1/4 to 1/2 in they are bevelled, at most 1:2.
303.4: more than 1/2 in is a ramp (405.2: not steeper than 1:12). All limits are inclusive.
"""

import pytest
from tests.documents import SQUARE, Json, plan_of, room_over

INCH = 25.4
FLAT = [(x, y, 0.0) for x, y in SQUARE]
TOP, COVER = 40.0, 15.0

# Inches of step, its class, what carries people over it, and the run of that in inches.
STEPS = [
    (0.0, "flush", "none", 0.0),
    (1 / 32, "flush", "none", 0.0),
    (1 / 16, "upright", "edge_strip", 0.0),
    (1 / 4, "upright", "edge_strip", 0.0),
    (9 / 32, "bevelled", "bevelled_strip", 9 / 16),
    (3 / 8, "bevelled", "bevelled_strip", 3 / 4),
    (1 / 2, "bevelled", "bevelled_strip", 1.0),
    (17 / 32, "ramp", "ramp", 6.375),
    (1.0, "ramp", "ramp", 12.0),
    (3.0, "ramp", "ramp", 36.0),
]


def doorway_over(beyond: float) -> Json:
    """The doorway of a level floor, finished at TOP + COVER, with the floor beyond at a height."""
    bed = {
        "top": {"kind": "level", "height": TOP},
        "covering": {"tile_thickness": 10.0, "bond_thickness": 5.0},
    }
    opening = {"wall": 1, "from": 500, "to": 1400, "adjoining_height": beyond}
    (door,) = plan_of(room_over(SQUARE, FLAT, bed=bed, openings=[opening]))["bed"]["doorways"]
    return dict(door)


@pytest.mark.parametrize(("inches", "kind", "transition", "run"), STEPS)
@pytest.mark.parametrize("way", [1.0, -1.0], ids=["down", "up"])
def test_a_step_is_classed_and_carried_over_as_sections_303_and_405_say(
    inches: float, kind: str, transition: str, run: float, way: float
) -> None:
    door = doorway_over(TOP + COVER - way * inches * INCH)
    assert (door["kind"], door["transition"]) == (kind, transition)
    assert door["step"] == pytest.approx(way * inches * INCH, abs=1e-9)
    assert door["worst_step"] == pytest.approx(way * inches * INCH, abs=1e-9)
    assert door["transition_length"] == pytest.approx(run * INCH, abs=1e-9)


@pytest.mark.parametrize(("limit", "kind"), [(6.35, "upright"), (12.7, "bevelled")])
def test_a_hair_beyond_a_limit_is_the_next_class(limit: float, kind: str) -> None:
    assert doorway_over(TOP + COVER - limit)["kind"] == kind
    assert doorway_over(TOP + COVER - limit - 0.001)["kind"] != kind


@pytest.mark.parametrize(("rise", "slope"), [(5 / 16 * INCH, 1 / 2), (12.7, 1 / 2), (20.0, 1 / 12), (76.2, 1 / 12)])
def test_no_bevel_is_steeper_than_1_to_2_and_no_ramp_than_1_to_12(rise: float, slope: float) -> None:
    assert rise / doorway_over(TOP + COVER - rise)["transition_length"] == pytest.approx(slope, rel=1e-12)
