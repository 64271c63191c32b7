"""The unknown in CPython: what it adds to a plan, and one kriging against scikit-learn and numpy on one floor."""

import math
from functools import partial

import numpy as np
from sklearn.gaussian_process import GaussianProcessRegressor
from sklearn.gaussian_process.kernels import Matern

from evenbed.engine.kriging import distances_between, kriging_from, likeness
from tests.benchmarks.floors import read_anew, read_floor
from tests.benchmarks.plans import asking, best_ms
from tests.benchmarks.sizes import Sizes

COUNTS = (40, 100, 150)
KRIGED = (40, 100)
ASKED = 130
REACH, RATIO = 1500.0, 0.1


def own_kriging(places: list[tuple[float, float]], heights: list[float], asked: list[tuple[float, float]]) -> None:
    """Means and variances at `asked` by the engine."""
    alike = [likeness(row, REACH) for row in distances_between(places, places)]
    drift = [(1.0, x / 1000.0, y / 1000.0) for x, y in places]
    kriging = kriging_from(alike, [RATIO] * len(places), drift, heights)
    for at, row in zip(asked, distances_between(asked, places), strict=True):
        site = kriging.site(likeness(row, REACH), (1.0, at[0] / 1000.0, at[1] / 1000.0))
        math.sqrt(max(0.0, 1.0 + site.gained(site)))


def numpys_kriging(places: list[tuple[float, float]], heights: list[float], asked: list[tuple[float, float]]) -> None:
    """The same by the textbook's system of equations."""
    read, there = np.array(places), np.array(asked)
    f, f0 = (np.column_stack([np.ones(len(p)), p / 1000.0]) for p in (read, there))
    kernel = Matern(REACH, nu=1.5)
    k = kernel(read) + RATIO * np.eye(len(read))
    right = np.vstack([kernel(read, there), f0.T])
    weights = np.linalg.solve(np.block([[k, f], [f.T, np.zeros((3, 3))]]), right)
    np.sqrt(1.0 - (weights * right).sum(axis=0))
    weights[:-3].T @ np.array(heights)


def sklearns_kriging(
    places: list[tuple[float, float]], heights: list[float], asked: list[tuple[float, float]]
) -> None:
    """The same without the plane, which scikit-learn does not know."""
    judge = GaussianProcessRegressor(Matern(REACH, nu=1.5), alpha=RATIO, optimizer=None)
    judge.fit(np.array(places), np.array(heights)).predict(np.array(asked), return_std=True)


def print_kriging(sizes: Sizes) -> None:
    """Print both tables."""
    print(f"the unknown in CPython, ms (best of {sizes.runs})")
    for count in (*COUNTS, sizes.long):
        floor = read_floor(count)
        quick = best_ms(asking("quick_plan", read_anew(floor, sizes.runs)), sizes.runs)
        whole = best_ms(asking("plan", read_anew(floor, sizes.runs, sizes.runs + 1)), sizes.runs)
        print(
            f"  {count:6d} readings  plan without it {quick:8.1f}  with it {whole:8.1f}  alone {whole - quick:7.1f}"
        )
    print(f"one kriging with standard errors at {ASKED} places, ms")
    for count in KRIGED:
        dice = np.random.default_rng(count)
        places, asked = ([(float(x), float(y)) for x, y in dice.uniform(0.0, 5000.0, (n, 2))] for n in (count, ASKED))
        given = places, dice.normal(0.0, 3.0, count).tolist(), asked
        mine, numpys, sklearns = (
            best_ms(partial(k, *given), sizes.runs) for k in (own_kriging, numpys_kriging, sklearns_kriging)
        )
        print(
            f"  {count:6d} readings  {mine:7.1f}  numpy {numpys:6.2f}  ratio {mine / numpys:5.1f}"
            f"  scikit-learn {sklearns:6.2f}  ratio {mine / sklearns:5.1f}"
        )
