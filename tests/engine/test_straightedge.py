"""A straightedge laid all over a bed by computation: against brute force, by hand, and by what must not matter."""

import math
import random
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.checked_bed import over_grid, random_spots, rectangle
from tests.documents import Spot, turned
from tests.share import SHARE
from tests.straightedge_judge import Judge

from evenbed.engine.flatness.bed_surface import BedSurface, bed_surface_from
from evenbed.engine.flatness.mesh import Mesh
from evenbed.engine.flatness.search import Found, Worst, worst_lying, worst_on
from evenbed.engine.geometry import between, distance_to_ring, is_inside
from evenbed.engine.region import Region
from evenbed.engine.touching import regions_of_room

AGREED = 0.01  # mm
SEARCHED = 1e-3  # mm: what the search may leave where another way would find a hair more
IS_ALL = SHARE >= 1.0
SURFACES = 200 if IS_ALL else 5  # each asks the judge for seconds, one for each length
EXAMPLES = 24 if IS_ALL else 4
LENGTHS = [304.8, 609.6, 1000.0, 2000.0, 3048.0]
HUGE = rectangle(1e5, 1e5)


def surface_of(spots: list[Spot], outline: list[list[float]] = HUGE, *holes: list[tuple[float, float]]) -> BedSurface:
    moved = [(x - 5e4, y - 5e4) for x, y in outline] if outline is HUGE else [(x, y) for x, y in outline]
    return bed_surface_from(spots, regions_of_room(tuple(moved), holes))


def worst_of(spots: list[Spot], length: float) -> tuple[float, float]:
    return sizes(worst_lying(surface_of(spots), length))


def sizes(worst: Worst) -> tuple[float, float]:
    return (worst.gap.gap if worst.gap else 0.0, worst.hump.gap if worst.hump else 0.0)


@pytest.mark.parametrize("seed", range(SURFACES))
def test_brute_force_finds_no_worse_place(seed: int) -> None:
    _, _, spots = random_spots(seed)
    length = LENGTHS[seed % len(LENGTHS)]
    judge, worst = Judge(spots), worst_lying(surface_of(spots), length)
    for found, sign in ((worst.gap, 1.0), (worst.hump, -1.0)):
        if found is not None:
            assert math.dist(found.first, found.second) <= length + 1e-6
            places = (np.array(place) for place in (found.first, found.at, found.second))
            assert sign * judge.gap_of(*places) == pytest.approx(found.gap, abs=1e-4), "it is that bad there"
        assert (found.gap if found else 0.0) >= judge.worst(length, sign) - AGREED


def test_a_sine_under_a_longer_straightedge_leaves_twice_its_amplitude() -> None:
    """Check by hand: from crest to crest over the trough."""
    high, wave = 3.0, 800.0
    spots = over_grid(4000.0, 100.0, 100.0, lambda x, _y: high * math.sin(math.tau * x / wave))
    for length in (900.0, 2000.0, 3048.0):
        assert worst_of(spots, length) == pytest.approx((2 * high, 2 * high), abs=AGREED)


def test_a_sine_under_a_shorter_straightedge_leaves_what_the_chord_spans() -> None:
    """By hand: a chord of length L over the trough hangs A (1 − cos(π L / wave)) above it."""
    high, wave, length = 3.0, 2000.0, 700.0
    spots = over_grid(2400.0, 25.0, 25.0, lambda x, _y: high * math.sin(math.tau * x / wave))
    gap, hump = worst_of(spots, length)
    assert gap == pytest.approx(high * (1.0 - math.cos(math.pi * length / wave)), abs=AGREED)
    assert hump == pytest.approx(gap, abs=AGREED)


@pytest.mark.parametrize("length", [600.0, 2000.0, 3048.0])
def test_a_step_leaves_nearly_its_height(length: float) -> None:
    """By hand: from the upper corner to the far end on the lower floor, open at the foot of a step 5 mm wide."""
    step, wide = 4.0, 5.0
    spots = [(x, y, z) for y in (0.0, 3000.0) for x, z in ((0, 0.0), (3000, 0.0), (3000 + wide, step), (6000, step))]
    expected = step * (1.0 - wide / length)
    # Over a step set square, no slanted line does better: it spends more of its length on the step's width.
    assert worst_of([(float(x), y, z) for x, y, z in spots], length) == pytest.approx(
        (expected, expected), abs=AGREED
    )


@pytest.mark.parametrize("length", [304.8, 1000.0, 1900.0])
def test_a_ridge_rocks_the_straightedge_and_a_valley_opens_under_it(length: float) -> None:
    """By hand: slopes s each way make a hump, or a gap, of s L / 2, square across."""
    slope = 0.004
    ridge = over_grid(2000.0, 2000.0, 500.0, lambda x, _y: -slope * abs(x - 1000.0))
    assert worst_of(ridge, length) == pytest.approx((0.0, slope * length / 2.0), abs=1e-6)
    valley = [(x, y, -z) for x, y, z in ridge]
    assert worst_of(valley, length) == pytest.approx((slope * length / 2.0, 0.0), abs=1e-6)


def test_a_wedge_is_flat_however_steep() -> None:
    spots = over_grid(3000.0, 2000.0, 500.0, lambda x, y: 0.02 * x - 0.013 * y + 7.0)
    assert worst_of(spots, 2000.0) == pytest.approx((0.0, 0.0), abs=1e-9)


def test_a_straightedge_longer_than_the_bed_lies_on_all_of_it() -> None:
    spots = over_grid(1200.0, 1200.0, 300.0, lambda x, _y: 2.0 * abs(x - 600.0) / 600.0)
    assert worst_of(spots, 3048.0) == pytest.approx((2.0, 0.0), abs=1e-9)


@given(st.integers(0, 10_000), st.floats(-0.02, 0.02), st.floats(-0.02, 0.02), st.floats(-500, 500))
@settings(max_examples=EXAMPLES, deadline=None)
def test_a_lean_changes_no_gap(seed: int, along: float, across: float, up: float) -> None:
    _, _, spots = random_spots(seed)
    leaning = [(x, y, z + along * x + across * y + up) for x, y, z in spots]
    assert worst_of(leaning, 2000.0) == pytest.approx(worst_of(spots, 2000.0), abs=1e-7)


@given(st.integers(0, 10_000), st.floats(0.1, 10.0))
@settings(max_examples=EXAMPLES, deadline=None)
def test_heights_so_many_times_as_large_make_gaps_as_many_times_as_large(seed: int, times: float) -> None:
    _, _, spots = random_spots(seed)
    larger = worst_of([(x, y, times * z) for x, y, z in spots], 1000.0)
    assert larger == pytest.approx([times * size for size in worst_of(spots, 1000.0)], abs=SEARCHED * times)


@given(st.integers(0, 10_000))
@settings(max_examples=EXAMPLES, deadline=None)
def test_upside_down_gaps_are_humps(seed: int) -> None:
    _, _, spots = random_spots(seed)
    gap, hump = worst_of(spots, 1500.0)
    assert worst_of([(x, y, -z) for x, y, z in spots], 1500.0) == pytest.approx((hump, gap), abs=1e-9)


@given(st.integers(0, 10_000), st.floats(0.0, math.tau), st.booleans())
@settings(max_examples=EXAMPLES, deadline=None)
def test_a_room_turned_or_mirrored_has_the_same_worst_places(seed: int, angle: float, is_mirrored: bool) -> None:
    _, _, spots = random_spots(seed)
    flip = -1.0 if is_mirrored else 1.0
    moved = [(*turned((flip * x, y), angle, (777.0, -333.0)), z) for x, y, z in spots]
    assert worst_of(moved, 1000.0) == pytest.approx(worst_of(spots, 1000.0), abs=SEARCHED)


@given(st.integers(0, 10_000), st.floats(300.0, 3000.0), st.floats(1.0, 2.0))
@settings(max_examples=EXAMPLES, deadline=None)
def test_a_longer_straightedge_never_finds_less(seed: int, length: float, times: float) -> None:
    _, _, spots = random_spots(seed)
    short, long = worst_of(spots, length), worst_of(spots, times * length)
    assert all(a <= b + AGREED for a, b in zip(short, long, strict=True))


@given(st.integers(0, 10_000))
@settings(max_examples=EXAMPLES, deadline=None)
def test_points_on_the_surface_change_nothing(seed: int) -> None:
    surface = surface_of(random_spots(seed)[2])
    finer = _with_middles(surface, random.Random(seed))
    assert sizes(worst_lying(finer, 1200.0)) == pytest.approx(sizes(worst_lying(surface, 1200.0)), abs=AGREED)


def _with_middles(surface: BedSurface, dice: random.Random) -> BedSurface:
    """The same surface with a point inside some of its triangles."""
    places, heights, triangles = list(surface.mesh.places), list(surface.heights), []
    for i, j, k in surface.triangles:
        if dice.random() < 0.5:
            triangles.append((i, j, k))
            continue
        n = len(places)
        places.append(tuple(sum(surface.mesh.places[m][c] for m in (i, j, k)) / 3.0 for c in (0, 1)))  # type: ignore[arg-type]
        heights.append(sum(surface.heights[m] for m in (i, j, k)) / 3.0)
        triangles += [(i, j, n), (j, k, n), (k, i, n)]
    mesh = Mesh(tuple(places), tuple(triangles), surface.mesh.walls)
    sigmas = tuple([1.0] * len(places))
    return replace(surface, mesh=mesh, heights=tuple(heights), cells=(), spots=len(places), sigmas=sigmas)


def _bowl(x: float, y: float) -> float:
    return ((x - 1500.0) ** 2 + (y - 1500.0) ** 2) / 4e5


def _ripples(x: float, y: float) -> float:
    return 2.0 * math.sin(x / 300.0) * math.sin(y / 400.0)


def test_no_straightedge_lies_through_a_wall() -> None:
    """A room of two arms: along each the bed is straight; only from arm to arm, through the corner, it is not."""
    outline = [[0.0, 0.0], [3000.0, 0.0], [3000.0, 1000.0], [1000.0, 1000.0], [1000.0, 3000.0], [0.0, 3000.0]]
    spots = [(x, y, 0.0) for x, y in ((0.0, 0.0), (1000.0, 0.0), (0.0, 1000.0), (1000.0, 1000.0))]
    spots += [(3000.0, y, 10.0) for y in (0.0, 1000.0)] + [(x, 3000.0, 10.0) for x in (0.0, 1000.0)]
    inside = worst_lying(surface_of([(float(x), float(y), z) for x, y, z in spots], outline), 3048.0)
    whole = worst_lying(surface_of([(float(x), float(y), z) for x, y, z in spots]), 3048.0)
    assert inside.gap is not None
    assert whole.gap is not None
    assert inside.gap.gap < whole.gap.gap
    region = Region(tuple((x, y) for x, y in outline))
    assert all(_is_inside(region, inside.gap, share) for share in (0.1, 0.3, 0.5, 0.7, 0.9))


def test_no_straightedge_lies_over_a_cutout() -> None:
    """By hand: a hearth over the whole valley leaves two leaning planes."""
    spots = over_grid(3000.0, 2000.0, 500.0, lambda x, _y: 0.005 * abs(x - 1500.0))
    hearth = [(1400.0, -1.0), (1600.0, -1.0), (1600.0, 2001.0), (1400.0, 2001.0)]
    outline = [[0.0, -1.0], [3000.0, -1.0], [3000.0, 2001.0], [0.0, 2001.0]]
    assert sizes(worst_lying(surface_of(spots, outline, hearth), 2000.0)) == pytest.approx((0.0, 0.0), abs=1e-6)
    assert sizes(worst_lying(surface_of(spots, outline), 2000.0))[0] == pytest.approx(5.0, abs=1e-6)


def _is_inside(region: Region, found: Found, share: float) -> bool:
    at = between(found.first, found.second, share)
    return is_inside(region.outer, *at) or distance_to_ring(region.outer, at) < 1e-6


@pytest.mark.parametrize("height", [_ripples, _bowl])
def test_the_worst_of_all_lines_is_found_again_on_its_own_line(height: Callable[[float, float], float]) -> None:
    surface = surface_of(over_grid(3000.0, 3000.0, 430.0, height))
    worst = worst_lying(surface, 1000.0)
    for n, found in enumerate((worst.gap, worst.hump)):
        if found is not None:
            alone = worst_on(surface, found.first, found.second, 1000.0)
            assert sizes(alone)[n] == pytest.approx(found.gap, abs=1e-6)


def test_too_few_readings_tell_of_the_line_they_stand_on_or_of_nothing() -> None:
    line = [(0.0, 0.0, 0.0), (500.0, 500.0, -3.0), (1000.0, 1000.0, 0.0)]
    assert [sizes(worst_lying(surface_of(line[:n]), 2000.0)) for n in range(3)] == [(0.0, 0.0)] * 3
    assert sizes(worst_lying(surface_of(line), 2000.0)) == pytest.approx((3.0, 0.0))
