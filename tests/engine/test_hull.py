"""The straightedge laid on one profile: by hand, and against windows laid by brute force where knots stand evenly."""

import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.share import share_of

from evenbed.engine.flatness.hull import Rest, worst_over, worst_under

STEP = 50.0  # mm between knots
FINE = 8  # windows laid for each step

profiles = st.lists(st.integers(-40, 40), min_size=3, max_size=24).map(lambda tenths: [n / 10.0 for n in tenths])


@pytest.mark.parametrize("steps", range(1, 60))
@pytest.mark.parametrize("lean", [0.0, 0.004])
def test_a_valley_between_two_slopes_opens_by_half_of_slope_times_length(steps: int, lean: float) -> None:
    """By hand: rests as far before as behind the valley's foot; windows begin on knots, or halfway between them."""
    along = [STEP * n for n in range(81)]
    height = [0.003 * abs(t - 2000.0) + lean * t for t in along]
    found = worst_under((along, height), STEP * steps)
    assert found is not None
    assert found.gap == pytest.approx(0.003 * STEP * steps / 2.0, abs=1e-9)
    assert found.at == 2000.0
    assert worst_over((along, [-z for z in height]), STEP * steps) == found


def brute(along: np.ndarray, height: np.ndarray, length: float) -> float:
    """The largest gap under straightedges between any two of many places no further apart than the length."""
    ends = np.linspace(0.0, along[-1], FINE * (len(along) - 1) + 1)
    heights, worst = np.interp(ends, along, height), 0.0
    for n, (a, z) in enumerate(zip(ends, heights, strict=True)):
        reach = np.searchsorted(ends, a + length + 1e-9)
        for m in range(n + 1, reach):
            between = slice(np.searchsorted(along, a), np.searchsorted(along, ends[m], side="right"))
            open_by = z + (heights[m] - z) * (along[between] - a) / (ends[m] - a) - height[between]
            if open_by.size and _touches_only(ends[n : m + 1], heights[n : m + 1]):
                worst = max(worst, float(open_by.max()))
    return worst


def _touches_only(ends: np.ndarray, heights: np.ndarray) -> bool:
    """Whether the line between the ends runs through nothing that is higher."""
    line = heights[0] + (heights[-1] - heights[0]) * (ends - ends[0]) / (ends[-1] - ends[0])
    return bool((heights <= line + 1e-9).all())


def is_laid_there(found: Rest, along: np.ndarray, height: np.ndarray, length: float) -> bool:
    low, high = np.interp([found.first, found.second], along, height)
    open_by = low + (high - low) * (found.at - found.first) / (found.second - found.first)
    gap = open_by - np.interp(found.at, along, height)
    return abs(gap - found.gap) < 1e-9 and found.second - found.first <= length + 1e-9


@settings(max_examples=share_of(300))
@given(profiles, st.integers(1, 26), st.sampled_from([0.0, 12.5, 25.0]), st.randoms(use_true_random=False))
def test_no_window_laid_by_brute_force_stands_open_wider(
    heights: list[float], steps: int, more: float, dice: random.Random
) -> None:
    along, height, length = STEP * np.arange(len(heights)), np.array(heights), STEP * steps + more
    found = worst_under((along.tolist(), height.tolist()), length)
    assert (found.gap if found else 0.0) >= brute(along, height, length) - 1e-9
    assert found is None or is_laid_there(found, along, height, length)
    lean = dice.uniform(-0.05, 0.05)
    leaning = worst_under((along.tolist(), (height + lean * along).tolist()), length)
    assert (leaning.gap if leaning else 0.0) == pytest.approx(found.gap if found else 0.0, abs=1e-9)
