"""Shims in whole units, against every other way to round them."""

import math
from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.share import share_of

from evenbed.engine.rails.rounding import MILLIMETRE, MOST_OUT, PARTS, SIXTEENTH, rounded_shims

NEARLY = 5e-6  # of a unit: errors are weighed in whole millionths
SHIMS = st.floats(-5.0, 80.0).map(lambda shim: round(shim, 3))
Cost = tuple[float, float, float]


def errors_of(whole: tuple[int, ...], shims: list[float], unit: float) -> list[float]:
    return [n - shim / unit for n, shim in zip(whole, shims, strict=True)]


def cost_of(errors: list[float]) -> Cost:
    """The largest difference of neighbours' errors, the sum of all of them squared, the sum of squared errors."""
    steps = [abs(b - a) for a, b in pairwise(errors)]
    return max(steps, default=0.0), math.fsum(s * s for s in steps), math.fsum(e * e for e in errors)


def is_no_better(cost: Cost, than: Cost) -> bool:
    for one, other in zip(cost, than, strict=True):
        if abs(one - other) > NEARLY:
            return one > other
    return True


def near_to(height: float) -> set[int]:
    """Down and up, where that is not further off than allowed; at the very limit either may be meant."""
    both = {math.floor(height + 1e-7), math.ceil(height - 1e-7)}
    return {n for n in both if abs(n - height) <= MOST_OUT / PARTS - NEARLY}


@settings(max_examples=share_of(250), deadline=None)
@given(st.lists(SHIMS, min_size=1, max_size=9), st.sampled_from([SIXTEENTH, MILLIMETRE]))
def test_no_other_rounding_down_or_up_within_three_quarters_is_better(shims: list[float], unit: float) -> None:
    heights = [shim / unit for shim in shims]
    best = cost_of(errors_of(rounded_shims(shims, unit), shims, unit))
    ways = product(*(near_to(h) for h in heights))
    assert all(is_no_better(cost_of(errors_of(way, shims, unit)), best) for way in ways)


@settings(max_examples=share_of(250), deadline=None)
@given(st.lists(st.floats(-50.0, 300.0), min_size=1, max_size=60), st.sampled_from([SIXTEENTH, MILLIMETRE]))
def test_every_shim_is_rounded_down_or_up_and_never_below_nothing(shims: list[float], unit: float) -> None:
    whole = rounded_shims(shims, unit)
    assert len(whole) == len(shims)
    assert all(abs(error) <= MOST_OUT / PARTS + NEARLY for error in errors_of(whole, shims, unit))
    assert all(n >= 0 for n, shim in zip(whole, shims, strict=True) if shim >= 0.0)


@settings(max_examples=share_of(250), deadline=None)
@given(st.lists(st.floats(0.0, 60.0), min_size=2, max_size=40), st.sampled_from([SIXTEENTH, MILLIMETRE]))
def test_neighbours_never_step_more_than_if_each_went_to_its_nearest(shims: list[float], unit: float) -> None:
    nearest = tuple(round(shim / unit) for shim in shims)
    plain, ours = (cost_of(errors_of(way, shims, unit)) for way in (nearest, rounded_shims(shims, unit)))
    assert ours[0] <= plain[0] + NEARLY


@pytest.mark.parametrize(
    ("shims", "whole"),
    [
        ([], ()),
        ([7.3], (7,)),
        ([7.8], (8,)),
        ([4.0, 5.0, 6.0], (4, 5, 6)),
        ([10.4, 10.5, 10.6], (10, 10, 10)),  # to the nearest: 10, 10, 11, a step of 1 on a rise of 0.2
        ([10.7, 10.8, 10.9], (11, 11, 11)),
        ([0.2, 0.4], (0, 0)),
        ([-0.4, -0.3], (0, 0)),
        ([3.0000000001, 2.9999999999], (3, 3)),
    ],
)
def test_rounding_by_hand(shims: list[float], whole: tuple[int, ...]) -> None:
    assert rounded_shims(shims, MILLIMETRE) == whole


def test_a_shim_that_is_whole_sixteenths_stays_what_it_is() -> None:
    shims = [n * 25.4 / 16 for n in range(200)]
    assert rounded_shims(shims, SIXTEENTH) == tuple(range(200))
