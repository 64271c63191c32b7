"""The bed as dead load: what it weighs, bare and tiled, on average and at its thickest. No floor is judged here."""

from dataclasses import dataclass

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.fields import described
from evenbed.engine.document.room import Covering
from evenbed.engine.mix import POUND, SQUARE_FOOT, MixPlan
from evenbed.engine.sources import Explanation, explanation_of

POUND_PER_SQUARE_FOOT = POUND / SQUARE_FOOT  # kg/m²
ONE_PERSON_LIFT = 51.0 * POUND  # kg; NIOSH load constant, from memory
TILE_DENSITY = 2300.0  # kg/m³; common practice, no source
BOND_WATER = 0.25  # kg of mixing water to a kg of bond coat; common practice, no source


@dataclass(frozen=True)
class Load:
    """Load of the bed alone, of what will lie on it, and of both."""

    mean: float = described(about="Mean load of the bed alone", unit="kg/m2")
    max: float = described(about="Load of the bed alone at the thickest spot", unit="kg/m2")
    mean_lb_ft2: float = described(about="Mean load of the bed alone", unit="lb/ft2")
    max_lb_ft2: float = described(about="Load of the bed alone at the thickest spot", unit="lb/ft2")
    covering: float = described(about="Load of tile and bond coat", unit="kg/m2")
    covering_lb_ft2: float = described(about="Load of tile and bond coat", unit="lb/ft2")
    total_mean: float = described(about="Mean load of bed and covering", unit="kg/m2")
    total_max: float = described(about="Load of bed and covering at the thickest spot", unit="kg/m2")
    total_mean_lb_ft2: float = described(about="Mean load of bed and covering", unit="lb/ft2")
    total_max_lb_ft2: float = described(about="Load of bed and covering at the thickest spot", unit="lb/ft2")
    total_mass: float = described(about="Bed and covering of the whole room", unit="kg")


@dataclass(frozen=True)
class BedWeight:
    """Mass of the whole bed, kg, and its load on the floor."""

    mass: float
    load: Load


def covering_load(covering: Covering, bond_density: float) -> float:
    """Load of tile and fresh bond coat, kg/m²; `bond_density` is kg of powder in a cubic metre spread."""
    tile = covering.tile_thickness / 1000.0 * TILE_DENSITY
    return tile + covering.bond_thickness / 1000.0 * bond_density * (1.0 + BOND_WATER)


def load_from(volume: float, area: float, thickest: float, density: float, covering: float = 0.0) -> BedWeight:
    """The bed's mass and load.

    volume: m³ in place; area: m², no bed (0) loads nothing; thickest: mm; density: kg/m³ of fresh mortar; covering:
    what lies on it, kg/m². A bed that dries grows lighter: the fresh mass is the one to design for.
    """
    mass = volume * density
    mean = mass / area if area > 0.0 else 0.0
    worst = thickest / 1000.0 * density
    each = (mean, worst, covering, mean + covering, worst + covering)
    bare_mean, bare_max, on_it, total_mean, total_max = (load / POUND_PER_SQUARE_FOOT for load in each)
    load = Load(
        mean=mean,
        max=worst,
        mean_lb_ft2=bare_mean,
        max_lb_ft2=bare_max,
        covering=covering,
        covering_lb_ft2=on_it,
        total_mean=mean + covering,
        total_max=worst + covering,
        total_mean_lb_ft2=total_mean,
        total_max_lb_ft2=total_max,
        total_mass=mass + covering * area,
    )
    return BedWeight(mass, load)


def covering_explanations(
    weight: BedWeight, area: float, covering: Covering, density: float
) -> dict[str, Explanation]:
    """What stands behind the load of covering and of both, keyed by their path in the plan."""
    load = weight.load
    layers = {"tile": covering.tile_thickness, "bond": covering.bond_thickness}
    on_it = explanation_of(
        "covering_load", **layers, tile_density=TILE_DENSITY, bond_density=density, bond_water=BOND_WATER
    )
    return {
        "bed.load.covering": on_it,
        "bed.load.total_mean": explanation_of("load_total", load=load.mean, covering=load.covering),
        "bed.load.total_max": explanation_of("load_total", load=load.max, covering=load.covering),
        "bed.load.total_mass": explanation_of("total_mass", mass=weight.mass, covering=load.covering, area=area),
    }


def load_explanations(
    weight: BedWeight, volume: float, area: float, thickest: float, density: float
) -> dict[str, Explanation]:
    """What stands behind the bed's mass and load, keyed by their path in the plan."""
    return {
        "bed.mass": explanation_of("bed_mass", volume=volume, density=density),
        "bed.load.mean": explanation_of("load_mean", mass=weight.mass, area=area),
        "bed.load.max": explanation_of("load_max", thickness=thickest, density=density),
    }


def load_cautions(weight: BedWeight) -> tuple[Caution, ...]:
    """The dead load, said wherever it is shown; silent only where there is no bed."""
    if weight.mass <= 0.0:
        return ()
    load = weight.load
    return (
        caution_at(
            "bed.load",
            "load",
            mean=load.mean,
            max=load.max,
            mean_lb_ft2=load.mean_lb_ft2,
            max_lb_ft2=load.max_lb_ft2,
            mass=weight.mass,
        ),
    )


def material_cautions(plan: MixPlan) -> tuple[Caution, ...]:
    """What can hurt whoever handles the material."""
    bags = sum(m.packages or 0 for m in plan.materials)
    always = (caution_at("materials", "wet_cement"), caution_at("materials", "silica"))
    stacked = (caution_at("materials", "stacked_bags", bags=bags),) if bags > 1 else ()
    heavy = plan.bag_mass > ONE_PERSON_LIFT
    lift = caution_at("materials", "lifting", bag_mass=plan.bag_mass, bag_mass_lb=plan.bag_mass / POUND)
    return always + stacked + ((lift,) if heavy else ())
