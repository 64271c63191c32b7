"""The mortar by absolute volume: what a bag yields, what a bed needs, what it weighs.

Parts are by loose volume, as they are measured on site: cement loose from the bag, lime loose, sand damp and loose.
The compacted mortar is the solid volume of everything plus the water, swelled by the voids that ramming leaves.
"""

import math
from dataclasses import dataclass

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.cost.material import WHYS, Material, Span, packages_range_from, whole_from
from evenbed.engine.document.fields import described
from evenbed.engine.document.room import Mix
from evenbed.engine.sources import Explanation, explanation_of

POUND = 0.45359237  # kg, exact by definition
CUBIC_FOOT = 0.3048**3  # m³, exact by definition
SQUARE_FOOT = 0.3048**2  # m², exact by definition
POUND_PER_CUBIC_FOOT = POUND / CUBIC_FOOT  # kg/m³

WATER_DENSITY = 62.4 * POUND_PER_CUBIC_FOOT  # kg/m³, by convention
CEMENT_LOOSE_DENSITY = 94.0 * POUND_PER_CUBIC_FOOT  # ASTM C150/C270 convention, from memory
SAND_LOOSE_DENSITY = 80.0 * POUND_PER_CUBIC_FOOT  # dry sand in damp loose sand, ASTM C270 convention, from memory
CONVENTION_BULKING = 0.25  # of the damp sand that the convention means, so that the usual sand gives it exactly
LIME_LOOSE_DENSITY = 40.0 * POUND_PER_CUBIC_FOOT  # ASTM C270 convention, from memory
CEMENT_RELATIVE_DENSITY = 3.15  # Portland Cement Association, Design and Control of Concrete Mixtures, as quoted
SAND_RELATIVE_DENSITY = 2.65  # published range 2.60 to 2.75
LIME_RELATIVE_DENSITY = 2.30  # from memory
LIME_BAG_MASS = 50.0 * POUND  # kg; common practice, no source


@dataclass(frozen=True)
class BagYield:
    """One bag's mortar: masses in kg, loose volumes and the compacted yield in m³."""

    cement: float
    lime: float
    sand: float
    water: float
    cement_loose: float
    lime_loose: float
    sand_loose: float
    volume: float

    @property
    def density(self) -> float:
        """Mass of fresh mortar, kg per compacted m³."""
        return math.fsum((self.cement, self.lime, self.sand, self.water)) / self.volume


@dataclass(frozen=True)
class Batch:
    """What goes into the mixer each time."""

    volume: float = described(about="Compacted mortar", unit="m3")
    bags: float = described(about="Bags of cement, not always whole")
    cement: float = described(about="Cement", unit="kg")
    lime: float = described(about="Lime", unit="kg")
    sand: float = described(about="Sand, weighed dry", unit="kg")
    sand_loose: float = described(about="Sand, damp and loose", unit="m3")
    sand_damp: float = described(about="Sand with its own water, as it is weighed on site", unit="kg")
    water: float = described(about="Water, the sand's own included", unit="kg")
    water_to_add: float = described(about="Water less the sand's own, never below 0", unit="kg")


@dataclass(frozen=True)
class MixPlan:
    """The order for one bed: volumes in m³, `bag_yield` that of one bag, `bag_mass` in kg, `density` fresh, in kg/m³.

    `mixed_volume` is `placed_volume` with the waste; of `batches` the last one is not always full.
    """

    materials: tuple[Material, ...]
    batch: Batch
    batches: int
    bag_yield: float
    density: float
    placed_volume: float
    mixed_volume: float
    bag_mass: float

    @property
    def bags_range(self) -> tuple[int, int] | None:
        """Fewest and most whole bags of cement, None where no range was asked for."""
        return next((m.packages_range for m in self.materials if m.item == "cement"), None)


def sand_loose_density(bulking: float) -> float:
    """Dry sand in a cubic metre of damp loose sand, kg, for sand that takes `bulking` (≥ 0) more room than flooded.

    What fills 200 mm damp and 160 mm flooded bulks by 0.25.
    """
    return SAND_LOOSE_DENSITY * ((1.0 + CONVENTION_BULKING) / (1.0 + bulking))


def bag_yield_from(mix: Mix) -> BagYield:
    """What one bag of cement makes, by absolute volume.

    mix: parts by loose volume, water by mass of cement (the sand's own included), air as a fraction of the compacted
    volume, below 1. No sand and no lime is neat cement and is reckoned the same way.
    """
    part = mix.bag_mass / CEMENT_LOOSE_DENSITY / mix.cement
    lime, sand = mix.lime * part * LIME_LOOSE_DENSITY, mix.sand * part * sand_loose_density(mix.sand_bulking)
    water = mix.bag_mass * mix.water_cement
    weighed = (
        (mix.bag_mass, CEMENT_RELATIVE_DENSITY),
        (lime, LIME_RELATIVE_DENSITY),
        (sand, SAND_RELATIVE_DENSITY),
        (water, 1.0),
    )
    solid = math.fsum(mass / (relative * WATER_DENSITY) for mass, relative in weighed)
    loose = (part * mix.cement, part * mix.lime, part * mix.sand)
    return BagYield(mix.bag_mass, lime, sand, water, *loose, volume=solid / (1.0 - mix.air))


def batch_volume_from(mix: Mix) -> float:
    """Compacted mortar in one batch, m³: what the mixer takes, or one bag's yield where nobody said."""
    return bag_yield_from(mix).volume if mix.batch_volume is None else mix.batch_volume


def batches_from(volume: float, mix: Mix) -> int:
    """How many batches a placed `volume` (m³, ≥ 0) takes, waste included; the last one is not always full."""
    return whole_from(volume * (1.0 + mix.waste), batch_volume_from(mix))


def materials_for(volume: float, mix: Mix, volume_range: Span | None = None) -> MixPlan:
    """What a bed needs.

    volume: m³ in place, ≥ 0; nothing to place needs nothing. volume_range: least and most volume, m³, where the
    survey gives them. Waste is a fraction of the placed volume and is added to it.
    """
    bag = bag_yield_from(mix)
    materials = tuple(_material(row, volume, volume_range, mix, bag) for row in _rows(bag) if row.mass > 0.0)
    return MixPlan(
        materials,
        _batch_from(bag, mix),
        batches_from(volume, mix),
        bag.volume,
        bag.density,
        volume,
        volume * (1.0 + mix.waste),
        mix.bag_mass,
    )


@dataclass(frozen=True)
class _Row:
    """One ingredient of a bag's mortar: kg, m³ loose, and kg in the bag it is sold in."""

    item: str
    mass: float
    loose: float | None
    package: float | None


def _rows(bag: BagYield) -> tuple[_Row, ...]:
    return (
        _Row("cement", bag.cement, bag.cement_loose, bag.cement),
        _Row("lime", bag.lime, bag.lime_loose, LIME_BAG_MASS),
        _Row("sand", bag.sand, bag.sand_loose, None),
        _Row("water", bag.water, None, None),
    )


def _material(row: _Row, volume: float, between: Span | None, mix: Mix, bag: BagYield) -> Material:
    bags = volume * (1.0 + mix.waste) / bag.volume
    low_high = _scaled(row.mass, between, mix, bag)
    values, code = _values(row, bags, mix), f"mix_{row.item}"
    return Material(
        item=row.item,
        quantity=row.mass * bags,
        unit="kg",
        packages=None if row.package is None else whole_from(row.mass * bags, row.package),
        package_size=row.package,
        package_unit=None if row.package is None else "kg",
        why=WHYS[code].format(**values),
        code=code,
        values=values,
        loose_volume=None if row.loose is None else row.loose * bags,
        damp_mass=_damp_mass(row.mass * bags, mix) if row.item == "sand" else None,
        quantity_range=low_high,
        packages_range=packages_range_from(low_high, row.package),
        loose_range=None if row.loose is None else _scaled(row.loose, between, mix, bag),
    )


def _scaled(of_a_bag: float, between: Span | None, mix: Mix, bag: BagYield) -> Span | None:
    if between is None:
        return None
    each = of_a_bag * (1.0 + mix.waste) / bag.volume
    return (between[0] * each, between[1] * each)


def _damp_mass(dry: float, mix: Mix) -> float:
    return dry * (1.0 + mix.sand_moisture)


def _values(row: _Row, bags: float, mix: Mix) -> dict[str, float | str]:
    values: dict[str, float | str] = {"quantity": row.mass * bags, "waste_percent": 100.0 * mix.waste}
    if row.loose is not None:
        values["loose_volume"] = row.loose * bags
    if row.item == "sand":
        values["damp_mass"] = _damp_mass(row.mass * bags, mix)
    if row.package is not None:
        values |= {"bag_mass": row.package, "packages": whole_from(row.mass * bags, row.package)}
    return values


def _batch_from(bag: BagYield, mix: Mix) -> Batch:
    volume = batch_volume_from(mix)
    bags = volume / bag.volume
    sand, water = bag.sand * bags, bag.water * bags
    return Batch(
        volume=volume,
        bags=bags,
        cement=bag.cement * bags,
        lime=bag.lime * bags,
        sand=sand,
        sand_loose=bag.sand_loose * bags,
        sand_damp=_damp_mass(sand, mix),
        water=water,
        water_to_add=max(0.0, water - sand * mix.sand_moisture),
    )


def mix_cautions(plan: MixPlan) -> tuple[Caution, ...]:
    """What the mix itself gives reason for: sand that brings more water than the mix wants."""
    batch = plan.batch
    own = batch.sand_damp - batch.sand
    if own <= batch.water:
        return ()
    return (caution_at("mix.batch", "sand_too_wet", own=own, wanted=batch.water),)


def mix_explanations(plan: MixPlan, mix: Mix) -> dict[str, Explanation]:
    """What stands behind the materials, keyed by their path in the plan."""
    shared = {"volume": plan.placed_volume, "waste": mix.waste, "yield": plan.bag_yield}
    parts = {"cement_parts": mix.cement, "lime_parts": mix.lime, "sand_parts": mix.sand}
    amounts = {"water_cement": mix.water_cement, "air": mix.air, "bag_mass": mix.bag_mass}
    sand = {"sand_bulking": mix.sand_bulking, "sand_moisture": mix.sand_moisture}
    rows = {
        f"materials[{i}]": explanation_of(m.code, **shared, **parts, **amounts, **(sand if m.item == "sand" else {}))
        for i, m in enumerate(plan.materials)
    }
    batch = explanation_of("batches", mixed_volume=plan.mixed_volume, batch_volume=plan.batch.volume)
    made = explanation_of("mix_yield", **parts, **amounts)
    own = explanation_of(
        "water_to_add", water=plan.batch.water, sand=plan.batch.sand, sand_moisture=mix.sand_moisture
    )
    mixed = explanation_of("mixed_volume", volume=plan.placed_volume, waste=mix.waste)
    recipe = explanation_of("batch", batch_volume=plan.batch.volume, **{"yield": plan.bag_yield})
    return rows | {
        "mix.batches": batch,
        "mix.mixed_volume": mixed,
        "mix.batch": recipe,
        "mix.batch.water_to_add": own,
        "mix.bag_yield": made,
        "mix.density": explanation_of("mix_density", **parts, **amounts),
    }
