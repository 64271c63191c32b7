"""The triangulation, judged by scipy and by exact fractions."""

import math
import random
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import ConvexHull, Delaunay
from shapely import MultiPoint
from tests.documents import turned

from evenbed.engine.delaunay import Triangle, triangles_from_spots
from evenbed.engine.exact import STEPS_PER_MM, Spot, snapped

small = st.integers(-6, 6)
lattice = st.lists(st.tuples(small, small), min_size=3, max_size=40, unique=True)


def spots_from(points: list[tuple[float, float]]) -> list[Spot]:
    return sorted({snapped(p) for p in points})


def doubled_area(spots: list[Spot], triangle: Triangle) -> int:
    (ax, ay), (bx, by), (cx, cy) = (spots[i] for i in triangle)
    return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)


def circle_of(spots: list[Spot], triangle: Triangle) -> tuple[Fraction, Fraction, Fraction]:
    """Centre and squared radius of the circle through three spots, exactly."""
    (ax, ay), (bx, by), (cx, cy) = (spots[i] for i in triangle)
    bx, by, cx, cy = bx - ax, by - ay, cx - ax, cy - ay
    double = 2 * (bx * cy - by * cx)
    x = Fraction(cy * (bx * bx + by * by) - by * (cx * cx + cy * cy), double)
    y = Fraction(bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by), double)
    return ax + x, ay + y, x * x + y * y


def judge(spots: list[Spot]) -> list[Triangle]:
    """Every triangle is anticlockwise with nothing inside its circle, and together they fill the hull, once."""
    triangles = triangles_from_spots(spots)
    for triangle in triangles:
        assert doubled_area(spots, triangle) > 0
        x, y, square = circle_of(spots, triangle)
        assert not any((px - x) ** 2 + (py - y) ** 2 < square for px, py in spots)
    assert sum(doubled_area(spots, t) for t in triangles) == doubled_hull_area(spots)
    edges = [(t[k], t[(k + 1) % 3]) for t in triangles for k in range(3)]
    assert len(edges) == len(set(edges))
    if triangles:
        assert {i for t in triangles for i in t} == set(range(len(spots)))
    return triangles


def doubled_hull_area(spots: list[Spot]) -> int:
    """Twice the hull's area in whole steps; shapely finds the hull's corners, whole numbers do the sum."""
    hull = MultiPoint(spots).convex_hull
    if hull.geom_type != "Polygon":
        return 0
    ring = [(int(x), int(y)) for x, y in hull.exterior.coords]
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ring)))


@pytest.mark.parametrize("count", [3, 4, 5, 7, 12, 33, 100, 300])
def test_random_spots_get_the_triangles_that_scipy_gives(count: int) -> None:
    for seed in range(8):
        dice = random.Random(1000 * count + seed)
        spots = spots_from([(dice.uniform(0, 6000), dice.uniform(0, 4000)) for _ in range(count)])
        mine = {frozenset(t) for t in triangles_from_spots(spots)}
        scipys = Delaunay(np.array(spots, dtype=float))
        assert mine == {frozenset(map(int, t)) for t in scipys.simplices}


def test_random_spots_get_as_many_triangles_as_euler_says() -> None:
    dice = random.Random(5)
    spots = spots_from([(dice.uniform(0, 6000), dice.uniform(0, 4000)) for _ in range(500)])
    rim = len(ConvexHull(np.array(spots, dtype=float)).vertices)
    assert len(judge(spots[:120])) > 0
    assert len(triangles_from_spots(spots)) == 2 * len(spots) - 2 - rim


@given(lattice)
@settings(max_examples=150, deadline=None)
def test_spots_on_few_lines_and_circles_fill_their_hull_with_empty_circles(points: list[Spot]) -> None:
    judge(sorted(points))


@given(lattice, st.integers(2**20, 2**40))
@settings(max_examples=60, deadline=None)
def test_moving_spots_far_away_changes_no_triangle(points: list[Spot], far: int) -> None:
    here = sorted(points)
    there = [(x + far, y - far) for x, y in here]
    assert triangles_from_spots(here) == triangles_from_spots(there)


@given(st.lists(st.integers(-1000, 1000), min_size=3, max_size=30, unique=True), small, small)
def test_spots_on_one_line_have_no_triangles(along: list[int], dx: int, dy: int) -> None:
    spots = sorted({(k * dx, k * dy) for k in along})
    assert triangles_from_spots(spots) == []


@pytest.mark.parametrize("spots", [[], [(0, 0)], [(0, 0), (5, 1)]])
def test_fewer_than_three_spots_have_no_triangles(spots: list[Spot]) -> None:
    assert triangles_from_spots(spots) == []


@pytest.mark.parametrize("angle", [0.0, 0.1, 0.3, 0.5, math.pi / 4, 1.1, 1.4])
@pytest.mark.parametrize(("across", "up"), [(2, 2), (3, 3), (2, 9), (9, 2), (7, 6)])
def test_a_regular_grid_fills_its_hull_whatever_way_it_lies(across: int, up: int, angle: float) -> None:
    judge(spots_from([turned((300.0 * x, 300.0 * y), angle) for x in range(across) for y in range(up)]))


@pytest.mark.parametrize("count", range(5, 13))
def test_spots_on_one_circle_fill_their_hull(count: int) -> None:
    for start in (0.0, 0.2, 0.77):
        places = [turned((1500.0, 0.0), start + math.tau * k / count) for k in range(count)]
        assert len(judge(spots_from(places))) == count - 2
        assert len(judge(spots_from([*places, (0.0, 0.0)]))) == count


def test_spots_exactly_on_one_circle_fill_their_hull() -> None:
    twelve = [(x, y) for x in range(-50, 51) for y in range(-50, 51) if x * x + y * y == 2500]
    assert len(twelve) >= 12
    assert len(judge(sorted(twelve))) == len(twelve) - 2


@pytest.mark.parametrize("seed", range(6))
def test_crowds_and_near_doubles_keep_their_empty_circles(seed: int) -> None:
    dice = random.Random(seed)
    crowd = [(dice.gauss(2000, 0.5), dice.gauss(1000, 0.5)) for _ in range(40)]
    pairs = [(x + 10.0 ** -dice.randint(1, 5), y) for x, y in crowd[:20]]
    far = [(0.0, 0.0), (1e6, 0.0), (0.0, 1e6)]
    judge(spots_from(crowd + pairs + far))


def test_neighbours_one_step_apart_are_told_apart() -> None:
    step = 1.0 / STEPS_PER_MM
    judge(spots_from([(x * step, y * step) for x in range(4) for y in range(4)] + [(3000.0, 1.0)]))


@pytest.mark.parametrize("angle", [0.0, 0.3, 0.7, 1.2345])
def test_spots_along_the_walls_of_a_turned_room_fill_it(angle: float) -> None:
    walls = [(250.0 * k, y) for k in range(17) for y in (0.0, 3000.0)]
    judge(spots_from([turned(p, angle, (5000.0, -300.0)) for p in walls]))
