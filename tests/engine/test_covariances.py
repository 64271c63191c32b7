"""The averaging over covariances, judged by scipy's integrals over the whole grid and by numpy's own drawn floors."""

import math
from functools import cache

import numpy as np
import pytest
from scipy import integrate, optimize, special
from sklearn.gaussian_process.kernels import Matern
from tests.floors import Array
from tests.simulated import Simulated, simulated

from evenbed.engine import covariances
from evenbed.engine.covariances import Known, Model, models_of
from evenbed.engine.floor_doubt import FloorDoubt
from evenbed.engine.geometry import Plane
from evenbed.engine.high_spot import HighSpot
from evenbed.engine.thinning import MOST_SPOTS, Spot, thinned
from evenbed.engine.top.facets import whole_room
from evenbed.engine.volume_doubt import WIDER, VolumeDoubt

SEEDS = (1, 4, 9, 12)
DRAWN = 20_000
SIDES = 7


def spots_of(floor: Simulated) -> tuple[Spot, ...]:
    sigma = floor.document["setups"][0]["sigma"]
    return thinned([Spot((r["at"][0], r["at"][1]), -r["down"], sigma) for r in floor.document["readings"]])


def places_in(floor: Simulated) -> tuple[tuple[float, float], ...]:
    """A few dozen places spread over the room."""
    cells = floor.cells()
    return tuple((float(x), float(y)) for x, y in cells[:: max(1, len(cells) // SIDES**2)])


def evidence(known: Known, reach: float, ratio: float) -> float:
    """Logarithm of REML's likelihood over contrasts times the two beliefs, the sill integrated out by scipy."""
    places, variances = np.array(known.places), np.array(known.variances)
    heights = np.array([s.z for s in known.spots])
    drift = np.array([known.drift_at(p) for p in known.places])
    orthogonal, triangle = np.linalg.qr(drift, mode="complete")
    contrasts = orthogonal[:, 3:]
    k = contrasts.T @ (Matern(reach, nu=1.5)(places) + ratio * np.diag(variances) / variances.mean()) @ contrasts
    seen = contrasts.T @ heights
    scatter, freedom = float(seen @ np.linalg.solve(k, seen)), len(heights) - 3

    def log_weight(t: float) -> float:
        swell = (t / 2.0 - math.log(covariances.SWELL)) / math.log(covariances.SWELL_FACTOR)
        error = (t + math.log(ratio / variances.mean())) / 2.0 / math.log(covariances.ERROR_FACTOR)
        return -0.5 * (freedom * t + scatter * math.exp(-t) + swell**2 + error**2)

    best = optimize.minimize_scalar(lambda t: -log_weight(t), bounds=(-30.0, 30.0), method="bounded").x
    whole, _ = integrate.quad(
        lambda t: math.exp(log_weight(t) - log_weight(best)), best - 15.0, best + 15.0, limit=200
    )
    assert triangle.shape[1] == 3
    return float(log_weight(best) + math.log(whole) - 0.5 * np.linalg.slogdet(k)[1])


def judged_weights(known: Known) -> dict[tuple[float, float], float]:
    """The weight of every covariance of the grid."""
    ratios = [covariances.LEAST_RATIO * covariances.RATIO_STEP**j for j in range(covariances.RATIOS)]
    keys = [(reach, ratio) for reach in known.reaches for ratio in ratios]
    weights = special.softmax([evidence(known, *key) for key in keys])
    return dict(zip(keys, weights.tolist(), strict=True))


@pytest.mark.parametrize("seed", SEEDS)
def test_the_weights_are_those_of_the_whole_grid_by_scipys_integrals(seed: int) -> None:
    """What was passed over or dropped may weigh a twentieth in all; the rest keep their proportions."""
    known = Known(spots_of(simulated(seed)))
    judged = judged_weights(known)
    models = models_of(known)
    held = math.fsum(judged[m.reach, m.ratio] for m in models)
    assert held > 0.95
    for m in models:
        assert m.weight == pytest.approx(judged[m.reach, m.ratio] / held, rel=0.01, abs=1e-4)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_volumes_range_is_that_of_numpys_mixture(seed: int) -> None:
    doubt = doubt_of(seed)
    areas, top = np.full(len(doubt.places), 1e6), whole_room(Plane(500.0, 0.001, 0.0), ())
    low, high = VolumeDoubt(doubt, areas.tolist(), top).range()
    heights = drawn_floors(seed)
    thickness = np.array([top.at(*p) for p in doubt.places]) - heights
    volumes = (thickness * areas).sum(axis=1) / 1e9
    middle, half = volumes.mean(), WIDER * (volumes - volumes.mean())
    judged = middle + np.quantile(half, [0.05, 0.95])
    assert [low, high] == pytest.approx(judged, abs=0.04 * (judged[1] - judged[0]))


@pytest.mark.parametrize("seed", SEEDS)
def test_the_chance_of_a_higher_high_spot_is_that_of_many_drawn_floors(seed: int) -> None:
    doubt = doubt_of(seed)
    read = max(s.z for s in doubt.known.spots) - 1.0
    highest = drawn_floors(seed).max(axis=1)
    for entry in HighSpot(doubt, read).higher:
        assert entry.probability == pytest.approx(np.mean(highest > read + entry.by), abs=0.05)


@cache
def doubt_of(seed: int) -> FloorDoubt:
    """What is unknown of a simulated floor at a few dozen places."""
    floor = simulated(seed)
    return FloorDoubt(Known(spots_of(floor)), places_in(floor))


@cache
def drawn_floors(seed: int) -> Array:
    """Floors over the doubt's places drawn from the engine's models by numpy's own kriging, a row each."""
    doubt, dice = doubt_of(seed), np.random.default_rng(seed)
    floors = [
        conditional(doubt, model, sill, max(1, round(DRAWN * weight)), dice)
        for model in doubt.models
        for sill, weight in model.sills
    ]
    return np.vstack(floors)


def conditional(doubt: FloorDoubt, model: Model, sill: float, count: int, dice: np.random.Generator) -> Array:
    known, kernel = doubt.known, Matern(model.reach, nu=1.5)
    read, asked = np.array(known.places), np.array(doubt.places)
    f, f0 = (np.array([known.drift_at(p) for p in places]) for places in (known.places, doubt.places))
    variances = np.array(known.variances)
    inverse = np.linalg.inv(kernel(read) + model.ratio * np.diag(variances) / variances.mean())
    cross, heights = kernel(read, asked), np.array([s.z for s in known.spots])
    normal = np.linalg.inv(f.T @ inverse @ f)
    plane = normal @ f.T @ inverse @ heights
    mean = f0 @ plane + cross.T @ inverse @ (heights - f @ plane)
    left = f0.T - f.T @ inverse @ cross
    joint = kernel(asked) - cross.T @ inverse @ cross + left.T @ normal @ left
    return np.asarray(dice.multivariate_normal(mean, sill * (joint + joint.T) / 2.0, count, method="eigh"))


def test_many_readings_become_few_that_tell_the_same() -> None:
    dice = np.random.default_rng(3)
    places = dice.uniform((0.0, 0.0), (5000.0, 4000.0), (5000, 2))
    heights = 0.003 * places[:, 0] + 4.0 * np.sin(places[:, 1] / 900.0)
    read = heights + dice.normal(0.0, 1.0, 5000)
    read[::40] += 60.0  # mis-read by far
    few = thinned([Spot((float(x), float(y)), float(z), 1.0) for (x, y), z in zip(places, read, strict=True)])
    assert MOST_SPOTS / 2 < len(few) <= MOST_SPOTS
    for spot in few:
        true = 0.003 * spot.at[0] + 4.0 * math.sin(spot.at[1] / 900.0)
        assert abs(spot.z - true) < 1.0
        assert 0.05 < spot.sigma < 1.0


def test_few_readings_stay_as_they_are() -> None:
    spots = [Spot((float(n), float(n * n)), 1.0, 0.5) for n in range(MOST_SPOTS)]
    assert thinned(spots[::-1]) == tuple(spots)
