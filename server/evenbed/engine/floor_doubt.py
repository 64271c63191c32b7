"""The subfloor as it may be: sites all over the floor under every likely covariance, and what is asked of them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.covariances import Known, Model, chance_below, models_of, spread_of
from evenbed.engine.document.places import Point
from evenbed.engine.kriging import Site, distances_between, likeness
from evenbed.engine.triangular import Row, dot

CERTAIN = 1e-9  # of the sill: no site is better known than rounding lets it be
Part = tuple[float, float, float]  # weight, mean, standard deviation


@dataclass(frozen=True)
class View:
    """The sites as one model sees them; `alike` row by row for those places asked first."""

    model: Model
    sites: list[Site]
    alike: list[Row]

    @cached_property
    def variances(self) -> list[float]:
        """Of every site, in units of the sill."""
        return [max(CERTAIN, 1.0 + site.gained(site)) for site in self.sites]

    def variance(self, n: int) -> float:
        """Of a site, in units of the sill."""
        return self.variances[n]

    def covariance(self, n: int, m: int) -> float:
        """Of two sites, in units of the sill."""
        return self.alike[n][m] + self.sites[n].gained(self.sites[m])

    def summed(self, shares: Sequence[float]) -> tuple[Site, float]:
        """The weighted sum of the sites, and its own variance before any reading, in units of the sill."""
        pull = [dot(shares, column) for column in zip(*(s.pull for s in self.sites), strict=True)]
        lean = [dot(shares, column) for column in zip(*(s.lean for s in self.sites), strict=True)]
        own = math.fsum(share * dot(shares, row) for share, row in zip(shares, self.alike, strict=True))
        return Site(math.fsum(w * s.mean for w, s in zip(shares, self.sites, strict=True)), pull, lean), own


@dataclass(frozen=True)
class FloorDoubt:
    """The subfloor at `places`, foretold from what is known."""

    known: Known
    places: tuple[Point, ...]

    @cached_property
    def models(self) -> tuple[Model, ...]:
        """The likely covariances."""
        return models_of(self.known)

    @cached_property
    def views(self) -> tuple[View, ...]:
        """The places under each of them."""
        between = distances_between(self.places, self.places)
        alike = {reach: _mirrored(between, reach) for reach in {m.reach for m in self.models}}
        sites = self.known.sites(self.models, self.places)
        return tuple(View(m, own, alike[m.reach]) for m, own in zip(self.models, sites, strict=True))

    @cached_property
    def means(self) -> list[float]:
        """Expected heights z."""
        columns = zip(*([s.mean for s in v.sites] for v in self.views), strict=True)
        weights = [v.model.weight for v in self.views]
        return [self.known.middle[2] + dot(weights, column) for column in columns]

    @cached_property
    def sigmas(self) -> list[float]:
        """Standard errors, mm."""
        return [self._sigma(n) for n in range(len(self.places))]

    def _sigma(self, n: int) -> float:
        z = self.means[n] - self.known.middle[2]
        return math.sqrt(
            math.fsum(
                v.model.weight * (v.model.sill * v.variance(n) + (v.sites[n].mean - z) ** 2) for v in self.views
            )
        )

    def chance_above(self, n: int, z: float) -> float:
        """How likely the floor at a place stands above z."""
        limit = z - self.known.middle[2]
        seen = ((v.model.sills, v.sites[n].mean - limit, v.variance(n)) for v in self.views)
        return math.fsum(
            w * chance_below(above / math.sqrt(sill * variance))
            for sills, above, variance in seen
            for sill, w in sills
        )


def range_of(parts: Sequence[Part], share: float) -> tuple[float, float]:
    """The middle `share` of a mixture."""
    return spread_of(parts, 0.5 - share / 2.0), spread_of(parts, 0.5 + share / 2.0)


def _mirrored(distances: Sequence[Row], reach: float) -> list[Row]:
    """The likeness at distances that are the same both ways, each worked out once."""
    lower = [likeness(row[: n + 1], reach) for n, row in enumerate(distances)]
    return [[*row, *(below[n] for below in lower[n + 1 :])] for n, row in enumerate(lower)]
