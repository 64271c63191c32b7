"""A plane through each piece of floor, and its height at one place with the standard error that the scatter tells."""

from dataclasses import dataclass

import numpy as np

from evenbed.scans.cloud import Numbers, Whole
from evenbed.scans.spots import Spots
from evenbed.scans.steps import Pieces

FLATTEST = 0.02  # mm to a mm: a slope of that size is expected where a piece is too small to tell one
ROUNDS = 2
TUKEY = 4.685  # standard deviations, beyond which a spot has no say (Huber and Ronchetti, Robust Statistics: 95 %)
LEAST_SPOTS = 4  # that tell their own scatter


@dataclass(frozen=True)
class Planes:
    """Of every piece: the middle of its spots, height and slopes there, what they are worth, its points."""

    x: Numbers
    y: Numbers
    heights: Numbers
    """One row a piece: height at the middle, rise along x, rise along y."""
    covariances: Numbers
    points: Whole

    def at(self, x: Numbers, y: Numbers) -> tuple[Numbers, Numbers]:
        """Height and standard error of each piece's plane at one place each."""
        ways = np.column_stack((np.ones(len(x)), x - self.x, y - self.y))
        variance = np.einsum("pi,pij,pj->p", ways, self.covariances, ways)
        return (ways * self.heights).sum(axis=1), np.sqrt(variance)


@dataclass(frozen=True)
class _Members:
    """The spots that are of a piece: which, their places from the piece's middle, heights, points."""

    piece: Whole
    ways: Numbers
    height: Numbers
    points: Numbers


def planes_of(spots: Spots, pieces: Pieces) -> Planes:
    """The planes. A spot counts as much as it has points, less the more it is off."""
    chosen = pieces.piece >= 0
    piece, count = pieces.piece[chosen], pieces.count
    sizes = np.bincount(piece, minlength=count)
    x, y = (np.bincount(piece, axis[chosen], count) / sizes for axis in (spots.x, spots.y))
    ways = np.column_stack((np.ones(len(piece)), spots.x[chosen] - x[piece], spots.y[chosen] - y[piece]))
    members = _Members(piece, ways, spots.height[chosen], spots.points[chosen].astype(float))
    heights, covariances = _fitted(members, sizes, spots.noise)
    points = np.bincount(piece, spots.points[chosen], count).astype(np.int64)
    return Planes(x, y, heights, covariances, points)


def _fitted(members: _Members, sizes: Whole, noise: float) -> tuple[Numbers, Numbers]:
    count = len(sizes)
    weights = members.points
    steady = np.diag([0.0, (noise / FLATTEST) ** 2, (noise / FLATTEST) ** 2])
    for _ in range(ROUNDS):
        normal, right = _sums(members, weights, count)
        normal += steady
        heights = np.asarray(np.linalg.solve(normal, right[:, :, None])[:, :, 0], np.float64)
        off = members.height - (members.ways * heights[members.piece]).sum(axis=1)
        scatter = _scatter(members.piece, off * np.sqrt(members.points), sizes, noise)
        worn = off * np.sqrt(members.points) / (TUKEY * scatter[members.piece])
        weights = members.points * np.maximum(1e-6, 1 - np.minimum(1, worn**2)) ** 2
    covariances: Numbers = np.linalg.inv(normal) * (scatter**2)[:, None, None]
    return heights, covariances


def _sums(members: _Members, weights: Numbers, count: int) -> tuple[Numbers, Numbers]:
    """Normal equations of every piece."""
    weighted = members.ways * weights[:, None]
    normal = np.empty((count, 3, 3))
    right = np.empty((count, 3))
    for i in range(3):
        right[:, i] = np.bincount(members.piece, weighted[:, i] * members.height, count)
        for j in range(3):
            normal[:, i, j] = np.bincount(members.piece, weighted[:, i] * members.ways[:, j], count)
    return normal, right


def _scatter(piece: Whole, off: Numbers, sizes: Whole, noise: float) -> Numbers:
    """By piece the standard deviation of one point, from the middle of its spots' misfits; at least the noise."""
    order = np.lexsort((np.abs(off), piece))
    starts = np.r_[0, np.cumsum(sizes)[:-1]]
    middle = np.abs(off)[order][starts + sizes // 2]
    return np.where(sizes >= LEAST_SPOTS, np.maximum(noise, 1.4826 * middle), noise)
