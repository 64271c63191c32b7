"""The plane that uses the least mortar against scipy's linprog, over a share of a thousand invented rooms."""

import random
from typing import Any

import numpy as np
import pytest
from scipy.optimize import LinearConstraint, NonlinearConstraint, minimize
from tests.documents import SQUARE, room_over
from tests.engine.least_cases import METRE, Judge, designed, judge_of, judged, least_room, top_of
from tests.judges import Array
from tests.share import share_of

from evenbed.engine.top.designed import DesignedTop
from evenbed.engine.top.requirements import Requirement

BLOCK = 100
ALONG = 1e-3  # mm within which a place is the judge's
TANGENTS = 720
OPTIONS: Any = {"ftol": 1e-12, "maxiter": 300}


@pytest.mark.parametrize("block", range(share_of(10)))
def test_the_plane_keeps_everything_with_as_little_mortar_as_linprogs(block: int) -> None:
    none, worst, missed = 0, 0.0, 0.0
    for seed in range(block * BLOCK, (block + 1) * BLOCK):
        found, (_, judge, theirs) = designed(seed), judged(seed)
        assert theirs.status == (0 if isinstance(found, DesignedTop) else 2), seed
        if not isinstance(found, DesignedTop):
            none += 1
            continue
        mine = judge.value(found.top.cells[0].plane)
        asked = [n for n, key in enumerate(judge.keys) if key is not None]
        missed = max(missed, float(np.max(judge.limits[asked] - judge.least[asked] @ mine)))
        worst = max(worst, abs(float(judge.mortar @ mine) - theirs.fun) / mean_mortar(judge))
    print(
        f"rooms {block * BLOCK} and on: {none} of {BLOCK} without a plane, mortar {worst:.1e}, missed {missed:.1e} mm"
    )
    assert missed < 1e-7
    assert worst < 1e-7
    assert 20 < none < 60


@pytest.mark.deep
@pytest.mark.parametrize("seed", range(share_of(12)))
def test_so_it_does_over_many_readings(seed: int) -> None:
    dice = random.Random(seed)
    spots = [(x, y, dice.gauss(0.0, 3.0)) for x, y in SQUARE]
    spots += [(dice.uniform(1.0, 3999.0), dice.uniform(1.0, 2999.0), dice.gauss(0.0, 3.0)) for _ in range(800)]
    hold = {"at": [dice.uniform(0.0, 4000.0), 1500.0], "low": dice.uniform(40.0, 80.0)}
    bed = {"maximum_thickness": 60.0, "top": {"kind": "least_mortar", "holds": [hold]}}
    room = room_over(SQUARE, spots, bed=bed)
    found, judge = top_of(room), judge_of(room)
    theirs = judge.solved()
    assert theirs.status == (0 if isinstance(found, DesignedTop) else 2)
    if isinstance(found, DesignedTop):
        mine = judge.value(found.top.cells[0].plane)
        assert float(judge.mortar @ mine) == pytest.approx(theirs.fun, abs=1e-7 * mean_mortar(judge))


def mean_mortar(judge: Judge) -> float:
    """The mortar of the room at 25 mm, m³: less than any of these takes."""
    return float(judge.mortar[0]) * 25.0


@pytest.mark.parametrize("block", range(5))
def test_prices_are_linprogs_dual_values_where_these_are_unique(block: int) -> None:
    unique = 0
    for seed in range(block * BLOCK, (block + 1) * BLOCK):
        found, (_, judge, theirs) = designed(seed), judged(seed)
        if isinstance(found, DesignedTop) and fixed_once(judge, theirs):
            unique += 1
            prices = dual_values(judge, theirs)
            assert len(prices) == len(found.requirements), seed
            for requirement in found.requirements:
                assert requirement.saves == pytest.approx(price_of(prices, requirement), rel=1e-7, abs=1e-11), seed
            assert list(found.requirements) == sorted(found.requirements, key=lambda r: -r.saves)
    assert unique > 30


def fixed_once(judge: Judge, theirs: Any) -> bool:
    """True where just three demands meet in the plane, and no fewer price it."""
    asked = [n for n, key in enumerate(judge.keys) if key is not None]
    over = judge.least[asked] @ theirs.x - judge.limits[asked]
    return int((over < 1e-6).sum()) == 3 and int((theirs.ineqlin.marginals < -1e-9).sum()) == 3


def dual_values(judge: Judge, theirs: Any) -> dict[Any, float]:
    """What asks → the mortar that a mm of relief saves, held heights as a whole."""
    keys = [key for key in judge.keys if key is not None]
    found: dict[Any, float] = {}
    for key, price in zip(keys, -theirs.ineqlin.marginals, strict=True):
        if price > 1e-9:
            found[key] = found.get(key, 0.0) + float(price)
    return found


def price_of(prices: dict[Any, float], requirement: Requirement) -> float:
    """linprog's price of a requirement of the engine's."""
    for (kind, hold, where), price in prices.items():
        same = kind == requirement.kind
        if where and requirement.at is not None:
            same = same and max(abs(np.subtract(where, requirement.at))) < ALONG
        elif not where:
            same = same and requirement.path == f"bed.top.holds[{hold}]"
        if same:
            return price
    raise AssertionError(f"linprog has no price for {requirement}")


def ways(fall: float, scale: float = 1.0) -> Array:
    """Tangents of the largest fall all round, over the rises a metre: outside it, or with a scale below 1 within."""
    angles = 2.0 * np.pi * np.arange(TANGENTS) / TANGENTS
    return np.column_stack([-np.cos(angles), -np.sin(angles), np.full(TANGENTS, -fall * METRE * scale)])


def leaning(seed: int, fall: float) -> Any:
    """An invented room with a largest fall."""
    room = least_room(seed)
    room["bed"]["top"]["largest_fall"] = fall
    return room


def test_the_largest_fall_lies_between_polygons_within_and_round_it() -> None:
    kinds = {between_polygons(seed, fall) for fall in (0.0005, 0.002, 0.01) for seed in range(18)}
    assert kinds == {"none", "governs", "does not govern"}


def between_polygons(seed: int, fall: float) -> str:
    """Holds one room's mortar against polygons outside and inside the cone."""
    room = leaning(seed, fall)
    found, judge = top_of(room), judge_of(room)
    inner = judge.solved(ways(fall, float(np.cos(np.pi / TANGENTS))))
    if not isinstance(found, DesignedTop):
        assert inner.status == 2, seed
        return "none"
    mine, outer = judge.value(found.top.cells[0].plane), judge.solved(ways(fall))
    mortar, slack = float(judge.mortar @ mine), 1e-7 * mean_mortar(judge)
    assert outer.fun - slack < mortar < (inner.fun if inner.status == 0 else np.inf) + slack, seed
    assert np.hypot(*mine[1:]) <= fall * METRE * (1.0 + 1e-11), seed
    governs = any(r.kind == "largest_fall" for r in found.requirements)
    return "governs" if governs else "does not govern"


@pytest.mark.parametrize("seed", range(12))
def test_with_a_largest_fall_no_other_method_finds_less_mortar(seed: int) -> None:
    fall = 0.003
    room = leaning(seed, fall)
    found, judge = top_of(room), judge_of(room)
    if not isinstance(found, DesignedTop):
        return
    asked = [n for n, key in enumerate(judge.keys) if key is not None]
    rows, limits = judge.least[asked], judge.limits[asked]
    mine: Any = judge.value(found.top.cells[0].plane)
    share: Any = judge.mortar / mean_mortar(judge)
    cone = NonlinearConstraint(lambda plane: plane[1] ** 2 + plane[2] ** 2, -np.inf, (fall * METRE) ** 2)
    theirs: Any = minimize(  # type: ignore[call-overload]  # its stubs want jac to be an array of one shape
        lambda plane: float(share @ plane),
        mine + np.array([5.0, 0.3, -0.3]),
        jac=lambda _: share,
        constraints=[LinearConstraint(rows, limits, np.inf), cone],
        method="SLSQP",
        options=OPTIONS,
    )
    assert theirs.success
    assert float(judge.mortar @ mine) / mean_mortar(judge) == pytest.approx(theirs.fun, abs=1e-6)
