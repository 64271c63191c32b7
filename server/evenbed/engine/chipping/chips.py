"""Chip or raise, as it is told: a row for each high spot, and the best depth for the prices given."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.fields import described, height, length
from evenbed.engine.document.places import Point


@dataclass(frozen=True)
class Chip:
    """Bringing one high spot down so far that the next one governs, and with it all that are higher.

    Under a top that is given, each place where the bed is too thin stands for itself.
    """

    id: str = described(about="Its name, the highest first")
    at: Point = height(about="Its highest place")
    depth: float = length(about="How deep the deepest place is chipped, and how far the top comes down")
    area: float = described(about="What is chipped in all, the higher spots included", unit="m2")
    chipped_volume: float = described(about="What is chipped off in all", unit="m3")
    saves_volume: float = described(
        about="Mortar saved over the whole floor; negative under a top that is given", unit="m3"
    )
    saves_mass: float = described(about="Its mass, fresh", unit="kg")
    saves_cost: float | None = described(
        about="What the mortar saved costs less the chipping, null where prices are missing"
    )


@dataclass(frozen=True)
class ChipPlan:
    """The best depth for the prices given; without prices the first spot alone, weighed against nothing."""

    depth: float = length(about="How deep the deepest place is chipped; 0 where raising the top is cheaper")
    top_lower_by: float = length(about="How far the top comes down")
    area: float = described(about="What is chipped", unit="m2")
    chipped_volume: float = described(about="What is chipped off", unit="m3")
    saves_volume: float = described(
        about="Mortar saved over the whole floor; negative under a top that is given", unit="m3"
    )
    saves_mass: float = described(about="Its mass, fresh", unit="kg")
    labour_hours: float = described(about="Hours of one person that chip", unit="h")
    saves_cost: float | None = described(
        about="What the mortar saved costs less the chipping, null where prices are missing"
    )
    spots: tuple[str, ...] = described(about="Ids of the high spots that are chipped")
    basis: Literal["prices", "none"] = described(about="Whether prices were weighed")
