"""A straightedge over a scanned bed: beds whose gaps geometry tells, each beside every two heights taken by hand."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from tests.scans.clouds import Array

from evenbed.engine.flatness.standards import Limit
from evenbed.scans.flat_grid import FlatGrid, drawn_together
from evenbed.scans.flat_search import open_places
from evenbed.scans.flat_straightedge import checked
from evenbed.wire.scans import FlatCheck, FlatPlace

PITCH = 50.0  # mm
LONG = 2000.0  # mm
EXACT = 1e-3  # mm: what the answer is rounded to
Bed = Callable[[Array, Array], Array]


def grid_of(bed: Bed, sigma: float = 0.0, columns: int = 81, rows: int = 61) -> FlatGrid:
    """A bed of 4 m by 3 m, read every 50 mm."""
    y, x = np.mgrid[0:rows, 0:columns] * PITCH
    return FlatGrid(0.0, 0.0, PITCH, PITCH, bed(x, y), np.full(x.shape, sigma), np.ones(x.shape, bool))


def found(bed: Bed, length: float = LONG, limit: float = 3.0) -> FlatCheck:
    """The bed under one straightedge."""
    return checked(grid_of(bed), Limit(length, limit, "own"))


def depth(place: FlatPlace | None) -> float:
    """How far it stands open there."""
    return 0.0 if place is None else place.gap


def test_a_wave_shorter_than_the_straightedge_leaves_twice_its_height_and_so_do_its_crests() -> None:
    check = found(lambda x, _y: 3.0 * np.cos(2 * math.pi * x / 1000.0))
    assert depth(check.gap) == pytest.approx(6.0, abs=EXACT)
    assert depth(check.hump) == pytest.approx(6.0, abs=EXACT)
    assert check.verdict == "beyond"


def test_a_wave_that_runs_askew_is_found_as_deep_but_for_what_lies_between_two_heights() -> None:
    check = found(lambda x, y: 3.0 * np.cos(2 * math.pi * (x + 2 * y) / math.sqrt(5) / 1000.0))
    between = 6.0 * (1 - math.cos(math.pi * PITCH / 1000.0))  # half a step beside crest and trough
    assert 6.0 - between <= depth(check.gap) <= 6.0


def test_under_a_wedge_it_stands_open_by_half_its_length_times_the_slope() -> None:
    valley = found(lambda x, _y: 0.003 * np.abs(x - 2000.0))
    assert depth(valley.gap) == pytest.approx(3.0, abs=EXACT)
    assert valley.gap is not None
    assert valley.gap.at[0] == 2000.0
    assert [point[0] for point in valley.gap.rests] == [1000.0, 3000.0]
    assert valley.hump is None


def test_on_a_ridge_that_runs_across_it_rocks_by_half_its_length_times_the_slope() -> None:
    ridge = found(lambda x, y: -0.003 * np.abs(x + y - 3000.0))
    assert depth(ridge.hump) == pytest.approx(0.003 * math.sqrt(2) * LONG / 2, abs=EXACT)


def test_a_length_that_is_no_whole_number_of_steps_counts_in_full() -> None:
    valley = found(lambda x, _y: 0.003 * np.abs(x - 2000.0), length=1975.0)
    resting = 0.003 * 1000.0 * 975.0 / 1975.0 * 2  # one end on a height, the other 25 mm short of one
    assert depth(valley.gap) == pytest.approx(resting, abs=EXACT)


def test_at_the_foot_of_a_step_it_stands_open_by_the_step_less_what_it_leans() -> None:
    step = found(lambda x, _y: np.where(x >= 2000.0, 4.0, 0.0))
    leaning = 4.0 * (1 - PITCH / LONG)
    assert depth(step.gap) == pytest.approx(leaning, abs=EXACT)
    assert depth(step.hump) == pytest.approx(leaning, abs=EXACT)


def test_a_true_plane_leaves_nothing_open_and_is_within() -> None:
    check = found(lambda x, y: x / 150.0 - y / 300.0)
    assert (depth(check.gap), depth(check.hump)) == (0.0, 0.0)
    assert (check.verdict, check.sure, check.beyond_share) == ("within", True, 0.0)


def test_the_share_beyond_is_that_of_the_trough() -> None:
    check = found(lambda x, _y: np.where(np.abs(x - 2000.0) <= 500.0, -5.0, 0.0), limit=4.9)
    assert check.beyond_share == pytest.approx(21 / 81, abs=1e-3)


ROWS = arrays(float, st.tuples(st.just(1), st.integers(3, 24)), elements=st.floats(-5, 5, width=32))


@settings(max_examples=200, deadline=None)
@given(ROWS, st.floats(1.5, 30.0))
def test_no_two_heights_that_carry_a_straightedge_stand_open_by_more(heights: Array, reach: float) -> None:
    worst, beyond = open_places(heights, reach, 1.0)
    gaps = gaps_by_hand(heights[0], reach)
    assert (worst[0].gap if worst else 0.0) == pytest.approx(gaps.max(), abs=1e-5)
    assert (beyond[0] | (np.abs(gaps - 1.0) < 1e-5)).tolist() == ((gaps > 1.0) | (np.abs(gaps - 1.0) < 1e-5)).tolist()


def gaps_by_hand(heights: Array, reach: float) -> Array:
    """Over every height the highest line that rests on two places no further apart, one of them a height."""
    steps = np.arange(len(heights))
    gaps = np.zeros(len(heights))
    for first in steps:
        for second in [*steps[first + 1 :], first + reach, first - reach]:
            a, b = min(first, second), max(first, second)
            if a < 0 or b > steps[-1] or b - a > reach + 1e-9:
                continue
            under = steps[(steps > a) & (steps < b)]
            low, high = (float(np.interp(end, steps, heights)) for end in (a, b))
            line = low + (high - low) * (under - a) / (b - a)
            gaps[under] = np.maximum(gaps[under], line - heights[under])
    return gaps


def test_no_straightedge_lies_across_what_was_not_read() -> None:
    grid = grid_of(lambda x, _y: 0.003 * np.abs(x - 2000.0))
    grid.heights[:, 40] = np.nan
    check = checked(grid, Limit(LONG, 3.0, "own"))
    assert check.gap is None
    assert check.judged_share == pytest.approx(80 / 81, abs=1e-3)


def test_scatter_alone_is_told_and_a_limit_below_it_is_not_judged() -> None:
    dice = np.random.default_rng(3)
    grid = grid_of(lambda x, _y: dice.normal(0.0, 0.8, x.shape), sigma=0.8)
    short = checked(grid, Limit(300.0, 1.6, "own"))
    assert short.spacing == PITCH
    assert short.noise_gap > 1.6
    assert (short.verdict, short.sure) == ("too_noisy", False)
    assert depth(short.gap) == pytest.approx(short.noise_gap, rel=0.3)


def test_heights_are_drawn_together_until_scatter_is_small_beside_the_limit() -> None:
    dice = np.random.default_rng(3)
    grid = grid_of(lambda x, _y: dice.normal(0.0, 0.8, x.shape), sigma=0.8)
    long = checked(grid, Limit(3048.0, 3.2, "own"))
    assert long.spacing > PITCH
    assert long.noise_gap < 3.2 / 2
    assert long.verdict == "within"


def test_what_goes_far_beyond_both_limit_and_scatter_is_beyond_for_certain() -> None:
    dice = np.random.default_rng(3)
    grid = grid_of(lambda x, _y: 10.0 * np.cos(x / 160.0) + dice.normal(0.0, 0.8, x.shape), sigma=0.8)
    check = checked(grid, Limit(LONG, 1.0, "own"))
    assert (check.verdict, check.sure) == ("beyond", True)


def test_heights_too_far_apart_for_the_straightedge_are_too_sparse() -> None:
    assert found(lambda x, _y: 0.0 * x, length=250.0).verdict == "too_sparse"


def test_half_a_room_unread_is_too_sparse() -> None:
    grid = grid_of(lambda x, _y: 0.0 * x)
    grid.heights[:, :40] = np.nan
    assert checked(grid, Limit(LONG, 3.0, "own")).verdict == "too_sparse"


def test_means_of_heights_are_weighed_by_what_they_are_worth_and_stand_in_their_middle() -> None:
    grid = grid_of(lambda x, y: x + 2 * y, sigma=1.0, columns=4, rows=4)
    together = drawn_together(grid, 2)
    assert (together.x, together.y, together.dx) == (25.0, 25.0, 100.0)
    assert together.heights.tolist() == [[75.0, 175.0], [275.0, 375.0]]
    assert together.sigmas == pytest.approx(np.full((2, 2), 0.5))
