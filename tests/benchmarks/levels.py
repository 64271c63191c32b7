"""The network of levels against numpy: a hundred set-ups along a strip of shared marks, and places read once."""

import random
from collections.abc import Sequence
from functools import partial

import numpy as np

from evenbed.engine.network import adjusted
from evenbed.engine.rigid import Observation
from evenbed.engine.stood import Node
from tests.benchmarks.plans import best_ms
from tests.benchmarks.sizes import Sizes

PLACES = (0, 5, 10)  # read once from each set-up


def print_levels(sizes: Sizes) -> None:
    """Print the table."""
    best = f"ms (best of {sizes.runs})"
    print(f"least squares with standard errors, {best}, against numpy's dense normal equations and inverse")
    for places in PLACES:
        observations = strip(100, 300, places)
        mine = best_ms(partial(_mine, observations), sizes.runs)
        rival = best_ms(partial(_rival, observations), sizes.runs)
        print(f"  {len(observations):5d} observations  {mine:8.1f}  numpy {rival:8.1f}  ratio {mine / rival:5.2f}")


def strip(setups: int, marks: int, places: int) -> list[Observation]:
    """Each set-up reads the ten marks nearest to it, and so many places of its own."""
    dice = random.Random(1)
    found = []
    for s in range(setups):
        middle = s * marks // setups
        nodes = [Node("mark", f"m{m}") for m in range(max(0, middle - 5), min(marks, middle + 5))]
        nodes += [Node("place", "subfloor", float(s), float(p)) for p in range(places)]
        line = Node("setup", f"s{s}")
        found += [Observation(line, n, -1200.0 + dice.gauss(0, 1), 1.0, line.name, f"{line.name} {n}") for n in nodes]
    return found


def _mine(observations: Sequence[Observation]) -> object:
    benchmark = Node("mark", "m0")
    return adjusted(observations, {benchmark: 0.0}, {benchmark: "marks[0].height"}, frozenset())


def _rival(observations: Sequence[Observation]) -> object:
    """Heights, their cofactors, residuals and sigma0 by dense matrices: what a rival of a few lines would do."""
    names = sorted({n for one in observations for n in (one.start, one.end)} - {Node("mark", "m0")})
    column = {node: n for n, node in enumerate(names)}
    design, values = np.zeros((len(observations), len(names))), np.array([one.value for one in observations])
    for row, one in enumerate(observations):
        for node, sign in ((one.end, 1.0), (one.start, -1.0)):
            if node in column:
                design[row, column[node]] = sign
    cofactors = np.linalg.inv(design.T @ design)
    heights = cofactors @ (design.T @ values)
    residuals = values - design @ heights
    sigma0 = np.sqrt(residuals @ residuals / (len(values) - len(names)))
    own = 1.0 - np.einsum("ij,jk,ik->i", design, cofactors, design, optimize=True)
    scores = residuals[own > 1e-9] / np.sqrt(own[own > 1e-9])
    return heights, sigma0 * np.sqrt(np.diag(cofactors)), scores
