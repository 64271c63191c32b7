"""What of a floor is chipped at a depth, and what that saves."""

from dataclasses import dataclass

from evenbed.engine.chipping.below import Below
from evenbed.engine.chipping.chips import Chip, ChipPlan
from evenbed.engine.chipping.worth import Worth
from evenbed.engine.document.places import Point


@dataclass(frozen=True)
class Chipped:
    """Depth and how far the top comes down in mm, area in m², what is chipped off and mortar saved in m³."""

    depth: float
    lower: float
    area: float
    volume: float
    saves: float

    def row(self, name: str, at: Point, density: float, worth: Worth) -> Chip:
        """As one high spot's row; `density` of fresh mortar in kg/m³."""
        cost = worth.saved(self.saves, self.area, self.volume)
        return Chip(name, at, self.depth, self.area, self.volume, self.saves, self.saves * density, cost)

    def plan(self, spots: tuple[str, ...], density: float, worth: Worth) -> ChipPlan:
        """As the plan."""
        return ChipPlan(
            depth=self.depth,
            top_lower_by=self.lower,
            area=self.area,
            chipped_volume=self.volume,
            saves_volume=self.saves,
            saves_mass=self.saves * density,
            labour_hours=worth.hours(self.area, self.volume),
            saves_cost=worth.saved(self.saves, self.area, self.volume),
            spots=spots,
            basis="none" if worth.mortar is None else "prices",
        )


def lowered(below: Below, room: float, depth: float) -> Chipped:
    """A top that comes down parallel by `depth` mm, over a floor of `room` m², high spots chipped to suit.

    Everywhere else the bed grows thinner by the depth; over what is chipped it had its spare thickness to lose.
    """
    volume = below.volume(depth)
    return Chipped(depth, depth, below.area(depth), volume, room * depth / 1e3 - volume)


def cleared(below: Below, needed: float, most: float, minimum: float) -> Chipped:
    """A top that stays, over a place that would need chipping by up to `needed` mm and gets `most` at most.

    The bed is thicker over what is chipped; where the top lay below the subfloor there was none before.
    """
    depth, bare = min(needed, most), below.volume(-minimum)
    volume = below.volume(0.0) - below.volume(-most)
    return Chipped(depth, 0.0, below.area(0.0), volume, bare - below.volume(-minimum - most) - volume)


def together(places: tuple[Chipped, ...]) -> Chipped:
    """Several places under a top that stays."""
    sums = (sum(getattr(p, name) for p in places) for name in ("area", "volume", "saves"))
    return Chipped(max(p.depth for p in places), 0.0, *sums)
