"""Regions cut by lines, with shapely as the judge."""

import math
import random
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, unary_union
from shapely import Point as ShapelyPoint
from shapely.affinity import translate
from tests.rooms import Room, cutouts_of, outline_of, random_room

from evenbed.engine.document.room import Outline
from evenbed.engine.geometry import Ring, signed_area
from evenbed.engine.outline import figure_from
from evenbed.engine.region import Region, chords_at, split_by_line
from evenbed.engine.touching import regions_of_room

AREA_RELATIVE = 1e-9  # the contract's tolerance for areas and volumes
CORNER_TOUCH = 0.01  # mm: parts that touch at a corner only are separate, whatever rounding makes of the corner
OFF_EDGE = 1e-3  # mm: nearer to an edge than this, membership is nobody's to judge

RECTANGLE: Ring = ((0, 0), (4000, 0), (4000, 3000), (0, 3000))
ELL: Ring = ((0, 0), (5000, 0), (5000, 2000), (2000, 2000), (2000, 4000), (0, 4000))
YOU: Ring = ((0, 0), (6000, 0), (6000, 4000), (4000, 4000), (4000, 1500), (2000, 1500), (2000, 4000), (0, 4000))
COMB: Ring = (
    *((0, 0), (7000, 0), (7000, 3000), (6000, 3000), (6000, 1000), (5000, 1000), (5000, 3000), (4000, 3000)),
    *((4000, 1000), (3000, 1000), (3000, 3000), (2000, 3000), (2000, 1000), (1000, 1000), (1000, 3000), (0, 3000)),
)
COLUMN: Ring = ((1000, 1000), (1500, 1000), (1500, 1600), (1000, 1600))
DIAMOND: Ring = ((1000, 500), (1500, 1000), (1000, 1500), (500, 1000))


def regions_of(room: Room) -> tuple[Region, ...]:
    return regions_of_room(outline_of(room), cutouts_of(room))


def shape(region: Region) -> Polygon:
    return Polygon(region.outer, region.holes)


def judge(regions: tuple[Region, ...], point: tuple[float, float], direction: tuple[float, float]) -> None:
    """Both halves are valid, on their own side, and add up to the whole; shapely's own halves agree."""
    left, right = split_by_line(regions, point, direction)
    whole = unary_union([shape(region) for region in regions])
    for part in (*left, *right):
        assert shape(part).is_valid
        assert signed_area(part.outer) > 0
        assert all(signed_area(hole) < 0 for hole in part.holes)
    area = math.fsum(part.area for part in (*left, *right))
    assert area == pytest.approx(whole.area, rel=AREA_RELATIVE)
    half = half_plane(point, direction)
    expected = whole.intersection(half).area
    assert math.fsum(part.area for part in left) == pytest.approx(expected, rel=1e-8, abs=whole.area * 1e-9)
    assert len(left) == len(parts_of(whole.intersection(half).buffer(-CORNER_TOUCH)))


def half_plane(point: tuple[float, float], direction: tuple[float, float]) -> Polygon:
    size = math.hypot(*direction)
    dx, dy = direction[0] / size * 1e5, direction[1] / size * 1e5
    a, b = (point[0] - dx, point[1] - dy), (point[0] + dx, point[1] + dy)
    return Polygon([a, b, (b[0] - dy, b[1] + dx), (a[0] - dy, a[1] + dx)])


def parts_of(figure: object) -> list[Polygon]:
    """The polygons of a result that are more than slivers of rounding."""
    parts = getattr(figure, "geoms", [figure])
    return [part for part in parts if isinstance(part, Polygon) and part.area > 1.0]


@pytest.mark.parametrize("seed", range(300))
def test_a_room_cut_anywhere_adds_up_and_agrees_with_shapely(seed: int) -> None:
    dice = random.Random(seed)
    regions = regions_of(random_room(seed))
    for _ in range(3):
        angle = dice.uniform(0, math.tau)
        point = dice.choice(regions[0].outer)
        there = (point[0] + dice.uniform(-3000, 3000), point[1] + dice.uniform(-3000, 3000))
        judge(regions, there, (math.cos(angle), math.sin(angle)))


@pytest.mark.parametrize("seed", range(150))
def test_a_room_cut_through_its_own_corners_and_along_its_own_walls_adds_up(seed: int) -> None:
    regions = regions_of(random_room(seed))
    corners = [corner for region in regions for ring in region.rings for corner in ring]
    for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
        judge(regions, a, (b[0] - a[0], b[1] - a[1]))


@pytest.mark.parametrize("outline", [RECTANGLE, ELL, YOU, COMB])
@pytest.mark.parametrize("level", [0, 500, 1000, 1250, 1500, 1600, 2000, 3000, 4000, 5000])
@pytest.mark.parametrize("holes", [(), (COLUMN,), (DIAMOND,)])
def test_plain_figures_cut_at_the_height_of_their_corners(outline: Ring, level: float, holes: tuple[Ring]) -> None:
    whole = unary_union([Polygon(outline)]).difference(unary_union([Polygon(hole) for hole in holes]))
    inside = [hole for hole in holes if Polygon(outline).contains(Polygon(hole))]
    regions = regions_of_room(outline, inside)
    if len(inside) == len(holes):
        assert math.fsum(region.area for region in regions) == pytest.approx(whole.area, rel=AREA_RELATIVE)
    judge(regions, (0.0, float(level)), (1.0, 0.0))
    judge(regions, (float(level), 0.0), (0.0, 2.0))


def test_a_comb_falls_into_its_teeth_when_cut_where_they_begin() -> None:
    left, right = split_by_line(regions_of_room(COMB), (0.0, 1000.0), (1.0, 0.0))
    assert sorted(part.area for part in left) == [2e6] * 4
    assert [part.area for part in right] == [7e6]


def test_a_rectangle_cut_along_its_own_edge_stays_whole() -> None:
    (room,) = regions_of_room(RECTANGLE)
    assert split_by_line((room,), (0.0, 0.0), (1.0, 0.0)) == ((room,), ())
    assert split_by_line((room,), (0.0, 3000.0), (1.0, 0.0)) == ((), (room,))


def test_a_hole_whose_corner_touches_the_cut_stays_a_hole_of_a_valid_part() -> None:
    regions = regions_of_room(RECTANGLE, (DIAMOND,))
    left, _ = split_by_line(regions, (0.0, 500.0), (1.0, 0.0))
    assert [len(part.holes) for part in left] == [1]
    judge(left, (1000.0, 0.0), (0.0, 1.0))
    judge(left, (0.0, 500.0), (1.0, 1.0))


def test_a_hearth_against_the_wall_is_a_notch_and_a_bar_from_wall_to_wall_leaves_two_rooms() -> None:
    hearth = ((1000, 0), (2000, 0), (2000, 400), (1000, 400))
    (notched,) = regions_of_room(RECTANGLE, (hearth,))
    assert notched.holes == ()
    assert shape(notched).equals(Polygon(RECTANGLE).difference(Polygon(hearth)))
    bar = ((1000, 0), (2000, 0), (2000, 3000), (1000, 3000))
    assert sorted(region.area for region in regions_of_room(RECTANGLE, (bar,))) == [3e6, 6e6]


def test_two_cutouts_side_by_side_become_one() -> None:
    beside = ((1500, 1000), (2000, 1000), (2000, 1300), (1500, 1300))
    (room,) = regions_of_room(RECTANGLE, (COLUMN, beside))
    assert len(room.holes) == 1
    assert shape(room).is_valid
    assert room.area == pytest.approx(12e6 - 0.3e6 - 0.15e6, rel=AREA_RELATIVE)


@pytest.mark.parametrize("seed", range(100))
def test_a_cutout_moved_against_the_walls_leaves_what_shapely_leaves(seed: int) -> None:
    dice = random.Random(seed)
    square = Polygon(((0, 0), (300, 0), (300, 300), (0, 300)))
    holes = [translate(square, 300.0 * i, 300.0 * dice.randint(0, 3)) for i in range(4)]
    outline = ((0, 0), (1200, 0), (1200, 1200), (0, 1200))
    regions = regions_of_room(outline, [tuple(hole.exterior.coords)[:-1] for hole in holes])
    expected = Polygon(outline).difference(unary_union(holes))
    assert all(shape(region).is_valid for region in regions)
    assert unary_union([shape(region) for region in regions]).symmetric_difference(expected).area < 1e-3
    assert len(regions) == len(parts_of(expected))


@pytest.mark.parametrize("seed", range(100))
def test_membership_agrees_with_shapely(seed: int) -> None:
    dice = random.Random(seed)
    room = random_room(seed)
    figure = figure_from(Outline(vertices=outline_of(room), cutouts=tuple(cutouts_of(room))))
    judged = Polygon(figure.outer, figure.holes)
    x0, y0, x1, y1 = judged.bounds
    for _ in range(50):
        point = (dice.uniform(x0, x1), dice.uniform(y0, y1))
        if judged.boundary.distance(ShapelyPoint(point)) > OFF_EDGE:
            assert figure.holds(point) == judged.contains(ShapelyPoint(point))


@settings(max_examples=80, deadline=None)
@given(st.integers(0, 2000), st.floats(0, math.tau), st.floats(-3000, 3000))
def test_chords_are_what_shapely_finds_along_the_line(seed: int, angle: float, shift: float) -> None:
    (region,) = regions_of(random_room(seed))
    x, y = region.outer[0]
    point, unit = (x + shift, y - shift / 3), (math.cos(angle), math.sin(angle))
    chords = chords_at(region, point, unit)
    line = LineString([(point[0] + unit[0] * t, point[1] + unit[1] * t) for t in (-1e5, 1e5)])
    assume(all(line.distance(ShapelyPoint(corner)) > OFF_EDGE for ring in region.rings for corner in ring))
    length = shape(region).intersection(line).length
    assert all(a < b for a, b in chords)
    assert all(before[1] < after[0] for before, after in pairwise(chords))
    assert math.fsum(b - a for a, b in chords) == pytest.approx(length, abs=1e-2)
