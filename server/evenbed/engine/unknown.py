"""What is still unknown of one room's subfloor: each figure worked out once, when first asked for."""

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.covariances import Known
from evenbed.engine.document.levelling import Setup
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.document.room import Document
from evenbed.engine.doubt import Doubt, NextReading, Statistics, SurfaceModel
from evenbed.engine.floor_doubt import FloorDoubt
from evenbed.engine.geometry import distance_to_ring
from evenbed.engine.heights import Levels
from evenbed.engine.high_spot import HighSpot
from evenbed.engine.kriging import HARDLY
from evenbed.engine.next_readings import MOST_NEXT, Proposing
from evenbed.engine.outline import Figure
from evenbed.engine.patches import Patch, patches_of
from evenbed.engine.thinning import Spot, thinned
from evenbed.engine.top.facets import BedTop
from evenbed.engine.volume_doubt import VolumeDoubt

MOST_CORNERS = 30  # corners of more crooked rooms are near patches anyway
ROD_FOOT = 100.0  # mm: nearer to a reading or a fixture there is nothing new to read
FROM_THE_WALL = 50.0  # mm: a rod and a hand need so much
SHARPEST = 0.01  # mm: no instrument is better than this, whatever is said of it
KIND = "matern_3_2"


@dataclass(frozen=True)
class Unknown:
    """One room's doubt: its document, figure and heights, the top it is to have, and its volume by triangles in m³.

    `deciders` are the estimated corners that decide the top or a limit.
    """

    document: Document
    figure: Figure
    levels: Levels
    top: BedTop
    volume: float
    deciders: tuple[Point, ...]

    @cached_property
    def spots(self) -> tuple[Spot, ...]:
        """Subfloor readings with their standard errors, in the order of their places."""
        return spots_of(self.document, self.levels)

    @cached_property
    def patches(self) -> tuple[Patch, ...]:
        """Places over the floor, then the room's corners and the deciders with no area of their own."""
        corners = [c for ring in self.figure.rings for c in ring]
        more = [*self.deciders, *(corners if len(corners) <= MOST_CORNERS else ())]
        return (*patches_of(self.figure), *(Patch(c, 0.0) for c in dict.fromkeys(more)))

    @cached_property
    def doubt(self) -> FloorDoubt:
        """The subfloor over all patches."""
        return FloorDoubt(Known(thinned(self.spots)), tuple(p.at for p in self.patches))

    @cached_property
    def volume_doubt(self) -> VolumeDoubt:
        """The volume over all patches."""
        return VolumeDoubt(self.doubt, [p.area for p in self.patches], self.top)

    @cached_property
    def volume_range(self) -> tuple[float, float]:
        """90 % range of the volume, m³, widened where need be to hold the volume by triangles."""
        low, high = self.volume_doubt.range()
        return min(low, self.volume), max(high, self.volume)

    @cached_property
    def high_spot(self) -> HighSpot:
        """The chance of a higher high spot than was read."""
        return HighSpot(self.doubt, max(s.z for s in self.spots))

    @cached_property
    def statistics(self) -> Statistics:
        """Everything that is told of the doubt."""
        pairs = zip(self.doubt.places, self.doubt.sigmas, strict=True)
        doubts = tuple(Doubt(at, sigma) for at, sigma in pairs)
        return Statistics(self.model, doubts, self.high_spot.higher, self.volume_range)

    @cached_property
    def model(self) -> SurfaceModel:
        """The likeliest covariance of those weighed, by its sizes."""
        best = self.doubt.models[0]
        nugget = math.sqrt(best.sill * best.ratio)
        return SurfaceModel(KIND, math.sqrt(best.sill), HARDLY * best.reach, nugget)

    @cached_property
    def next_readings(self) -> tuple[NextReading, ...]:
        """The deciders first, then the places where a reading is worth most: MOST_NEXT in all, deciders apart."""
        places = self.doubt.places
        first = [places.index(at) for at in self.deciders]
        decided = (NextReading(places[n], self.doubt.sigmas[n], "estimated_governs", None) for n in first)
        proposing = Proposing(self.volume_doubt, self.high_spot, self._is_open)
        return (*decided, *proposing.proposed(MOST_NEXT - len(first), first))

    def _is_open(self, at: Point) -> bool:
        """Where a rod can be set and no reading is at hand."""
        if min(distance_to_ring(ring, at) for ring in self.figure.rings) < FROM_THE_WALL:
            return False
        if any(math.dist(f.at, at) < f.radius + ROD_FOOT for f in self.document.fixtures):
            return False
        return all(math.dist(p, at) >= ROD_FOOT for p in (*self.deciders, *(s.at for s in self.spots)))


def spots_of(document: Document, levels: Levels) -> tuple[Spot, ...]:
    """Each place read on the subfloor, once, with the larger of its adjusted and its instruments' standard error."""
    setups = {s.id: s for s in document.setups}
    adjusted: dict[Point3, float] = {}
    said: dict[Point3, list[float]] = defaultdict(list)
    for height, reading in zip(levels.heights, document.readings, strict=True):
        if reading.stage == "subfloor" and height.at is not None and height.z is not None:
            place = (*height.at, height.z)
            adjusted[place] = height.sigma or 0.0
            said[place].append(_setup_of(reading.setup, setups).sigma)
    return tuple(sorted(Spot(p[:2], p[2], max(sigma, _together(said[p]))) for p, sigma in adjusted.items()))


def _together(sigmas: Sequence[float]) -> float:
    """Standard error of one place read several times."""
    return 1.0 / math.sqrt(math.fsum(max(s, SHARPEST) ** -2 for s in sorted(sigmas)))


def _setup_of(name: str, setups: dict[str, Setup]) -> Setup:
    """The reading's set-up; the only one where none is named; the usual instrument where there is none."""
    return setups.get(name) or next(iter(setups.values()), Setup(id=name or "1"))
