"""Material stacked on a floor before it is mixed: what it weighs, and what it loads where the bags stand."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from evenbed.engine.cost.material import Material
from evenbed.engine.document.fields import described
from evenbed.engine.load import POUND_PER_SQUARE_FOOT
from evenbed.engine.sources import Explanation, explanation_of

BAG_FOOTPRINT = 0.4 * 0.6  # m²; common practice, no source
BAGS_HIGH = 5  # on each other; common practice, no source
BAGGED = ("cement", "lime", "bond_coat")


@dataclass(frozen=True)
class Stacked:
    """Bags on each other and sand in a heap: a load in one place, not spread over the room."""

    mass: float = described(about="Bags and damp sand", unit="kg")
    bags: int = described(about="Whole bags of cement, lime and bond coat")
    bag_mass: float = described(about="All bags", unit="kg")
    sand_mass: float = described(about="Sand as delivered, damp", unit="kg")
    area: float = described(about="Floor that the bags take up, five on each other", unit="m2")
    load: float = described(about="Load under the heaviest stack of bags, 0 without bags", unit="kg/m2")
    load_lb_ft2: float = described(about="Load under the heaviest stack of bags, 0 without bags", unit="lb/ft2")


def stacked_from(materials: Iterable[Material]) -> Stacked:
    """What the material of one room is, stacked all at once: bags of 0.4 m by 0.6 m, five on each other."""
    rows = tuple(materials)
    bagged = [(row.packages, row.package_size) for row in rows if row.item in BAGGED]
    bags = sum(count or 0 for count, _ in bagged)
    bag_mass = math.fsum((count or 0) * (size or 0.0) for count, size in bagged)
    sand = math.fsum(row.damp_mass or 0.0 for row in rows)
    area = math.ceil(bags / BAGS_HIGH) * BAG_FOOTPRINT
    heaviest = sorted(
        (size or 0.0 for count, size in bagged for _ in range(min(count or 0, BAGS_HIGH))), reverse=True
    )
    load = math.fsum(heaviest[:BAGS_HIGH]) / BAG_FOOTPRINT
    return Stacked(bag_mass + sand, bags, bag_mass, sand, area, load, load / POUND_PER_SQUARE_FOOT)


def stacked_explanations(stacked: Stacked) -> dict[str, Explanation]:
    """What stands behind the stack, keyed by its path in the plan."""
    mass = stacked.load * BAG_FOOTPRINT
    return {"bed.stacked": explanation_of("stacked", mass=mass, bags_high=BAGS_HIGH, footprint=BAG_FOOTPRINT)}
