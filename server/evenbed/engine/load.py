"""The bed as dead load: what it weighs, on average and at its thickest. Whether a floor carries it is not judged."""

from dataclasses import dataclass

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.fields import described
from evenbed.engine.mix import POUND, SQUARE_FOOT, MixPlan
from evenbed.engine.sources import Explanation, explanation_of

POUND_PER_SQUARE_FOOT = POUND / SQUARE_FOOT  # kg/m²
ONE_PERSON_LIFT = 51.0 * POUND  # kg; NIOSH load constant, from memory


@dataclass(frozen=True)
class Load:
    """Load of the bed alone, without tile."""

    mean: float = described(about="Mean load", unit="kg/m2")
    max: float = described(about="Load at the thickest spot", unit="kg/m2")
    mean_lb_ft2: float = described(about="Mean load", unit="lb/ft2")
    max_lb_ft2: float = described(about="Load at the thickest spot", unit="lb/ft2")


@dataclass(frozen=True)
class BedWeight:
    """Mass of the whole bed, kg, and its load on the floor."""

    mass: float
    load: Load


def load_from(volume: float, area: float, thickest: float, density: float) -> BedWeight:
    """The bed's mass and load.

    volume: m³ in place; area: m², no bed (0) loads nothing; thickest: mm; density: kg/m³ of fresh mortar. A bed that
    dries grows lighter: the fresh mass is the one to design for.
    """
    mass = volume * density
    mean = mass / area if area > 0.0 else 0.0
    worst = thickest / 1000.0 * density
    return BedWeight(mass, Load(mean, worst, mean / POUND_PER_SQUARE_FOOT, worst / POUND_PER_SQUARE_FOOT))


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
