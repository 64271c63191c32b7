"""A place by two tapes: known places are found again, tapes that cannot meet are told apart."""

import math
from typing import Any

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import fsolve
from tests.documents import SQUARE, Json
from tests.questions import answer_to, refusal_of

from evenbed.engine.taped import ONE_PLACE, SLACK

OUTLINE = {"vertices": SQUARE}
ROOM = shapely.Polygon(SQUARE)
CORNERS = st.sampled_from([tuple(corner) for corner in SQUARE])
WALL_PLACES = st.floats(0, 14_000).map(ROOM.exterior.interpolate).map(lambda p: (p.x, p.y))
INSIDE = st.tuples(st.floats(1, 3999), st.floats(1, 2999))
Spot = tuple[float, float]


def taped(start: Spot, end: Spot, first: float, second: float) -> Json:
    return answer_to("taped_place", outline=OUTLINE, **{"from": [start, end]}, distances=[first, second])


def refused(start: Spot, end: Spot, first: float, second: float) -> list[tuple[str, str]]:
    return refusal_of("taped_place", {"outline": OUTLINE, "from": [start, end], "distances": [first, second]})


@given(CORNERS | WALL_PLACES, CORNERS | WALL_PLACES, INSIDE)
def test_a_place_that_was_taped_is_found_again(start: Spot, end: Spot, place: Spot) -> None:
    assume(math.dist(start, end) > 300)
    base = shapely.LineString([start, end])
    assume(base.distance(shapely.Point(place)) > 50)  # nearer, the tapes hardly tell how far off the line
    answer = taped(start, end, math.dist(start, place), math.dist(end, place))
    assert min(math.dist(found, place) for found in answer["places"]) < 1e-3
    assert answer["misses"] == 0


@given(CORNERS | WALL_PLACES, CORNERS | WALL_PLACES, INSIDE)
def test_every_place_answered_is_in_the_room_and_as_far_as_the_tapes_say(start: Spot, end: Spot, place: Spot) -> None:
    assume(math.dist(start, end) > 300)
    first, second = math.dist(start, place), math.dist(end, place)
    answer = taped(start, end, first, second)
    for found in answer["places"]:
        assert ROOM.distance(shapely.Point(found)) <= SLACK
        assert (
            abs(math.dist(found, start) - first) + abs(math.dist(found, end) - second) < ONE_PLACE + answer["misses"]
        )


@given(st.floats(400, 3600), st.floats(400, 2600))
def test_the_two_circles_meet_where_a_solver_of_equations_says(x: float, y: float) -> None:
    start, end = (0.0, 1500.0), (4000.0, 1500.0)
    first, second = math.dist(start, (x, y)), math.dist(end, (x, y))
    assume(abs(y - 1500) > 50)

    def misses(at: Any) -> list[float]:
        return [math.dist(at, start) - first, math.dist(at, end) - second]

    solved = [tuple(fsolve(misses, guess)) for guess in ((x, 2900.0), (x, 100.0))]
    places = taped(start, end, first, second)["places"]
    assert len(places) == 2
    assert places[0][1] > 1500 > places[1][1]
    assert max(math.dist(p, q) for p, q in zip(places, solved, strict=True)) < 1e-4


@pytest.mark.parametrize(
    ("first", "second", "misses"), [(1997, 1997, 6), (5000, 995, 5), (995, 5000, 5), (2000, 2000, 0)]
)
def test_tapes_that_miss_by_no_more_than_their_slack_give_the_place_between_their_ends(
    first: float, second: float, misses: float
) -> None:
    answer = taped((0.0, 0.0), (4000.0, 0.0), first, second) if first < 4000 > second else _beyond(first, second)
    assert answer["misses"] == pytest.approx(misses)
    assert len(answer["places"]) == 1


def _beyond(first: float, second: float) -> Json:
    """From two places of one wall in a room that goes on beyond them, both ways."""
    wide = {"vertices": [[-2000, 0], [6000, 0], [6000, 3000], [-2000, 3000]]}
    return answer_to("taped_place", outline=wide, **{"from": [[0, 0], [4000, 0]]}, distances=[first, second])


def test_the_place_between_two_tapes_that_miss_shares_the_miss_between_them() -> None:
    assert taped((0.0, 0.0), (4000.0, 0.0), 997, 2997)["places"] == [[1000, 0]]
    assert _beyond(5000, 996)["places"] == [[4998, 0]]
    assert _beyond(996, 5000)["places"] == [[-998, 0]]


def test_tapes_that_do_not_reach_each_other_are_refused_with_the_gap() -> None:
    assert refused((0.0, 0.0), (4000.0, 0.0), 1000, 2900) == [("distances", "taped_apart")]
    assert refused((0.0, 0.0), (4000.0, 0.0), 1990, 2000 - 2 * ONE_PLACE) == [("distances", "taped_apart")]


def test_a_tape_that_reaches_past_all_that_the_other_can_is_refused() -> None:
    assert refused((0.0, 0.0), (4000.0, 0.0), 5000, 900) == [("distances", "taped_inside")]
    assert refused((0.0, 0.0), (4000.0, 0.0), 900, 5000) == [("distances", "taped_inside")]


def test_tapes_that_meet_outside_the_room_alone_are_refused() -> None:
    assert refused((0.0, 0.0), (4000.0, 0.0), 9000, 9000) == [("distances", "taped_outside")]


def test_two_tapes_from_one_place_are_refused() -> None:
    assert refused((10.0, 0.0), (10.5, 0.0), 900, 900) == [("distances", "taped_same_place")]


def test_a_place_in_a_cutout_is_left_out() -> None:
    hearth = [[1800, 500], [2200, 500], [2200, 900], [1800, 900]]
    asked = {"outline": {"vertices": SQUARE, "cutouts": [hearth]}, "from": [[0, 0], [4000, 0]]}
    far = math.hypot(2000, 700)
    assert refusal_of("taped_place", {**asked, "distances": [far, far]}) == [("distances", "taped_outside")]


def test_what_is_missing_or_no_number_is_told_by_its_place() -> None:
    assert refusal_of("taped_place", {"outline": OUTLINE, "distances": [1, -1]}) == [
        ("from", "missing"),
        ("distances[1]", "too_small"),
    ]
