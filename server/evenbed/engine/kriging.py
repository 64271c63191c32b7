"""Universal kriging: a plane, and what wanders off it with a covariance that falls with distance.

Heights are read as z = plane + wander + error. The wander's covariance is its variance (the sill) times
`likeness`; errors are independent with known variances in proportion. Everything here is in units of the sill:
variances come out as shares of it, and `scatter` over the sill is what REML weighs (G. Matheron, Le krigeage
universel, 1969; N. Cressie, Statistics for Spatial Data, 1993; both from memory).
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.triangular import Row, dot, log_pivots, lower_from, solved

HARDLY = 2.739  # reaches at which the likeness is down to 0.05


def likeness(distances: Iterable[float], reach: float) -> Row:
    """Matérn's correlation of smoothness 3/2 at distances, `reach` in the same unit: 1 at nothing, falling to 0."""
    share, exp = math.sqrt(3.0) / reach, math.exp
    return [(1.0 + s) * exp(-s) for s in [share * d for d in distances]]


@dataclass(frozen=True)
class Site:
    """A place, or a weighted sum of places, as the readings foretell it.

    `mean` is in mm; two sites' covariance, in units of the sill, is their own less `pull` · `pull` plus
    `lean` · `lean`.
    """

    mean: float
    pull: Row
    lean: Row

    def gained(self, other: "Site") -> float:
        """What the readings take from (and an unknown plane adds to) the covariance of the two."""
        return dot(self.lean, other.lean) - dot(self.pull, other.pull)


@dataclass(frozen=True)
class Kriging:
    """Readings weighed under one covariance."""

    lower: list[Row]
    drift: tuple[Row, Row, Row]
    normal: list[Row]
    heights: Row
    plane: Row

    @property
    def scatter(self) -> float:
        """Weighted square sum of what the plane leaves: over the sill it is chi-square with n − 3 degrees."""
        return max(0.0, dot(self.heights, self.heights) - dot(self.plane, self.plane))

    @property
    def log_volume(self) -> float:
        """The determinants' part of REML's −log-likelihood."""
        return log_pivots(self.lower) + log_pivots(self.normal)

    def site(self, covariances: Iterable[float], drift: Sequence[float]) -> Site:
        """A place by its covariances with the readings and its own (1, x, y)."""
        pull = solved(self.lower, covariances)
        lean = solved(self.normal, [f - dot(pull, column) for f, column in zip(drift, self.drift, strict=True)])
        return Site(dot(pull, self.heights) + dot(lean, self.plane), pull, lean)


def kriging_from(
    alike: Sequence[Row], noises: Sequence[float], drift: Sequence[Sequence[float]], heights: Sequence[float]
) -> Kriging:
    """Weigh readings: their likeness to each other, error variances over the sill, (1, x, y) and heights.

    Of the likeness only the lower triangle is read. At least three readings, not all on one line.
    """
    rows = ([*row[:i], row[i] + noise] for i, (row, noise) in enumerate(zip(alike, noises, strict=True)))
    lower = lower_from(rows)
    one, x, y = (solved(lower, [place[k] for place in drift]) for k in range(3))
    columns = (one, x, y)
    normal = lower_from([[dot(a, b) for b in columns] for a in columns])
    whitened = solved(lower, heights)
    return Kriging(lower, columns, normal, whitened, solved(normal, [dot(c, whitened) for c in columns]))


def distances_between(some: Sequence[Point], others: Sequence[Point]) -> list[Row]:
    """A row of distances for each of `some`."""
    return [[math.dist(p, q) for q in others] for p in some]
