"""One thing to buy or carry in: how much of it, in which packages, and what stands behind it."""

import math
from dataclasses import dataclass

from evenbed.engine.document.fields import described

WHOLE_TOLERANCE = 1e-6  # of a package or a batch: rounding, or a pinch, that calls for no further one
Span = tuple[float, float]  # least and most

WHYS: dict[str, str] = {
    "mix_cement": "{packages:.0f} bags of {bag_mass:.1f} kg, {waste_percent:.0f} % waste included.",
    "mix_lime": "{packages:.0f} bags of {bag_mass:.1f} kg, {waste_percent:.0f} % waste included.",
    "mix_sand": (
        "Weighed dry; delivered damp and loose it fills {loose_volume:.2f} m³ and weighs {damp_mass:.0f} kg. "
        "Waste included."
    ),
    "mix_water": "The sand's own water is part of it: add less to damp sand. A kilogram is a litre.",
    "membrane": "{strips:.0f} strips, {metres:.1f} m in all, laps and what turns up at the walls included.",
    "reinforcement": "{packages:.0f} sheets of {package_size:.2f} m², laps and {waste_percent:.0f} % waste included.",
    "perimeter_strip": "Along {metres:.1f} m of walls and round what stands in the bed, {waste_percent:.0f} % waste.",
    "bond_coat": "{thickness:.1f} mm over {area:.2f} m², {waste_percent:.0f} % waste included.",
    "tile": "{area:.2f} m² and {waste_percent:.0f} % for cuts and breakage.",
}


@dataclass(frozen=True)
class Material:
    """One thing to buy or carry in."""

    item: str = described(
        about="cement, lime, sand, water, membrane, reinforcement, perimeter_strip, bond_coat or tile"
    )
    quantity: float = described(about="How much, laps and waste included, not rounded; sand weighed dry")
    unit: str = described(about="The quantity's unit: kg, m or m2")
    packages: int | None = described(about="Whole packages, or null where it does not come in any")
    package_size: float | None = described(
        about="What one package gives, in `package_unit`, laps at its end taken off"
    )
    package_unit: str | None = described(about="Unit of `package_size`, or null")
    why: str = described(about="What stands behind it, in English")
    code: str = described(about="Code of `why`, from a closed set")
    values: dict[str, float | str] = described(about="The figures in `why`, by name")
    loose_volume: float | None = described(about="Volume as measured loose, or null for what is not", unit="m3")
    damp_mass: float | None = described(about="Sand with its own water, as delivered; null for all else", unit="kg")
    quantity_range: Span | None = described(about="Least and most, where it follows how well the floor was read")
    packages_range: tuple[int, int] | None = described(about="Fewest and most whole packages")
    loose_range: Span | None = described(about="Least and most volume, measured loose", unit="m3")


def whole_from(quantity: float, each: float) -> int:
    """How many whole packages or batches of `each` (> 0) hold `quantity` (≥ 0); rounding noise needs no more."""
    return max(0, math.ceil(quantity / each - WHOLE_TOLERANCE))


def packages_range_from(between: Span | None, each: float | None) -> tuple[int, int] | None:
    """Fewest and most whole packages of `each`; None without a range or without packages."""
    if between is None or each is None:
        return None
    return (whole_from(between[0], each), whole_from(between[1], each))


def area_material(code: str, quantity: float, unit: str, package: float, **values: float) -> Material:
    """What follows the room's figure, not its volume: `package` is what one package gives, > 0, in `unit`."""
    packages = whole_from(quantity, package)
    told: dict[str, float | str] = {"packages": packages, "package_size": package, **values}
    return Material(
        item=code,
        quantity=quantity,
        unit=unit,
        packages=packages,
        package_size=package,
        package_unit=unit,
        why=WHYS[code].format(**told),
        code=code,
        values=told,
        loose_volume=None,
        damp_mass=None,
        quantity_range=None,
        packages_range=None,
        loose_range=None,
    )
