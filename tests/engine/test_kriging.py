"""Kriging for a given covariance: against scikit-learn and numpy, and by what must hold for any floor."""

import math
from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sklearn.gaussian_process import GaussianProcessRegressor
from sklearn.gaussian_process.kernels import ConstantKernel, DotProduct, Matern
from tests.floors import Array

from evenbed.engine.covariances import Known
from evenbed.engine.kriging import Kriging, Site, distances_between, kriging_from, likeness
from evenbed.engine.thinning import Spot

REACH, SILL = 1300.0, 9.0  # mm, mm²
RELATIVE = 1e-9
FLAT = 1e7  # of the sill: variance of a plane of which nothing is known beforehand, for a judge who needs one


@dataclass(frozen=True)
class Case:
    """Readings with their error variances, and places to foretell."""

    places: Array
    heights: Array
    variances: Array
    asked: Array


def case_of(seed: int, count: int = 25) -> Case:
    dice = np.random.default_rng(seed)
    places = dice.uniform((0.0, 0.0), (5000.0, 4000.0), (count, 2))
    asked = dice.uniform((-500.0, -500.0), (5500.0, 4500.0), (12, 2))
    return Case(places, dice.normal(0.0, 3.0, count), dice.uniform(0.3, 4.0, count), asked)


def drift_of(places: Array) -> Array:
    return np.column_stack([np.ones(len(places)), places / 1000.0])


def kriged(case: Case, reach: float = REACH) -> Kriging:
    rows = distances_between(points(case.places), points(case.places))
    noises = [float(v) / SILL for v in case.variances]
    drift = drift_of(case.places).tolist()
    return kriging_from([likeness(row, reach) for row in rows], noises, drift, case.heights.tolist())


def sites_of(case: Case, reach: float = REACH) -> list[Site]:
    kriging = kriged(case, reach)
    rows = distances_between(points(case.asked), points(case.places))
    drifts = drift_of(case.asked).tolist()
    return [kriging.site(likeness(row, reach), drift) for row, drift in zip(rows, drifts, strict=True)]


def points(places: Array) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in places]


def sigmas_of(sites: list[Site]) -> Array:
    return np.sqrt([SILL * max(0.0, 1.0 + s.gained(s)) for s in sites])


def matern(a: Array, b: Array) -> Array:
    """The judge's own covariance, from scikit-learn's kernel."""
    return np.asarray(SILL * Matern(length_scale=REACH, nu=1.5)(a, b))


@pytest.mark.parametrize("seed", range(6))
def test_scikit_learn_foretells_the_same_heights_and_standard_errors(seed: int) -> None:
    """Its process has no drift: a plane of all but endless variance stands in for one of which nothing is known."""
    case = case_of(seed)
    middle = case.places.mean(axis=0)
    plane = ConstantKernel(FLAT * SILL) * DotProduct(sigma_0=1.0)
    kernel = ConstantKernel(SILL) * Matern(length_scale=REACH / 1000.0, nu=1.5) + plane
    judge = GaussianProcessRegressor(kernel, alpha=case.variances, optimizer=None)
    judge.fit((case.places - middle) / 1000.0, case.heights)
    means, sigmas = judge.predict((case.asked - middle) / 1000.0, return_std=True)
    assert [s.mean for s in sites_of(case)] == pytest.approx(means, abs=1e-4)
    assert sigmas_of(sites_of(case)) == pytest.approx(sigmas, rel=1e-4)


@pytest.mark.parametrize("seed", range(6))
def test_numpy_solves_the_kriging_equations_to_the_same_figures(seed: int) -> None:
    """The system with Lagrange's multipliers, as textbooks write it."""
    case = case_of(seed)
    f, f0 = drift_of(case.places), drift_of(case.asked)
    k = matern(case.places, case.places) + np.diag(case.variances)
    system = np.block([[k, f], [f.T, np.zeros((3, 3))]])
    right = np.vstack([matern(case.places, case.asked), f0.T])
    weights = np.linalg.solve(system, right)
    means = weights[:-3].T @ case.heights
    sigmas = np.sqrt(SILL - (weights * right).sum(axis=0))
    assert [s.mean for s in sites_of(case)] == pytest.approx(means, rel=1e-7)
    assert sigmas_of(sites_of(case)) == pytest.approx(sigmas, rel=1e-7)


@pytest.mark.parametrize("seed", range(6))
def test_two_places_go_together_as_numpy_says(seed: int) -> None:
    case = case_of(seed)
    f, f0 = drift_of(case.places), drift_of(case.asked)
    inverse = np.linalg.inv(matern(case.places, case.places) + np.diag(case.variances))
    cross = matern(case.places, case.asked)
    left = f0.T - f.T @ inverse @ cross
    joint = (
        matern(case.asked, case.asked) - cross.T @ inverse @ cross + left.T @ np.linalg.inv(f.T @ inverse @ f) @ left
    )
    sites = sites_of(case)
    mine = [[a.gained(b) for b in sites] for a in sites] + matern(case.asked, case.asked) / SILL
    assert SILL * np.array(mine) == pytest.approx(joint, rel=1e-7, abs=1e-9)


@pytest.mark.parametrize("seed", range(6))
def test_remls_likelihood_is_that_of_contrasts_that_no_plane_can_touch(seed: int) -> None:
    """Harville: any full set of contrasts has the same likelihood but for a constant, so differences must agree."""
    case = case_of(seed)
    orthogonal, _ = np.linalg.qr(drift_of(case.places), mode="complete")
    contrasts = orthogonal[:, 3:]

    def judged(reach: float) -> float:
        k = Matern(length_scale=reach, nu=1.5)(case.places) + np.diag(case.variances) / SILL
        inner, seen = contrasts.T @ k @ contrasts, contrasts.T @ case.heights
        return float(-0.5 * np.linalg.slogdet(inner)[1] - 0.5 * seen @ np.linalg.solve(inner, seen) / SILL)

    def mine(reach: float) -> float:
        kriging = kriged(case, reach)
        return -kriging.log_volume - 0.5 * kriging.scatter / SILL

    for reach in (400.0, 900.0, 4000.0):
        assert mine(reach) - mine(REACH) == pytest.approx(judged(reach) - judged(REACH), abs=1e-8)


@given(st.integers(0, 999), st.floats(-500, 500), st.floats(-0.1, 0.1), st.floats(-0.1, 0.1))
@settings(max_examples=30, deadline=None)
def test_a_plane_added_to_the_readings_is_added_to_the_floor_and_changes_no_standard_error(
    seed: int, a: float, b: float, c: float
) -> None:
    case = case_of(seed)
    leaning = Case(case.places, case.heights + a + case.places @ [b, c], case.variances, case.asked)
    flat, lean = sites_of(case), sites_of(leaning)
    means = np.array([s.mean for s in flat]) + a + case.asked @ [b, c]
    assert [s.mean for s in lean] == pytest.approx(means, abs=1e-7)
    assert sigmas_of(lean).tolist() == sigmas_of(flat).tolist()


@given(st.integers(0, 999), st.integers(3, 24))
@settings(max_examples=30, deadline=None)
def test_more_readings_never_widen_a_standard_error(seed: int, few: int) -> None:
    case = case_of(seed)
    fewer = Case(case.places[:few], case.heights[:few], case.variances[:few], case.asked)
    assert np.all(sigmas_of(sites_of(case)) <= sigmas_of(sites_of(fewer)) * (1.0 + RELATIVE))


@given(st.integers(0, 999), st.floats(-math.pi, math.pi), st.floats(-1e4, 1e4), st.floats(-1e4, 1e4))
@settings(max_examples=30, deadline=None)
def test_a_floor_turned_and_moved_keeps_its_heights_and_standard_errors(
    seed: int, angle: float, dx: float, dy: float
) -> None:
    case = case_of(seed)
    turn = np.array([[math.cos(angle), math.sin(angle)], [-math.sin(angle), math.cos(angle)]])
    moved = Case(case.places @ turn + [dx, dy], case.heights, case.variances, case.asked @ turn + [dx, dy])
    here, there = sites_of(case), sites_of(moved)
    assert [s.mean for s in there] == pytest.approx([s.mean for s in here], abs=1e-6)
    assert sigmas_of(there) == pytest.approx(sigmas_of(here), rel=1e-7)


def test_at_a_reading_far_from_others_the_standard_error_is_the_readings_own() -> None:
    grid = np.array([(x, y) for x in (0.0, 9000.0, 18_000.0, 27_000.0) for y in (0.0, 9000.0, 18_000.0)])
    variances = np.full(len(grid), 0.04)
    sigmas = sigmas_of(sites_of(Case(grid, np.zeros(len(grid)), variances, grid)))
    assert sigmas == pytest.approx(np.full(len(grid), 0.2), rel=0.01)


def test_without_error_the_floor_passes_through_its_readings() -> None:
    case = case_of(3, 12)
    exact = Case(case.places, case.heights, np.zeros(12), case.places)
    sites = sites_of(exact)
    assert [s.mean for s in sites] == pytest.approx(case.heights, abs=1e-6)
    assert sigmas_of(sites) == pytest.approx(np.zeros(12), abs=1e-3)


@pytest.mark.parametrize("seed", range(4))
def test_a_room_far_from_the_origin_weighs_its_readings_the_same(seed: int) -> None:
    case = case_of(seed)
    spots = [Spot(p, float(z), 1.0) for p, z in zip(points(case.places), case.heights, strict=True)]
    far = [Spot((s.at[0] + 9e5, s.at[1] - 9e5), s.z + 5e5, 1.0) for s in spots]
    here, there = Known(tuple(spots)), Known(tuple(far))
    alike = [likeness(row, REACH) for row in here.distances]
    assert there.kriging(alike, 0.1).scatter == pytest.approx(here.kriging(alike, 0.1).scatter, rel=1e-8)
