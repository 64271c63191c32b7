"""Mis-read rods: planted slips are found and named, good readings are left in peace, and judges agree."""

import json
import os
import random
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import KDTree
from scipy.stats import norm
from sklearn.gaussian_process import GaussianProcessRegressor
from sklearn.gaussian_process.kernels import ConstantKernel, DotProduct, Matern
from tests.documents import SQUARE, Json, answer_to
from tests.judged_rounds import suspects_of, tally_of
from tests.misread import Round, rounds
from tests.share import share_of

from evenbed.engine.bridge import answer_text
from evenbed.engine.document.places import Point3
from evenbed.engine.foretold import ANY_HEIGHT, REACH, ROLLING, STEEPEST, UNEVENNESS, foretold
from evenbed.engine.nearest import nearest_of
from evenbed.engine.sifting import BEYOND, FEWEST, LEAST_SIGMA, NEIGHBOURS, WITHIN, doubted_among
from evenbed.engine.suspects import GROSS

ROUNDS = int(os.environ.get("EVENBED_SLIP_ROUNDS", "25"))
FLAGGED, GOOD_FLAGGED, NAMED = 90.0, 3.0, 80.0  # per cent

heights = st.floats(-500.0, 500.0)
slopes = st.floats(-0.05, 0.05)


@pytest.mark.deep
def test_slips_are_flagged_as_typed_and_good_readings_are_left_in_peace(figures: Callable[[str], None]) -> None:
    tally = tally_of(rounds(ROUNDS, seed=2026))
    figures(f"{ROUNDS} rounds. {tally}")
    for when in ("as typed", "at the end"):
        assert tally.share(when, "slip") >= FLAGGED, f"{tally}, missed {tally.missed}"
        assert tally.share(when, "good") < GOOD_FLAGGED, str(tally)
        assert tally.share(when, "named") >= NAMED, str(tally)


def judge_of(spot: Point3, others: list[Point3]) -> tuple[float, float]:
    """scikit-learn's Gaussian process with the kernel told in words: mean and standard error of a further reading."""
    lean = ConstantKernel(STEEPEST**2, "fixed") * DotProduct(ANY_HEIGHT / STEEPEST, "fixed")
    kernel = lean + ConstantKernel(ROLLING**2, "fixed") * Matern(REACH, "fixed", nu=1.5)
    points = np.array(others)
    middle = points[:, 2].mean()
    process = GaussianProcessRegressor(kernel, alpha=UNEVENNESS**2, optimizer=None)
    process.fit(points[:, :2] - np.array(spot[:2]), points[:, 2] - middle)
    mean, error = process.predict(np.zeros((1, 2)), return_std=True)
    return float(mean[0] + middle), float(np.hypot(error[0], UNEVENNESS))


def random_spots(dice: np.random.Generator, count: int) -> list[Point3]:
    places = dice.uniform(0.0, 6000.0, (count, 2))
    z = 0.004 * places[:, 0] + 4.0 * np.sin(places[:, 1] / 1100.0) + dice.normal(0.0, 1.5, count)
    z[::20] += 25.4
    return [(float(x), float(y), float(h)) for (x, y), h in zip(places, z, strict=True)]


@pytest.mark.parametrize("seed", range(20))
def test_scikit_learn_foretells_the_same_height_with_the_same_error(seed: int) -> None:
    dice = np.random.default_rng(seed)
    spot, *others = random_spots(dice, int(dice.integers(4, 20)))
    told = foretold(spot[:2], others)
    assert (told.z, told.sigma) == pytest.approx(judge_of(spot, others), abs=1e-4)


@pytest.mark.parametrize("seed", range(10))
def test_scipys_tree_finds_the_same_nearest_places(seed: int) -> None:
    dice = np.random.default_rng(seed)
    spots = random_spots(dice, int(dice.integers(2, 400)))
    spots += [(x / 50.0 + 20_000.0, y / 50.0, z) for x, y, z in spots[: len(spots) // 3]]
    count = min(WITHIN, len(spots) - 1)
    _, found = KDTree(np.array(spots)[:, :2]).query(np.array(spots)[:, :2], k=count + 1)
    assert nearest_of(spots, WITHIN) == np.asarray(found)[:, 1:].tolist()


@pytest.mark.parametrize("seed", range(12))
def test_each_doubted_reading_is_foretold_from_those_not_doubted_as_judges_find_it(seed: int) -> None:
    spots = random_spots(np.random.default_rng(seed), 60)
    doubted = doubted_among(spots)
    aside = {one.number for one in doubted}
    assert aside, "a planted inch shows"
    scatters = []
    for one in doubted:
        spot = spots[one.number]
        others = sorted(((np.hypot(x - spot[0], y - spot[1]), n) for n, (x, y, _) in enumerate(spots)))[1:]
        near = [n for _, n in others]
        kept = [spots[n] for n in near[:WITHIN] if n not in aside][:NEIGHBOURS]
        z, sigma = judge_of(spot, kept)
        assert one.told.z == pytest.approx(z, abs=1e-4)
        scatters.append(one.told.sigma / max(sigma, LEAST_SIGMA))
    assert scatters == pytest.approx([scatters[0]] * len(scatters), rel=1e-6), "one floor has one scatter"
    assert scatters[0] >= 1.0


def test_the_networks_limit_is_one_good_observation_in_a_thousand() -> None:
    assert float(norm.isf(0.0005)) == pytest.approx(GROSS, abs=0.005)


def room_of(spots: list[Point3], **more: Any) -> Json:
    readings = [{"id": f"r{n}", "at": [x, y], "down": 1200.0 - z} for n, (x, y, z) in enumerate(spots)]
    return {"document": 1, "outline": {"vertices": SQUARE}, "readings": readings, **more}


def lattice(dice: random.Random, count: int = 20) -> list[tuple[float, float]]:
    """Places of a walk over the square room, each a little off its grid."""
    grid = [(400.0 + 800.0 * (n % 5), 375.0 + 750.0 * (n // 5)) for n in range(count)]
    return [(x + dice.uniform(-80.0, 80.0), y + dice.uniform(-80.0, 80.0)) for x, y in grid]


@given(heights, slopes, slopes, st.integers(0, 1000), st.integers(1, 20))
@settings(max_examples=share_of(40), deadline=None)
def test_a_perfect_plane_has_no_suspects(a: float, b: float, c: float, seed: int, count: int) -> None:
    spots = [(x, y, a + b * x + c * y) for x, y in lattice(random.Random(seed), count)]
    assert doubted_among(spots) == []


@given(heights, slopes, slopes, st.integers(0, 1000), st.integers(0, 19), st.sampled_from([-25.4, 25.4]))
@settings(max_examples=share_of(40), deadline=None)
def test_one_inch_on_a_plane_is_found_and_named(
    a: float, b: float, c: float, seed: int, where: int, by: float
) -> None:
    spots = [(x, y, a + b * x + c * y) for x, y in lattice(random.Random(seed))]
    x, y, z = spots[where]
    spots[where] = (x, y, z + by)
    (found,) = suspects_of(room_of(spots))
    assert (found.reading, found.why) == (f"r{where}", "neighbours")
    assert found.expected == pytest.approx(z - max(h for _, _, h in spots), abs=1.0)
    assert found.difference == pytest.approx(by, abs=1.0)
    assert found.slip is not None
    assert found.slip.kind == "whole_inch"
    assert found.slip.down == pytest.approx(1200.0 - z, abs=1e-6)


def scores_of(spots: list[Point3]) -> dict[int, float]:
    """How far each doubted reading stands off what is foretold, in standard errors."""
    return {d.number: (spots[d.number][2] - d.told.z) / d.told.sigma for d in doubted_among(spots)}


@given(st.integers(0, 10_000), slopes, slopes, heights)
@settings(max_examples=share_of(30), deadline=None)
def test_adding_a_plane_changes_no_suspects(seed: int, b: float, c: float, a: float) -> None:
    spots = random_spots(np.random.default_rng(seed), 50)
    leaning = [(x, y, z + a + b * x + c * y) for x, y, z in spots]
    before, after = scores_of(spots), scores_of(leaning)
    for number in before.keys() | after.keys():
        score = before.get(number, after.get(number, 0.0))
        on_the_edge = abs(score) < 1.02 * BEYOND  # a slope is foretold to a thousandth of itself
        assert on_the_edge or before.get(number) == pytest.approx(after.get(number), abs=0.1)


@pytest.mark.parametrize("one", [*rounds(6, seed=4)], ids=range(6))
def test_the_order_of_the_readings_changes_no_suspects(one: Round) -> None:
    document = one.document(len(one.taken))
    shuffled = {**document, "readings": random.Random(1).sample(document["readings"], len(one.taken))}
    assert suspects_of(document)
    assert suspects_of(document) == suspects_of(shuffled)


@pytest.mark.parametrize("one", [*rounds(6, seed=5)], ids=range(6))
def test_a_reading_put_right_is_no_longer_suspect(one: Round) -> None:
    document = one.document(len(one.taken))
    for reading, taken in zip(document["readings"], one.taken, strict=True):
        reading |= {"down": taken.truth.down, "as_typed": taken.truth.typed}
    slips = {f"r{n}" for n, taken in enumerate(one.taken) if taken.kind}
    assert not slips & {suspect.reading for suspect in suspects_of(document)}


def test_with_too_few_readings_even_a_metre_is_left_in_peace() -> None:
    places = lattice(random.Random(3), FEWEST)
    spots = [(x, y, 1000.0 if n == 2 else 0.0) for n, (x, y) in enumerate(places)]
    assert doubted_among(spots[:-1]) == []
    assert [one.number for one in doubted_among(spots)] == [2]


def test_a_bed_that_was_read_is_not_held_against_the_subfloor() -> None:
    spots = [(x, y, 0.0) for x, y in lattice(random.Random(5))]
    document = room_of(spots)
    document["readings"].append({"id": "bed", "at": [2000.0, 1500.0], "down": 1160.0, "stage": "bed"})
    assert suspects_of(document) == ()


def test_the_plan_and_the_quick_plan_name_the_suspects_caution_and_explain() -> None:
    spots = [(x, y, 0.0) for x, y in lattice(random.Random(6))]
    spots[7] = (*spots[7][:2], -25.4)
    document = room_of(spots)
    plan = answer_to(document)
    quick = json.loads(answer_text("quick_plan", json.dumps(document)))
    assert quick["levels"]["suspects"] == plan["levels"]["suspects"]
    (found,) = plan["levels"]["suspects"]
    assert (found["reading"], found["slip"]["kind"]) == ("r7", "whole_inch")
    (caution,) = [c for c in plan["cautions"] if c["code"] == "misread"]
    assert caution["where"] == "levels.suspects"
    assert caution["values"] == {"count": 1, "by": abs(found["difference"])}
    told = plan["explanations"]["levels.suspects[0]"]
    assert told["code"] == "foretold"
    assert told["inputs"]["expected"] == found["expected"]
    assert told["inputs"]["error"] == pytest.approx(found["difference"] / found["score"])
