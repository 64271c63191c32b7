"""The plane that falls least of several, against least distance programming.

C. L. Lawson and R. J. Hanson, Solving Least Squares Problems, 1974, chapter 23 (from memory): the point nearest
to the origin under G v >= h is found from one non-negative least squares problem; no remainder there means that
none exists.
"""

import random

import numpy as np
import pytest
from scipy.optimize import nnls

from evenbed.engine.top.least_fall import Half, nearest_to_level


def halves_of(seed: int) -> list[Half]:
    """Half-planes in every direction, often round a polygon that does not hold the origin; some twice."""
    dice = random.Random(seed)
    middle = dice.gauss(0.0, 3.0), dice.gauss(0.0, 3.0)
    halves = []
    for _ in range(dice.randint(1, 25)):
        u, v = dice.gauss(0.0, 1.0), dice.gauss(0.0, 1.0)
        halves.append((u, v, u * middle[0] + v * middle[1] - dice.uniform(-0.02, 2.0)))
    return halves + halves[: seed % 3]


def theirs(halves: list[Half]) -> tuple[float, float] | None:
    table = np.array(halves)
    target = np.array([0.0, 0.0, 1.0])
    shares, remainder = nnls(table.T, target)
    if remainder < 1e-6:
        return None
    rest = table.T @ shares - target
    return float(-rest[0] / rest[2]), float(-rest[1] / rest[2])


@pytest.mark.parametrize("block", range(4))
def test_it_is_the_nearest_of_all_that_lie_in_every_half_plane(block: int) -> None:
    kinds = set()
    for seed in range(block * 50, block * 50 + 50):
        halves = halves_of(seed)
        found, judged = nearest_to_level(halves), theirs(halves)
        assert (found is None) == (judged is None), seed
        if found is not None and judged is not None:
            assert found == pytest.approx(judged, abs=1e-6), seed
            kinds.add(found == (0.0, 0.0))
    assert kinds == {True, False}


def test_without_any_half_plane_it_is_level() -> None:
    assert nearest_to_level([]) == (0.0, 0.0)


def test_half_planes_that_say_nothing_of_the_lean_are_passed_over() -> None:
    assert nearest_to_level([(0.0, 0.0, 5.0), (1.0, 0.0, 2.0)]) == (2.0, 0.0)


def test_of_a_line_held_from_both_sides_the_foot_is_taken() -> None:
    assert nearest_to_level([(1.0, 1.0, 2.0), (-1.0, -1.0, -2.0)]) == pytest.approx((1.0, 1.0))
