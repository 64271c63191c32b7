"""Where a table's points come to stand on the drawing."""

import math
from typing import Any

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import least_squares
from tests.documents import Json, turned
from tests.tables import LINES, ROOM, faults_of, rows_of, table_in

MOVED = "\n".join(
    f"{n},{4_000_000 + y},{900_000 + x},1" for n, (x, y) in enumerate([(75, 75), (3900, 75), (75, 2900)])
)
Spot = tuple[float, float]


def paired(text: str, *pairs: tuple[int, Spot]) -> Json:
    place = {"kind": "pairs", "pairs": [{"line": line, "at": at} for line, at in pairs]}
    return table_in(text, place=place, mapping={"unit": "mm"})


def test_as_they_are_easting_is_across_and_northing_up() -> None:
    assert rows_of("north,east,z\n2000,1000,5")[0]["at"] == [1000, 2000]


def test_each_way_of_placing_tells_how_many_points_stand_outside() -> None:
    answer = table_in(MOVED)
    assert [(p["kind"], p["outside"]) for p in answer["placings"]] == [("as_they_are", 3), ("low_corner", 0)]
    assert [row["outside"] for row in answer["rows"]] == [True] * 3


def test_points_far_away_come_to_the_rooms_low_corner() -> None:
    answer = table_in(MOVED, place={"kind": "low_corner"})
    assert [row["at"] for row in answer["rows"]] == [[0, 0], [3825, 0], [0, 2825]]
    assert answer["placing"] == answer["placings"][1]
    assert not any(row["outside"] for row in answer["rows"])


def test_points_in_a_cutout_count_as_outside() -> None:
    outline = {**ROOM, "cutouts": [[[3000, 300], [3500, 300], [3500, 700], [3000, 700]]]}
    answer = table_in("\n".join(LINES), outline=outline)
    assert [row["outside"] for row in answer["rows"]] == [False, False, True]
    assert answer["placing"]["outside"] == 1


PLACES = st.tuples(st.integers(100, 3900), st.integers(100, 2900))


@given(
    st.lists(PLACES, min_size=3, max_size=6, unique=True),
    st.floats(-180, 180),
    st.tuples(*[st.integers(-(10**9), 10**9)] * 2),
)
def test_two_pairs_bring_a_turned_and_shifted_table_back(places: list[Spot], way: float, by: tuple[int, int]) -> None:
    assume(math.dist(places[0], places[1]) > 150)
    away = [turned(place, math.radians(way), by) for place in places]
    text = "\n".join(f"{n},{y:.6f},{x:.6f},1" for n, (x, y) in enumerate(away))
    answer = paired(text, (1, places[0]), (2, places[1]))
    assert answer["problems"] == []
    reach = max(math.dist(places[0], place) for place in places) / math.dist(places[0], places[1])
    for row, place in zip(answer["rows"], places, strict=True):
        assert math.dist(row["at"], place) < 1e-5 * reach
    assert answer["placing"]["misfit"] < 1e-5
    assert answer["placing"]["outside"] == 0


@given(st.tuples(PLACES, PLACES), st.tuples(PLACES, PLACES))
def test_two_pairs_that_differ_in_length_are_laid_as_least_squares_lays_them(
    table: tuple[Spot, Spot], drawing: tuple[Spot, Spot]
) -> None:
    assume(min(math.dist(*table), math.dist(*drawing)) > 150)
    answer = paired("\n".join(f"{n},{y},{x},1" for n, (x, y) in enumerate(table)), (1, drawing[0]), (2, drawing[1]))
    found = [tuple(row["at"]) for row in answer["rows"]]

    def misses(turn_and_shift: Any, /) -> list[float]:
        way, *by = turn_and_shift
        laid = [turned(spot, way, by) for spot in table]
        return [a - b for p, q in zip(laid, drawing, strict=True) for a, b in zip(p, q, strict=True)]

    way, shift = math.radians(answer["placing"]["rotation"]), answer["placing"]["shift"]
    own = sum(miss**2 for miss in misses([way, *shift]))
    judged = min(
        2 * least_squares(misses, [guess, 0, 0], x_scale=[1e-3, 1, 1]).cost for guess in (way + 0.5, way - 0.5)
    )
    assert own <= judged * (1 + 1e-6) + 1e-6
    assert max(math.dist(p, q) for p, q in zip(found, drawing, strict=True)) == pytest.approx(
        answer["placing"]["misfit"], abs=1e-5
    )


def test_a_placed_tables_shape_is_kept() -> None:
    answer = paired(MOVED, (1, (3900, 100)), (2, (3900, 2900)))
    before = shapely.Polygon([(75, 75), (3900, 75), (75, 2900)])
    after = shapely.Polygon([row["at"] for row in answer["rows"]])
    assert after.exterior.is_ccw == before.exterior.is_ccw
    assert after.length == pytest.approx(before.length)
    assert after.area == pytest.approx(before.area)


@pytest.mark.parametrize(
    ("pairs", "code"),
    [
        ([], "wrong_count"),
        ([{"line": 1, "at": [0, 0]}], "wrong_count"),
        ([{"line": 1, "at": [0, 0]}, {"line": 9, "at": [1000, 0]}], "table_no_point"),
        ([{"line": 1, "at": [0, 0]}, {"line": 1, "at": [1000, 0]}], "table_pairs_near"),
        ([{"line": 1, "at": [0, 0]}, {"line": 2, "at": [50, 0]}], "table_pairs_near"),
    ],
)
def test_pairs_that_place_nothing_are_told_and_nothing_is_taken(pairs: list[Json], code: str) -> None:
    faults = faults_of(MOVED, place={"kind": "pairs", "pairs": pairs})
    assert [fault for fault, _ in faults] == [code]


def test_two_points_of_one_stage_at_one_place_are_told_however_they_are_placed() -> None:
    text = "\n".join([MOVED, "9,4000075,900075.005,1"])
    assert [code for code, _ in faults_of(text, place={"kind": "low_corner"})] == ["table_same_place"]
