"""The worst places found along a dozen directions, followed to where they are worst of all.

A straightedge rests on two places and stands open over a third between them. Of many that were found, each place is
moved a little every way, the rests across the line too, all at once, by ever smaller steps for as long as the gap
grows. What is told in the end is never more than there is; a still worse one elsewhere may be missed: on beds where
every height is for itself up to a twentieth of it (`tests/scans/test_flat_agrees.py`), on others hardly anything.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from evenbed.engine.flatness.hull import worst_under
from evenbed.scans.cloud import Numbers, Truth
from evenbed.scans.flat_grid import FlatGrid
from evenbed.scans.flat_mesh import height_at, profile_through, read_stretches

FIRST, LAST = 1.0, 1 / 128  # of the grid's steps: how far places are moved
ROUNDS = 6  # of each size
HOPELESS = 0.8  # of the best by then: what is less is followed no further
AMONG = 150  # that are followed after the first steps
TOLD = 3  # of the best, laid exactly
WON = 1e-6  # mm: less is not worth another round
MOVES = np.array(list(itertools.product((-1.0, 0.0, 1.0), repeat=5)))
"""Of the rests' u and v, and of the place between them along the line."""
CLEAR = 4  # looks at a step of the line, whether it was read all along


@dataclass(frozen=True)
class Touching:
    """Two rests in the grid's steps, and the share of the way between them where it stands open."""

    first: tuple[float, float]
    second: tuple[float, float]
    share: float


@dataclass(frozen=True)
class Worst:
    """How far it stands open, where it rests, and the stretch of its line that was read.

    `at`, `rests` and `stretch` are shares of the way from `first` to `second`, places in the grid's steps.
    """

    gap: float
    first: tuple[float, float]
    second: tuple[float, float]
    at: float
    rests: tuple[float, float]
    stretch: tuple[float, float]

    def way(self, grid: FlatGrid) -> float:
        """From `first` to `second`, mm."""
        (au, av), (bu, bv) = self.first, self.second
        return math.hypot((bu - au) * grid.dx, (bv - av) * grid.dy)

    def place(self, share: float) -> tuple[float, float]:
        """The place of a share of the way."""
        u, v = (a + share * (b - a) for a, b in zip(self.first, self.second, strict=True))
        return u, v


def followed(grid: FlatGrid, found: Sequence[Touching], length: float) -> Worst | None:
    """The worst of all that is come to from some places; None where nothing stands open."""
    if not found:
        return None
    states = np.array([(*one.first, *one.second, one.share) for one in found])
    told = [_laid(grid, state, length) for state in _moved(grid, states, length)[:TOLD]]
    return max((one for one in told if one is not None), key=lambda one: one.gap, default=None)


def _moved(grid: FlatGrid, states: Numbers, length: float) -> Numbers:
    """The places moved until nothing more is won, the best first."""
    states, gaps = _gaps(grid, states, length)
    step = FIRST
    while step >= LAST:
        for _ in range(ROUNDS):
            better, gaps_there = _best_of(grid, *_gaps(grid, _around(states, step), length))
            wins = gaps_there > gaps + WON
            if not wins.any():
                break
            states, gaps = np.where(wins[:, None], better, states), np.where(wins, gaps_there, gaps)
        best = np.argsort(-gaps, kind="stable")[:AMONG]
        best = best[gaps[best] >= HOPELESS * gaps[best[0]]]
        states, gaps = states[best], gaps[best]
        step /= 2.0
    return states


def _around(states: Numbers, step: float) -> Numbers:
    """Every place moved every way: a row for each, and in it one for each move."""
    way = np.maximum(1.0, np.hypot(states[:, 2] - states[:, 0], states[:, 3] - states[:, 1]))
    moves = np.repeat(step * MOVES[None], len(states), axis=0)
    moves[:, :, 4] /= way[:, None]
    return states[:, None, :] + moves


def _gaps(grid: FlatGrid, states: Numbers, length: float) -> tuple[Numbers, Numbers]:
    """The places brought onto the grid and within a straightedge's length, and how far it stands open."""
    rows, columns = grid.heights.shape
    au, bu = (np.clip(states[..., n], 0.0, columns - 1.0) for n in (0, 2))
    av, bv = (np.clip(states[..., n], 0.0, rows - 1.0) for n in (1, 3))
    share = np.clip(states[..., 4], 0.0, 1.0)
    apart = np.hypot((bu - au) * grid.dx, (bv - av) * grid.dy)
    within = np.minimum(1.0, length / np.maximum(apart, length))
    bu, bv = au + (bu - au) * within, av + (bv - av) * within
    first, second = height_at(grid.heights, au, av), height_at(grid.heights, bu, bv)
    under = height_at(grid.heights, au + (bu - au) * share, av + (bv - av) * share)
    gaps = first * (1.0 - share) + second * share - under
    return np.stack((au, av, bu, bv, share), axis=-1), np.nan_to_num(gaps, nan=-np.inf)


def _best_of(grid: FlatGrid, states: Numbers, gaps: Numbers) -> tuple[Numbers, Numbers]:
    """Of each row the best state, and its gap: none where the bed was not read all along it."""
    best = np.arange(len(states)), gaps.argmax(axis=1)
    return states[best], np.where(_is_read_along(grid, states[best]), gaps[best], -np.inf)


def _is_read_along(grid: FlatGrid, states: Numbers) -> Truth:
    if grid.is_read.all():
        return np.ones(len(states), bool)
    looks = CLEAR * (1 + math.ceil(np.hypot(*(states[:, n + 2] - states[:, n] for n in (0, 1))).max()))
    shares = np.linspace(0.0, 1.0, looks)
    u, v = (states[:, [n]] + shares * (states[:, [n + 2]] - states[:, [n]]) for n in (0, 1))
    return np.asarray(np.isfinite(height_at(grid.heights, u, v)).all(axis=1), np.bool_)


def _laid(grid: FlatGrid, state: Numbers, length: float) -> Worst | None:
    """How a straightedge lies worst along the line of some places, over what of it was read: as told, or worse."""
    au, av, bu, bv, share = state.tolist()
    first, second, (told,) = (au, av), (bu, bv), _gaps(grid, state[None], length)[1].tolist()
    worst = Worst(told, first, second, share, (0.0, 1.0), (0.0, 1.0))
    way = worst.way(grid)
    if way <= 0.0:
        return None
    shares, heights = profile_through(grid.heights, first, second, length / way)
    for along, z in read_stretches(shares * way, heights):
        low, high = along[0] / way, along[-1] / way
        if low <= share <= high:
            worst = replace(worst, stretch=(min(low, 0.0), max(high, 1.0)))
        rest = worst_under((along, z), length, worst.gap)
        if rest is not None:
            worst = Worst(rest.gap, first, second, rest.at / way, (rest.first / way, rest.second / way), (low, high))
    return worst
