"""The bed's volume as it may be, under the plan's own top held where it is."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.covariances import chance_below
from evenbed.engine.floor_doubt import CERTAIN, FloorDoubt, Part, View, range_of
from evenbed.engine.kriging import Site
from evenbed.engine.top.facets import BedTop

SHARE = 0.9  # of all floors that would have been read so, held by a range
WIDER = 1.1  # simulated floors miss by so much more than the covariances say: joists in step with the readings, edges
LEAST = 1.0  # mm³: a volume is known no better than rounding lets it be


@dataclass(frozen=True)
class VolumeDoubt:
    """Mortar over patches of `areas` mm² at the doubt's places, under `top`; places without an area count nothing."""

    doubt: FloorDoubt
    areas: Sequence[float]
    top: BedTop

    @cached_property
    def thicknesses(self) -> list[float]:
        """Expected top less subfloor, mm, below nothing where the subfloor stands higher."""
        return [self.top.at(*p) - z for p, z in zip(self.doubt.places, self.doubt.means, strict=True)]

    @cached_property
    def shares(self) -> list[float]:
        """Each patch's area, mm², times the chance that it holds mortar: what a millimetre of floor takes away."""
        rows = zip(self.areas, self.thicknesses, self.doubt.sigmas, strict=True)
        return [area * chance_below(t / s) for area, t, s in rows]

    @cached_property
    def expected(self) -> float:
        """Mean volume, mm³: of each patch the mean of what lies above nothing of a normal thickness."""
        rows = zip(self.areas, self.shares, self.thicknesses, self.doubt.sigmas, strict=True)
        return math.fsum(share * t + area * s * _density(t / s) for area, share, t, s in rows)

    @cached_property
    def sums(self) -> tuple[tuple[View, Site, float], ...]:
        """Under each model the sum over the floor and its variance in units of the sill (mm⁴)."""
        found = []
        for view in self.doubt.views:
            site, own = view.summed(self.shares)
            found.append((view, site, max(CERTAIN * own, own + site.gained(site))))
        return tuple(found)

    @cached_property
    def parts(self) -> list[Part]:
        """The volume as a mixture, mm³."""
        middle = math.fsum(v.model.weight * site.mean for v, site, _ in self.sums)
        return [
            (w, self.expected - (site.mean - middle), max(LEAST, WIDER * math.sqrt(sill * variance)))
            for view, site, variance in self.sums
            for sill, w in view.model.sills
        ]

    def range(self) -> tuple[float, float]:
        """The 90 % range, m³, never below nothing."""
        low, high = range_of(self.parts, SHARE)
        return max(0.0, low / 1e9), max(0.0, high / 1e9)


def _density(deviation: float) -> float:
    return math.exp(-0.5 * deviation * deviation) / math.sqrt(2.0 * math.pi) if abs(deviation) < 38.0 else 0.0
