"""Rooms with their sections, for the tests of sections and of the order that they are filled in."""

from dataclasses import replace
from functools import cache

from shapely import Polygon
from tests.engine.rail_cases import Case, random_case, random_rails
from tests.share import SHARE, share_of

from evenbed.engine.filling.sections import SectionPlan, sections_from
from evenbed.engine.geometry import Plane, Ring, integral_over
from evenbed.engine.rails.laid import RailPlan

Place = tuple[float, float]
ROOMS = share_of(2000) if SHARE >= 1.0 else 300
AT_A_TIME = 50
CHUNKS = [range(n, min(n + AT_A_TIME, ROOMS)) for n in range(0, ROOMS, AT_A_TIME)]
THICKNESS = Plane(45.0, 0.003, -0.002)  # mm, anywhere in the rooms well above 0
BATCH, WASTE = 0.06, 0.1  # m³, fraction


def volume_over(ring: Ring) -> float:
    return integral_over(ring, THICKNESS) / 1e9


def divided(case: Case, rails: RailPlan, mixer: Place | None = None) -> SectionPlan:
    """The sections of a room between these rails."""
    return sections_from(
        rails.layouts,
        case.design,
        replace(case.way_out, mixer=mixer),
        volume_over=volume_over,
        batch_yield=BATCH,
        waste=WASTE,
        rails=rails.rails,
    )


def sections_of(case: Case, mixer: Place | None = None) -> SectionPlan:
    return divided(case, case.rails, mixer)


@cache
def random_sections(seed: int) -> SectionPlan:
    return divided(random_case(seed), random_rails(seed))


def shapes_of(plan: SectionPlan) -> list[Polygon]:
    return [Polygon(section.polygon) for section in plan.sections]
