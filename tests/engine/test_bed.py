"""The bed: volume, areas, thickness and doorways, against code that shares nothing with the engine."""

import random

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.documents import SQUARE, Json, plan_of, room_over, spots_of
from tests.judges import Array, Floor, Judged, floor_over, judge_bed
from tests.rooms import cutouts_of, outline_of, polygon_of, random_room

from evenbed.engine.bed import Mortar
from evenbed.engine.document.room import Outline
from evenbed.engine.geometry import Plane
from evenbed.engine.ground import Ground
from evenbed.engine.outline import figure_from
from evenbed.engine.surface import surface_from
from evenbed.engine.top.facets import whole_room

ROOMS = 210
RELATIVE = 1e-9  # the contract's tolerance for volumes and areas
SQUARE_METRE = 1e-9  # the same for areas, in a room of some 10 m², where a limit only grazes the floor
MM = 1e-6  # mm: heights worked out twice over a sliver of a triangle


def spots_from(room: Json) -> list[tuple[float, float, float]]:
    return [(r["at"][0], r["at"][1], 1200.0 - r["down"]) for r in room["readings"]]


def tops_for(room: Json, seed: int) -> list[Plane]:
    """Lowest level, a level that cuts through the subfloor, and a leaning plane that cuts through it too."""
    dice = random.Random(seed)
    heights = [z for _, _, z in spots_from(room)]
    low, high = min(heights), max(heights)
    b, c = dice.uniform(-0.01, 0.01), dice.uniform(-0.01, 0.01)
    x, y, z = dice.choice(spots_from(room))
    return [
        Plane(high + 31.75, 0.0, 0.0),
        Plane(low + dice.uniform(0.2, 0.9) * (high - low), 0.0, 0.0),
        Plane(z + dice.uniform(-10, 20) - b * x - c * y, b, c),
    ]


def engines_own(room: Json, top: Plane, minimum: float, maximum: float) -> Judged:
    figure = figure_from(Outline(vertices=outline_of(room), cutouts=cutouts_of(room)))
    mortar = Mortar(Ground(surface_from(spots_from(room), figure.outer), figure), whole_room(top, figure.outer))
    found = mortar.quantities(minimum, maximum)
    thickness = mortar.thickness(found.volume)
    return Judged(found.volume, found.too_thin_area, found.too_thick_area, thickness.min, thickness.max)


def judged(floor: Floor, top: Plane, minimum: float, maximum: float) -> Judged:
    def height(xy: Array) -> Array:
        return np.asarray(top.a + top.b * xy[:, 0] + top.c * xy[:, 1])

    return judge_bed(floor, height, minimum, maximum)


def assert_same(mine: Judged, theirs: Judged) -> None:
    assert mine.volume == pytest.approx(theirs.volume, rel=RELATIVE, abs=1e-12)
    assert mine.too_thin_area == pytest.approx(theirs.too_thin_area, rel=RELATIVE, abs=SQUARE_METRE)
    assert mine.too_thick_area == pytest.approx(theirs.too_thick_area, rel=RELATIVE, abs=SQUARE_METRE)
    assert mine.least == pytest.approx(theirs.least, abs=MM)
    assert mine.greatest == pytest.approx(theirs.greatest, abs=MM)


@pytest.mark.parametrize("seed", range(ROOMS))
def test_a_room_read_at_its_corners_has_the_bed_that_scipy_and_shapely_find(seed: int) -> None:
    room = random_room(seed)
    floor = floor_over(spots_from(room), polygon_of(room))
    for top in tops_for(room, seed):
        limits = (random.Random(seed).uniform(1, 30), random.Random(seed).uniform(30, 45))
        assert_same(engines_own(room, top, *limits), judged(floor, top, *limits))


@pytest.mark.parametrize("seed", range(0, 30))
def test_the_plan_itself_says_what_scipy_and_shapely_find(seed: int) -> None:
    room = random_room(seed)
    plan = plan_of(room)
    bed, polygon = plan["bed"], polygon_of(room)
    (facet,) = bed["top"]
    found = judge_bed(
        floor_over(spots_of(plan), polygon),
        lambda xy: np.full(len(xy), facet["a"]),
        bed["minimum_thickness"],
        bed["maximum_thickness"],
    )
    thickness = bed["thickness"]
    mine = Judged(bed["volume"], bed["too_thin_area"], bed["too_thick_area"], thickness["min"], thickness["max"])
    assert_same(mine, found)
    assert plan["outline"]["area"] * 1e6 == pytest.approx(polygon.area, rel=RELATIVE)
    assert thickness["mean"] == pytest.approx(found.volume * 1e9 / polygon.area, rel=RELATIVE)
    assert thickness["min"] == pytest.approx(31.75, abs=MM)


CUTOUTS = {
    "in a corner": [[0, 0], [800, 0], [800, 600], [0, 600]],
    "along a wall": [[1000, 0], [2000, 0], [2000, 500], [1000, 500]],
    "from wall to wall": [[1500, 0], [1900, 0], [1900, 3000], [1500, 3000]],
    "a triangle filling a corner": [[4000, 3000], [4000, 2000], [2500, 3000]],
    "touching a wall with one corner": [[2000, 0], [2400, 400], [2000, 800], [1600, 400]],
    "round a reading": [[1100, 1100], [1900, 1100], [1900, 1900], [1100, 1900]],
    "concave": [[1000, 800], [3000, 800], [3000, 2200], [2600, 2200], [2600, 1200], [1000, 1200]],
}


@pytest.mark.parametrize("cutout", CUTOUTS.values(), ids=CUTOUTS.keys())
@pytest.mark.parametrize("backwards", [False, True])
def test_a_cutout_takes_its_mortar_with_it(cutout: list[list[float]], backwards: bool) -> None:
    dice = random.Random(8)
    places = [(500.0 * x, 500.0 * y) for x in range(9) for y in range(7)]
    outside = [p for p in places if not shapely.Polygon(cutout).contains(shapely.Point(p))]
    spots = [(x, y, dice.uniform(-6, 6)) for x, y in outside]
    ring = cutout[::-1] if backwards else cutout
    room = room_over(SQUARE, spots)
    room["outline"]["cutouts"] = [ring]
    plan = plan_of(room)
    polygon = shapely.Polygon(SQUARE).difference(shapely.Polygon(cutout))
    top = plan["bed"]["top"][0]["a"]
    found = judge_bed(floor_over(spots, polygon), lambda xy: np.full(len(xy), top), 31.75, 50.8)
    assert plan["bed"]["volume"] == pytest.approx(found.volume, rel=RELATIVE)
    assert plan["outline"]["area"] == pytest.approx(polygon.area / 1e6, rel=RELATIVE)
    assert plan["bed"]["thickness"]["min"] == pytest.approx(found.least, abs=MM)
    assert plan["bed"]["thickness"]["max"] == pytest.approx(found.greatest, abs=MM)


@settings(max_examples=60, deadline=None)
@given(st.floats(0.05, 1.5), st.floats(0.1, 0.45), st.floats(0.5, 0.9))
def test_a_cutout_may_stand_against_a_slanted_wall(angle: float, start: float, end: float) -> None:
    """Places along the wall are worked out in floating point and miss it by the last bit, either way."""
    x, y = 4000.0, 4000.0 * np.tan(angle) if angle < 1.2 else 9000.0
    wall = [(4000.0 * share, y * share) for share in (start, end)]
    outline = [[0.0, 0.0], [x, float(y)], [0.0, float(y)]]
    inward = (-y / np.hypot(x, y) * 150.0, x / np.hypot(x, y) * 150.0)
    cutout = [
        [float(p[0]), float(p[1])] for p in (*wall, *((p[0] + inward[0], p[1] + inward[1]) for p in wall[::-1]))
    ]
    assume(shapely.Polygon(outline).buffer(1e-6).contains(shapely.Polygon(cutout)))
    room = room_over(outline, [(px, py, 0.0) for px, py in outline])
    room["outline"]["cutouts"] = [cutout]
    plan = plan_of(room)
    area = shapely.Polygon(outline).area - shapely.Polygon(cutout).area
    assert plan["bed"]["volume"] == pytest.approx(area * 31.75 / 1e9, rel=RELATIVE)


def test_violations_are_named_the_worst_first_with_place_and_amount() -> None:
    spots = [(0.0, 0.0, 0.0), (4000.0, 0.0, 12.0), (4000.0, 3000.0, 35.0), (0.0, 3000.0, -40.0)]
    bed = {"top": {"kind": "level", "height": 30.0}, "minimum_thickness": 25.0, "maximum_thickness": 50.0}
    found = plan_of(room_over(SQUARE, spots, bed=bed))["bed"]["violations"]
    listed = [(v["kind"], tuple(v["at"]), v["thickness"], v["by"]) for v in found]
    assert listed == [
        ("no_bed", (4000.0, 3000.0), -5.0, 30.0),
        ("too_thick", (0.0, 3000.0), 70.0, 20.0),
        ("too_thin", (4000.0, 0.0), 18.0, 7.0),
    ]


def test_the_lowest_level_top_breaks_no_minimum() -> None:
    for seed in range(20):
        found = plan_of(random_room(seed))["bed"]["violations"]
        assert all(v["kind"] == "too_thick" for v in found)


def test_a_top_below_the_whole_subfloor_has_no_mortar_and_says_where() -> None:
    spots = [(x, y, 0.0) for x, y in SQUARE]
    bed = plan_of(room_over(SQUARE, spots, bed={"top": {"kind": "level", "height": -5.0}}))["bed"]
    assert (bed["volume"], bed["mass"], bed["thickness"]["max"]) == (0.0, 0.0, -5.0)
    assert bed["too_thin_area"] == pytest.approx(12.0)
    assert {v["kind"] for v in bed["violations"]} == {"no_bed"}


@settings(max_examples=40, deadline=None)
@given(st.floats(-40.0, 40.0))
def test_volume_grows_with_the_top_by_the_area_that_has_mortar(top: float) -> None:
    room = random_room(4)
    low, high = (engines_own(room, Plane(top + rise, 0, 0), 1.0, 50.0) for rise in (0.0, 1.0))
    area = polygon_of(room).area / 1e9
    assert 0.0 <= high.volume - low.volume <= area * (1 + RELATIVE)


@pytest.mark.parametrize("build", ["unbonded", "bonded"])
def test_the_lowest_top_stands_the_minimum_above_the_high_spot(build: str) -> None:
    spots = [(0.0, 0.0, 1.0), (4000.0, 0.0, 2.0), (4000.0, 3000.0, 3.5), (0.0, 3000.0, 0.0)]
    bed = plan_of(room_over(SQUARE, spots, bed={"build": build}))["bed"]
    assert bed["top"][0]["a"] == pytest.approx(3.5 + bed["minimum_thickness"])
    assert bed["minimum_thickness"] == {"unbonded": 31.75, "bonded": 25.4}[build]
    own = plan_of(room_over(SQUARE, spots, bed={"build": build, "minimum_thickness": 40.0}))["bed"]
    assert own["top"][0]["a"] == pytest.approx(43.5)


def test_a_plane_top_passes_through_its_three_points() -> None:
    through = [[0, 0, 50.0], [4000, 0, 40.0], [0, 3000, 45.0]]
    spots = [(x, y, 0.0) for x, y in SQUARE]
    bed = plan_of(room_over(SQUARE, spots, bed={"top": {"kind": "plane", "through": through}}))["bed"]
    (facet,) = bed["top"]
    for x, y, z in through:
        assert facet["a"] + facet["b"] * x + facet["c"] * y == pytest.approx(z)
    assert bed["thickness"]["mean"] == pytest.approx(42.5)
    assert bed["thickness"]["min_at"] == [4000.0, 3000.0]
