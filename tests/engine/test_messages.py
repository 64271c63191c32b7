"""Messages are short enough to read: no figure carries digits that nobody measures."""

import re

from hypothesis import example, given
from hypothesis import strategies as st
from tests.documents import SQUARE, Json, answer_to, room_over

from evenbed.engine.problems import problem_at, short_number

FINE = 1000 / 3
SPOTS = [(0.0, 0.0, 0.0), (4000.0, 0.0, 5.0), (4000.0, 3000.0, -3.0), (0.0, 3000.0, 2.0)]
LONG_NUMBER = re.compile(r"\d\.\d{4,}|\d\.0+\b")


def _rooms() -> list[Json]:
    least = {"kind": "least_mortar"}
    drain = {"id": "d", "kind": "drain", "at": [FINE * 3, FINE * 4], "radius": FINE / 10, "height": FINE}
    to_drain = {"kind": "to_drain", "drain": "d", "fall": 0.02, "perimeter": FINE / 33}
    return [
        room_over(SQUARE, SPOTS, openings=[{"id": "a", "wall": 0, "from": FINE, "to": 5000 / 0.7}]),
        room_over(SQUARE, SPOTS, openings=[{"id": "a", "wall": 0, "from": FINE, "to": FINE}]),
        room_over(SQUARE, [*SPOTS, (5000 / 0.7, FINE, 3.0)]),
        room_over(SQUARE, SPOTS, fixtures=[{"id": "p", "kind": "post", "at": [5000 / 0.7, FINE]}]),
        room_over(SQUARE, SPOTS, bed={"minimum_thickness": FINE, "maximum_thickness": FINE / 10}),
        room_over(SQUARE, SPOTS, bed={"top": {"kind": "level", "height": 1e7 / 3}}),
        room_over(SQUARE, SPOTS, bed={"top": least | {"holds": [{"at": [90.0, 90.0], "high": 10 / 3}]}}),
        room_over(SQUARE, SPOTS, bed={"top": least | {"holds": [{"at": [FINE * 20, 90.0], "low": FINE}]}}),
        room_over(SQUARE, SPOTS, bed={"top": to_drain}, fixtures=[drain]),
        room_over(SQUARE, SPOTS, bed={"top": to_drain}, fixtures=[drain | {"at": [20 / 0.7, FINE]}]),
        room_over(SQUARE, SPOTS, supplies={"membrane": {"lap": FINE * 2, "roll_width": FINE}}),
        room_over(SQUARE, SPOTS, rails={"overlap": FINE * 9}),
    ]


def test_no_message_carries_digits_that_nobody_measures() -> None:
    for room in _rooms():
        problems = answer_to(room)["problems"]
        assert problems
        assert not [p["message"] for p in problems if LONG_NUMBER.search(p["message"])]


def test_values_beside_a_message_keep_every_digit() -> None:
    problem = problem_at("bed.maximum_thickness", "minimum_above_maximum", minimum=FINE, maximum=31.75)
    assert problem.values == {"minimum": FINE, "maximum": 31.75}
    assert problem.message == "The minimum thickness 333.333 mm is more than the maximum 31.75 mm."


@given(st.floats(allow_nan=False, allow_infinity=False))
@example(0.0)
@example(100.0)
@example(-1e6)
@example(1e300)
def test_a_short_number_is_short_and_near(value: float) -> None:
    text = short_number(value)
    assert len(text) <= 14
    assert abs(float(text) - value) <= max(0.0005, abs(value) * 5e-6) * (1 + 1e-9)
