"""The linear programme of few unknowns against scipy's HiGHS, and the certificates it gives."""

import math
import random
from collections.abc import Sequence
from typing import Any

import numpy as np
import pytest
from scipy.optimize import linprog

from evenbed.engine.top.linear_programme import Contradiction, Least, NoEndError, Row, least_of

BLOCK = 60


def bounds(*low: float) -> list[Row]:
    """The rows that bound the unknowns from below."""
    return [(*(float(n == k) for n in range(len(low))), bound) for k, bound in enumerate(low)]


def rows_of(seed: int) -> list[Row]:
    """Three or four unknowns, rows in every direction; every third time of whole numbers, where many rows meet."""
    dice = random.Random(seed)
    unknowns = dice.choice((3, 4))
    rows = bounds(*[-50.0] * unknowns)
    for _ in range(dice.randint(4, 60)):
        way = [dice.gauss(0.0, 1.0) for _ in range(unknowns)]
        size = math.hypot(*way)
        rows.append((*(part / size for part in way), dice.gauss(-3.0, 3.0)))
    if seed % 3 == 0:
        rows = [tuple(float(round(value)) for value in row) for row in rows]
    return rows


def judged(rows: Sequence[Row]) -> Any:
    table = np.array(rows)
    costs = np.eye(table.shape[1] - 1)[0]
    return linprog(costs, A_ub=-table[:, :-1], b_ub=-table[:, -1], bounds=(None, None), method="highs")


def summed(rows: Sequence[Row], weights: dict[int, float]) -> Any:
    """The rows multiplied by their weights and added up."""
    assert min(weights.values()) > 0.0
    return sum(weight * np.array(rows[n]) for n, weight in weights.items())


@pytest.mark.parametrize("block", range(5))
def test_the_least_is_linprogs_and_its_weights_prove_it(block: int) -> None:
    kinds = set()
    for seed in range(block * BLOCK, (block + 1) * BLOCK):
        rows = rows_of(seed)
        found, theirs = least_of(rows), judged(rows)
        kinds.add(type(found))
        assert (theirs.status == 0) == isinstance(found, Least), seed
        if isinstance(found, Contradiction):
            *factors, promised = summed(rows, found.weights)
            assert np.abs(factors).max() < 1e-8
            assert promised > 1e-10
            continue
        table = np.array(rows)
        assert (table[:, :-1] @ found.point - table[:, -1]).min() > -1e-8
        assert found.point[0] == pytest.approx(theirs.fun, abs=1e-8)
        *factors, promised = summed(rows, found.weights)
        assert factors == pytest.approx([1.0, *[0.0] * (len(factors) - 1)], abs=1e-8)
        assert promised == pytest.approx(theirs.fun, abs=1e-7)
    assert kinds == {Least, Contradiction}


@pytest.mark.parametrize("seed", range(0, 90, 3))
def test_among_equals_the_second_unknown_is_least_whatever_the_order_of_the_rows(seed: int) -> None:
    rows = rows_of(seed)
    found = least_of(rows)
    if isinstance(found, Contradiction):
        return
    start = len(found.point)
    rest = rows[start:]
    random.Random(seed).shuffle(rest)
    again = least_of([*rows[:start], *rest])
    assert isinstance(again, Least)
    assert again.point == pytest.approx(found.point, abs=1e-9)
    table = np.array(rows)
    held = np.vstack([table[:, :-1], -np.eye(start)[0]])
    second = linprog(
        np.eye(start)[1], A_ub=-held, b_ub=-np.append(table[:, -1], -found.point[0]), bounds=(None, None)
    )
    assert found.point[1] == pytest.approx(second.fun, abs=1e-6)


def test_cuts_are_asked_for_until_the_point_lies_on_the_curve() -> None:
    centre, radius = (4.0, 3.0), 2.0

    def cut(point: Sequence[float]) -> Row | None:
        x, y = point[0] - centre[0], point[1] - centre[1]
        size = math.hypot(x, y)
        if size <= radius * (1 + 1e-12):
            return None
        way = -x / size, -y / size
        return *way, way[0] * centre[0] + way[1] * centre[1] - radius

    found = least_of([*bounds(-100.0, -100.0), (1.0, 1.0, 0.0)], cut)
    assert isinstance(found, Least)
    assert found.point == pytest.approx((2.0, 3.0), abs=1e-5)
    assert found.point[0] == pytest.approx(2.0, abs=1e-11)
    assert sum(found.weights.values()) == pytest.approx(1.0)


def test_bounds_alone_are_their_own_answer() -> None:
    assert least_of(bounds(1.0, -2.0, 3.0)) == Least((1.0, -2.0, 3.0), {0: 1.0})


def test_two_rows_against_each_other_are_told() -> None:
    rows = [*bounds(-9.0, -9.0), (1.0, 0.5, 4.0), (-1.0, -0.5, -3.0)]
    assert least_of(rows) == Contradiction({3: 1.0, 2: 1.0})


def test_steps_without_end_are_told() -> None:
    with pytest.raises(NoEndError):
        least_of([*bounds(0.0, 0.0)], lambda point: (1.0, 0.0, point[0] + 1.0))
